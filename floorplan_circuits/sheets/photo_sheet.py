"""The photo of each panel with a number on every breaker, and beside it its list: the drawn face with all it knows."""

from floorplan_circuits.drawing.ink import Mark, Pen, Shape, moved, rectangle
from floorplan_circuits.drawing.lettering import wrap
from floorplan_circuits.drawing.palette import PAPER, Theme
from floorplan_circuits.drawing.panel_photo import PhotoDrawn, panel_photo
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.power import Panel
from floorplan_circuits.sheets.framed import Framed
from floorplan_circuits.sheets.furniture import CAPTION_SIZE, caution_height, text_lines
from floorplan_circuits.sheets.layouts import FOOT_GAP, PANEL_WIDTHS, inner_size
from floorplan_circuits.sheets.panel_column import LEAST_ROW, TITLE_HIGH, PanelOnSheet
from floorplan_circuits.sheets.paper import MARGIN, Orientation, Paper, Rect

LIST_WIDE, GUTTER, TOP = 92.0, 6.0, 20.0
MOST_LIST = PANEL_WIDTHS[-1]
"""mm: the list is as wide as the photo leaves room for, between these two."""
STRAIGHT = "The numbers are put where the spaces are said to be: see that each stands on its own breaker."
AS_TAKEN = "The corners of the breakers are not marked yet: the photo is as it was taken, without numbers."


def photo_sheet(
    findings: Findings, paper: Paper, made_on: str, theme: Theme = PAPER, panel: Panel | None = None
) -> Sheet:
    """Return a page for each panel that has a photo, or for one of them: the photo left, its list right."""
    frame = Framed.of(findings, paper, made_on, theme)
    pages, cut = list[Page](), list[str]()
    for one in [panel] if panel is not None else list(findings.home.panels):
        found = max(_ways(findings, one, paper), key=lambda way: way[1].width * way[1].height, default=None)
        if found is None:
            continue
        way, drawn = found
        size, area = inner_size(paper, way), _area(paper, way)
        marks, was_cut = _ink(findings, one, area, drawn, theme)
        page, cut_there = frame.page(size, Rect(MARGIN, 0, size[0] - 2 * MARGIN, 0), marks, (one.name, "Photo"))
        pages.append(page)
        cut += [*was_cut, *cut_there]
    return Sheet(f"{findings.home.name or 'Home'}: photo of the panel", tuple(pages), tuple(dict.fromkeys(cut)))


def _ways(findings: Findings, panel: Panel, paper: Paper) -> list[tuple[Orientation, PhotoDrawn]]:
    """Return how large the photo comes out upright and lying; nothing for a panel without one."""
    ways: list[tuple[Orientation, PhotoDrawn]] = []
    for way in ("portrait", "landscape"):
        area = _area(paper, way)
        room = area.width - LIST_WIDE - GUTTER, area.height - _note_height(area.width - LIST_WIDE - GUTTER)
        drawn = panel_photo(findings, panel, room)
        if drawn is not None:
            ways.append((way, drawn))
    return ways


def _area(paper: Paper, way: Orientation) -> Rect:
    """Return the room between head and caution."""
    wide, high = inner_size(paper, way)
    foot = high - MARGIN - caution_height(wide - 2 * MARGIN) - FOOT_GAP
    return Rect(MARGIN, TOP, wide - 2 * MARGIN, foot - TOP)


def _note_height(wide: float) -> float:
    return max(len(wrap(words, wide, CAPTION_SIZE)) for words in (STRAIGHT, AS_TAKEN)) * text_height(CAPTION_SIZE) + 2


def _ink(
    findings: Findings, panel: Panel, area: Rect, drawn: PhotoDrawn, theme: Theme
) -> tuple[list[Mark], tuple[str, ...]]:
    """Draw the photo in the middle of its part, the panel's face at its side; return also what had to be cut."""
    list_wide = max(LIST_WIDE, min(MOST_LIST, area.width - drawn.width - GUTTER))
    room = area.width - list_wide - GUTTER
    x = area.x + (room - drawn.width) / 2
    edge = Shape(rectangle(x, area.y, drawn.width, drawn.height), None, Pen(0.35, theme.ink))
    note = wrap(STRAIGHT if drawn.tags else AS_TAKEN, room, CAPTION_SIZE)
    marks: list[Mark] = [moved(drawn.ink, x, area.y), edge]
    marks += text_lines(note, area.x, area.y + drawn.height + 1.5, CAPTION_SIZE, theme)
    listed = PanelOnSheet(findings, panel, theme)
    column = Rect(area.right - list_wide, area.y + TITLE_HIGH, list_wide, area.height - TITLE_HIGH)
    row = max(listed.row_in(column.width, column.height), LEAST_ROW)
    ink, cut = listed.ink(column, row, in_head=False)
    return [*marks, ink], cut
