"""The last part of a worksheet: a row for each handle that no feed is laid to yet, to be filled in and tried alone."""

from collections.abc import Iterator, Sequence

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.findings import ToTry
from floorplan_circuits.sheets.flow import Head
from floorplan_circuits.sheets.furniture import BODY_SIZE, CAPTION_SIZE, text_lines
from floorplan_circuits.sheets.sections import Block
from floorplan_circuits.sheets.worksheet_grid import NUMBER_SIZE
from floorplan_circuits.sheets.worksheet_notes import headed, tick_box
from floorplan_circuits.sheets.worksheet_solo import TICK, TICK_WIDE, TICKS, Row

TITLE = "To fill in: each alone"
HOW = (
    "Write on the line the marks of the boxes that the rounds lay to a handle. Then try that handle alone: look at "
    "them while all is on, with it alone off, and with it back on, the tester proved before and after. A fuse is in no "
    "round: write what goes dark when it alone is out. Record it in the program with its breaker, one by one."
)
COLUMNS = ("tester proved", *TICKS, "proved again")
"""What is ticked of each handle, in the order it is done: without the tester's own two nothing counts."""
TITLE_HIGH, LEAST_HIGH = 6.0, 9.2
NUMBER_WIDE = 17.0


def blank_rows(to_try: Sequence[ToTry], wide: float, theme: Theme) -> Iterator[Row]:
    """Yield how it is done, then a row to write on for each handle."""
    if not to_try:
        return
    lines = wrap(HOW, wide, BODY_SIZE)
    told = Block(Group(tuple(text_lines(lines, 0, 0, BODY_SIZE, theme))), len(lines) * text_height(BODY_SIZE) + 2.0)
    yield headed(TITLE, told, wide, theme), ()
    titles = _titles(wide, theme)
    head = Head(titles, titles)
    numbers = max(NUMBER_WIDE, *(width(one.handle, NUMBER_SIZE, True) + 4.0 for one in to_try))
    for one in to_try:
        yield _row(one, numbers, wide, theme), (head,)


def _titles(wide: float, theme: Theme) -> Block:
    """Draw what the columns are for; every page repeats it."""
    marks: list[Mark] = [Shape(rectangle(0, 0, wide, TITLE_HIGH), theme.furniture, Pen(0.18, theme.line))]
    baseline = (TITLE_HIGH + cap_height(CAPTION_SIZE)) / 2
    marks.append(Text((1.5, baseline), "Off alone", CAPTION_SIZE, False, theme.soft))
    for at, word in enumerate(COLUMNS):
        marks.append(Text((_middle(at, wide), baseline), word, CAPTION_SIZE, False, theme.soft, "middle"))
    return Block(Group(tuple(marks)), TITLE_HIGH)


def _middle(tick: int, wide: float) -> float:
    return wide - (len(COLUMNS) - tick - 0.5) * TICK_WIDE


def _row(one: ToTry, numbers: float, wide: float, theme: Theme) -> Block:
    """Draw a handle's number, what to mind with it, a line to write on and the boxes to tick."""
    right = wide - len(COLUMNS) * TICK_WIDE - 3.0
    said = wrap(one.how, right - numbers, CAPTION_SIZE) if one.how else []
    said_high = len(said) * text_height(CAPTION_SIZE)
    high = max(LEAST_HIGH, said_high + 7.5)
    marks: list[Mark] = [Text((1.5, (high + cap_height(NUMBER_SIZE)) / 2), one.handle, NUMBER_SIZE, True, theme.ink)]
    marks += text_lines(said, numbers, 0.8, CAPTION_SIZE, theme)
    line = high - 1.8
    marks.append(Text((numbers, line), "on it:", CAPTION_SIZE, False, theme.soft))
    start = numbers + width("on it:", CAPTION_SIZE) + 1.5
    marks.append(Shape(polyline((start, line + 0.3), (right, line + 0.3)), None, Pen(0.25, theme.ink)))
    for at in range(len(COLUMNS)):
        marks.append(tick_box(_middle(at, wide) - TICK / 2, (high - TICK) / 2, TICK, theme))
    marks.append(Shape(polyline((0, high), (wide, high)), None, Pen(0.18, theme.line)))
    return Block(Group(tuple(marks)), high)
