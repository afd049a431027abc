"""The pages of a level that is printed in parts: each part as large as it must be for its numbers."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from floorplan_circuits.drawing.ink import Bounds, Group, Mark, moved
from floorplan_circuits.drawing.lettering import fits
from floorplan_circuits.drawing.plan import DOTS_FROM, Plan
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.building import Level
from floorplan_circuits.sheets.drawers import SCALES, Drawer, fits_in
from floorplan_circuits.sheets.furniture import CAPTION_SIZE, caution_height, scale_bar, text_lines
from floorplan_circuits.sheets.layouts import FOOT_GAP, PLAN_TOP, inner_size
from floorplan_circuits.sheets.paper import MARGIN, Orientation, Paper, Rect
from floorplan_circuits.sheets.parts import Parts, cut_up, only_in, small_key

KEY_ROOM = (62.0, 26.0)
BELOW = KEY_ROOM[1] + 3.0
"""mm under a part's plan for the scale, the words and the small key."""
OUTSIDE = 9.0
"""mm on each side of a part's walls for labels that stand outside them."""
LOST_AT_MOST = 0.03
"""The share of a part's boxes that a list may tell for want of room before the parts are drawn larger."""
NOTE_LINES = 3


@dataclass(frozen=True, slots=True)
class PartPage:
    """A part's page without head and foot; `number` counts from 1."""

    number: int
    width: float
    height: float
    ink: Group
    plan: Plan


@dataclass(frozen=True, slots=True)
class Cut:
    """How a level is cut up: its parts, the scale (house mm a mm of the layout) and how the paper lies."""

    parts: Parts
    scale: float
    orientation: Orientation


def how_to_cut(whole: Drawer, paper: Paper) -> Cut | None:
    """Return the fewest parts of which the fullest still has room for its numbers, or the largest scale there is.

    A level that holds neither a box nor a panel has no parts: rooms alone are seen on the page of the whole.
    """
    cut = None
    for scale in reversed(_scales(paper)):
        cut = _fewest(whole.findings, whole.level, paper, scale)
        if not cut.parts.cells:
            return None
        drawn = _of_part(whole, _fullest(whole.findings, whole.level, cut.parts)).drawn(scale)
        if len(drawn.listed) <= LOST_AT_MOST * max(1, len(drawn.spots)):
            return cut
    return cut


def _of_part(whole: Drawer, bounds: Bounds) -> Drawer:
    """Return who draws one part of a level as the whole is drawn."""
    return replace(whole, findings=only_in(whole.findings, whole.level, bounds), _plans={}, _extent=None)


def _scales(paper: Paper) -> list[float]:
    """Return the scales at which symbols are drawn, in house mm a mm of the layout, the largest plan first."""
    return [one * paper.magnify for one in SCALES if one * paper.magnify < DOTS_FROM]


def _fewest(findings: Findings, level: Level, paper: Paper, scale: float) -> Cut:
    ways: tuple[Orientation, ...] = ("landscape", "portrait")
    found = []
    for orientation in ways:
        area = plan_area(paper, orientation)
        largest = (area.width - 2 * OUTSIDE) * scale, (area.height - 2 * OUTSIDE) * scale
        found.append(Cut(cut_up(findings, level, largest), scale, orientation))
    return min(found, key=lambda cut: len(cut.parts.bounds()))


def _fullest(findings: Findings, level: Level, parts: Parts) -> Bounds:
    """Return the part that most boxes are in."""
    places = [box.at for box in findings.home.boxes if box.level == level.id and box.at is not None]

    def count(bounds: Bounds) -> int:
        left, top, right, bottom = bounds
        return sum(left <= x < right and top <= y < bottom for x, y in places)

    return max(parts.bounds(), key=count)


def plan_area(paper: Paper, orientation: Orientation) -> Rect:
    """Return where a part's plan stands, in mm of the layout."""
    width, height = inner_size(paper, orientation)
    foot = height - MARGIN - caution_height(width - 2 * MARGIN) - FOOT_GAP
    return Rect(MARGIN, PLAN_TOP, width - 2 * MARGIN, foot - BELOW - PLAN_TOP)


def part_pages(whole: Drawer, cut: Cut, paper: Paper) -> Iterator[PartPage]:
    """Yield the pages of the parts of a level, drawn as the whole is."""
    width, height = inner_size(paper, cut.orientation)
    area = plan_area(paper, cut.orientation)
    for place, bounds in enumerate(cut.parts.bounds()):
        drawer = _of_part(whole, bounds)
        drawn = _largest(drawer, area, [scale for scale in _scales(paper) if scale >= cut.scale])
        yield PartPage(place + 1, width, height, _ink(drawn, area, cut.parts, place, drawer), drawn)


def _largest(drawer: Drawer, area: Rect, scales: list[float]) -> Plan:
    """Return the plan at the first of these scales that fits its area, at the last if none does."""
    for scale in scales[:-1]:
        if fits_in(drawer.drawn(scale), area):
            return drawer.drawn(scale)
    return drawer.drawn(scales[-1])


def _ink(drawn: Plan, area: Rect, parts: Parts, place: int, drawer: Drawer) -> Group:
    left, top, right, bottom = drawn.bounds
    dx = area.x + (area.width - (right - left)) / 2 - left
    dy = area.y + (area.height - (bottom - top)) / 2 - top
    y = area.bottom + 2.2
    units, shown = drawer.findings.home.units, drawn.scale / drawer.magnify
    bar, _ = scale_bar(area.x + 1, y, drawn.scale, units, drawer.theme, shown)
    key, _ = small_key(parts, KEY_ROOM, drawer.theme, here=place)
    words = " ".join(_notes(parts, place, drawn, drawer.switching))
    lines, _ = fits((words,), area.width - KEY_ROOM[0] - 8, CAPTION_SIZE, lines=NOTE_LINES)
    marks: list[Mark] = [moved(drawn.ink, dx, dy), bar, moved(key, area.right - KEY_ROOM[0], y - 0.6)]
    return Group((*marks, *text_lines(lines, area.x, y + 7.0, CAPTION_SIZE, drawer.theme)))


def _notes(parts: Parts, place: int, drawn: Plan, switching: bool) -> Iterator[str]:
    """Yield which parts lie beside this one, how far curves go, and what its key letters mean."""
    told = [f"{words} {at + 1}" for words, at in parts.beside(place)]
    if told:
        yield f"Parts beside this one: {', '.join(told)}."
    if switching:
        yield "Curves end where the part does."
    if drawn.listed:
        yield "On a further page: some circuits."
    if drawn.keys:
        yield " · ".join(f"{key} {name}" for key, name in drawn.keys)
