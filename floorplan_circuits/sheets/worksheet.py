"""The worksheet: a plan of test rounds on paper, to be carried out and filled in away from the computer."""

from collections.abc import Iterable

from floorplan_circuits.drawing.ink import Group, Mark, Text
from floorplan_circuits.drawing.palette import PAPER, Theme
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.findings import RoundsInWords
from floorplan_circuits.home.days import written
from floorplan_circuits.sheets.flow import Flow
from floorplan_circuits.sheets.furniture import BODY_SIZE, CAPTION_SIZE, HEAD_RULE, caution_height, foot_caution, head
from floorplan_circuits.sheets.paper import MARGIN, Orientation, Paper, Rect
from floorplan_circuits.sheets.worksheet_blank import blank_rows
from floorplan_circuits.sheets.worksheet_grid import Grid, columns_in, grid_head, grids, look_row, room_head
from floorplan_circuits.sheets.worksheet_notes import listed_handles, notes
from floorplan_circuits.sheets.worksheet_solo import Row, solo_rows

TITLE, CAUTION = "Test rounds", "A map can be wrong. Test before you touch."
CODE_HIGH = 4.6
"""mm below the caution for the plan's code."""
GAP, TOP_GAP, FOOT_GAP = 3.0, 3.0, 2.5
BEFORE_ALONE, LEAST_ALONE = 9.0, 40.0
"""mm over a later part, and what must be left below its words for it to begin on a page that is begun."""


def worksheet(words: RoundsInWords, paper: Paper, made_on: str, theme: Theme = PAPER) -> Sheet:
    """Return the worksheet, upright; on its side where that sets more rounds beside each other than stand upright.

    `made_on` is the day it is made, in ISO 8601. Rounds past what one page takes have their own run of pages, on which
    every feed stands again.
    """
    width, height = paper.size(_orientation(words, paper))
    wide, foot = width - 2 * MARGIN, caution_height(width - 2 * MARGIN)
    caution_at = height - MARGIN - CODE_HIGH - foot
    flow = Flow(MARGIN, HEAD_RULE + TOP_GAP, caution_at - FOOT_GAP)
    runs = grids(words, wide, theme)
    for at, block in enumerate(notes(words, wide, theme)):
        flow.add(block, gap=0.5 if at else 0.0)
    if any(grid.listed for grid in runs):
        for block in listed_handles(words.rounds, wide, theme):
            flow.add(block)
    for at, grid in enumerate(runs):
        if at:
            flow.new_page()
        _fill(flow, words, grid)
    _fill_alone(flow, solo_rows(words.solo, wide, theme))
    _fill_alone(flow, blank_rows(words.to_try, wide, theme))
    inks, cut, pages = flow.ink(), list[str](), list[Page]()
    for number, ink in enumerate(inks, 1):
        caption = f"Worksheet {number} of {len(inks)}" if len(inks) > 1 else "Worksheet"
        area = Rect(MARGIN, 0, wide, 0)
        top, lost = head(area, TITLE, caption, words.home, f"Made {written(made_on)}", theme)
        below = foot_caution(Rect(MARGIN, caution_at, wide, foot), theme, CAUTION)
        marks = (top, ink, below, *_code(words.code, caption, width, height, theme))
        pages.append(Page(width, height, Group(marks), caption))
        cut += lost
    return Sheet(f"{words.home or 'Home'}: test rounds", tuple(pages), tuple(dict.fromkeys(cut)))


def _orientation(words: RoundsInWords, paper: Paper) -> Orientation:
    """Return upright where all rounds fit beside each other so, or where lying down would set no more of them."""
    upright, lying = (columns_in(wide - 2 * MARGIN, words.rounds) for wide in (paper.short, paper.long))
    return "portrait" if upright >= min(len(words.rounds), lying) else "landscape"


def _fill(flow: Flow, words: RoundsInWords, grid: Grid) -> None:
    """Put down a run of columns with every feed, room by room, under heads that each page repeats."""
    over = grid_head(grid, "Walk the rooms in this order" if not grid.listed else "Handles: see the list before")
    first = True
    for room in words.walk:
        head_of_room = room_head(room, grid)
        for look in room.looks:
            flow.add(look_row(look, grid), (over, head_of_room), GAP if first else 0.0)
            first = False


def _fill_alone(flow: Flow, rows: Iterable[Row]) -> None:
    """Put down a later part: below the one before where there is room for its beginning, else on a new page."""
    for at, (block, heads) in enumerate(rows):
        if not at and flow.room < BEFORE_ALONE + block.height + LEAST_ALONE:
            flow.new_page()
        flow.add(block, heads, gap=0.0 if at else BEFORE_ALONE)


def _code(code: str, caption: str, width: float, height: float, theme: Theme) -> tuple[Mark, ...]:
    """Draw the plan's code in the foot, by which its answers are taken back, and the page."""
    base = height - MARGIN - 0.8
    return (
        Text((MARGIN, base), f"Plan {code}", BODY_SIZE + 0.8, True, theme.ink),
        Text((width - MARGIN, base), caption, CAPTION_SIZE, False, theme.soft, "end"),
    )
