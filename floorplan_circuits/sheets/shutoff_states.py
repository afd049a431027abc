"""What each box is while the handles are off, over the steps: said in words, and in a sign that needs no colour."""

from collections.abc import Sequence

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, moved, polygon, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.phrases import listed
from floorplan_circuits.drawing.plan_boxes import contents
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.findings import BoxWhenOff, Findings, ShutOff
from floorplan_circuits.findings.places import place_of
from floorplan_circuits.sheets.furniture import BODY_SIZE, text_lines, warning_triangle
from floorplan_circuits.sheets.sections import Block
from floorplan_circuits.sheets.shutoff_steps import tick_box

STATE_SIZE, LEAST_STATE = 12.0, 9.0
FIELD, GAP = 10.0, 5.0
LEAST_HIGH = 9.0
STRIPE, STRIPE_STEP = 1.2, 2.0
OFF_SIZE, MOST_NAMED = 9.0, 6


def with_off(plan: ShutOff, findings: Findings) -> str:
    """Return with which handles off the states of a shut-off hold: nothing is dead by being on this page."""
    marks = [findings.marks.get(handle, "?") for one in plan.off for handle in one.handles]
    if not marks:
        return "with nothing turned off"
    return f"with {listed(marks) if len(marks) <= MOST_NAMED else f'all {len(marks)} handles'} off"


def state_blocks(
    states: Sequence[BoxWhenOff], off: str, findings: Findings, wide: float, theme: Theme
) -> tuple[Block, ...]:
    """Return the states as blocks over a width: one a row, or two where there are many; they hold with this `off`."""
    columns = 1 if len(states) <= 2 else 2
    column = (wide - GAP * (columns - 1)) / columns
    drawn = [_state(one, off, findings, column, theme) for one in states]
    rows = [drawn[at : at + columns] for at in range(0, len(drawn), columns)]
    return tuple(_side_by_side(row, column) for row in rows)


def _side_by_side(row: Sequence[Block], column: float) -> Block:
    marks = tuple(moved(block.ink, at * (column + GAP), 0) for at, block in enumerate(row))
    return Block(Group(marks), max(block.height for block in row))


def _state(one: BoxWhenOff, off: str, findings: Findings, wide: float, theme: Theme) -> Block:
    box = findings.home.boxes[one.box]
    left, room = FIELD + 2.5, wide - FIELD - 4.0
    head = f"{box.mark}: {one.says}"
    fitting = (size for size in (STATE_SIZE, 10.5, LEAST_STATE) if width(head, size, True) <= room)
    size = next(fitting, LEAST_STATE)
    heads = wrap(head, room, size, True)
    pitch = text_height(size)
    behind = width(heads[-1], size, True) + 2.0
    fits_behind = behind + width(off, OFF_SIZE) <= room
    lines = wrap(_because(one, findings, "" if fits_behind else off), room, BODY_SIZE)
    colour = theme.stop if one.state == "live" else theme.ink
    marks: list[Mark] = [
        Text((left, 1.2 + at * pitch + (pitch + cap_height(size)) / 2), words, size, True, colour)
        for at, words in enumerate(heads)
    ]
    if fits_behind:
        baseline = 1.2 + (len(heads) - 0.5) * pitch + cap_height(size) / 2
        marks.append(Text((left + behind, baseline), off, OFF_SIZE, False, theme.ink))
    y = 1.2 + len(heads) * pitch + 0.2
    marks += text_lines(lines, left, y, BODY_SIZE, theme)
    high = max(LEAST_HIGH, y + len(lines) * text_height(BODY_SIZE) + 1.2)
    frame = Shape(rectangle(0, 0, wide, high), None, Pen(0.5, theme.ink))
    return Block(Group((*_sign(one, high, theme), frame, *marks)), high + 1.6)


def _because(one: BoxWhenOff, findings: Findings, off: str) -> str:
    """Return what is off, where the box is, what is in it, why it is no better, and what of its neutrals is unknown."""
    box, where = findings.home.boxes[one.box], place_of(one.box, findings)
    said = [_sentence(off), ": ".join(words for words in (where, contents(box)) if words)]
    said += [_sentence("; ".join(one.because))] if one.because else []
    said += [_sentence(one.of_neutral)]
    return " · ".join(words for words in said if words)


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]


def _sign(one: BoxWhenOff, high: float, theme: Theme) -> list[Mark]:
    """Draw the sign of a state in the field left of its words: shape and word tell it, yellow only warns."""
    field, middle = rectangle(0, 0, FIELD, high), (FIELD / 2, high / 2)
    if one.state == "should be dead":
        return [tick_box(middle[0] - 2.5, middle[1] - 2.5, theme)]
    if one.state == "not opened":
        return [_cut_corner(middle, theme)]
    marks: list[Mark] = [Shape(field, theme.caution, Pen(0.5, theme.caution_ink))]
    marks.append(warning_triangle(middle[0], middle[1], 6.4, theme))
    return [*marks, *_stripes(high, theme)] if one.state in ("live", "unknown") else marks


def _cut_corner(middle: tuple[float, float], theme: Theme) -> Shape:
    """Draw a small outline without its upper right corner: nobody has looked inside."""
    x, y = middle[0] - 2.5, middle[1] - 2.5
    outline = polygon((x, y), (x + 3.2, y), (x + 5, y + 1.8), (x + 5, y + 5), (x, y + 5))
    return Shape(outline, theme.paper, Pen(0.5, theme.ink))


def _stripes(high: float, theme: Theme) -> list[Mark]:
    """Draw black stripes at the head and the foot of a field."""
    marks: list[Mark] = []
    for top in (0.0, high - STRIPE):
        for at in range(int(FIELD / STRIPE_STEP)):
            x = at * STRIPE_STEP + 0.25
            corners = ((x, top + STRIPE), (x + 0.75, top), (x + 1.5, top), (x + 0.75, top + STRIPE))
            marks.append(Shape(polygon(*corners), theme.caution_ink))
        y = top + STRIPE if top == 0.0 else top
        marks.append(Shape(polyline((0, y), (FIELD, y)), None, Pen(0.25, theme.caution_ink)))
    return marks
