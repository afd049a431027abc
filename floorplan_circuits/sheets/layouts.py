"""Where everything stands on a level's page: the ways to lay it out, of which the sheet takes the best."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations, pairwise

from floorplan_circuits.sheets.furniture import HEAD_RULE, caution_height
from floorplan_circuits.sheets.panel_column import TITLE_HIGH, USUAL_ROW, PanelOnSheet
from floorplan_circuits.sheets.paper import MARGIN, Orientation, Paper, Rect
from floorplan_circuits.sheets.sections import Section, fitting

GUTTER, GAP = 5.5, 3.5
PLAN_TOP, SCALE_BAR = 20.0, 7.5
FOOT_GAP = 3.5
LEAST_PLAN, LEAST_COLUMN = 60.0, 42.0
PANEL_WIDTHS = (90.0, 108.0)
TIGHT_ROW = 8.8
LIST_HEIGHTS = (42.0, 54.0, 70.0, 90.0)
"""How high lists that go on elsewhere may grow below the plan, tried in turn."""
DROPPED = ((), ("tested",), ("shared", "tested"), ("shared", "unplaced", "tested"), ("read",), ("read", "known"))
"""Lists that may go on a further page as a whole, so that the others stand whole here."""

Placed = tuple[str, Section, Rect]
"""What a list is about, the list set for its column, and where it stands."""


@dataclass(frozen=True, slots=True)
class Layout:
    """Where everything stands on one page, in mm. `panel` is None where the panel has a page of its own."""

    orientation: Orientation
    width: float
    height: float
    head: Rect
    plan: Rect
    foot: Rect
    panel: Rect | None
    row: float
    sections: tuple[Placed, ...]
    kinds: tuple[str, ...]

    def shown(self, kind: str) -> int:
        """Return how many blocks of a list the page shows."""
        return next((fitting(section, area.height) for name, section, area in self.sections if name == kind), 0)

    def lost(self) -> tuple[str, ...]:
        """Return the lists that go on elsewhere, in whole or in part."""
        whole = {name for name, section, area in self.sections if fitting(section, area.height) == len(section.blocks)}
        return tuple(kind for kind in self.kinds if kind not in whole)


@dataclass(slots=True)
class Material:
    """What a level's page has to hold: the paper, the panel if any, and the lists, set at a width when asked."""

    width: float
    height: float
    panel: PanelOnSheet | None
    kinds: tuple[str, ...]
    make: Callable[[str, float], Section]
    orientation: Orientation = "landscape"
    _made: dict[tuple[str, float], Section] = field(default_factory=dict)

    def section(self, kind: str, wide: float) -> Section:
        """Return a list at a width in mm, set once however many layouts try it."""
        key = kind, round(wide, 2)
        if key not in self._made:
            self._made[key] = self.make(kind, wide)
        return self._made[key]

    def foot(self) -> Rect:
        """Return where the caution stands."""
        high = caution_height(self.width - 2 * MARGIN)
        return Rect(MARGIN, self.height - MARGIN - high, self.width - 2 * MARGIN, high)


def inner_size(paper: Paper, orientation: Orientation) -> tuple[float, float]:
    """Return the page's width and height in the mm it is laid out in, before it is magnified."""
    width, height = paper.size(orientation)
    return width / paper.magnify, height / paper.magnify


def layouts(material: Material) -> Iterator[Layout]:
    """Yield the ways to lay out a page of this material, complete ones and such whose lists go on elsewhere."""
    ways = _landscape if material.orientation == "landscape" else _portrait
    if material.panel is None:
        yield from _without_panel(material)
        return
    for wide in PANEL_WIDTHS:
        for row in (USUAL_ROW, TIGHT_ROW):
            for beside in _subsets(material.kinds):
                yield from ways(material, wide, row, beside)


def alone(material: Material) -> Iterator[Layout]:
    """Yield the ways to give the plan a page without the panel, with what lists there is room for below it."""
    yield from _strips(material, material.width - 2 * MARGIN, material.kinds, (), None, 0.0)
    yield from _over_strip(material, material.width - 2 * MARGIN, (), (), None, 0.0)


