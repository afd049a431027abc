"""A page with a plan of the wall map: the layout that draws it largest, and the ink of it."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import chain

from floorplan_circuits.drawing.ink import Group, Mark, moved
from floorplan_circuits.drawing.lettering import fits
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plan import Plan
from floorplan_circuits.findings import Findings
from floorplan_circuits.sheets.before import before_you_turn
from floorplan_circuits.sheets.columns import Material
from floorplan_circuits.sheets.drawers import Draws
from floorplan_circuits.sheets.furniture import CAPTION_SIZE, scale_bar, text_lines
from floorplan_circuits.sheets.layouts import Layout, alone, grown, inner_size, layouts
from floorplan_circuits.sheets.legend import how_to_read
from floorplan_circuits.sheets.lists import Scope, boxes_in, never_tested, not_placed, shared_boxes
from floorplan_circuits.sheets.panel_column import USUAL_ROW, PanelOnSheet
from floorplan_circuits.sheets.paper import Orientation, Paper
from floorplan_circuits.sheets.parts import Parts, key_to_parts
from floorplan_circuits.sheets.sections import Section, fitting, put

BEFORE_AWAY = 1.3
"""How much smaller a plan may be to have what is to be known before a handle is turned on its own page."""
INCOMPLETE, NO_KEY, NO_SHARED, NO_PANEL, DOTS, UNSAID = 1.6, 1.4, 1.25, 3.2, 3.0, 1.7
"""How much smaller a plan may be to need no further page; to keep on its own its key, the list of shared boxes, the
panel; to show more than dots; and to show every shared box with its plate."""
LOST = 10.0
"""How much a share of labels that find no room weighs: a plan of which a tenth is lost counts as twice as small."""
ORIENTATIONS: tuple[Orientation, ...] = ("landscape", "portrait")
TOO_LARGE = "Devices are dots: on this paper the level is too small for their numbers. Print it larger."
IN_PARTS = "Devices are dots here: each part that holds any has a page of its own, as the key to the parts shows."
ELSEWHERE = {
    "parts": "the key to the parts",
    "shared": "boxes with more than one circuit",
    "unplaced": "what is not placed yet",
    "before": "what to know before you turn one off",
    "read": "how to read it",
    "tested": "what was never tested",
}
NOTE_LINES = 2


@dataclass(frozen=True, slots=True)
class Lists:
    """The lists about some levels (None: about all), each made for a width when asked.

    `is_first`: they open the map, so that what is to be known of the whole home stands among them. `parts`: those that
    the level is printed in, if it is. `drawn`: what the plan shows, where it shows more than the lists are about.
    `switching`: it has curves from switches to what they work.
    """

    findings: Findings
    theme: Theme
    scope: Scope | None
    is_first: bool = True
    parts: Parts | None = None
    drawn: Findings | None = None
    switching: bool = False
    _made: dict[tuple[str, float], Section] = field(default_factory=dict, compare=False)

    def kinds(self) -> tuple[str, ...]:
        """Return which lists there are, in their order."""
        asked = ("unplaced", *(("before",) if self.is_first else ()), "read")
        there = (kind for kind in asked if kind == "read" or self.make(kind, 90.0).blocks)
        return (*(("parts",) if self.parts is not None else ()), "shared", *there, "tested")

    def make(self, kind: str, wide: float) -> Section:
        """Return one list for a column `wide` mm wide, set once however often it is asked for."""
        key = kind, round(wide, 2)
        if key not in self._made:
            self._made[key] = self._set(kind, wide)
        return self._made[key]

    def _set(self, kind: str, wide: float) -> Section:
        scope = self.scope
        every: Scope = frozenset({None, *self.findings.home.levels.ids()})
        if kind == "read":
            drawn, here = self.drawn or self.findings, scope or every
            some_pale = any(box.id not in self.findings.home.boxes for box in boxes_in(drawn, here))
            return how_to_read(drawn, wide, self.theme, here, some_pale, self.switching)
        if kind == "parts" and self.parts is not None:
            return key_to_parts(self.parts, wide, self.theme)
        if kind == "before":
            return before_you_turn(self.findings, wide, self.theme)
        make = {"shared": shared_boxes, "unplaced": not_placed, "tested": never_tested}[kind]
        return make(self.findings, wide, self.theme, scope)


@dataclass(frozen=True, slots=True)
class LevelPage:
    """A level's page without head and foot, and what it has no room to say."""

    layout: Layout
    ink: Group
    cut: tuple[str, ...]
    plan: Plan


def level_page(
    drawer: Draws, lists: Lists, panel: PanelOnSheet | None, paper: Paper, panel_page: str | None = None
) -> LevelPage:
    """Return the page that draws the plan largest, weighed against what it would leave to further pages.

    `panel_page` is the name of an earlier page that shows the panel, told where this one has no room for it.
    """
    best: tuple[tuple[float, ...], Layout, Plan, Material] | None = None
    for _, least, layout, material in _most_promising_first(paper, panel, lists, drawer):
        drawn = drawer.largest(layout.plan, best[0][0] / least if best else None)
        if drawn is None:
            continue
        cost = _cost(layout, drawn, least, drawer.findings)
        if best is None or cost < best[0]:
            best = cost, layout, drawn, material
    assert best is not None  # the first layout has nothing to be worse than
    return _page(grown(best[1], best[3]), best[2], drawer, panel, panel_page)


