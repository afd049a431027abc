"""The band above the plan while a picture to draw over lies there unlocked: what can be done with it, in order."""

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSlider, QWidget

from floorplan_circuits.gestures.tracing import MarkLength, MarkWall, MovePicture, PictureTool
from floorplan_circuits.home.building import Underlay

SLIDER_WIDE = 80
ONE_ROW_FROM = 640
"""Width in px from which all stands in one row."""


class FadeSlider(QSlider):
    """How strongly the picture shows, in hundredths; the wheel leaves it alone."""

    def __init__(self) -> None:
        super().__init__(Qt.Orientation.Horizontal)
        self.setRange(0, 100)
        self.setPageStep(10)
        self.setFixedWidth(SLIDER_WIDE)
        self.setAccessibleName("How strongly the picture shows")
        self.setToolTip("How strongly the picture shows")

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802  # Qt's name
        """Leave the wheel to the page."""
        event.ignore()


class PictureBand(QWidget):
    """Buttons for the picture under the level shown."""

    tool_wanted = Signal(object)
    turn_wanted = Signal()
    fade_wanted = Signal(int)
    lock_wanted = Signal()
    remove_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("asking")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        about = QLabel("Picture")
        about.setObjectName("section")
        self.tools: dict[type[PictureTool], QPushButton] = {}
        self._rows = rows = QHBoxLayout(self)
        rows.setContentsMargins(16, 6, 16, 6)
        rows.setSpacing(6)
        row, rest = QHBoxLayout(), QHBoxLayout()
        for part in (row, rest):
            part.setSpacing(6)
            rows.addLayout(part)
        row.addWidget(about)
        row.addStretch()
        for tool, words, tip in (
            (MarkLength, "Set scale", "Mark a length that you know"),
            (MarkWall, "Straighten", "Mark a wall that is level or upright"),
            (MovePicture, "Move", "Drag the picture to where it belongs"),
        ):
            button = _button(words, tip)
            button.setCheckable(True)
            button.clicked.connect(lambda _checked=False, tool=tool: self.tool_wanted.emit(tool()))
            self.tools[tool] = button
            row.addWidget(button)
        self.turn, self.lock = _button("Turn", "Turn by a quarter, clockwise"), _button("Lock", "So that it stays put")
        self.remove = _button("Remove", "Take the picture away; what is drawn stays")
        self.fade = FadeSlider()
        row.addWidget(self.turn)
        rest.addStretch()
        for widget in (self.fade, self.lock, self.remove):
            rest.addWidget(widget)
        self.turn.clicked.connect(lambda _checked=False: self.turn_wanted.emit())
        self.lock.clicked.connect(lambda _checked=False: self.lock_wanted.emit())
        self.remove.clicked.connect(lambda _checked=False: self.remove_wanted.emit())
        self.fade.valueChanged.connect(self.fade_wanted)
        self.hide()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802  # Qt's name
        """Stand in two rows where there is no room for one."""
        super().resizeEvent(event)
        wide = self.width() >= ONE_ROW_FROM
        self._rows.setDirection(QHBoxLayout.Direction.LeftToRight if wide else QHBoxLayout.Direction.TopToBottom)

    def minimumSizeHint(self) -> QSize:  # noqa: N802  # Qt's name
        """Ask for no width: the panes beside the plan keep theirs."""
        return QSize(0, super().minimumSizeHint().height())

    def show_picture(self, laid: Underlay | None, tool: object) -> None:
        """Show the band for a picture that is not locked, with the tool in hand marked."""
        self.setVisible(laid is not None and not laid.locked)
        for kind, button in self.tools.items():
            button.setChecked(isinstance(tool, kind))
        if laid is not None and not self.fade.isSliderDown():
            self.fade.blockSignals(True)
            self.fade.setValue(laid.opacity_percent)
            self.fade.blockSignals(False)


def _button(words: str, tip: str) -> QPushButton:
    button = QPushButton(words)
    button.setObjectName("layer")
    button.setToolTip(tip)
    button.setAccessibleName(tip)
    return button
