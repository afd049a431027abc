"""The palette of device kinds: symbols in cells, found by a trade term or a plain word; rooms and selecting above.

The dozen kinds that are used most or were used last come first. While a form is open under the palette, it is dense:
small cells without names, so that all tools and that dozen stay in sight.
"""

from typing import NamedTuple

from PySide6.QtCore import QSize, Signal
from PySide6.QtWidgets import QButtonGroup, QGridLayout, QLineEdit, QVBoxLayout, QWidget

from floorplan_circuits.desktop.building_tools import building_tools
from floorplan_circuits.desktop.tool_cell import CELL, ToolCell
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.gestures.putting import PutDevice
from floorplan_circuits.gestures.step import SWITCHING_KEY, Tool
from floorplan_circuits.gestures.switching import DrawSwitching
from floorplan_circuits.home.kinds import Kind, catalogue

COMMON = (
    "duplex receptacle", "switch", "ceiling light", "three-way switch", "ground-fault receptacle", "recessed light",
    "dimmer", "exhaust fan", "smoke alarm", "wall light", "outdoor receptacle", "240 V receptacle",
)  # fmt: skip
"""What a home has most of, the commonest first: these come first before any was used. Common practice, no source."""


class Packing(NamedTuple):
    """How the cells are packed: size and columns of the tools for the building, and of the kinds; the gap in px."""

    building: QSize
    building_columns: int
    kinds: QSize
    kinds_columns: int
    gap: int


AMPLE = Packing(QSize(43, 46), 4, CELL, 3, 4)
DENSE = Packing(QSize(34, 24), 5, QSize(28, 30), 6, 2)
GAP = 4
"""Between the search, the building's tools and the kinds, in px."""
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


class KindPalette(QWidget):
    """All tools to draw with, each always in its place, below those used most or last; a search shows what it finds."""

    tool_taken = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.theme: Theme = LIGHT
        self._packing = AMPLE
        self._last_used = [*COMMON, *(kind for kind in catalogue() if kind not in COMMON)]
        """All kinds, the one used last first."""
        self._near = list(COMMON)
        """The dozen that comes first, in the places where they are seen."""
        self.search = QLineEdit()
        self.search.setPlaceholderText("Find: plug, lamp, dryer …")
        self.search.setClearButtonEnabled(True)
        self.search.setAccessibleName("Find a kind of device")
        self._group = QButtonGroup(self)
        self._group.setExclusive(True)
        self._building, self._grid = _grid(), _grid()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GAP)
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
        packing, searching = self._packing, bool(words.strip())
        tools = [] if searching else [*building_tools(), (DrawSwitching(), "switching", SWITCHING_KEY)]
        cells = [ToolCell(tool, name.removeprefix("open "), key, size=packing.building) for tool, name, key in tools]
        kinds = [ToolCell(*_looks_of(kind), size=packing.kinds) for kind in self._ranked(words)]
        if not searching and packing is AMPLE:  # the word is as long as a kind's
            cells, kinds = cells[:-1], [ToolCell(*tools[-1], size=packing.kinds), *kinds]
        for grid, columns, shown in (
            (self._building, packing.building_columns, cells),
            (self._grid, packing.kinds_columns, kinds),
        ):
            for place, cell in enumerate(shown):
                cell.theme = self.theme
                self._group.addButton(cell)
                grid.addWidget(cell, place // columns, place % columns)

    def pack(self, dense: bool) -> None:
        """Show small cells without names, or the ample ones."""
        packing = DENSE if dense else AMPLE
        if packing is self._packing:
            return
        self._packing = packing
        for grid in (self._building, self._grid):
            grid.setSpacing(packing.gap)
        held = next((one.tool for one in self._group.buttons() if one.isChecked()), None)  # type: ignore[attr-defined]  # cells
        self._fill(self.search.text())
        if held is not None:
            self.show_tool(held, self.theme)

    @property
    def near_high(self) -> int:
        """How high in px the palette is down to the dozen of kinds that comes first, while it is dense."""
        rows = (len(building_tools()) + DENSE.building_columns) // DENSE.building_columns
        tools = rows * (DENSE.building.height() + DENSE.gap)
        kinds = len(COMMON) // DENSE.kinds_columns * (DENSE.kinds.height() + DENSE.gap)
        return self.search.sizeHint().height() + tools + kinds + 2 * GAP

    def _ranked(self, words: str) -> list[Kind]:
        """Return the kinds found, those used last first; without a search the dozen, then the rest in its order."""
        found = matching(words)
        if words.strip():
            return sorted(found, key=lambda kind: self._last_used.index(kind.name))
        return [*(catalogue()[kind] for kind in self._near), *(kind for kind in found if kind.name not in self._near)]

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
        """Note that a kind was used: it changes places with that of the dozen which was used longest ago.

        All others keep their places, for a hand remembers places.
        """
        if kind not in catalogue():
            return
        self._last_used = [kind, *(other for other in self._last_used if other != kind)]
        if kind in self._near:
            return
        oldest = max(self._near, key=self._last_used.index)
        self._near[self._near.index(oldest)] = kind
        for cell in self._group.buttons():
            tool = cell.tool  # type: ignore[attr-defined]  # the group holds nothing but cells
            if isinstance(tool, PutDevice) and tool.kind in (oldest, kind) and not self.search.text().strip():
                cell.become(*_looks_of(catalogue()[kind if tool.kind == oldest else oldest]))  # type: ignore[attr-defined]


def _looks_of(kind: Kind) -> tuple[Tool, str, str, str]:
    return PutDevice(kind.name), SHORT.get(kind.name, kind.label), kind.key, kind.symbol


def _grid() -> QGridLayout:
    """Return an empty grid of cells, gathered at the left."""
    grid = QGridLayout()
    grid.setSpacing(AMPLE.gap)
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setColumnStretch(max(AMPLE.kinds_columns, DENSE.kinds_columns), 1)
    return grid
