"""The band above the plan while shutting off: that what is off is so on the screen alone, and what plates mean then."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from floorplan_circuits.desktop.camera import PX_PER_MM
from floorplan_circuits.desktop.ink_painter import Compiled, compiled, paint
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.drawing.plan_what_if import what_if_key

LEAST_KEY_PX = 120
ONLY_HERE = "on the screen alone: what would be live"
NOTHING_IS = "Nothing is off on the screen. Flip a breaker on the panel to try it."
ONE_LINE_FROM = 600
"""Width in px from which one line of words is enough; below, two lines' room is kept whatever they say."""


class WhatIfKey(QWidget):
    """What each plate means while handles are off, in as many rows as it takes."""

    def __init__(self) -> None:
        super().__init__()
        self._theme: Theme = LIGHT
        self._ink: Compiled | None = None

    def show_in(self, theme: Theme) -> None:
        """Draw it in a theme."""
        self._theme = theme
        self._draw()

    def _draw(self) -> None:
        ink, high = what_if_key(max(self.width(), LEAST_KEY_PX) / PX_PER_MM, self._theme)
        self._ink = compiled(ink)
        self.setAccessibleName(ink.name)
        self.setFixedHeight(round(high * PX_PER_MM))
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802  # Qt's name
        """Set the rows anew for another width."""
        if event.size().width() != event.oldSize().width():
            self._draw()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802  # Qt's name
        """Paint it."""
        if self._ink is not None:
            paint(QPainter(self), self._ink.ops, PX_PER_MM, 0, 0)


class WhatIfBand(QWidget):
    """Says which handles are off, offers to turn all back on, and holds the key."""

    all_on_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("asking")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.words, self.key = QLabel(), WhatIfKey()
        self.words.setObjectName("section")
        self.words.setWordWrap(True)
        self.all_on = QPushButton("All back on")
        self.all_on.setObjectName("plain")
        self.all_on.clicked.connect(lambda _checked=False: self.all_on_wanted.emit())
        row = QHBoxLayout()
        row.addWidget(self.words, 1)
        row.addWidget(self.all_on)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 6, 16, 6)
        column.setSpacing(4)
        column.addLayout(row)
        column.addWidget(self.key)
        self.hide()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802  # Qt's name
        """Keep the words' room for this width, so that the plan below holds still whatever they say."""
        super().resizeEvent(event)
        for part in (self.words, self.all_on):
            part.ensurePolished()  # before that they measure in letters of another size
        lines = 1 if self.width() >= ONE_LINE_FROM else 2
        self.words.setFixedHeight(max(lines * self.words.fontMetrics().lineSpacing(), self.all_on.sizeHint().height()))

    def show_off(self, with_off: str, theme: Theme) -> None:
        """Say which handles are off, such as 'With 5 and 15A off', or that none is."""
        self.words.setText(f"{with_off}, {ONLY_HERE}" if with_off else NOTHING_IS)
        self.key.show_in(theme)
