"""One cell of the palette: a tool's symbol or strokes, its short name, its key."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton

from floorplan_circuits.desktop.building_tools import strokes
from floorplan_circuits.desktop.camera import PX_PER_MM
from floorplan_circuits.desktop.ink_painter import compiled, paint
from floorplan_circuits.drawing.palette import LIGHT
from floorplan_circuits.drawing.symbols import bounds, stamp
from floorplan_circuits.gestures.putting import PutDevice
from floorplan_circuits.gestures.step import Tool

CELL = QSize(58, 56)
LEAST_NAMED = 40
"""Height in px from which a cell has room for its name."""
SMALL, SMALLEST = 0.8, 0.6
"""How large a tool's strokes are drawn with a name below them, and without."""
SYMBOL_SIZE = 1.3


class ToolCell(QAbstractButton):
    """One cell: a symbol, its short name, its key. A small one has its name in its tooltip, and for being read out."""

    def __init__(self, tool: Tool, name: str, key: str, symbol: str = "", size: QSize = CELL) -> None:
        super().__init__()
        self.theme = LIGHT
        self._named = size.height() >= LEAST_NAMED
        """Whether its name stands under the symbol."""
        self.setCheckable(True)
        self.setFixedSize(size)
        self.become(tool, name, key, symbol)

    def become(self, tool: Tool, name: str, key: str, symbol: str = "") -> None:
        """Stand for another tool in the same place."""
        self.tool, self._key, self._symbol = tool, key, symbol
        self.setText(name)
        self.setToolTip(f"{tool.kind if isinstance(tool, PutDevice) else name}{f' ({key.upper()})' if key else ''}")
        self.setAccessibleName(self.toolTip())
        self.update()

    def sizeHint(self) -> QSize:  # noqa: N802  # Qt's name
        """Return the cell's size."""
        return self.maximumSize()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802  # Qt's name
        """Paint the cell; the one in hand in reverse."""
        painter, theme = QPainter(self), self.theme
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ink, ground = (theme.paper, theme.ink) if self.isChecked() else (theme.ink, theme.paper)
        painter.setPen(QPen(QColor(theme.ink if self.hasFocus() else theme.line), 2 if self.hasFocus() else 1))
        painter.setBrush(QColor(ground))
        painter.drawRoundedRect(QRectF(1, 1, self.width() - 2, self.height() - 2), 6, 6)
        if self._symbol:
            self._paint_symbol(painter, ink, ground)
        else:
            self._paint_shape(painter, ink)
        font = painter.font()
        font.setPixelSize(11)
        painter.setFont(font)
        painter.setPen(QColor(ink))
        if self._named:
            painter.drawText(QRectF(0, self.height() - 18, self.width(), 15), Qt.AlignmentFlag.AlignCenter, self.text())
        key = self._key.upper() if self._named or len(self._key) == 1 else ""
        painter.drawText(QRectF(0, 1, self.width() - 4, 13), Qt.AlignmentFlag.AlignRight, key)

    def _middle(self) -> float:
        """Return where the symbol's middle is: above its name, or below its key."""
        return self.height() / 2 + (-6 if self._named else 4)

    def _paint_symbol(self, painter: QPainter, ink: str, ground: str) -> None:
        radius = 1.45 * SYMBOL_SIZE
        left, top, right, bottom = bounds(self._symbol, (0, 0), 0, radius)
        room = (self.width() - (10 if self._named else 4)) / PX_PER_MM
        radius *= min(1.0, room / (right - left), 7.4 / (bottom - top))
        left, top, right, bottom = bounds(self._symbol, (0, 0), 0, radius)
        at = (-(left + right) / 2, -(top + bottom) / 2)
        drawn = compiled(stamp(self._symbol, at, 0, ink, ground, radius=radius))
        paint(painter, drawn.ops, PX_PER_MM, self.width() / 2, self._middle())
        painter.resetTransform()

    def _paint_shape(self, painter: QPainter, ink: str) -> None:
        painter.setPen(QPen(QColor(ink), 1.6))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        x, y = self.width() / 2 - (2 if self._named else 4), self._middle() + (1 if self._named else -1)
        size = SMALL if self._named else SMALLEST
        for line in strokes(self.tool):
            painter.drawPolyline([QPointF(x + size * dx, y + size * dy) for dx, dy in line])
