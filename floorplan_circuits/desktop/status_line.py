"""The line at the foot of the window."""

from PySide6.QtWidgets import QHBoxLayout, QLabel, QWidget

STATUS_HIGH = 28


class StatusLine(QWidget):
    """The line at the foot of the window: what a click will do, and at the right whether the home is saved."""

    def __init__(self) -> None:
        super().__init__()
        self.setFixedHeight(STATUS_HIGH)
        self.says, self.saved = QLabel(), QLabel()
        self.says.setObjectName("status")
        self.saved.setObjectName("saved")
        self.says.setAccessibleName("Status")
        self.says.setMinimumWidth(100)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(self.says, 1)
        row.addWidget(self.saved)

    def show_saved(self, is_saved: bool, at: str) -> None:
        """Say whether the home is saved; `at` is the time of day it was last, empty for never in this sitting."""
        self.saved.setText(f"Saved {at}".strip() if is_saved else f"Not saved since {at}" if at else "Not saved yet")