def _without_panel(material: Material) -> Iterator[Layout]:
    yield from _strips(material, material.width - 2 * MARGIN, material.kinds, (), None, 0.0)


def _subsets(kinds: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    for count in range(len(kinds) + 1):
        yield from combinations(kinds, count)


# --- landscape: the panel's column right, lists under it, the others under the plan ---------------------------------


def _landscape(material: Material, panel_wide: float, row: float, beside: tuple[str, ...]) -> Iterator[Layout]:
    assert material.panel is not None
    x, top = material.width - MARGIN - panel_wide, HEAD_RULE + 2.0
    room = material.foot().y - FOOT_GAP - top
    needed = sum(material.section(kind, panel_wide).height + GAP for kind in beside)
    row = min(row, material.panel.row_in(panel_wide, room - needed, row))
    if row < min(TIGHT_ROW, material.panel.row_in(panel_wide, room, TIGHT_ROW)):
        return
    panel = Rect(x, top, panel_wide, material.panel.height(panel_wide, row))
    column = _stacked(material, beside, x, panel.bottom + GAP, panel_wide)
    left_wide = material.width - 2 * MARGIN - panel_wide - GUTTER
    below = tuple(kind for kind in material.kinds if kind not in beside)
    yield from _strips(material, left_wide, below, column, panel, row)


def _stacked(material: Material, kinds: Sequence[str], x: float, y: float, wide: float) -> tuple[Placed, ...]:
    placed: list[Placed] = []
    for kind in kinds:
        section = material.section(kind, wide)
        placed.append((kind, section, Rect(x, y, wide, section.height)))
        y += section.height + GAP
    return tuple(placed)


def _strips(
    material: Material,
    wide: float,
    below: tuple[str, ...],
    column: tuple[Placed, ...],
    panel: Rect | None,
    row: float,
) -> Iterator[Layout]:
    """Yield layouts with all of these lists under the plan, then such with some of them left to a further page."""
    for dropped in DROPPED:
        if set(dropped) <= set(below):
            kept = tuple(kind for kind in below if kind not in dropped)
            yield from _over_strip(material, wide, kept, column, panel, row)


def _over_strip(
    material: Material,
    wide: float,
    below: tuple[str, ...],
    column: tuple[Placed, ...],
    panel: Rect | None,
    row: float,
) -> Iterator[Layout]:
    """Yield layouts with lists in a strip under the plan: as high as it needs to be, or capped."""
    foot = material.foot()
    bottom = foot.y - FOOT_GAP
    strip = _best_strip(material, below, wide)
    most = bottom - PLAN_TOP - SCALE_BAR - LEAST_PLAN
    for high in dict.fromkeys(min(strip[0], most, cap) for cap in (strip[0], *LIST_HEIGHTS)):
        placed, x = list(column), MARGIN
        for kinds, column_wide in strip[1]:
            placed += _within(material, kinds, Rect(x, bottom - high, column_wide, high))
            x += column_wide + GUTTER
        plan = Rect(MARGIN, PLAN_TOP, wide, bottom - PLAN_TOP - SCALE_BAR - (high + 2.5 if below else 0.0))
        yield Layout(
            material.orientation, material.width, material.height, Rect(MARGIN, 0, wide, 0), plan, foot, panel, row,
            tuple(placed), material.kinds,
        )  # fmt: skip


def _within(material: Material, kinds: Sequence[str], area: Rect) -> list[Placed]:
    """Stack lists in an area, the last ones cut off where it ends."""
    placed = []
    for kind, section, at in _stacked(material, kinds, area.x, area.y, area.width):
        high = max(0.0, min(at.height, area.bottom - at.y))
        placed.append((kind, section, Rect(at.x, at.y, at.width, high)))
    return placed


Strip = tuple[float, tuple[tuple[tuple[str, ...], float], ...]]
"""How high it is, and for each of its columns the lists in it and its width."""


def _best_strip(material: Material, kinds: tuple[str, ...], wide: float) -> Strip:
    """Return the lowest way to set lists side by side in their order, each column one or more of them."""
    if not kinds:
        return 0.0, ()
    ways = [
        tuple(zip(groups, widths, strict=True))
        for groups in _partitions(kinds)
        for widths in _widths(len(groups), wide)
    ]
    heights = ((max(_height(material, group, column) for group, column in way), way) for way in ways)
    return min(heights, key=lambda found: found[0])


def _height(material: Material, kinds: tuple[str, ...], wide: float) -> float:
    return sum(material.section(kind, wide).height for kind in kinds) + GAP * (len(kinds) - 1)


def _partitions(kinds: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], ...]]:
    """Yield the ways to cut a row of lists into columns."""
    inner = range(1, len(kinds))
    for count in range(len(kinds)):
        for cuts in combinations(inner, count):
            ends = (0, *cuts, len(kinds))
            yield tuple(kinds[start:end] for start, end in pairwise(ends))