def _most_promising_first(
    paper: Paper, panel: PanelOnSheet | None, lists: Lists, drawer: Draws
) -> list[tuple[float, float, Layout, Material]]:
    """Return every layout with the least it can cost and its weight, so that few plans are drawn in vain."""
    kinds, found = lists.kinds(), []
    for orientation in ORIENTATIONS:
        material = Material(*inner_size(paper, orientation), panel, kinds, lists.make, orientation)
        for layout in chain(layouts(material), alone(material) if panel else ()):
            weight = _weight(layout, panel)
            found.append((drawer.least_scale(layout.plan) * weight, weight, layout, material))
    return sorted(found, key=lambda one: one[0])


def _weight(layout: Layout, panel: PanelOnSheet | None) -> float:
    """Return by how much what stands elsewhere counts against a layout."""
    lost = layout.lost()
    weight = NO_PANEL if panel and layout.panel is None else _incomplete(lost)
    weight *= NO_KEY if "read" in lost else 1.0
    return weight * (NO_SHARED if "shared" in lost else 1.0)


def _incomplete(lost: tuple[str, ...]) -> float:
    return BEFORE_AWAY if lost == ("before",) else INCOMPLETE if lost else 1.0


def _cost(layout: Layout, drawn: Plan, weight: float, findings: Findings) -> tuple[float, ...]:
    """Weigh a layout: the scale first, then what is missing, then full rows, a wide panel and an open plan."""
    lost = 0.0 if drawn.is_overview else LOST * len(drawn.listed) / max(1, len(drawn.spots))
    unsaid = 1.0 + lost
    if drawn.listed and weight in (1.0, BEFORE_AWAY):
        unsaid *= INCOMPLETE
    if any(findings.boxes[box].shared for box in drawn.listed if box in findings.boxes):
        unsaid *= UNSAID
    dots = DOTS if drawn.is_overview else 1.0
    panel_wide = layout.panel.width if layout.panel else 0.0
    tight = max(0.0, USUAL_ROW - layout.row)
    open_plan = min(layout.plan.width, layout.plan.height)
    return drawn.scale * weight * dots * unsaid, len(layout.lost()), round(tight, 1), -panel_wide, -open_plan


# --- the ink --------------------------------------------------------------------------------------------------------


def _page(layout: Layout, drawn: Plan, drawer: Draws, panel: PanelOnSheet | None, panel_page: str | None) -> LevelPage:
    is_away = panel is not None and layout.panel is None
    marks, cut = _plan(layout, drawn, drawer, is_away, panel_page)
    marks += _lists(layout, drawer.theme)
    if layout.panel is not None and panel is not None:
        ink, cut_there = panel.ink(layout.panel, layout.row, in_head=layout.orientation == "landscape")
        marks.append(ink)
        cut += cut_there
    return LevelPage(layout, Group(tuple(marks)), cut, drawn)


def _plan(
    layout: Layout, drawn: Plan, drawer: Draws, is_panel_away: bool, panel_page: str | None
) -> tuple[list[Mark], tuple[str, ...]]:
    """Draw the plan in the middle of its area, under it the scale and what must be said; return what is cut."""
    area, (left, top, right, bottom) = layout.plan, drawn.bounds
    dx = area.x + (area.width - (right - left)) / 2 - left
    dy = area.y + (area.height - (bottom - top)) / 2 - top
    y, units, shown = area.bottom + 2.2, drawer.findings.home.units, drawn.scale / drawer.magnify
    bar, ends = scale_bar(area.x + 1, y, drawn.scale, units, drawer.theme, shown)
    marks = [moved(drawn.ink, dx, dy), bar]
    words = " ".join(_notes(layout, drawn, is_panel_away, panel_page))
    if not words:
        return marks, ()
    x = ends + 6
    lines, cut = fits((words,), max(area.right - x, 20.0), CAPTION_SIZE, lines=NOTE_LINES)
    marks += text_lines(lines, x, y - 1.2, CAPTION_SIZE, drawer.theme)
    return marks, (words,) if cut else ()


def _notes(layout: Layout, drawn: Plan, is_panel_away: bool, panel_page: str | None) -> Iterator[str]:
    """Yield what must be said beside the scale: what is too small, what stands elsewhere, what key letters mean."""
    if drawn.is_overview:
        yield IN_PARTS if "parts" in layout.kinds else TOO_LARGE
    if is_panel_away and panel_page is not None:
        yield f"The panel is on the page “{panel_page}”." if panel_page else "The panel is on an earlier page."
    away = ["some circuits"] if drawn.listed else []  # first: of a line that is too long the end is cut
    away += ["the panel"] if is_panel_away and panel_page is None else []
    away += [ELSEWHERE[kind] for kind in layout.lost() if not layout.shown(kind)]
    if away:
        yield f"On a further page: {', '.join(away)}."
    if drawn.keys:
        yield " · ".join(f"{key} {name}" for key, name in drawn.keys)


def _lists(layout: Layout, theme: Theme) -> Iterator[Mark]:
    for _, section, area in layout.sections:
        taken = fitting(section, area.height)
        if taken:
            left = len(section.blocks) - taken
            more = f"and {left} more on a further page" if left else ""
            yield put(section, section.blocks[:taken], more, (area.x, area.y), theme)
