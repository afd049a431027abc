"""The grid of a worksheet: a column a round with the handles to turn before it, a row a feed with cells to write in."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.findings import Look, RoundsInWords, Turned, Walked
from floorplan_circuits.sheets.flow import Head
from floorplan_circuits.sheets.furniture import BODY_SIZE, CAPTION_SIZE, text_lines
from floorplan_circuits.sheets.sections import Block

CELL_WIDE, CELL_HIGH = 9.0, 7.0
"""The least that can be written in with a pen, in mm."""
MOST_WIDE = 17.0
LABEL_WIDE = 68.0
"""What the words beside the cells get, at least, in mm."""
OFF_SIZES = (13.0, 11.5, 10.0, 9.0, 8.4)
ON_SIZE, LEAST_SIZE = 8.4, 7.5
NOTE_SIZE, MARK_SIZE, NUMBER_SIZE = 7.0, 9.0, 14.0
GOOD_HEAD, MOST_HEAD = 58.0, 88.0
"""mm: a head up to the first keeps its large letters; past the second so few rows are left on a page that the handles
stand in a list before the grid."""
BAR_HIGH, GAP_IN_LINE, PAD = 3.7, 2.6, 0.8

Column = tuple[int, Turned]
"""A round and its place in the plan; 0 is all on."""


@dataclass(frozen=True, slots=True)
class Grid:
    """How one run of columns is set: its rounds, the width of a cell and of the words beside, and the head's letters.

    `listed`: the handles do not fit the heads and stand in a list.
    """

    columns: tuple[Column, ...]
    last: int
    cell: float
    label: float
    size: float
    listed: bool
    theme: Theme

    @property
    def width(self) -> float:
        """Width of words and cells in mm."""
        return self.label + self.cell * len(self.columns)


def narrowest(rounds: Sequence[Turned]) -> float:
    """Return the least width of a column, in mm: a cell to write in, and the longest number at its smallest."""
    marks = {mark for one in rounds for mark in (*one.turn_off, *one.turn_on)}
    return max([CELL_WIDE, *(width(mark, OFF_SIZES[-1], True) + 2 * PAD for mark in marks)])


def columns_in(wide: float, rounds: Sequence[Turned]) -> int:
    """Return how many columns stand beside the words in so many mm; at least one."""
    return max(1, int((wide - LABEL_WIDE) / narrowest(rounds)))


def grids(words: RoundsInWords, wide: float, theme: Theme) -> tuple[Grid, ...]:
    """Return the runs of columns that fill this width one after another."""
    every = tuple(enumerate(words.rounds))
    most = columns_in(wide, words.rounds)
    runs = [every[start : start + most] for start in range(0, len(every), most)]
    return tuple(_grid(run, words.rounds, wide, theme) for run in runs)


def _grid(columns: tuple[Column, ...], rounds: Sequence[Turned], wide: float, theme: Theme) -> Grid:
    cell = min(MOST_WIDE, max(narrowest(rounds), (wide - LABEL_WIDE) / len(columns)))
    label, last = wide - cell * len(columns), len(rounds) - 1
    tried = [Grid(columns, last, cell, label, size, False, theme) for size in OFF_SIZES]
    fitting = [one for one in tried if _widest_off(one) + 2 * PAD <= cell + 0.01]
    good = next((one for one in fitting if _head_high(one) <= GOOD_HEAD), None)
    best = good or min(fitting, key=_head_high)
    return best if _head_high(best) <= MOST_HEAD else replace(best, listed=True)


def _widest_off(grid: Grid) -> float:
    return max((width(mark, grid.size, True) for _, turned in grid.columns for mark in turned.turn_off), default=0.0)


def _head_high(grid: Grid) -> float:
    if grid.listed:
        return NAME_HIGH + 1.0
    return max(_column_high(turned, grid) for _, turned in grid.columns)


# --- the head -------------------------------------------------------------------------------------------------------

NAME_HIGH = 10.0


def grid_head(grid: Grid, title: str) -> Head:
    """Draw the head over all columns; every page repeats it."""
    high = _head_high(grid)
    marks: list[Mark] = [Text((0, high - 1.6), title, CAPTION_SIZE, False, grid.theme.soft)]
    for at, (nth, turned) in enumerate(grid.columns):
        left = grid.label + at * grid.cell
        marks += _column_name(nth, left, grid)
        marks.append(Shape(rectangle(left, 0, grid.cell, high), None, Pen(0.25, grid.theme.ink)))
        if not grid.listed:
            marks += _handles(turned, left, grid)
    marks.append(Shape(polyline((0, high), (grid.width, high)), None, Pen(0.35, grid.theme.ink)))
    block = Block(Group(tuple(marks)), high)
    return Head(block, block)


def column_called(nth: int, last: int) -> tuple[str, str]:
    """Return what stands over and under a column's number."""
    if nth == 0:
        return "all on", "first"
    return ("all on", "again") if nth == last else ("round", "")


def _column_name(nth: int, left: float, grid: Grid) -> Iterator[Mark]:
    middle = left + grid.cell / 2
    over, under = column_called(nth, grid.last)
    yield Text((middle, 2.9), over, NOTE_SIZE, False, grid.theme.soft, "middle")
    yield Text((middle, 7.3 if under else 8.2), str(nth), NUMBER_SIZE * (0.8 if under else 1.0), True,
               grid.theme.ink, "middle")  # fmt: skip
    if under:
        yield Text((middle, 9.9), under, NOTE_SIZE, False, grid.theme.soft, "middle")


