"""A row of devices along a wall or over a ceiling: where each goes while the hand drags from the first to the last."""

from math import atan2, cos, degrees, hypot, radians, sin

from floorplan_circuits.edits.boxes import MOST_AT_ONCE, Place
from floorplan_circuits.findings import XY
from floorplan_circuits.geometry.wall_spots import faces_into, wall_spot
from floorplan_circuits.gestures.events import Context
from floorplan_circuits.home.boxes import Mount
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.lengths import Units

LEAST_MM = 100
SQUARE_WITHIN = 8.0
"""So many degrees off level or upright a row over a ceiling still means to be it."""
OFF_WALL_MM = 5
USUAL: dict[tuple[bool, Units], int] = {
    (True, "metric"): 3600,
    (True, "feet and inches"): 3658,
    (False, "metric"): 1200,
    (False, "feet and inches"): 1219,
}
"""Receptacles 12 ft apart leave no point of a wall over 6 ft from one (NEC 210.52(A)(1)); all else 4 ft, or 1.2 m:
common practice, no source."""


def usual_spacing(kind: str, units: Units) -> int:
    """Return how far apart devices of a kind usually stand, in mm."""
    return USUAL[kind_named(kind).group == "receptacle", units]


def along_wall(first: Place, to: XY, spacing: int, context: Context) -> list[Place]:
    """Return the places of a row on the wall of the first, as far as the hand has gone and the wall reaches."""
    (x, y), turn = first.at, radians(first.angle)
    along = -sin(turn), cos(turn)
    far = (to[0] - x) * along[0] + (to[1] - y) * along[1]
    way = 1 if far >= 0 else -1
    found = [first]
    for nth in range(1, _steps(abs(far), spacing) + 1):
        at = x + along[0] * way * nth * spacing, y + along[1] * way * nth * spacing
        spot = _on_same_wall(at, first, context)
        if spot is None:
            break
        found.append(spot)
    return found


def _on_same_wall(at: XY, first: Place, context: Context) -> Place | None:
    """Return the place a box takes on the first one's wall there; None past its end."""
    turn = radians(first.angle)
    in_front = at[0] + 2 * OFF_WALL_MM * cos(turn), at[1] + 2 * OFF_WALL_MM * sin(turn)
    spot = wall_spot(in_front, context.outlines(), 4 * OFF_WALL_MM)
    if spot is None or spot.angle != first.angle or hypot(spot.at[0] - at[0], spot.at[1] - at[1]) > OFF_WALL_MM:
        return None
    mount: Mount = "wall" if faces_into(spot.at, spot.angle, context.outlines()) else "outdoor"
    return Place(spot.at, spot.angle, mount)


def over_floor(first: Place, to: XY, spacing: int) -> list[Place]:
    """Return the places of a straight row as far as the hand has gone, level or upright if it nearly is."""
    (x, y), (dx, dy) = first.at, (to[0] - first.at[0], to[1] - first.at[1])
    turn = degrees(atan2(dy, dx))
    square = 90 * round(turn / 90)
    turn = radians(square if abs(turn - square) <= SQUARE_WITHIN else turn)
    steps = _steps(hypot(dx, dy), spacing)
    spots = ((x + cos(turn) * spacing * nth, y + sin(turn) * spacing * nth) for nth in range(steps + 1))
    return [first._replace(at=(round(a), round(b))) for a, b in spots]


def _steps(far: float, spacing: int) -> int:
    return min(int(far / spacing), MOST_AT_ONCE - 1)