def _widths(columns: int, wide: float) -> Iterator[tuple[float, ...]]:
    """Yield equal columns, then such with one twice as wide as the others; none too narrow to read."""
    room = wide - GUTTER * (columns - 1)
    weights = [(1,) * columns]
    if columns > 1:
        weights += [tuple(2 if at == one else 1 for at in range(columns)) for one in range(columns)]
    for way in weights:
        widths = tuple(room * weight / sum(way) for weight in way)
        if columns == 1 or min(widths) >= LEAST_COLUMN:
            yield widths


# --- portrait: the plan above, the panel below it on the left, lists under and beside it ----------------------------


def _portrait(material: Material, panel_wide: float, row: float, under: tuple[str, ...]) -> Iterator[Layout]:
    assert material.panel is not None
    foot = material.foot()
    bottom, right_x = foot.y - FOOT_GAP, MARGIN + panel_wide + GUTTER
    right_wide = material.width - MARGIN - right_x
    most = bottom - PLAN_TOP - SCALE_BAR - LEAST_PLAN - 4
    beside = tuple(kind for kind in material.kinds if kind not in under)
    lists = sum(material.section(kind, panel_wide).height + GAP for kind in under)
    row = min(row, material.panel.row_in(panel_wide, most - TITLE_HIGH - lists, row))
    if row < min(TIGHT_ROW, material.panel.row_in(panel_wide, most - TITLE_HIGH, TIGHT_ROW)):
        return
    left = TITLE_HIGH + material.panel.height(panel_wide, row) + lists
    right = _height(material, beside, right_wide) if beside else 0.0
    for high in dict.fromkeys(max(left, min(right, most, left + more)) for more in (right, 0.0, 15.0, 40.0)):
        top = bottom - high
        panel = Rect(MARGIN, top + TITLE_HIGH, panel_wide, material.panel.height(panel_wide, row))
        plan = Rect(MARGIN, PLAN_TOP, material.width - 2 * MARGIN, top - PLAN_TOP - SCALE_BAR - 4)
        placed = (
            *_stacked(material, under, MARGIN, panel.bottom + GAP, panel_wide),
            *_within(material, beside, Rect(right_x, top, right_wide, high)),
        )
        head = Rect(MARGIN, 0, material.width - 2 * MARGIN, 0)
        yield Layout("portrait", material.width, material.height, head, plan, foot, panel, row, placed, material.kinds)


# --- room to spare --------------------------------------------------------------------------------------------------


def grown(layout: Layout, material: Material) -> Layout:
    """Return the layout with the panel's rows as high as the empty room in its column lets them be."""
    panel, on_sheet = layout.panel, material.panel
    if panel is None or on_sheet is None:
        return layout
    under = [area for _, _, area in layout.sections if _is_under(area, panel)]
    spare = layout.foot.y - FOOT_GAP - max((area.bottom for area in under), default=panel.bottom)
    row = max(layout.row, on_sheet.row_in(panel.width, panel.height + spare))
    high = on_sheet.height(panel.width, row)
    down = high - panel.height
    sections = tuple(
        (kind, section, replace(area, y=area.y + down) if _is_under(area, panel) else area)
        for kind, section, area in layout.sections
    )
    return replace(layout, panel=replace(panel, height=high), row=row, sections=sections)


def _is_under(area: Rect, panel: Rect) -> bool:
    return area.x == panel.x and area.y > panel.y
