"""The steps of a shut-off on paper: a number, a box to tick, what to do; and the table of pairs to test."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, moved, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plate_bodies import PLATE_HEIGHT
from floorplan_circuits.drawing.plates import plate, plate_of, text_height
from floorplan_circuits.findings import Findings, Pair, Step, ToTest
from floorplan_circuits.sheets.furniture import warning_triangle
from floorplan_circuits.sheets.paragraph import paragraph
from floorplan_circuits.sheets.sections import Block

TICK = 5.0
"""Side in mm of a box to tick."""
TICK_PEN = 0.35
NUMBER_WIDE, TICK_GAP = 5.5, 2.0
TEXT_LEFT = NUMBER_WIDE + TICK + TICK_GAP
STEP_SIZE, NUMBER_SIZE, HEAD_SIZE = 8.2, 9.0, 7.0
STEP_GAP, ROW_GAP = 0.55, 0.7
TABLE_LEFT, COLUMN = NUMBER_WIDE, 13.5
LINE_TO_WRITE = 22.0
"""Least mm of a line to write on."""
MOST_PLATE = 0.45
"""Part of the room for words that a plate may take in a row."""
PAIRS: dict[Pair, tuple[str, str]] = {
    "hot to ground": ("hot to", "ground"),
    "hot to neutral": ("hot to", "neutral"),
    "neutral to ground": ("neutral", "to ground"),
    "hot to hot": ("hot to", "hot"),
}


def step_blocks(steps: Sequence[Step], findings: Findings, wide: float, theme: Theme) -> tuple[Block, ...]:
    """Return the steps as blocks for a column of this width, numbered from 1; a table's rows are blocks of their own.

    The step that tells when to call an electrician is not among them: it has a list of its own.
    """
    blocks: list[Block] = []
    number = 0
    for step in steps:
        if step.kind == "call":
            continue
        if step.is_ticked:
            number += 1
        blocks.append(_block(step, number, findings, wide, theme))
        blocks += _table(step.to_test, findings, wide, theme)
    return tuple(blocks)


def _block(step: Step, number: int, findings: Findings, wide: float, theme: Theme) -> Block:
    if step.kind == "found live":
        return _found_live(step, wide, theme)
    colour = theme.stop if step.kind == "stop" and " live" in step.do else ""
    told = paragraph(step.do, " ".join(step.more), wide - TEXT_LEFT, STEP_SIZE, theme.ink, colour)
    top = max(0.0, (TICK - text_height(STEP_SIZE)) / 2 - 0.2) if told.height < TICK else 0.0
    marks: list[Mark] = [moved(mark, TEXT_LEFT, top) for mark in told.marks]
    high = max(TICK, told.height + top)
    if not step.is_ticked:
        marks.append(warning_triangle(NUMBER_WIDE + TICK / 2, TICK / 2, TICK, theme))
        return Block(Group(tuple(marks)), high + STEP_GAP)
    baseline = (TICK + cap_height(NUMBER_SIZE)) / 2
    marks.append(Text((NUMBER_WIDE - 1.2, baseline), str(number), NUMBER_SIZE, True, theme.ink, "end"))
    marks.append(tick_box(NUMBER_WIDE, 0.0, theme))
    if step.kind == "on":
        drawn, added = _one_at_a_time(step.handles, findings, wide - TEXT_LEFT, theme)
        marks += [moved(mark, TEXT_LEFT, high + ROW_GAP) for mark in drawn]
        high += added + ROW_GAP
    return Block(Group(tuple(marks)), high + STEP_GAP)


def tick_box(x: float, y: float, theme: Theme) -> Shape:
    """Draw a box to tick, its top left corner at (x, y)."""
    return Shape(rectangle(x, y, TICK, TICK), theme.paper, Pen(TICK_PEN, theme.ink))


def _found_live(step: Step, wide: float, theme: Theme) -> Block:
    """Draw the line on which to write where something was found live: a caution that ends the work."""
    room = wide - TEXT_LEFT - 2.0
    lead = width(step.do, NUMBER_SIZE, True)
    marks: list[Mark] = [Text((TEXT_LEFT, 5.2), step.do, NUMBER_SIZE, True, theme.stop)]
    start = TEXT_LEFT + lead + 2.0
    stop = "This means stop."
    end = max(start + LINE_TO_WRITE, wide - 3.5 - width(stop, NUMBER_SIZE, True))
    marks.append(Shape(polyline((start, 5.6), (end, 5.6)), None, Pen(0.25, theme.ink)))
    marks.append(Text((wide - 2.0, 5.2), stop, NUMBER_SIZE, True, theme.ink, "end"))
    told = paragraph("", " ".join(step.more), room, STEP_SIZE, theme.ink)
    marks += [moved(mark, TEXT_LEFT, 6.8) for mark in told.marks]
    high = 6.8 + told.height + 1.4
    frame = Shape(rectangle(0.0, 0.0, wide, high), theme.paper, Pen(0.5, theme.ink))
    field = Shape(rectangle(0.0, 0.0, TEXT_LEFT - 2.0, high), theme.caution, Pen(0.5, theme.caution_ink))
    sign = warning_triangle((TEXT_LEFT - 2.0) / 2, high / 2, 7.0, theme)
    return Block(Group((frame, field, sign, *marks)), high + 2 * STEP_GAP)


def _one_at_a_time(handles: Iterable[int], findings: Findings, wide: float, theme: Theme) -> tuple[list[Mark], float]:
    """Draw a box to tick for each handle with its number, in rows; return them with their height in mm."""
    x, y = 0.0, 0.0
    marks: list[Mark] = []
    for handle in handles:
        words = findings.marks.get(handle, "?")
        needed = TICK + 1.4 + width(words, NUMBER_SIZE, True) + 4.0
        if x and x + needed > wide:
            x, y = 0.0, y + TICK + ROW_GAP
        baseline = y + (TICK + cap_height(NUMBER_SIZE)) / 2
        marks.append(tick_box(x, y, theme))
        marks.append(Text((x + TICK + 1.4, baseline), words, NUMBER_SIZE, True, theme.ink))
        x += needed
    return marks, y + TICK


# --- the pairs ------------------------------------------------------------------------------------------------------


def _table(rows: Sequence[ToTest], findings: Findings, wide: float, theme: Theme) -> Iterator[Block]:
    """Yield the rows to test box by box, those of one feed never parted, nor the head of a box from its first ones.

    Where a box's table goes on on another page its head stands there again.
    """
    for box, group in groupby(rows, lambda row: row.box):
        own = list(group)
        mark = findings.home.boxes[box].mark
        pairs = [pair for pair in PAIRS if any(pair in row.pairs for row in own)]
        head, again = (_head(words, pairs, wide, theme) for words in (mark, f"{mark}, continued"))
        feeds = [list(some) for _, some in groupby(own, lambda row: row.feed)]
        for nth, some in enumerate(feeds):
            block = _rows(some, pairs, findings, wide, theme)
            block = block.below(head) if not nth else replace(block, again=again)
            yield replace(block, height=block.height + STEP_GAP) if nth == len(feeds) - 1 else block


def _rows(rows: Sequence[ToTest], pairs: Sequence[Pair], findings: Findings, wide: float, theme: Theme) -> Block:
    first, *others = (_row(row, pairs, findings, wide, theme) for row in rows)
    for block in others:
        first = block.below(first)
    return first


def _column_x(nth: int, pairs: Sequence[Pair], wide: float) -> float:
    """Return the middle of a column of ticks."""
    return wide - (len(pairs) - nth - 0.5) * COLUMN


def _head(mark: str, pairs: Sequence[Pair], wide: float, theme: Theme) -> Block:
    pitch = text_height(HEAD_SIZE)
    marks: list[Mark] = [Text((TABLE_LEFT, 2 * pitch - 0.6), mark, NUMBER_SIZE, True, theme.ink)]
    for nth, pair in enumerate(pairs):
        for line, words in enumerate(PAIRS[pair]):
            at = (_column_x(nth, pairs, wide), (line + 1) * pitch - 0.6)
            marks.append(Text(at, words, HEAD_SIZE, False, theme.ink, "middle"))
    return Block(Group((*marks, _rule(2 * pitch + 0.4, wide, theme))), 2 * pitch + 0.4 + ROW_GAP / 2)


def _row(row: ToTest, pairs: Sequence[Pair], findings: Findings, wide: float, theme: Theme) -> Block:
    room = wide - len(pairs) * COLUMN - TABLE_LEFT - 1.5
    marks, high = _named(row, findings, room, theme)
    tall = max(TICK, high)
    drawn: list[Mark] = [moved(mark, TABLE_LEFT, (tall - high) / 2) for mark in marks]
    for nth, pair in enumerate(pairs):
        x = _column_x(nth, pairs, wide)
        if pair in row.pairs:
            drawn.append(tick_box(x - TICK / 2, (tall - TICK) / 2, theme))
        else:
            drawn.append(Text((x, (tall + cap_height(STEP_SIZE)) / 2), "–", STEP_SIZE, False, theme.soft, "middle"))
    drawn.append(_rule(tall + ROW_GAP / 2, wide, theme))
    return Block(Group(tuple(drawn)), tall + ROW_GAP)


def _named(row: ToTest, findings: Findings, room: float, theme: Theme) -> tuple[list[Mark], float]:
    """Draw what is tested from the top left corner, its circuit's plate before it; return it with its height."""
    known = findings.conclusions.get(row.feed) if row.feed is not None else None
    pitch = text_height(STEP_SIZE)
    if known is None:
        lines = wrap(row.what, room, STEP_SIZE)
        return _lines(lines, 0.0, 0.0, theme), len(lines) * pitch
    shown = plate_of(known, findings.marks)
    if shown.width <= room * MOST_PLATE:
        left = shown.width + 1.4
        lines = wrap(row.what, room - left, STEP_SIZE)
        high = max(PLATE_HEIGHT, len(lines) * pitch)
        words = _lines(lines, left, (high - len(lines) * pitch) / 2, theme)
        return [plate(shown, (shown.width / 2, high / 2), theme), *words], high
    lines = wrap(f"{shown.words}: {row.what}", room, STEP_SIZE)
    return _lines(lines, 0.0, 0.0, theme), len(lines) * pitch


def _lines(lines: Sequence[str], x: float, y: float, theme: Theme) -> list[Mark]:
    pitch = text_height(STEP_SIZE)
    first = y + (pitch + cap_height(STEP_SIZE)) / 2
    return [Text((x, first + at * pitch), line, STEP_SIZE, False, theme.ink) for at, line in enumerate(lines)]


def _rule(y: float, wide: float, theme: Theme) -> Shape:
    return Shape(polyline((TABLE_LEFT, y), (wide, y)), None, Pen(0.13, theme.line))
