"""Whether rectangles and straight lines on the sheet meet, in paper mm, and a grid that finds what is near."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil, hypot
from typing import Generic, TypeVar

from floorplan_circuits.drawing.ink import Bounds
from floorplan_circuits.findings import XY

CELL = 8.0
"""Side in mm of the grid that finds neighbours."""

Thing = TypeVar("Thing")
Cell = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Segment:
    """A straight piece of wall, or a line, with half its thickness; `outer`: a wall of the building's outside."""

    a: XY
    b: XY
    half: float = 0.0
    outer: bool = False


class Grid(Generic[Thing]):
    """Things by the cells of the sheet they touch."""

    def __init__(self) -> None:
        self._cells: dict[Cell, list[Thing]] = {}

    def put(self, bounds: Bounds, thing: Thing) -> None:
        """Note that the thing reaches into this rectangle."""
        for cell in _cells_of(bounds):
            self._cells.setdefault(cell, []).append(thing)

    def drop(self, bounds: Bounds, thing: Thing) -> None:
        """Forget a thing that was put into this rectangle."""
        for cell in _cells_of(bounds):
            self._cells[cell].remove(thing)

    def under(self, bounds: Bounds) -> list[list[Thing]]:
        """Return what the cells under the rectangle hold, cell by cell; what spans several may come more than once."""
        cells, found = self._cells, []
        left, top = int(bounds[0] // CELL), int(bounds[1] // CELL)
        right, bottom = int(bounds[2] // CELL), int(bounds[3] // CELL)
        for column in range(left, right + 1):
            for row in range(top, bottom + 1):
                if (column, row) in cells:
                    found.append(cells[column, row])
        return found

    def near(self, bounds: Bounds) -> list[Thing]:
        """Return what the cells under the rectangle hold, in one list."""
        return [thing for things in self.under(bounds) for thing in things]


def put_segment(grid: Grid[Segment], line: Segment) -> None:
    """Put a line into the cells along it."""
    for bounds in along(line):
        grid.put(bounds, line)


def along(line: Segment) -> Iterator[Bounds]:
    """Yield boxes round the pieces of a line: the one box round a long slanting line would fill half the sheet."""
    (ax, ay), (bx, by) = line.a, line.b
    pieces = 1 if ax == bx or ay == by else max(1, ceil(hypot(bx - ax, by - ay) / CELL))
    for at in range(pieces):
        start, end = at / pieces, (at + 1) / pieces
        piece = Segment(
            (ax + (bx - ax) * start, ay + (by - ay) * start), (ax + (bx - ax) * end, ay + (by - ay) * end), line.half
        )
        yield segment_bounds(piece)


def rows_of(line: Segment) -> range:
    """Return the rows of cells that a line passes."""
    low, high = sorted((line.a[1], line.b[1]))
    return range(int(low // CELL), int(high // CELL) + 1)


def _cells_of(bounds: Bounds) -> list[Cell]:
    left, top = int(bounds[0] // CELL), int(bounds[1] // CELL)
    right, bottom = int(bounds[2] // CELL), int(bounds[3] // CELL)
    return [(column, row) for column in range(left, right + 1) for row in range(top, bottom + 1)]


def overlap(a: Bounds, b: Bounds) -> bool:
    """Tell whether two rectangles share more than an edge."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def meet(a: Bounds, b: Bounds) -> bool:
    """Tell whether two rectangles have a point in common, if only of their edges."""
    return a[0] <= b[2] and b[0] <= a[2] and a[1] <= b[3] and b[1] <= a[3]


def around(centre: XY, size: tuple[float, float]) -> Bounds:
    """Return the rectangle of a size about its middle."""
    return centre[0] - size[0] / 2, centre[1] - size[1] / 2, centre[0] + size[0] / 2, centre[1] + size[1] / 2


def widened(bounds: Bounds, by: float) -> Bounds:
    """Return a rectangle grown by so much on each side."""
    return bounds[0] - by, bounds[1] - by, bounds[2] + by, bounds[3] + by


def box_round(every: Iterable[Bounds]) -> Bounds:
    """Return the box round some rectangles, at least one."""
    lefts, tops, rights, bottoms = zip(*every, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def joined(every: Iterable[Bounds], near: float) -> list[Bounds]:
    """Return rectangles with those that stand no more than `near` apart made one, the box round them."""
    apart: list[Bounds] = []
    for one in every:
        close = [other for other in apart if meet(widened(one, near), other)]
        apart = [*(other for other in apart if other not in close), box_round([one, *close])]
    return apart


def segment_bounds(line: Segment) -> Bounds:
    """Return the box round a line in its thickness."""
    (ax, ay), (bx, by), half = line.a, line.b, line.half
    return min(ax, bx) - half, min(ay, by) - half, max(ax, bx) + half, max(ay, by) + half


def crosses_box(line: Segment, bounds: Bounds) -> bool:
    """Clip the middle line to the rectangle grown by half its thickness (Liang and Barsky 1984)."""
    left, top, right, bottom = (
        bounds[0] - line.half,
        bounds[1] - line.half,
        bounds[2] + line.half,
        bounds[3] + line.half,
    )
    (x, y), dx, dy = line.a, line.b[0] - line.a[0], line.b[1] - line.a[1]
    enter, leave = 0.0, 1.0
    for towards, room in ((-dx, x - left), (dx, right - x), (-dy, y - top), (dy, bottom - y)):
        if towards == 0:
            if room <= 0:
                return False
            continue
        at = room / towards
        enter, leave = (max(enter, at), leave) if towards < 0 else (enter, min(leave, at))
    return enter < leave


def segments_cross(a: XY, b: XY, c: XY, d: XY) -> bool:
    """Tell whether two lines cross inside both; lines that only touch do not."""
    return _side(a, b, c) * _side(a, b, d) < 0 and _side(c, d, a) * _side(c, d, b) < 0


def _side(p: XY, q: XY, r: XY) -> float:
    return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])


def distance(at: XY, line: Segment) -> float:
    """Return how far a point is from the middle line."""
    (ax, ay), (bx, by) = line.a, line.b
    length = (bx - ax) ** 2 + (by - ay) ** 2
    along = 0.0 if length == 0 else max(0.0, min(1.0, ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / length))
    return hypot(ax + along * (bx - ax) - at[0], ay + along * (by - ay) - at[1])


def is_inside(at: XY, edges: Iterable[Segment]) -> bool:
    """Tell whether a point is inside what the edges enclose: a level line from it crosses an odd number."""
    x, y = at
    odd = False
    for edge in edges:
        (ax, ay), (bx, by) = edge.a, edge.b
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            odd = not odd
    return odd


def leaves_at(start: XY, end: XY, box: Bounds) -> float:
    """Return how far along a line it leaves the box it starts in, from 0 to 1; 0 if it starts outside."""
    if not (box[0] <= start[0] <= box[2] and box[1] <= start[1] <= box[3]):
        return 0.0
    reach = 1.0
    for at, to, low, high in ((start[0], end[0], box[0], box[2]), (start[1], end[1], box[1], box[3])):
        if to != at:
            reach = min(reach, ((high if to > at else low) - at) / (to - at))
    return reach


def trimmed(points: Sequence[XY], own: Iterable[Bounds]) -> tuple[XY, ...]:
    """Return a line without the part that runs inside the boxes it starts from; () where nothing is left."""
    boxes = list(own)
    for at in range(len(points) - 1):
        start, end = points[at], points[at + 1]
        leaving = max((leaves_at(start, end, box) for box in boxes), default=0.0)
        if leaving < 1.0:
            edge = start[0] + (end[0] - start[0]) * leaving, start[1] + (end[1] - start[1]) * leaving
            return (edge, *points[at + 1 :])
    return ()
