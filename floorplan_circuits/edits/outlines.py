"""Outlines as drawn by hand: tidied, and refused where they are no room."""

from collections.abc import Sequence

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.home.integrity import LARGEST_ROOM_MM, SMALLEST_ROOM_MM2
from floorplan_circuits.home.outlines import crossing, doubled_area
from floorplan_circuits.home.record import Point

LEAST_SIDE_MM = 200
MOST_CORNERS = 1000


def sound_outline(outline: Sequence[Point]) -> tuple[Point, ...]:
    """Return the outline without repeated and straight-through corners. Raises `Refused` if it is no room."""
    corners = _tidy(outline)
    if len(corners) < 3:
        raise Refused("A room needs at least three corners that are apart.")
    if len(corners) > MOST_CORNERS:
        raise Refused(f"A room has at most {MOST_CORNERS:,} corners.")
    if crossing(corners) is not None:
        raise Refused("The outline would cross itself. Put the corners in order round the room.")
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    wide, deep = max(xs) - min(xs), max(ys) - min(ys)
    if max(wide, deep) > LARGEST_ROOM_MM:
        raise Refused("The room would be over 200 m long.")
    if min(wide, deep) < LEAST_SIDE_MM or abs(doubled_area(corners)) < 2 * SMALLEST_ROOM_MM2:
        raise Refused("The room would have next to no area. Draw it larger.")
    return corners


def _tidy(outline: Sequence[Point]) -> tuple[Point, ...]:
    """Leave out corners that repeat the one before or lie on the straight line between their neighbours."""
    corners = [corner for place, corner in enumerate(outline) if not place or corner != outline[place - 1]]
    while len(corners) > 1 and corners[0] == corners[-1]:
        corners.pop()
    kept: list[Point] = []
    for place, (x, y) in enumerate(corners):
        (ax, ay), (bx, by) = corners[place - 1], corners[(place + 1) % len(corners)]
        between = (x - ax) * (bx - x) + (y - ay) * (by - y) >= 0
        if (x - ax) * (by - y) - (y - ay) * (bx - x) != 0 or not between:
            kept.append((x, y))
    return tuple(kept)
