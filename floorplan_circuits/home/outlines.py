"""Outlines of rooms as whole numbers: their area, and where one crosses itself. Exact, and without a library."""

from itertools import pairwise

from floorplan_circuits.home.record import Point

Outline = tuple[Point, ...]
Edge = tuple[Point, Point]


def doubled_area(outline: Outline) -> int:
    """Return twice the area in mm², positive where the corners go round clockwise on the sheet (y down)."""
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in edges(outline))


def edges(outline: Outline) -> list[Edge]:
    """Return the edges in order, the last one back to the first corner."""
    return list(pairwise((*outline, *outline[:1])))


def crossing(outline: Outline) -> Point | None:
    """Return a place where the outline meets itself, to the millimetre; None for a simple polygon.

    Two corners in one place meet, and so does an edge that folds back on the one before it.

    Examples:
        >>> crossing(((0, 0), (3000, 3000), (3000, 0), (0, 3000)))
        (1500, 1500)
    """
    sides = edges(outline)
    for place, (a, b) in enumerate(sides):
        if a == b or _folds_back(a, b, sides[(place + 1) % len(sides)][1]):
            return b
    return _meeting_of_any(sides)


def _folds_back(a: Point, b: Point, c: Point) -> bool:
    return _turn(a, b, c) == 0 and (a[0] - b[0]) * (c[0] - b[0]) + (a[1] - b[1]) * (c[1] - b[1]) > 0


def _meeting_of_any(sides: list[Edge]) -> Point | None:
    # From left to right, so that each edge is held against those beside it only.
    by_left = sorted(range(len(sides)), key=lambda place: min(sides[place][0][0], sides[place][1][0]))
    for at, place in enumerate(by_left):
        a, b = sides[place]
        right = max(a[0], b[0])
        for other in by_left[at + 1 :]:
            c, d = sides[other]
            if min(c[0], d[0]) > right:
                break
            if (place - other) % len(sides) in (1, len(sides) - 1):
                continue  # neighbours meet in their corner
            if met := _meeting(a, b, c, d):
                return met
    return None


def _meeting(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
        return None
    turns = _turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b)
    ends = ((turns[0], c, a, b), (turns[1], d, a, b), (turns[2], a, c, d), (turns[3], b, c, d))
    for turn, point, p, q in ends:
        if turn == 0 and _within(point, p, q):
            return point
    return _intersection(a, b, c, d) if turns[0] != turns[1] and turns[2] != turns[3] else None


def _turn(a: Point, b: Point, c: Point) -> int:
    value = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
    return (value > 0) - (value < 0)


def _within(point: Point, a: Point, b: Point) -> bool:
    return min(a[0], b[0]) <= point[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= point[1] <= max(a[1], b[1])


def _intersection(a: Point, b: Point, c: Point, d: Point) -> Point:
    (ux, uy), (vx, vy) = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])
    along = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / (ux * vy - uy * vx)
    return round(a[0] + along * ux), round(a[1] + along * uy)
