"""The block of a close-up that tells what its cables, and so the box, would be with handles off."""

from collections.abc import Iterator

from floorplan_circuits.drawing.close_up_facts import Contents, Strand
from floorplan_circuits.drawing.close_up_rows import shortened
from floorplan_circuits.drawing.close_up_words import BODY_SIZE, HOW_SIZE, TABLE_PLATE, Words, entries, set_lines
from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, moved, rectangle, scaled
from floorplan_circuits.drawing.lettering import width
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.panel_body import is_found_off
from floorplan_circuits.drawing.phrases import capital, listed
from floorplan_circuits.drawing.plan_what_if import NOT_OPENED, liveness
from floorplan_circuits.drawing.plates import Plate, plate, text_height
from floorplan_circuits.findings import BoxState, Findings, WhatIf, state_in_words

MOST_NAMED = 4
HEAD_SIZE, SO_SIZE = 10.0, 9.4
PAD, ROW_GAP, CORNER = 2.4, 1.2, 2.0
PLATE_COLUMN = 20.0
NEUTRAL = "Neutral not known: keep its splices closed until tested."
Row = tuple[Plate, str, bool]
"""A plate, the words beside it, and whether they are bold: all that is not said to be dead is."""


def with_off(findings: Findings, what_if: WhatIf) -> str:
    """Return which handles are off, what was found so left out: 'With 5 and 15A off'."""
    resting = {breaker.id for breaker in findings.home.breakers if is_found_off(breaker)}
    turned = [
        findings.marks.get(one, "a handle that is gone") for one in findings.marks if one in what_if.off - resting
    ]
    if not turned:
        return "With nothing turned off"
    return f"With {f'{len(turned)} handles' if len(turned) > MOST_NAMED else listed(turned)} off"


def when_off(contents: Contents, findings: Findings, what_if: WhatIf, wide: float, theme: Theme) -> Words:
    """Set what each cable would be, then the box, in a column of this width; nothing for a box not built yet."""
    found = what_if.boxes.get(contents.box.id)
    if found is None:
        return Words(Group((), None, "with handles off"), 0.0)
    marks: list[Mark] = []
    y = set_lines((with_off(findings, what_if),), 0, 0, wide, HEAD_SIZE, theme.ink, marks, bold=True) + 1.4
    inner: list[Mark] = []
    foot = y + PAD
    for row in _rows(contents, what_if, found.state):
        foot = _row(row, foot, wide, theme, inner) + ROW_GAP
    foot += PAD - ROW_GAP
    marks.append(Shape(rectangle(0, y, wide, foot - y, CORNER), theme.paper, Pen(0.35, theme.ink)))
    marks += inner
    so = f"So the box is: {found.says.replace(': ', ', ')}."
    y = set_lines((so,), 0, foot + 1.6, wide, SO_SIZE, theme.ink, marks, bold=True)
    why = [f"{capital(one)}." for one in found.because]
    why += [] if found.neutral_known or found.state == "live" else [NEUTRAL]
    y = set_lines(why, 0, y + 0.4, wide, HOW_SIZE, theme.soft, marks)
    return Words(Group(tuple(marks), None, "with handles off"), y)


def _rows(contents: Contents, what_if: WhatIf, state: BoxState) -> Iterator[Row]:
    for _, strand in entries(contents):
        yield _told(strand, contents.box.id, what_if)
    if state == "not opened":
        yield NOT_OPENED, state_in_words("not opened"), True


def _told(strand: Strand, box: int, what_if: WhatIf) -> Row:
    shows = liveness(strand.feed, box, what_if, frozenset({box}))
    found = what_if.feeds.get(strand.feed) if strand.feed is not None else None
    state: BoxState = found.state if found is not None else "unknown"
    shown = Plate(strand.plate.words, strand.plate.standing, strand.plate.passing, shows)
    return shown, state_in_words(state), state != "should be dead"


def _row(row: Row, y: float, wide: float, theme: Theme, marks: list[Mark]) -> float:
    """Set one row from its top and return where it ends."""
    shown, words, bold = row
    column = min(PLATE_COLUMN, wide * 0.3)
    cut = shortened(Strand(None, shown), TABLE_PLATE, column - 2.0).plate if shown.words else shown
    size = min(TABLE_PLATE.plate, (column - 1.0) / cut.width)
    left = PAD + column
    high = max(TABLE_PLATE.plate_high, text_height(BODY_SIZE))
    inner: list[Mark] = [moved(scaled(plate(cut, (0.0, 0.0), theme), size), PAD + column / 2 - 0.5, y + high / 2)]
    one_line = width(words, BODY_SIZE, bold) <= wide - left - PAD
    top = y + (high - text_height(BODY_SIZE) * 1.1) / 2 if one_line else y
    foot = set_lines((words,), left, top, wide - left - PAD, BODY_SIZE, theme.ink, inner, bold=bold)
    marks.append(Group(tuple(inner), None, f"{cut.words} {words}".strip()))
    return max(foot, y + high)
