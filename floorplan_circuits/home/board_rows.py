"""A board of several rows, as on a rail: breakers side by side, row under row, counted on from row to row."""

from itertools import accumulate, pairwise

from floorplan_circuits.home.power import Panel

ROW_BY_ROW = "row by row"


def is_row_by_row(panel: Panel) -> bool:
    """Tell whether the panel's breakers stand side by side in rows."""
    return panel.numbering == ROW_BY_ROW


def rows_of(panel: Panel) -> tuple[range, ...]:
    """Return the spaces of each row from the top; what the rows leave over is a last row, and no row is empty.

    Examples:
        >>> rows_of(Panel(id=1, name="Board", spaces=30, numbering=ROW_BY_ROW, rows=(12, 12)))
        (range(1, 13), range(13, 25), range(25, 31))
    """
    if not is_row_by_row(panel):
        return ()
    ends = [min(end, panel.spaces) for end in accumulate((*panel.rows, panel.spaces), initial=0)]
    return tuple(range(first + 1, last + 1) for first, last in pairwise(ends) if first < last)


def row_with(panel: Panel, space: int) -> range:
    """Return the spaces of the row that a space stands in; none where it stands in none."""
    return next((row for row in rows_of(panel) if space in row), range(0))
