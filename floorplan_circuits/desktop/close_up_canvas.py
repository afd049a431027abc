"""The close-up of a box in the window: the same ink as on paper, as wide as there is room."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from floorplan_circuits.desktop.camera import PX_PER_MM
from floorplan_circuits.desktop.ink_painter import Compiled, compiled, paint
from floorplan_circuits.drawing.close_up import LEAST_WIDTH, CloseUp, close_up
from floorplan_circuits.drawing.ink import Group, Text, flat
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.findings import Findings, WhatIf

INSET = 20
READING_WIDTH, LARGEST = 206.0, 1.4
"""Drawn wider than so many mm, all is drawn larger instead, up to so many times: lines of words stay easy to read."""


class CloseUpCanvas(QWidget):
    """Paints one box and says in words what it paints."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("close_up")
        self.theme: Theme = LIGHT
        self.drawn: CloseUp | None = None
        self._shown: tuple[Findings, int, WhatIf | None] | None = None
        self._ink: Compiled | None = None

    def show_box(self, findings: Findings, box: int, what_if: WhatIf | None = None) -> None:
        """Show a box as these findings have it, and what it would be with handles off."""
        self._shown = findings, box, what_if
        self._draw()

    @property
    def mm(self) -> float:
        """Pixels a millimetre."""
        room = (self.width() - 2 * INSET) / PX_PER_MM
        return PX_PER_MM * min(max(1.0, room / READING_WIDTH), LARGEST)

    def _draw(self) -> None:
        if self._shown is None or self.width() <= 2 * INSET:
            return
        findings, box, what_if = self._shown
        if box not in findings.home.boxes:
            return
        wide = max(LEAST_WIDTH, (self.width() - 2 * INSET) / self.mm)
        self.drawn = close_up(findings, box, wide, self.theme, what_if)
        self._ink = compiled(self.drawn.ink)
        self.setMinimumHeight(round(self.drawn.height * self.mm) + 2 * INSET)
        self.setAccessibleName(self.drawn.ink.name)
        self.setAccessibleDescription(" ".join(_sentences(self.drawn.ink)))
        self.setToolTip(_cut(self.drawn))
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802  # Qt's name
        """Draw the box anew for another width."""
        if event.size().width() != event.oldSize().width():
            self._draw()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802  # Qt's name
        """Paint the box."""
        painter = QPainter(self)
        painter.fillRect(event.rect(), QColor(self.theme.furniture))
        if self._ink is not None:
            area = event.rect()
            shown = QRectF(
                (area.x() - INSET) / self.mm,
                (area.y() - INSET) / self.mm,
                area.width() / self.mm,
                area.height() / self.mm,
            )
            paint(painter, self._ink.ops, self.mm, INSET, INSET, shown)


def _sentences(ink: Group) -> list[str]:
    """Return what is said of the box and of each cable in it, for a screen reader."""
    pieces = {piece.name: piece for piece in ink.marks if isinstance(piece, Group)}
    said = [mark.words for mark in flat(pieces["summary"]) if isinstance(mark, Text)]
    said += [row.name for row in pieces["table"].marks if isinstance(row, Group)]
    off = pieces.get("with handles off")
    return [*said, *(mark.words for mark in flat(off) if isinstance(mark, Text))] if off is not None else said


def _cut(drawn: CloseUp) -> str:
    """Return in full what had to be shortened."""
    return "\n".join(drawn.shortened)
