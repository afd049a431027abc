"""Snapping: where a point means to go, given the corners and edges that are there, right angles and a fine grid."""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin
from typing import NamedTuple

from floorplan_circuits.findings import XY
from floorplan_circuits.home.record import Point

GRID_MM = 50
CORNER_CLEAR_MM = 60
"""How far from a corner a box on a wall keeps: half the width of a one-gang box, common practice, no source."""


class Snapped(NamedTuple):
    """Where a point went, and why: 'corner', 'edge', 'in line', 'square' or nothing for the grid."""

    at: Point
    why: str = ""


def snap(at: XY, outlines: Sequence[Sequence[Point]], reach: float, start: Point | None = None) -> Snapped:
    """Return the point that `at` means within `reach` mm: a corner, else an edge, else in line, else the grid.

    `start` is where the line being drawn begins: square to it, and level or upright from it, comes before the grid.
    """
    corners = [corner for outline in outlines for corner in outline]
    nearest = min(corners, key=lambda corner: hypot(corner[0] - at[0], corner[1] - at[1]), default=None)
    if nearest is not None and hypot(nearest[0] - at[0], nearest[1] - at[1]) <= reach:
        return Snapped(nearest, "corner")
    x, why_x = _in_line(at[0], [*(corner[0] for corner in corners), *([start[0]] if start else [])], reach)
    y, why_y = _in_line(at[1], [*(corner[1] for corner in corners), *([start[1]] if start else [])], reach)
    edge = _on_edge((x, y), outlines, reach)
    if edge is not None and not (why_x and why_y):
        return Snapped(edge, "edge")
    return Snapped((x, y), "in line" if why_x or why_y else "")


def _in_line(value: float, lines: Iterable[int], reach: float) -> tuple[int, bool]:
    """Return the nearest of the lines within reach, else the nearest step of the grid."""
    nearest = min(lines, key=lambda line: abs(line - value), default=None)
    if nearest is not None and abs(nearest - value) <= reach:
        return nearest, True
    return round(value / GRID_MM) * GRID_MM, False


def _on_edge(at: XY, outlines: Sequence[Sequence[Point]], reach: float) -> Point | None:
    found = [(hypot(spot[0] - at[0], spot[1] - at[1]), spot) for a, b in _edges(outlines) for spot in [_foot(at, a, b)]]
    nearest = min(found, default=None)
    if nearest is None or nearest[0] > reach:
        return None
    return round(nearest[1][0]), round(nearest[1][1])


def _edges(outlines: Sequence[Sequence[Point]]) -> list[tuple[Point, Point]]:
    return [edge for outline in outlines if outline for edge in pairwise((*outline, outline[0]))]


def _foot(at: XY, a: Point, b: Point) -> XY:
    """Return the point of the edge nearest to `at`."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = dx * dx + dy * dy
    along = 0.0 if length == 0 else max(0.0, min(1.0, ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / length))
    return a[0] + along * dx, a[1] + along * dy


# --- walls ----------------------------------------------------------------------------------------------------------


class WallSpot(NamedTuple):
    """A place on a wall, and which way a box there faces: towards the side that was pointed at."""

    at: Point
    angle: int


def wall_spot(at: XY, outlines: Sequence[Sequence[Point]], reach: float) -> WallSpot | None:
    """Return the place on the nearest wall within `reach` mm, facing the side `at` lies on; None without one."""
    found = [(hypot(spot[0] - at[0], spot[1] - at[1]), spot, a, b) for a, b in _edges(outlines)
             for spot in [_foot(at, a, b)]]  # fmt: skip
    nearest = min(found, key=lambda item: item[0], default=None)
    if nearest is None or nearest[0] > reach:
        return None
    _, spot, a, b = nearest
    spot = _off_corners(spot, a, b)
    way = atan2(at[1] - spot[1], at[0] - spot[0]) if nearest[0] > 0.5 else _normal(a, b)
    along = atan2(b[1] - a[1], b[0] - a[0])
    side = 1 if sin(way - along) >= 0 else -1
    angle = round(degrees(along + side * radians(90))) % 360
    return WallSpot((round(spot[0]), round(spot[1])), angle)


def _normal(a: Point, b: Point) -> float:
    return atan2(b[1] - a[1], b[0] - a[0]) + radians(90)


def _off_corners(spot: XY, a: Point, b: Point) -> XY:
    """Keep a box off the ends of its wall, or put it in the middle of a very short one."""
    length = hypot(b[0] - a[0], b[1] - a[1])
    along = hypot(spot[0] - a[0], spot[1] - a[1])
    kept = length / 2 if length < 2 * CORNER_CLEAR_MM else min(max(along, CORNER_CLEAR_MM), length - CORNER_CLEAR_MM)
    return (a[0] + (b[0] - a[0]) * kept / length, a[1] + (b[1] - a[1]) * kept / length) if length else spot


def ahead(at: Point, angle: int, distance: float) -> XY:
    """Return the point `distance` mm in front of a thing that faces `angle`."""
    return at[0] + distance * cos(radians(angle)), at[1] + distance * sin(radians(angle))


def is_inside(at: XY, outline: Sequence[Point]) -> bool:
    """Tell whether a point lies inside an outline (even-odd; on the edge is either)."""
    inside = False
    for (ax, ay), (bx, by) in pairwise((*outline, outline[0])):
        if (ay > at[1]) != (by > at[1]) and at[0] < (bx - ax) * (at[1] - ay) / (by - ay) + ax:
            inside = not inside
    return inside