def _handles(turned: Turned, left: float, grid: Grid) -> Iterator[Mark]:
    """Yield what to turn: off large under an inked bar, back on smaller under an outlined one."""
    theme, top = grid.theme, NAME_HIGH + 1.0
    for word, marks, size, bold in _piles(turned, grid):
        if marks:
            bar = rectangle(left + PAD / 2, top, grid.cell - PAD, BAR_HIGH, 0.5)
            inked = word == "OFF"
            yield Shape(bar, theme.ink if inked else theme.paper, Pen(0.25, theme.ink))
            ink = theme.paper if inked else theme.ink
            baseline = top + (BAR_HIGH + cap_height(CAPTION_SIZE)) / 2
            yield Text((left + grid.cell / 2, baseline), word, CAPTION_SIZE, True, ink, "middle")
            top += BAR_HIGH + 0.8
            for line in lines_of(marks, grid.cell - 2 * PAD, size, bold):
                yield from _marks_in(line, left + PAD, top, size, bold, theme)
                top += text_height(size)
            top += 1.0


def _marks_in(line: Sequence[str], x: float, top: float, size: float, bold: bool, theme: Theme) -> Iterator[Mark]:
    baseline = top + (text_height(size) + cap_height(size)) / 2
    for mark in line:
        yield Text((x, baseline), mark, size, bold, theme.ink)
        x += width(mark, size, bold) + GAP_IN_LINE


def _piles(turned: Turned, grid: Grid) -> tuple[tuple[str, tuple[str, ...], float, bool], ...]:
    lesser = ON_SIZE if grid.size > ON_SIZE + 1 else LEAST_SIZE
    return ("OFF", turned.turn_off, grid.size, True), ("ON", turned.turn_on, lesser, False)


def _column_high(turned: Turned, grid: Grid) -> float:
    high = NAME_HIGH + 1.0
    for _, marks, size, bold in _piles(turned, grid):
        if marks:
            lines = len(lines_of(marks, grid.cell - 2 * PAD, size, bold))
            high += BAR_HIGH + 0.8 + lines * text_height(size) + 1.0
    return high


def lines_of(marks: Sequence[str], room: float, size: float, bold: bool) -> list[list[str]]:
    """Part numbers into lines no wider than the room; a number is never broken."""
    lines: list[list[str]] = []
    x = room + 1
    for mark in marks:
        wide = width(mark, size, bold)
        if x + GAP_IN_LINE + wide > room + 0.01:
            lines.append([])
            x = -GAP_IN_LINE
        lines[-1].append(mark)
        x += GAP_IN_LINE + wide
    return lines


# --- the rows -------------------------------------------------------------------------------------------------------


def room_head(room: Walked, grid: Grid) -> Head:
    """Draw a room's own row, with cells for what holds of all of it where it has several things to look at."""
    return Head(_room_row(room, "", grid), _room_row(room, ", continued", grid))


def _room_row(room: Walked, more: str, grid: Grid) -> Block:
    theme, several = grid.theme, len(room.looks) > 1 and not more
    whole = "whole room" if several else ""
    named = " · ".join(words for words in (f"{room.name or 'In no room'}{more}", room.level) if words)
    lines = wrap(named, grid.label - (width(whole, NOTE_SIZE) + 4 if several else 2), MARK_SIZE, True)
    high = max(CELL_HIGH if several else 5.4, len(lines) * text_height(MARK_SIZE) + 1.4)
    marks: list[Mark] = [Shape(rectangle(0, 0, grid.width, high), theme.furniture, Pen(0.18, theme.line))]
    marks += text_lines(lines, 1.0, (high - len(lines) * text_height(MARK_SIZE)) / 2, MARK_SIZE, theme, bold=True)
    if several:
        baseline = (high + cap_height(NOTE_SIZE)) / 2
        marks.append(Text((grid.label - 1.5, baseline), whole, NOTE_SIZE, False, theme.soft, "end"))
        marks += _cells(high, grid)
    return Block(Group(tuple(marks)), high)


def look_row(look: Look, grid: Grid) -> Block:
    """Draw a feed's row: its box's mark, what it is, what to do there, and a cell a round."""
    theme = grid.theme
    marks, high = look_label(look, grid.label - 2.0, theme)
    high = max(CELL_HIGH, high)
    rule = Shape(polyline((0, high), (grid.label, high)), None, Pen(0.18, theme.line))
    return Block(Group((*marks, rule, *_cells(high, grid))), high)


def look_label(look: Look, room: float, theme: Theme, *, where: str = "") -> tuple[list[Mark], float]:
    """Return the words of a feed in this room, and how high they are: mark and what it is, below what to mind."""
    mark_lines = wrap(look.mark, room * 0.4, MARK_SIZE, True)
    indent = max(11.0, max((width(line, MARK_SIZE, True) for line in mark_lines), default=0.0) + 2.0)
    what = wrap(look.what, room - indent, BODY_SIZE)
    mind = wrap("; ".join(words for words in (where, *look.mind) if words), room - indent, NOTE_SIZE)
    marks = text_lines(mark_lines, 1.0, 0.5, MARK_SIZE, theme, bold=True)
    marks += text_lines(what, 1.0 + indent, 0.6, BODY_SIZE, theme)
    below = 0.6 + len(what) * text_height(BODY_SIZE)
    pitch, first = text_height(NOTE_SIZE), below + (text_height(NOTE_SIZE) + cap_height(NOTE_SIZE)) / 2
    marks += [
        Text((1.0 + indent, first + at * pitch), line, NOTE_SIZE, False, theme.soft) for at, line in enumerate(mind)
    ]
    return marks, max(below + len(mind) * pitch + 0.4, 0.9 + len(mark_lines) * text_height(MARK_SIZE))


def _cells(high: float, grid: Grid) -> Iterator[Mark]:
    for at in range(len(grid.columns)):
        left = grid.label + at * grid.cell
        yield Shape(rectangle(left, 0, grid.cell, high), grid.theme.paper, Pen(0.25, grid.theme.ink))
