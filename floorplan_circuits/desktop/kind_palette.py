"""The palette of device kinds: symbols in cells, found by a trade term or a plain word; rooms and selecting above."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QGridLayout, QLineEdit, QVBoxLayout, QWidget

from floorplan_circuits.desktop.building_tools import building_tools, strokes
from floorplan_circuits.desktop.camera import PX_PER_MM
from floorplan_circuits.desktop.ink_painter import compiled, paint
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.drawing.symbols import bounds, stamp
from floorplan_circuits.gestures.putting import PutDevice
from floorplan_circuits.gestures.step import SWITCHING_KEY, Tool
from floorplan_circuits.gestures.switching import DrawSwitching
from floorplan_circuits.home.kinds import Kind, catalogue

AT_FIRST = ("duplex receptacle", "switch")
"""What stands in the row of kinds used last before any was used."""
CELL, COLUMNS = QSize(58, 56), 3
BUILDING_CELL, BUILDING_COLUMNS, SMALL = QSize(43, 46), 4, 0.8
SYMBOL_SIZE = 1.3
SHORT = {
    "ground-fault receptacle": "GFCI", "double duplex receptacle": "double", "duplex receptacle": "receptacle",
    "single receptacle": "single", "split receptacle": "split", "floor receptacle": "floor",
    "outdoor receptacle": "outdoor", "240 V receptacle": "240 V", "three-way switch": "three-way",
    "four-way switch": "four-way", "ceiling light": "ceiling", "recessed light": "recessed",
    "doorbell transformer": "doorbell", "loose cable end": "cable end", "fixed appliance": "appliance",
    "240 V appliance": "240 V load", "outdoor light": "outdoor lt.", "junction box": "junction",
    "smoke alarm": "smoke", "cooker point": "cooker", "blank outlet": "blank",
}  # fmt: skip


def matching(words: str) -> list[Kind]:
    """Return the kinds whose name or plain words contain what was typed; all of them for nothing typed."""
    wanted = words.lower().strip()
    kinds = list(catalogue().values())
    return [kind for kind in kinds if any(wanted in word for word in (kind.name, kind.label, *kind.words))]


class ToolCell(QAbstractButton):
    """One cell: a symbol, its short name, its key."""

    def __init__(self, tool: Tool, name: str, key: str, symbol: str = "", size: QSize = CELL) -> None:
        super().__init__()
        self.theme = LIGHT
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
        painter.drawText(QRectF(0, self.height() - 18, self.width(), 15), Qt.AlignmentFlag.AlignCenter, self.text())
        painter.drawText(QRectF(0, 2, self.width() - 5, 13), Qt.AlignmentFlag.AlignRight, self._key.upper())

    def _paint_symbol(self, painter: QPainter, ink: str, ground: str) -> None:
        radius = 1.45 * SYMBOL_SIZE
        left, top, right, bottom = bounds(self._symbol, (0, 0), 0, radius)
        room = (self.width() - 10) / PX_PER_MM
        radius *= min(1.0, room / (right - left), 7.4 / (bottom - top))
        left, top, right, bottom = bounds(self._symbol, (0, 0), 0, radius)
        at = (-(left + right) / 2, -(top + bottom) / 2)
        drawn = compiled(stamp(self._symbol, at, 0, ink, ground, radius=radius))
        paint(painter, drawn.ops, PX_PER_MM, self.width() / 2, self.height() / 2 - 6)
        painter.resetTransform()

    def _paint_shape(self, painter: QPainter, ink: str) -> None:
        painter.setPen(QPen(QColor(ink), 1.6))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        x, y = self.width() / 2, self.height() / 2 - 6
        for line in strokes(self.tool):
            painter.drawPolyline([QPointF(x + SMALL * dx - 2, y + SMALL * dy + 1) for dx, dy in line])


class KindPalette(QWidget):
    """All tools to draw with, each always in its place, below a row of those used last; in a search they come first."""

    tool_taken = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.theme: Theme = LIGHT
        self._last_used = list(AT_FIRST)
        self._recent: list[ToolCell] = []
        self.search = QLineEdit()
        self.search.setPlaceholderText("Find: plug, lamp, dryer …")
        self.search.setClearButtonEnabled(True)
        self.search.setAccessibleName("Find a kind of device")
        self._group = QButtonGroup(self)
        self._group.setExclusive(True)
        self._building, self._grid = _grid(BUILDING_COLUMNS), _grid(COLUMNS)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(self.search)
        column.addLayout(self._building)
        column.addLayout(self._grid)
        column.addStretch()
        self.search.textChanged.connect(self._fill)
        self.search.returnPressed.connect(self._take_first)
        self._group.buttonClicked.connect(lambda button: self.tool_taken.emit(button.tool))
        self._fill("")

    def _fill(self, words: str) -> None:
        for button in self._group.buttons():
            self._group.removeButton(button)
            self._grid.removeWidget(button)
            self._building.removeWidget(button)
            button.hide()
            button.deleteLater()
        tools = [] if words.strip() else building_tools()
        cells = [ToolCell(tool, name.removeprefix("open "), key, size=BUILDING_CELL) for tool, name, key in tools]
        self._recent = [] if words.strip() else [_cell_of(catalogue()[kind]) for kind in self._last_used[: COLUMNS - 1]]
        first = [] if words.strip() else [ToolCell(DrawSwitching(), "switching", SWITCHING_KEY), *self._recent]
        kinds = [*first, *(_cell_of(kind) for kind in self._ranked(words))]
        for grid, columns, shown in ((self._building, BUILDING_COLUMNS, cells), (self._grid, COLUMNS, kinds)):
            for place, cell in enumerate(shown):
                cell.theme = self.theme
                self._group.addButton(cell)
                grid.addWidget(cell, place // columns, place % columns)

    def _ranked(self, words: str) -> list[Kind]:
        """Return the kinds found; a hand remembers places, so only a search may change their order."""
        used = {kind: place for place, kind in enumerate(self._last_used)}
        found = matching(words)
        return sorted(found, key=lambda kind: used.get(kind.name, len(used))) if words.strip() else found

    def _take_first(self) -> None:
        found = self._ranked(self.search.text())
        if found:
            self.tool_taken.emit(PutDevice(found[0].name))

    def show_tool(self, tool: Tool, theme: Theme) -> None:
        """Mark the tool in hand."""
        if theme is not self.theme:
            self.theme = theme
            self._fill(self.search.text())
        for button in self._group.buttons():
            same = type(button.tool) is type(tool)  # type: ignore[attr-defined]  # the group holds nothing but cells
            kind = getattr(tool, "kind", None) == getattr(button.tool, "kind", None)  # type: ignore[attr-defined]
            if same and kind:
                button.setChecked(True)
                return
        self._group.setExclusive(False)
        for button in self._group.buttons():
            button.setChecked(False)
        self._group.setExclusive(True)

    def used(self, kind: str) -> None:
        """Note that a kind was used: it stands in the row of those used last, the one used longest ago makes room.

        Those that are there keep their places, for a hand remembers places.
        """
        shown = [cell.tool.kind for cell in self._recent if isinstance(cell.tool, PutDevice)]
        oldest = max(shown, key=self._last_used.index, default="")
        self._last_used = [kind, *(other for other in self._last_used if other != kind)][:6]
        if oldest and kind not in shown and kind in catalogue():
            self._recent[shown.index(oldest)].become(*_looks_of(catalogue()[kind]))


def _cell_of(kind: Kind) -> ToolCell:
    return ToolCell(*_looks_of(kind))


def _looks_of(kind: Kind) -> tuple[Tool, str, str, str]:
    return PutDevice(kind.name), SHORT.get(kind.name, kind.label), kind.key, kind.symbol


def _grid(columns: int) -> QGridLayout:
    """Return an empty grid of cells, gathered at the left."""
    grid = QGridLayout()
    grid.setSpacing(4)
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setColumnStretch(columns, 1)
    return grid
