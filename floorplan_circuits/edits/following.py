"""What stands on a wall goes with it: boxes and openings stay on a wall that moves, turns or gets shorter."""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import atan2, degrees, hypot
from typing import NamedTuple, TypeVar

from floorplan_circuits.geometry.snapping import foot
from floorplan_circuits.geometry.wall_spots import ON_WALL_MM, faces_into, on_wall
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Opening
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.outlines import Outline
from floorplan_circuits.home.record import Point, change
from floorplan_circuits.home.table import Table

FACING = ("wall", "outdoor")

Standing = TypeVar("Standing", Box, Opening)


class Wall(NamedTuple):
    """One wall of a room before and after, with that room's outline before and after."""

    a: Point
    b: Point
    to_a: Point
    to_b: Point
    room: Outline
    to_room: Outline


def followed(
    home: Home, level: int, reshaped: Mapping[int, tuple[Outline, Outline]]
) -> tuple[Table[Box], Table[Opening]]:
    """Return the boxes and openings after rooms of a level got other outlines, corner for corner.

    A box goes with the wall of the room it faces; one that faces a room which keeps its outline stays.
    """
    walls = [wall for before, after in reshaped.values() for wall in _walls(before, after)]
    still = [room.outline for room in home.rooms if room.level == level and room.id not in reshaped]
    boxes, openings = home.boxes, home.openings
    for box in home.boxes:
        at = box.at if box.level == level and box.mount in FACING else None
        if at is not None and not faces_into(at, box.angle, still):
            boxes = _put(boxes, box, _wall_of(at, _faced(box, at, walls) or walls))
    for opening in home.openings:
        if opening.level == level:
            openings = _put(openings, opening, _wall_of(opening.at, walls))
    return boxes, openings


def _walls(before: Outline, after: Outline) -> list[Wall]:
    sides = zip(pairwise((*before, before[0])), pairwise((*after, after[0])), strict=True)
    return [Wall(a, b, to_a, to_b, before, after) for (a, b), (to_a, to_b) in sides if a != b]


def _faced(box: Box, at: Point, walls: Sequence[Wall]) -> list[Wall]:
    """Return the walls of the rooms that a box faces."""
    rooms = {wall.room for wall in walls}
    faced = {room for room in rooms if faces_into(at, box.angle, [room])}
    return [wall for wall in walls if wall.room in faced]


def _wall_of(at: Point, walls: Sequence[Wall]) -> Wall | None:
    """Return the nearest wall that the place is on."""
    found = [(hypot(spot[0] - at[0], spot[1] - at[1]), wall) for wall in walls for spot in [foot(at, wall.a, wall.b)]]
    nearest = min(found, default=None, key=lambda item: item[0])
    return nearest[1] if nearest is not None and nearest[0] <= ON_WALL_MM else None


def _put(table: Table[Standing], row: Standing, wall: Wall | None) -> Table[Standing]:
    if wall is None or row.at is None:
        return table
    at = row.at if (wall.a, wall.b) == (wall.to_a, wall.to_b) else on_wall(row.at, wall.to_a, wall.to_b)
    angle = _turned(row.at, at, row.angle, wall)
    return table if (at, angle) == (row.at, row.angle) else table.put(change(row, at=at, angle=angle))


def _turned(before: Point, at: Point, angle: int, wall: Wall) -> int:
    """Return where a thing faces once its wall has turned, still into its room though that was turned inside out."""
    if wall.to_a == wall.to_b:
        return angle
    now = round(angle + degrees(_way(wall.to_a, wall.to_b) - _way(wall.a, wall.b))) % 360
    back = (now + 180) % 360
    faced, faces, behind = (
        faces_into(before, angle, [wall.room]),
        faces_into(at, now, [wall.to_room]),
        faces_into(at, back, [wall.to_room]),
    )
    return back if faces != faced == behind else now


def _way(a: Point, b: Point) -> float:
    return atan2(b[1] - a[1], b[0] - a[0])
