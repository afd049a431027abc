"""Going about the panel's face by keys: from space to space as the arrows point."""

from collections.abc import Mapping

from PySide6.QtCore import Qt

Place = tuple[int, int]
"""Row and column of a space on the face."""
ARROWS = {
    Qt.Key.Key_Up: (-1, 0),
    Qt.Key.Key_Down: (1, 0),
    Qt.Key.Key_Left: (0, -1),
    Qt.Key.Key_Right: (0, 1),
}


def gone_to(cells: Mapping[int, Place], space: int | None, key: Qt.Key) -> int | None:
    """Return the space that an arrow leads to from another; the same at the edge; the first from nowhere."""
    if space is None or space not in cells:
        return min(cells, key=lambda number: (cells[number][1], cells[number][0]), default=None)
    row, column = cells[space]
    down, right = ARROWS[key]
    ways = [(row + down, column + right), (row + 2 * down, column)]  # over the head of a row of the board
    at = {place: number for number, place in cells.items()}
    return next((at[place] for place in ways if place in at), space)
