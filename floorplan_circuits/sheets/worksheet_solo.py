"""The second part of a worksheet: one handle off at a time, and boxes to tick for what makes a test count."""

from collections.abc import Iterator, Sequence

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.findings import Alone, Look
from floorplan_circuits.sheets.flow import Head
from floorplan_circuits.sheets.furniture import BODY_SIZE, CAPTION_SIZE, text_lines
from floorplan_circuits.sheets.sections import Block
from floorplan_circuits.sheets.worksheet_grid import CELL_HIGH, NUMBER_SIZE, look_label
from floorplan_circuits.sheets.worksheet_notes import headed, tick_box

TITLE = "Then each alone"
HOW = (
    "One handle at a time: prove the tester on a known live point, look at everything below it while all is on, turn "
    "this handle alone off, look again, turn it back on, look once more, and prove the tester again. Tick only what "
    "was seen. A feed counts as tested only with all of its ticks and both of the tester’s; where two hots feed it, "
    "each is shown against ground. Nothing is opened for it. What the rounds suggest besides is on the next plan."
)
TICKS = ("live before", "dead with it off", "live again")
TICK, TICK_WIDE = 5.0, 19.0
TESTER = ("tester proved before", "and after")
HANDLE_HIGH = 8.0

Row = tuple[Block, tuple[Head, ...]]
"""A block, and the heads that it stands under."""


def solo_rows(solo: Sequence[Alone], wide: float, theme: Theme) -> Iterator[Row]:
    """Yield what the second part is made of: how it is done, then each handle with its feeds."""
    if not solo:
        return
    lines = wrap(HOW, wide, BODY_SIZE)
    told = Block(Group(tuple(text_lines(lines, 0, 0, BODY_SIZE, theme))), len(lines) * text_height(BODY_SIZE) + 2.0)
    yield headed(TITLE, told, wide, theme), ()
    for one in solo:
        head = Head(_handle_row(one, "", wide, theme), _handle_row(one, ", continued", wide, theme))
        for look in one.looks:
            yield _look_row(look, wide, theme), (head,)


def _handle_row(one: Alone, more: str, wide: float, theme: Theme) -> Block:
    """Draw a handle's own row: its number, the tester's two boxes, and what the ticks below stand for."""
    marks: list[Mark] = [Shape(rectangle(0, 1.5, wide, HANDLE_HIGH), theme.furniture, Pen(0.18, theme.line))]
    baseline = 1.5 + (HANDLE_HIGH + cap_height(NUMBER_SIZE)) / 2
    marks.append(Text((1.5, baseline), one.handle, NUMBER_SIZE, True, theme.ink))
    x = 1.5 + width(one.handle, NUMBER_SIZE, True) + 2
    marks.append(Text((x, baseline), f"off alone{more}", BODY_SIZE, False, theme.ink))
    if not more:
        x = max(x + width("off alone", BODY_SIZE) + 6, 38.0)
        for word in TESTER:
            marks.append(Text((x, baseline), word, BODY_SIZE, False, theme.ink))
            x += width(word, BODY_SIZE) + 1.2
            marks.append(tick_box(x, 1.5 + (HANDLE_HIGH - TICK) / 2, TICK, theme))
            x += TICK + 4
    for at, word in enumerate(TICKS):
        middle = wide - (len(TICKS) - at - 0.5) * TICK_WIDE
        marks.append(Text((middle, 1.5 + HANDLE_HIGH - 1.2), word, CAPTION_SIZE, False, theme.soft, "middle"))
    return Block(Group(tuple(marks)), HANDLE_HIGH + 1.5)


def _look_row(look: Look, wide: float, theme: Theme) -> Block:
    where = " · ".join(words for words in (look.room or "In no room", look.level) if words)
    marks, high = look_label(look, wide - len(TICKS) * TICK_WIDE - 2, theme, where=where)
    high = max(CELL_HIGH, high)
    for at in range(len(TICKS)):
        left = wide - (len(TICKS) - at - 0.5) * TICK_WIDE - TICK / 2
        marks.append(tick_box(left, (high - TICK) / 2, TICK, theme))
    rule = Shape(polyline((0, high), (wide, high)), None, Pen(0.18, theme.line))
    return Block(Group((*marks, rule)), high)
