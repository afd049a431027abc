"""Snapping: where a point means to go, given the corners and edges that are there, right angles and a fine grid."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import hypot
from typing import NamedTuple

from floorplan_circuits.findings import XY
from floorplan_circuits.home.record import Point

GRID_MM = 50


class Snapped(NamedTuple):
    """Where a point went, and why: 'corner', 'crossing', 'edge', 'square', 'in line', or nothing for the grid."""

    at: Point
    why: str = ""


def snap(
    at: XY,
    outlines: Sequence[Sequence[Point]],
    reach: float,
    lines: Sequence[Point] = (),
    wall: tuple[Point, Point] | None = None,
) -> Snapped:
    """Return the point that `at` means within `reach` mm, the strongest first.

    A corner; then where an edge crosses a line level or upright from a corner, or two such lines cross; an edge; a
    place square to `wall`, from its end; in line with a corner; else the grid, which also counts along level and
    upright edges and lines. `lines` are further corners to be in line with, such as those of the room being drawn.
    The point moves by at most `reach`, half a step of the grid (25 mm), and the rounding to a whole millimetre.
    """
    corners = [corner for outline in outlines for corner in outline]
    xs = _lines(at[0], (corner[0] for corner in (*corners, *lines)), reach)
    ys = _lines(at[1], (corner[1] for corner in (*corners, *lines)), reach)
    near = [(a, b) for a, b in edges(outlines) if _apart(at, foot(at, a, b)) <= reach]
    ranked: tuple[tuple[str, Iterable[XY]], ...] = (
        ("corner", corners),
        ("crossing", [*((x, y) for x in xs for y in ys), *_crossings(near, xs, ys)]),
        ("edge", [_along(at, a, b) for a, b in near]),
        ("square", [_square(at, *wall)] if wall is not None and _is_slanted(*wall) else []),
        ("in line", [(x, _grid(at[1])) for x in xs] + [(_grid(at[0]), y) for y in ys]),
    )
    for why, places in ranked:
        free = GRID_MM / 2 if why in ("edge", "in line") else 0.0
        nearest = min(((_apart(at, place), place) for place in places), default=None)
        if nearest is not None and nearest[0] <= hypot(reach, free):
            return Snapped(_whole(nearest[1]), why)
    return Snapped((_grid(at[0]), _grid(at[1])))


def _lines(value: float, lines: Iterable[int], reach: float) -> list[int]:
    """Return the nearest line within reach, if any."""
    nearest = min(lines, key=lambda line: abs(line - value), default=None)
    return [nearest] if nearest is not None and abs(nearest - value) <= reach else []


def _crossings(near: Iterable[tuple[Point, Point]], xs: Iterable[int], ys: Iterable[int]) -> Iterator[XY]:
    """Yield where edges cross upright lines at `xs` and level ones at `ys`."""
    for (ax, ay), (bx, by) in near:
        yield from (
            (x, ay + (by - ay) * (x - ax) / (bx - ax)) for x in xs if min(ax, bx) <= x <= max(ax, bx) != min(ax, bx)
        )
        yield from (
            (ax + (bx - ax) * (y - ay) / (by - ay), y) for y in ys if min(ay, by) <= y <= max(ay, by) != min(ay, by)
        )


def _along(at: XY, a: Point, b: Point) -> XY:
    """Return the place of an edge that is meant: on a level or upright one a step of the grid."""
    x, y = foot(at, a, b)
    if a[1] == b[1]:
        return min(max(_grid(x), min(a[0], b[0])), max(a[0], b[0])), y
    return (x, min(max(_grid(y), min(a[1], b[1])), max(a[1], b[1]))) if a[0] == b[0] else (x, y)


def _is_slanted(a: Point, b: Point) -> bool:
    """Tell whether a wall is neither level nor upright: what is square to those is in line with their ends."""
    return a[0] != b[0] and a[1] != b[1]


def _square(at: XY, start: Point, end: Point) -> XY:
    """Return the place nearest to `at` on the line through a wall's end that is square to the wall."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = dx * dx + dy * dy
    along = ((at[0] - end[0]) * -dy + (at[1] - end[1]) * dx) / length
    return end[0] - dy * along, end[1] + dx * along


def _grid(value: float) -> int:
    return round(value / GRID_MM) * GRID_MM


def _whole(at: XY) -> Point:
    return round(at[0]), round(at[1])


def _apart(a: XY, b: XY) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


def edges(outlines: Sequence[Sequence[Point]]) -> list[tuple[Point, Point]]:
    """Return the edges of all outlines, each closed."""
    return [edge for outline in outlines if outline for edge in pairwise((*outline, outline[0]))]


def foot(at: XY, a: Point, b: Point) -> XY:
    """Return the point of the edge nearest to `at`."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = dx * dx + dy * dy
    along = 0.0 if length == 0 else max(0.0, min(1.0, ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / length))
    return a[0] + along * dx, a[1] + along * dy
