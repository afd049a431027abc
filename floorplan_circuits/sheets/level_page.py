"""One level's page of the wall map: the layout that draws its plan largest, and the ink of it."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import chain

from floorplan_circuits.drawing.ink import Group, Mark, moved
from floorplan_circuits.drawing.lettering import fits
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plan import Plan, plan
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.building import Level
from floorplan_circuits.sheets.before import before_you_turn
from floorplan_circuits.sheets.columns import Material
from floorplan_circuits.sheets.furniture import CAPTION_SIZE, scale_bar, text_lines
from floorplan_circuits.sheets.layouts import Layout, alone, grown, inner_size, layouts
from floorplan_circuits.sheets.legend import how_to_read, how_we_know
from floorplan_circuits.sheets.lists import Scope, never_tested, not_placed, shared_boxes
from floorplan_circuits.sheets.panel_column import USUAL_ROW, PanelOnSheet
from floorplan_circuits.sheets.paper import Orientation, Paper, Rect
from floorplan_circuits.sheets.sections import Section, fitting, put

SCALES = (50, 60, 75, 90, 100, 125, 150, 175, 200, 250, 300, 400, 500, 750, 1000, 2000, 5000)
BEFORE_AWAY = 1.2
"""How much smaller a plan may be to have what is to be known before a handle is turned on its own page."""
INCOMPLETE, NO_KEY, NO_SHARED, NO_PANEL, DOTS, UNSAID = 1.6, 1.4, 1.25, 3.2, 3.0, 1.4
"""How much smaller a plan may be to need no further page; to keep on its own its key, the list of shared boxes, the
panel; to show more than dots; and to show every shared box with its plate."""
LOST = 10.0
"""How much a share of labels that find no room weighs: a plan of which a tenth is lost counts as twice as small."""
ORIENTATIONS: tuple[Orientation, ...] = ("landscape", "portrait")
TOO_LARGE = "Devices are dots: on this paper the level is too small for their numbers. Print it larger."
ELSEWHERE = {
    "shared": "boxes with more than one circuit",
    "unplaced": "what is not placed yet",
    "before": "what to know before you turn one off",
    "read": "how to read it",
    "known": "how we know",
    "tested": "what was never tested",
}
NOTE_LINES = 2


@dataclass(frozen=True, slots=True)
class Lists:
    """The lists about some levels (None: about all), each made for a width when asked.

    `is_first`: they open the map, so that what is to be known of the whole home stands among them.
    """

    findings: Findings
    theme: Theme
    scope: Scope | None
    is_first: bool = True

    def kinds(self) -> tuple[str, ...]:
        """Return which lists there are, in their order."""
        asked = ("unplaced", *(("before",) if self.is_first else ()), "read", "known")
        there = (kind for kind in asked if kind == "read" or self.make(kind, 90.0).blocks)
        return ("shared", *there, "tested")

    def make(self, kind: str, wide: float) -> Section:
        """Return one list for a column `wide` mm wide."""
        scope = self.scope
        if kind in ("read", "known"):
            every: Scope = frozenset({None, *self.findings.home.levels.ids()})
            key = how_to_read if kind == "read" else how_we_know
            return key(self.findings, wide, self.theme, every if scope is None else scope)
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
    not_placed: tuple[str, ...]
    listed: tuple[int, ...]


def level_page(
    findings: Findings, level: Level, lists: Lists, panel: PanelOnSheet | None, paper: Paper, theme: Theme
) -> LevelPage:
    """Return the page that draws the level largest, weighed against what it would leave to further pages."""
    drawer = Drawer(findings, level, paper.magnify, theme)
    best: tuple[tuple[float, ...], Layout, Plan, Material] | None = None
    for _, least, layout, material in _most_promising_first(paper, panel, lists, drawer):
        drawn = drawer.largest(layout.plan, best[0][0] / least if best else None)
        if drawn is None:
            continue
        cost = _cost(layout, drawn, least, findings)
        if best is None or cost < best[0]:
            best = cost, layout, drawn, material
    assert best is not None  # the first layout has nothing to be worse than
    return _page(grown(best[1], best[3]), best[2], drawer, panel)


def _most_promising_first(
    paper: Paper, panel: PanelOnSheet | None, lists: Lists, drawer: "Drawer"
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
    weight *= NO_KEY if {"read", "known"} & set(lost) else 1.0
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


@dataclass(slots=True)
class Drawer:
    """Draws a level at the scales that are asked for, each once."""

    findings: Findings
    level: Level
    magnify: float
    theme: Theme
    _plans: dict[float, Plan] = field(default_factory=dict)
    _extent: tuple[float, float] | None = None

    def largest(self, area: Rect, most: float | None = None) -> Plan | None:
        """Return the largest plan that fits; None once its scale would be over `most`."""
        least = self.least_scale(area)
        for full in (scale * self.magnify for scale in SCALES):
            if most is not None and full > most:
                return None
            if full >= least and _fits(self.drawn(full), area):
                return self.drawn(full)
        return self.drawn(SCALES[-1] * self.magnify)

    def least_scale(self, area: Rect) -> float:
        """Return the first scale at which the walls alone fit: no larger plan is worth a try."""
        wide, high = self._walls()
        scales = (scale * self.magnify for scale in SCALES)
        fitting = (scale for scale in scales if wide / scale <= area.width and high / scale <= area.height)
        return next(fitting, SCALES[-1] * self.magnify)

    def _walls(self) -> tuple[float, float]:
        """Return how wide and how high the walls are, in house mm."""
        if self._extent is None:
            ends = [end for wall in self.findings.walls if wall.level == self.level.id for end in (wall.a, wall.b)]
            xs, ys = [x for x, _ in ends], [y for _, y in ends]
            self._extent = (max(xs) - min(xs), max(ys) - min(ys)) if ends else (0.0, 0.0)
        return self._extent

    def drawn(self, scale: float) -> Plan:
        """Return the plan at a scale in house mm a mm of the layout."""
        if scale not in self._plans:
            self._plans[scale] = plan(self.findings, self.level.id, scale, self.theme)
        return self._plans[scale]


def _fits(drawn: Plan, area: Rect) -> bool:
    left, top, right, bottom = drawn.bounds
    return right - left <= area.width and bottom - top <= area.height


# --- the ink --------------------------------------------------------------------------------------------------------


def _page(layout: Layout, drawn: Plan, drawer: Drawer, panel: PanelOnSheet | None) -> LevelPage:
    marks, cut = _plan(layout, drawn, drawer)
    marks += _lists(layout, drawer.theme)
    if layout.panel is not None and panel is not None:
        ink, cut_there = panel.ink(layout.panel, layout.row, in_head=layout.orientation == "landscape")
        marks.append(ink)
        cut += cut_there
    return LevelPage(layout, Group(tuple(marks)), cut, drawn.not_placed, drawn.listed)


def _plan(layout: Layout, drawn: Plan, drawer: Drawer) -> tuple[list[Mark], tuple[str, ...]]:
    """Draw the plan in the middle of its area, under it the scale and the key letters; return what is cut."""
    area, (left, top, right, bottom) = layout.plan, drawn.bounds
    dx = area.x + (area.width - (right - left)) / 2 - left
    dy = area.y + (area.height - (bottom - top)) / 2 - top
    y, units, shown = area.bottom + 2.2, drawer.findings.home.units, drawn.scale / drawer.magnify
    bar, ends = scale_bar(area.x + 1, y, drawn.scale, units, drawer.theme, shown)
    marks = [moved(drawn.ink, dx, dy), bar]
    words = " ".join(_notes(layout, drawn))
    if not words:
        return marks, ()
    x = ends + 6
    lines, cut = fits((words,), max(area.right - x, 20.0), CAPTION_SIZE, lines=NOTE_LINES)
    marks += text_lines(lines, x, y - 1.2, CAPTION_SIZE, drawer.theme)
    return marks, (words,) if cut else ()


def _notes(layout: Layout, drawn: Plan) -> Iterator[str]:
    """Yield what must be said beside the scale: what is too small, what stands elsewhere, what key letters mean."""
    if drawn.is_overview:
        yield TOO_LARGE
    away = ["some circuits"] if drawn.listed else []  # first: of a line that is too long the end is cut
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
