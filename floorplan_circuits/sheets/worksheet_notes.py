"""What stands before the grid of a worksheet: what to mind first, what stays as it is, how to fill it in."""

from collections.abc import Iterator, Sequence

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, moved, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.findings import RoundsInWords, Turned
from floorplan_circuits.sheets.furniture import BODY_SIZE, FOOT_FIELD, section_head, text_lines, warning_triangle
from floorplan_circuits.sheets.sections import HEAD, Block
from floorplan_circuits.sheets.worksheet_grid import column_called

HOW = (
    "Write D for dead, L for live, ? where it is not clear, and nothing for what was not looked at. In a room’s own "
    "row write what holds of all of it, and below only what differs. Before each round turn what stands over its "
    "column, nothing else, then walk the rooms. Dead once is not proof: a switch may be off or a lamp burnt out."
)
TO_FILL_IN = ("Date", "Who", "Tested with")
TICK = 3.2


def notes(words: RoundsInWords, wide: float, theme: Theme) -> Iterator[Block]:
    """Yield what to know before the first round, in blocks for this width."""
    yield _minded(words.cautions, wide, theme)
    told = (("Left as it is", words.left_alone), ("Not in the rounds", words.not_watched))
    for title, sentences in told:
        if sentences:
            first, *others = (_sentence(one, wide, theme) for one in sentences)
            yield headed(title, first, wide, theme)
            yield from others
    resting = [f"Round {nth}. {rest}" for nth, one in enumerate(words.rounds) for rest in one.rests]
    if resting:
        first, *others = (_sentence(one, wide, theme) for one in resting)
        yield headed("Back on for a while", first, wide, theme)
        yield from others
    yield headed("How to fill it in", _sentence(HOW, wide, theme), wide, theme)
    yield _to_fill_in(wide, theme)


def _minded(cautions: Sequence[str], wide: float, theme: Theme) -> Block:
    """Draw the cautions in a frame with the yellow field and its triangle, a box to tick before each."""
    x, room = FOOT_FIELD + 2.5 + TICK + 2, wide - FOOT_FIELD - 2.5 - TICK - 4
    marks: list[Mark] = []
    y, pitch = 2.0, text_height(BODY_SIZE) * 1.06
    for words in cautions:
        marks.append(tick_box(FOOT_FIELD + 2.5, y + 0.1, TICK, theme))
        lines = wrap(words, room, BODY_SIZE)
        for at, line in enumerate(lines):
            baseline = y + at * pitch + (pitch + cap_height(BODY_SIZE)) / 2
            marks.append(Text((x, baseline), line, BODY_SIZE, False, theme.ink))
        y += max(len(lines) * pitch, TICK) + 1.2
    high = y + 0.8
    frame = (
        Shape(rectangle(0, 0, wide, high), theme.paper, Pen(0.35, theme.ink)),
        Shape(rectangle(0, 0, FOOT_FIELD, high), theme.caution, Pen(0.35, theme.caution_ink)),
        warning_triangle(FOOT_FIELD / 2, high / 2, 8.0, theme),
    )
    return Block(Group((*frame, *marks)), high)


def tick_box(x: float, y: float, wide: float, theme: Theme) -> Shape:
    """Draw an empty box to tick, its top left corner at (x, y)."""
    return Shape(rectangle(x, y, wide, wide, 0.4), theme.paper, Pen(0.3, theme.ink))


def headed(title: str, block: Block, wide: float, theme: Theme) -> Block:
    """Return a block under a section's head, never parted from it."""
    top = HEAD + 2.5
    over = section_head(0, 2.5, wide, title, theme)
    return Block(Group((over, moved(block.ink, 0, top))), top + block.height)


def _sentence(words: str, wide: float, theme: Theme) -> Block:
    lines = wrap(words, wide, BODY_SIZE)
    marks = text_lines(lines, 0, 0, BODY_SIZE, theme)
    return Block(Group(tuple(marks)), len(lines) * text_height(BODY_SIZE) + 0.8)


def _to_fill_in(wide: float, theme: Theme) -> Block:
    """Draw lines to write the day, who it was, and what was tested with."""
    marks: list[Mark] = []
    x, each = 0.0, (wide - 6 * (len(TO_FILL_IN) - 1)) / len(TO_FILL_IN)
    for word in TO_FILL_IN:
        marks.append(Text((x, 8.0), word, BODY_SIZE, True, theme.ink))
        start = x + width(word, BODY_SIZE, True) + 1.5
        marks.append(Shape(polyline((start, 8.4), (x + each, 8.4)), None, Pen(0.25, theme.ink)))
        x += each + 6
    return Block(Group(tuple(marks)), 10.5)


# --- handles that the columns have no room for ----------------------------------------------------------------------


def listed_handles(rounds: Sequence[Turned], wide: float, theme: Theme) -> Iterator[Block]:
    """Yield what to turn before each round as a list, for a panel of so many handles that no column holds them."""
    last = len(rounds) - 1
    blocks = [_handles_of(nth, one, last, wide, theme) for nth, one in enumerate(rounds)]
    if blocks:
        yield headed("What to turn before each round", blocks[0], wide, theme)
        yield from blocks[1:]


def _handles_of(nth: int, one: Turned, last: int, wide: float, theme: Theme) -> Block:
    over, under = column_called(nth, last)
    name = f"{over} {under}".strip() if under else f"{over} {nth}"
    lines = [(f"{nth} · {name}" if under else name, True)]
    for word, marks in (("OFF", one.turn_off), ("ON", one.turn_on)):
        if marks:
            lines += [(line, word == "OFF") for line in wrap(f"{word}: {', '.join(marks)}", wide - 4, BODY_SIZE, True)]
    pitch = text_height(BODY_SIZE)
    first = (pitch + cap_height(BODY_SIZE)) / 2
    drawn = [
        Text((4.0 if at else 0.0, first + at * pitch), line, BODY_SIZE, bold, theme.ink)
        for at, (line, bold) in enumerate(lines)
    ]
    return Block(Group(tuple(drawn)), len(lines) * pitch + 1.4)
