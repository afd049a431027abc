"""Cells and legs: where a space stands in its panel, and which leg it is on by the usual layout.

In the usual layout both spaces of a row are on one leg, and legs follow each other row by row: A B A B … in a
split-phase panel, A B C A … in a three-phase one. Some panels differ: a leg is common practice, never evidence.
"""

from itertools import accumulate

from floorplan_circuits.home.board_rows import is_row_by_row, rows_of
from floorplan_circuits.home.power import Breaker, Panel, System
from floorplan_circuits.home.record import change
from floorplan_circuits.home.space_names import PHASES, WAYS_ODD_LEFT, is_in_ways, way_of

Cell = tuple[int, int]
"""Row and column, counted from 0."""

LEGS: dict[System, str] = {
    "split-phase 120/240": "AB",
    "three-phase 208Y/120": "ABC",
    "three-phase 400Y/230": "ABC",
}
"""The legs of each system that has more than one."""

FROM_THE_BOTTOM = "odd left, even right, from the bottom"
"""A panel that hangs upside down, or is stamped from below: its rows count up, and its legs with them."""


def cells(panel: Panel) -> dict[int, Cell]:
    """Return where each space of the panel stands, by its numbering.

    Examples:
        >>> cells(Panel(id=1, name="Main", spaces=4))
        {1: (0, 0), 2: (0, 1), 3: (1, 0), 4: (1, 1)}
        >>> cells(Panel(id=1, name="Main", spaces=3, numbering="down one side, then the other"))
        {1: (0, 0), 2: (1, 0), 3: (0, 1)}
    """
    if is_row_by_row(panel):
        return _cells_in_rows(panel)
    return {space: _cell(panel, space) for space in range(1, panel.spaces + 1)}


def heads(panel: Panel) -> dict[int, str]:
    """Return the rows of the grid that hold no space but say which row of the board begins, in words.

    Examples:
        >>> heads(Panel(id=1, name="Board", spaces=8, numbering="row by row", rows=(4, 4)))
        {0: 'Row 1', 3: 'Row 2'}
    """
    rows = rows_of(panel)
    starts = accumulate((1 + _half(row) for row in rows), initial=0)
    return {start: f"Row {at}" for at, (start, _) in enumerate(zip(starts, rows, strict=False), 1)} if rows[1:] else {}


def _half(row: range) -> int:
    return -(-len(row) // 2)


def _cells_in_rows(panel: Panel) -> dict[int, Cell]:
    """Return the cells of a board of rows: of each row the left half left and the right half right, below each other.

    So a board as wide as two columns of words keeps what stands left and right, above and below. A single row is one
    column.
    """
    rows = rows_of(panel)
    if len(rows) == 1:
        return {space: (space - 1, 0) for space in rows[0]}
    found: dict[int, Cell] = {}
    for head, row in zip(heads(panel), rows, strict=True):
        for at, space in enumerate(row):
            column, down = divmod(at, _half(row))
            found[space] = (head + 1 + down, column)
    return found


def _cell(panel: Panel, space: int) -> Cell:
    if panel.numbering == "odd left, even right":
        return divmod(space - 1, 2)
    if panel.numbering == FROM_THE_BOTTOM:
        row, column = divmod(space - 1, 2)
        return (panel.spaces - 1) // 2 - row, column
    if is_in_ways(panel):
        return _cell_in_ways(panel, space)
    if panel.numbering == "single row":
        return space - 1, 0
    rows = -(-panel.spaces // 2)
    return (space - 1) % rows, (space - 1) // rows


def _cell_in_ways(panel: Panel, space: int) -> Cell:
    """Return the cell of a space where three phases of one way stand below each other."""
    way, phase = way_of(space)
    if panel.numbering == WAYS_ODD_LEFT:
        block, column = divmod(way - 1, 2)
    else:
        ways = -(-panel.spaces // PHASES)
        column, block = divmod(way - 1, -(-ways // 2))
    return block * PHASES + phase - 1, column


def leg(panel: Panel, space: int) -> str:
    """Return the leg of a space by the usual layout, both halves of it alike; '' if there is one leg or none is known.

    Examples:
        >>> panel = Panel(id=1, name="Main", spaces=42, system="split-phase 120/240")
        >>> leg(panel, 1), leg(panel, 2), leg(panel, 3), leg(panel, 43)
        ('A', 'A', 'B', '')
    """
    legs = LEGS.get(panel.system, "")
    if not legs or not 1 <= space <= panel.spaces:
        return ""
    return legs[_step(panel, space) % len(legs)]


def _step(panel: Panel, space: int) -> int:
    """Return how many legs on from the first one a space is: side by side in a row of a board, else row by row."""
    if is_row_by_row(panel):
        return space - 1
    return (space - 1) // 2 if panel.numbering == FROM_THE_BOTTOM else _cell(panel, space)[0]


def legs_of(panel: Panel, breaker: Breaker) -> tuple[str, ...]:
    """Return the leg of each pole of the breaker, in the order of its poles."""
    return tuple(leg(panel, pole.space) for pole in breaker.poles)


def with_system(panel: Panel, system: System) -> Panel:
    """Return the panel with `system` (its home's) where its own is not known."""
    return change(panel, system=system) if panel.system == "not known" and system != "not known" else panel
