"""Places on walls: where a box goes that is put near one, which way it faces, and which side it is on."""

from collections.abc import Sequence
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin
from typing import NamedTuple

from floorplan_circuits.findings import XY
from floorplan_circuits.geometry.snapping import edges, foot
from floorplan_circuits.home.record import Point

CORNER_CLEAR_MM = 60
"""How far from a corner a box on a wall keeps: half the width of a one-gang box, common practice, no source."""
PROBE_MM = 60
"""How far in front of a box its room is looked for, as the findings do: past half a partition."""
ON_WALL_MM = 30
"""How near to a wall's line a thing counts as on it: a quarter of a partition, and more than any rounding."""


class WallSpot(NamedTuple):
    """A place on a wall, and which way a box there faces: towards the side that was pointed at."""

    at: Point
    angle: int


def wall_spot(at: XY, outlines: Sequence[Sequence[Point]], reach: float) -> WallSpot | None:
    """Return the place on the nearest wall within `reach` mm, facing the side `at` lies on; None without one.

    A place on the wall itself faces into the room whose wall it is.
    """
    found = [(hypot(spot[0] - at[0], spot[1] - at[1]), a, b)
             for a, b in edges(outlines) if a != b for spot in [foot(at, a, b)]]  # fmt: skip
    nearest = min(found, key=lambda item: item[0], default=None)
    if nearest is None or nearest[0] > reach:
        return None
    _, a, b = nearest
    spot = on_wall(at, a, b)
    return WallSpot(spot, _facing(at, a, b, outlines))


def on_wall(at: XY, a: Point, b: Point) -> Point:
    """Return the place on the wall from `a` to `b` nearest to `at`, clear of its ends; the middle of a short one."""
    length = hypot(b[0] - a[0], b[1] - a[1])
    if length == 0:
        return a
    x, y = foot(at, a, b)
    along = hypot(x - a[0], y - a[1])
    kept = length / 2 if length < 2 * CORNER_CLEAR_MM else min(max(along, CORNER_CLEAR_MM), length - CORNER_CLEAR_MM)
    return round(a[0] + (b[0] - a[0]) * kept / length), round(a[1] + (b[1] - a[1]) * kept / length)


def _facing(at: XY, a: Point, b: Point, outlines: Sequence[Sequence[Point]]) -> int:
    """Return the way square off the wall on the side of `at`; for a place on the wall, into a room."""
    along = atan2(b[1] - a[1], b[0] - a[0])
    one, other = (round(degrees(along + side * radians(90))) % 360 for side in (1, -1))
    beside = (b[0] - a[0]) * (at[1] - a[1]) - (b[1] - a[1]) * (at[0] - a[0])
    if abs(beside) > 0.5 * hypot(b[0] - a[0], b[1] - a[1]):
        return one if beside > 0 else other
    return one if faces_into(on_wall(at, a, b), one, outlines) else other


def faces_into(at: Point, angle: int, outlines: Sequence[Sequence[Point]]) -> bool:
    """Tell whether a thing on a wall that faces `angle` faces into one of these rooms."""
    front = at[0] + PROBE_MM * cos(radians(angle)), at[1] + PROBE_MM * sin(radians(angle))
    return any(is_inside(front, outline) for outline in outlines)


def is_on_wall(at: Point, outline: Sequence[Point]) -> bool:
    """Tell whether a place is on a wall of a room, or near enough."""
    return any(hypot(x - at[0], y - at[1]) <= ON_WALL_MM for a, b in edges([outline]) for x, y in [foot(at, a, b)])


def is_inside(at: XY, outline: Sequence[Point]) -> bool:
    """Tell whether a point lies inside an outline (even-odd; on the edge is either)."""
    inside = False
    for (ax, ay), (bx, by) in pairwise((*outline, outline[0])) if outline else ():
        if (ay > at[1]) != (by > at[1]) and at[0] < (bx - ax) * (at[1] - ay) / (by - ay) + ax:
            inside = not inside
    return inside
