"""The further pages of a sheet: panels that stand on no level's page, and lists that had no room there."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from floorplan_circuits.drawing.ink import Group, Mark
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.sheets.columns import GAP, GUTTER
from floorplan_circuits.sheets.furniture import HEAD_RULE, caution_height
from floorplan_circuits.sheets.layouts import FOOT_GAP
from floorplan_circuits.sheets.panel_column import LEAST_ROW, TITLE_HIGH, USUAL_ROW, PanelOnSheet
from floorplan_circuits.sheets.paper import MARGIN, Rect
from floorplan_circuits.sheets.sections import Section, fitting, put

LEAST_TOGETHER = 3
"""Fewer blocks than this do not open a list at a column's foot."""
COLUMN_TOP = HEAD_RULE + 3.0
EVEN_ENOUGH = 6.0
"""mm to which it is found out how low the last page's columns may end."""


@dataclass(frozen=True, slots=True)
class RestOfList:
    """A list that goes on: how it is made for a column's width, from which block on, under which title."""

    make: Callable[[float], Section]
    start: int
    title: str


Piece = PanelOnSheet | RestOfList


@dataclass(slots=True)
class Columns:
    """Pages of two columns that fill from the top, left before right.

    `evened`: a page and how high its columns may grow, in mm; no list that has room in a column is parted on it.
    """

    width: float
    height: float
    theme: Theme
    evened: tuple[int, float] | None = None
    pages: list[list[Mark]] = field(default_factory=list)
    cut: list[str] = field(default_factory=list)
    _column: int = 1
    _y: float = 0.0

    @property
    def column_wide(self) -> float:
        """Width of a column in mm."""
        return (self.width - 2 * MARGIN - GUTTER) / 2

    @property
    def bottom(self) -> float:
        """Where a column ends, in mm from the page's top."""
        return self.height - MARGIN - caution_height(self.width - 2 * MARGIN) - FOOT_GAP

    @property
    def room(self) -> float:
        """Height left in the column, in mm; 0 before the first page."""
        if not self.pages:
            return 0.0
        bottom = COLUMN_TOP + self.evened[1] if self.evened and self._is_evened() else self.bottom
        return bottom - self._y

    @property
    def _x(self) -> float:
        return MARGIN + self._column * (self.column_wide + GUTTER)

    def add(self, pieces: Sequence[Piece]) -> None:
        """Set the pieces one after the other."""
        for piece in pieces:
            if isinstance(piece, PanelOnSheet):
                self._add_panel(piece)
            else:
                self._add_list(piece)

    def _is_evened(self) -> bool:
        return self.evened is not None and self.evened[0] == len(self.pages) - 1

    def _next(self) -> None:
        self._column = 1 - self._column
        if self._column == 0:
            self.pages.append([])
        self._y = COLUMN_TOP

    def _add_panel(self, panel: PanelOnSheet) -> None:
        """Set a panel whole: in this column if it fits, else in the next, its rows as low as they must be."""
        wide, whole = self.column_wide, self.bottom - COLUMN_TOP
        row = max(LEAST_ROW, panel.row_in(wide, whole - TITLE_HIGH, USUAL_ROW))
        high = TITLE_HIGH + panel.height(wide, row)
        if high > self.room:
            self._next()
        ink, cut = panel.ink(Rect(self._x, self._y + TITLE_HIGH, wide, high), row, in_head=False)
        self.pages[-1].append(ink)
        self.cut += cut
        self._y += high + GAP

    def _add_list(self, rest: RestOfList) -> None:
        """Set a list from its start on, parted between columns where it must be; a title tells that it goes on."""
        section = rest.make(self.column_wide)
        start, title = rest.start, rest.title
        while start < len(section.blocks):
            taken = fitting(section, self.room, start) if self.pages else 0
            if not self._is_empty() and taken < min(LEAST_TOGETHER, len(section.blocks) - start):
                taken = 0
            if self._is_evened() and taken < len(section.blocks) - start:
                taken = fitting(section, self.bottom - self._y, start) if self._is_empty() else 0
            if taken == 0 and self._is_empty():
                taken = 1  # a block higher than a column is set all the same
            if taken:
                self._set(replace(section, title=title), start, taken)
                start, title = start + taken, f"{rest.title}, continued"
            if start < len(section.blocks):
                self._next()

    def _is_empty(self) -> bool:
        return bool(self.pages) and self._y == COLUMN_TOP

    def _set(self, section: Section, start: int, taken: int) -> None:
        blocks = section.blocks[start : start + taken]
        more = "goes on" if start + taken < len(section.blocks) else ""
        self.pages[-1].append(put(section, blocks, more, (self._x, self._y), self.theme))
        self._y += section.height - sum(block.height for block in section.blocks) + GAP
        self._y += sum(block.height for block in blocks)


def title_of(pieces: Sequence[Piece]) -> str:
    """Return what the further pages are called, by what stands on them."""
    panels = [piece for piece in pieces if isinstance(piece, PanelOnSheet)]
    if not panels:
        return "Lists"
    if len(panels) == len(pieces):
        return panels[0].panel.name if len(panels) == 1 else "Panels"
    return "Panel and lists" if len(panels) == 1 else "Panels and lists"


def further_pages(
    pieces: Sequence[Piece], size: tuple[float, float], theme: Theme
) -> tuple[list[Group], tuple[str, ...]]:
    """Return the ink of the further pages without head and foot, and what had to be cut on them.

    The columns of the last page end at about one height where that parts no list and needs no further page.
    """
    columns = Columns(*size, theme)
    columns.add(pieces)
    count, least, most = len(columns.pages), 0.0, columns.bottom - COLUMN_TOP
    while count and most - least > EVEN_ENOUGH:
        tried = Columns(*size, theme, (count - 1, (least + most) / 2))
        tried.add(pieces)
        if len(tried.pages) == count:
            columns, most = tried, (least + most) / 2
        else:
            least = (least + most) / 2
    return [Group(tuple(marks)) for marks in columns.pages], tuple(columns.cut)
