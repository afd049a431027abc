"""Fields of forms that hold still: the wheel scrolls the page past them and never changes what they say."""

from collections.abc import Iterable

from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QComboBox, QSpinBox

LEAST_LETTERS = 8


class Choice(QComboBox):
    """One of several. A tie must never be made by a wheel that meant to scroll.

    `narrow`: it is as wide as its form lets it be, however long its words are.
    """

    def __init__(self, label: str, choices: Iterable[str] = (), now: str = "", narrow: bool = False) -> None:
        super().__init__()
        self.setAccessibleName(label)
        self.addItems(list(choices))
        self.setCurrentIndex(self.findText(now))
        policy = QComboBox.SizeAdjustPolicy
        self.setSizeAdjustPolicy(policy.AdjustToMinimumContentsLengthWithIcon if narrow else policy.AdjustToContents)
        self.setMinimumContentsLength(LEAST_LETTERS)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802  # Qt's name
        """Leave the wheel to the page."""
        event.ignore()


class Count(QSpinBox):
    """A whole number that is typed."""

    def __init__(self, label: str, now: int, most: int) -> None:
        super().__init__()
        self.setAccessibleName(label)
        self.setRange(1, most)
        self.setValue(now)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802  # Qt's name
        """Leave the wheel to the page."""
        event.ignore()
