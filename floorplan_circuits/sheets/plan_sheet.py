"""The plan alone: a page a level, as large as the paper lets it be, its scale below."""

from collections.abc import Iterator

from floorplan_circuits.drawing.ink import Mark, moved
from floorplan_circuits.drawing.lettering import fits
from floorplan_circuits.drawing.palette import PAPER, Theme
from floorplan_circuits.drawing.plan import Plan
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.building import Level
from floorplan_circuits.sheets.drawers import Drawer
from floorplan_circuits.sheets.framed import Framed
from floorplan_circuits.sheets.furniture import CAPTION_SIZE, caution_height, scale_bar, text_lines
from floorplan_circuits.sheets.layouts import FOOT_GAP, PLAN_TOP, SCALE_BAR, inner_size
from floorplan_circuits.sheets.level_page import NOTE_LINES, ORIENTATIONS, TOO_LARGE
from floorplan_circuits.sheets.paper import MARGIN, Orientation, Paper, Rect
from floorplan_circuits.sheets.wall_map import shown_levels

LEGS = "Dashed curves join a switch and what it works; they say nothing of circuits or cables."


def plan_sheet(findings: Findings, paper: Paper, made_on: str, theme: Theme = PAPER, switching: bool = False) -> Sheet:
    """Return the plan of each level that has something drawn, the lowest first, each as the paper shows it largest.

    `switching` adds what each switch works.
    """
    frame = Framed.of(findings, paper, made_on, theme)
    pages, cut, lost = list[Page](), list[str](), list[str]()
    for level in shown_levels(findings):
        drawer = Drawer(findings, level, paper.magnify, theme, switching=switching)
        ways = [(_drawn(drawer, paper, way), way) for way in ORIENTATIONS]
        drawn, way = min(ways, key=lambda found: found[0].scale)
        marks, was_cut = _ink(drawn, drawer, _area(paper, way))
        size = inner_size(paper, way)
        head = Rect(MARGIN, 0, size[0] - 2 * MARGIN, 0)
        page, cut_there = frame.page(size, head, marks, (level.name, "Plan"))
        pages.append(page)
        cut += [*was_cut, *cut_there]
        lost += _lost(drawn, level, findings)
    return Sheet(f"{findings.home.name or 'Home'}: plan", tuple(pages), tuple(dict.fromkeys(cut)), tuple(lost))


def _area(paper: Paper, way: Orientation) -> Rect:
    width, height = inner_size(paper, way)
    foot = height - MARGIN - caution_height(width - 2 * MARGIN) - FOOT_GAP
    return Rect(MARGIN, PLAN_TOP, width - 2 * MARGIN, foot - SCALE_BAR - 2.0 - PLAN_TOP)


def _drawn(drawer: Drawer, paper: Paper, way: Orientation) -> Plan:
    drawn = drawer.largest(_area(paper, way))
    assert drawn is not None  # without a limit there is always one
    return drawn


def _lost(drawn: Plan, level: Level, findings: Findings) -> Iterator[str]:
    """Yield the labels that are not on the plan: there is no list here that could tell them."""
    names = (*drawn.not_placed, *(findings.home.boxes[box].mark for box in drawn.listed))
    yield from (f"{level.name}: {name}" for name in dict.fromkeys(names))


def _ink(drawn: Plan, drawer: Drawer, area: Rect) -> tuple[list[Mark], tuple[str, ...]]:
    left, top, right, bottom = drawn.bounds
    dx = area.x + (area.width - (right - left)) / 2 - left
    dy = area.y + (area.height - (bottom - top)) / 2 - top
    y, shown = area.bottom + 2.2, drawn.scale / drawer.magnify
    bar, ends = scale_bar(area.x + 1, y, drawn.scale, drawer.findings.home.units, drawer.theme, shown)
    words = " ".join(_notes(drawn, drawer.switching))
    marks: list[Mark] = [moved(drawn.ink, dx, dy), bar]
    if not words:
        return marks, ()
    lines, cut = fits((words,), area.right - ends - 6, CAPTION_SIZE, lines=NOTE_LINES)
    marks += text_lines(lines, ends + 6, y - 1.2, CAPTION_SIZE, drawer.theme)
    return marks, (words,) if cut else ()


def _notes(drawn: Plan, switching: bool) -> Iterator[str]:
    if switching and not drawn.is_overview:
        yield LEGS
    if drawn.is_overview:
        yield TOO_LARGE
    if drawn.listed:
        yield "Some circuits find no room here: the wall map lists them."
    if drawn.keys:
        yield " · ".join(f"{key} {name}" for key, name in drawn.keys)
