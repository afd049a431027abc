"""Where everything stands on a level's page: the ways to lay it out, of which the sheet takes the best."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations

from floorplan_circuits.sheets.columns import (
    GAP,
    GUTTER,
    Material,
    Placed,
    height_of,
    stacked,
    within,
)
from floorplan_circuits.sheets.furniture import HEAD_RULE
from floorplan_circuits.sheets.panel_column import TITLE_HIGH, USUAL_ROW
from floorplan_circuits.sheets.paper import MARGIN, Orientation, Paper, Rect
from floorplan_circuits.sheets.sections import fitting

PLAN_TOP, SCALE_BAR = 20.0, 7.5
FOOT_GAP = 3.5
LEAST_PLAN = 60.0
PANEL_WIDTHS = (90.0, 108.0, 124.0)
BESIDE_WIDTHS, BESIDE_TOP = (40.0, 46.0, 56.0), HEAD_RULE + 3.0
"""Widths in mm of a column of lists between plan and panel, and where it begins."""
TIGHT_ROW = 8.8
LIST_HEIGHTS = (42.0, 54.0, 70.0, 90.0)
"""How high lists that go on elsewhere may grow below the plan, tried in turn."""
DROPPED = (
    (), ("tested",), ("before",), ("before", "tested"), ("shared", "before", "tested"), ("shared", "tested"),
    ("shared", "unplaced", "before", "tested"), ("shared", "unplaced", "tested"), ("read",),
)  # fmt: skip
"""Lists that may go on a further page as a whole, so that the others stand whole here."""


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
    yield from _without_panel(material)
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
    column = stacked(material, beside, x, panel.bottom + GAP, panel_wide)
    left_wide = material.width - 2 * MARGIN - panel_wide - GUTTER
    below = tuple(kind for kind in material.kinds if kind not in beside)
    yield from _strips(material, left_wide, below, column, panel, row)
    if panel_wide == PANEL_WIDTHS[0]:
        yield from _right_of_plan(material, left_wide, below, column, panel, row)


def _right_of_plan(
    material: Material, wide: float, lists: tuple[str, ...], column: tuple[Placed, ...], panel: Rect, row: float
) -> Iterator[Layout]:
    """Yield layouts of a plan that is narrower than its place, with whole lists between it and the panel."""
    room = material.foot().y - FOOT_GAP - BESIDE_TOP
    for kinds in _subsets(lists):
        below = tuple(kind for kind in lists if kind not in kinds)
        for narrow in BESIDE_WIDTHS if kinds and "read" not in kinds else ():
            if height_of(material, kinds, narrow) > room:
                continue
            placed = stacked(material, kinds, MARGIN + wide - narrow, BESIDE_TOP, narrow)
            left = wide - narrow - GUTTER
            if material.strip(below, left)[0] <= room - SCALE_BAR - LEAST_PLAN:
                over = _over_strip(material, left, below, (*column, *placed), panel, row)
                yield replace(next(over), head=Rect(MARGIN, 0, wide, 0))


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
    strip = material.strip(below, wide)
    most = bottom - PLAN_TOP - SCALE_BAR - LEAST_PLAN
    for high in dict.fromkeys(min(strip[0], most, cap) for cap in (strip[0], *LIST_HEIGHTS)):
        placed, x = list(column), MARGIN
        for kinds, column_wide in strip[1]:
            placed += within(material, kinds, Rect(x, bottom - high, column_wide, high))
            x += column_wide + GUTTER
        plan = Rect(MARGIN, PLAN_TOP, wide, bottom - PLAN_TOP - SCALE_BAR - (high + 2.5 if below else 0.0))
        yield Layout(
            material.orientation, material.width, material.height, Rect(MARGIN, 0, wide, 0), plan, foot, panel, row,
            tuple(placed), material.kinds,
        )  # fmt: skip


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
    right = height_of(material, beside, right_wide) if beside else 0.0
    for high in dict.fromkeys(max(left, min(right, most, left + more)) for more in (right, 0.0, 15.0, 40.0)):
        top = bottom - high
        panel = Rect(MARGIN, top + TITLE_HIGH, panel_wide, material.panel.height(panel_wide, row))
        plan = Rect(MARGIN, PLAN_TOP, material.width - 2 * MARGIN, top - PLAN_TOP - SCALE_BAR - 4)
        placed = (
            *stacked(material, under, MARGIN, panel.bottom + GAP, panel_wide),
            *within(material, beside, Rect(right_x, top, right_wide, high)),
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
