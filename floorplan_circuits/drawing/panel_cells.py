"""What stands where on a panel's face: the stretches that breakers take, and how high each row is."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from typing import Literal

from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import Findings, PanelFinding
from floorplan_circuits.home.power import Breaker, Panel
from floorplan_circuits.home.space_names import space_name

SPINE = 13.0
BLANK_ROW = 5.4
"""Most mm that a row of blanks takes on paper, so that rows with words may be higher."""
TANDEM_ROW = 11.3
"""Least mm on paper of a row that holds halves: each half has a line of words and its squares."""
HEAD_ROW = 4.6
"""mm of a row that says which row of a board begins below it."""
RowKind = Literal["head", "blank", "used", "halved"]


@dataclass(frozen=True, slots=True)
class FaceStyle:
    """How a face is laid out: its width and the height of a usual row in mm, its theme, and for which ground.

    On screen all rows are equally high; on paper blank rows are lower and rows of halves high enough to read.
    `to_turn_off` are breakers that a shut-off asks for: each in a heavy ring, its handle drawn off. `words_alone`: the
    face only shows where a handle is, without the squares that tell how well each feed is known.
    """

    width: float
    row: float
    theme: Theme
    on_screen: bool = False
    to_turn_off: frozenset[int] = frozenset()
    words_alone: bool = False


@dataclass(frozen=True, slots=True)
class Cell:
    """A stretch of one column that one breaker (or nothing) takes, from `top` to `bottom`, counted in half rows."""

    breaker: Breaker | None
    column: int
    top: int
    bottom: int
    numbers: tuple[tuple[str, int, int], ...]
    """What to print, and from which half row to which."""

    @property
    def is_half(self) -> bool:
        """Whether it is half a space."""
        return self.bottom - self.top == 1


def face_rows(findings: Findings, panel: Panel) -> int:
    """Return how many rows the panel's face has."""
    return findings.panels[panel.id].rows


def face_height(findings: Findings, panel: Panel, style: FaceStyle) -> float:
    """Return the height in mm of the face in this style."""
    return edges(findings.panels[panel.id], style)[-1]


def fitting_row(findings: Findings, panel: Panel, style: FaceStyle, room: float, most: float) -> float:
    """Return the height of a usual row, at most `most` mm, that fills `room` mm best."""
    grid = findings.panels[panel.id]
    kinds = Counter(_row_kinds(grid))

    def high(row: float) -> float:
        return sum(count * _row_height(kind, row, style.on_screen) for kind, count in kinds.items())

    if high(most) <= room:
        return most
    low, top = 0.0, most
    for _ in range(20):
        middle = (low + top) / 2
        low, top = (middle, top) if high(middle) <= room else (low, middle)
    return low


def edges(grid: PanelFinding, style: FaceStyle) -> tuple[float, ...]:
    """Return where each half row begins, in mm from the face's top, and where the last one ends."""
    halves = [height / 2 for height in _row_heights(grid, style) for _ in (0, 1)]
    return tuple(accumulate(halves, initial=0.0))


def _row_heights(grid: PanelFinding, style: FaceStyle) -> list[float]:
    return [_row_height(kind, style.row, style.on_screen) for kind in _row_kinds(grid)]


def _row_height(kind: RowKind, row: float, on_screen: bool) -> float:
    if kind == "head":
        return min(row, HEAD_ROW)
    if on_screen:
        return row
    return max(row, TANDEM_ROW) if kind == "halved" else row if kind == "used" else min(row, BLANK_ROW)


def _row_kinds(grid: PanelFinding) -> list[RowKind]:
    """Return what each row holds: two halves somewhere, breakers, nothing, or the head of a row of the board."""
    kinds: list[RowKind] = ["head" if row in grid.heads else "blank" for row in range(grid.rows)]
    for space, (row, _) in grid.cells.items():
        first, second = (grid.taken.get((space, half)) for half in ("A", "B"))
        if first != second:
            kinds[row] = "halved"
        elif first is not None and kinds[row] == "blank":
            kinds[row] = "used"
    return kinds


def cells(findings: Findings, panel: Panel, grid: PanelFinding) -> Iterator[Cell]:
    """Yield the stretches of the face: breakers over their spaces, then what is blank."""
    for (breaker, column), stretches in _stretches(panel, grid).items():
        found = findings.home.breakers.get(breaker) if breaker is not None else None
        for run in _runs(sorted(stretches)) if found is not None else ([one] for one in stretches):
            numbers = tuple((words, top, bottom) for top, bottom, words in run)
            yield Cell(found, column, run[0][0], run[-1][1], numbers)


Stretch = tuple[int, int, str]


def _stretches(panel: Panel, grid: PanelFinding) -> Mapping[tuple[int | None, int], list[Stretch]]:
    """Return, by breaker and column, from which half row to which each space or half reaches, with its number."""
    found: dict[tuple[int | None, int], list[Stretch]] = {}
    for space, (row, column) in grid.cells.items():
        first, second = (grid.taken.get((space, half)) for half in ("A", "B"))
        name = f"{panel.prefix}{space_name(panel, space)}"
        if first == second:
            found.setdefault((first, column), []).append((2 * row, 2 * row + 2, name))
        else:
            found.setdefault((first, column), []).append((2 * row, 2 * row + 1, f"{name}A"))
            found.setdefault((second, column), []).append((2 * row + 1, 2 * row + 2, f"{name}B"))
    return found


def _runs(stretches: Sequence[Stretch]) -> Iterator[list[Stretch]]:
    """Yield pieces that follow each other without a gap."""
    breaks = [at for at, (one, two) in enumerate(pairwise(stretches), 1) if one[1] != two[0]]
    for start, end in pairwise((0, *breaks, len(stretches))):
        yield list(stretches[start:end])


def is_right(cell: Cell, grid: PanelFinding) -> bool:
    """Tell whether it stands right of the spine."""
    return grid.columns == 2 and cell.column == 1


def spine_bounds(grid: PanelFinding, style: FaceStyle) -> tuple[float, float]:
    """Return from where to where, in mm from the left, the panel's own body shows between the words."""
    if grid.columns == 1:
        return style.width - SPINE / 2 - 0.4, style.width
    return (style.width - SPINE) / 2, (style.width + SPINE) / 2
