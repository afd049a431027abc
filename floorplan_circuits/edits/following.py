"""What stands on a wall goes with it: boxes and openings stay on a wall that moves, turns or gets shorter."""

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians
from typing import NamedTuple, TypeVar

from floorplan_circuits.geometry.snapping import edges, foot
from floorplan_circuits.geometry.wall_spots import ON_WALL_MM, faces_into, is_on_wall, on_wall
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Opening, Room
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


# --- walls that went ------------------------------------------------------------------------------------------------


def resettled(before: Home, after: Home, was: Room, now: Room) -> Home:
    """Return the home after one room got another outline; what stood on a wall that went is on the wall in its place.

    A box goes along that faced into the room, or stood outdoors on it; one that faces another room stays.
    """
    still = [room.outline for room in after.rooms if room.level == now.level and room.id != now.id]
    boxes, openings = after.boxes, after.openings
    for box in before.boxes:
        at = box.at if box.level == was.level and box.mount in FACING else None
        if at is None or faces_into(at, box.angle, still):
            continue
        if _has_lost_its_wall(at, was, now) or _has_lost_its_floor(at, box.angle, was, now):
            boxes = boxes.put(_on_new_wall(box, at, was, now))
    for opening in before.openings:
        lost = opening.level == was.level and _has_lost_its_wall(opening.at, was, now)
        if lost and not any(is_on_wall(opening.at, outline) for outline in still):
            openings = openings.put(_on_new_wall(opening, opening.at, was, now))
    return change(after, boxes=boxes, openings=openings)


def _has_lost_its_wall(at: Point, was: Room, now: Room) -> bool:
    return is_on_wall(at, was.outline) and not is_on_wall(at, now.outline)


def _has_lost_its_floor(at: Point, angle: int, was: Room, now: Room) -> bool:
    """Tell whether a thing faced into the room and does no more: a notch begins at its middle."""
    return faces_into(at, angle, [was.outline]) and not faces_into(at, angle, [now.outline])


def _on_new_wall(row: Standing, at: Point, was: Room, now: Room) -> Standing:
    """Return a thing on the wall that took the place of its own: the nearest new one that faces as it did."""
    inside = faces_into(at, row.angle, [was.outline])
    spots = [_spot(at, a, b, row.angle, inside, was, now) for a, b in edges([now.outline]) if a != b]
    best = min(spots, key=lambda spot: spot[:3], default=None)
    return row if best is None else change(row, at=best.at, angle=best.angle)


class _Spot(NamedTuple):
    """A place on one wall of a room, and what tells against it: an old wall, another way to face, how far it is."""

    is_old: bool
    turns: bool
    far: float
    at: Point
    angle: int


def _spot(at: Point, a: Point, b: Point, angle: int, inside: bool, was: Room, now: Room) -> _Spot:
    spot, across = on_wall(at, a, b), round(degrees(_way(a, b)) + 90) % 360
    facing = across if faces_into(spot, across, [now.outline]) == inside else (across + 180) % 360
    middle = (a[0] + b[0]) // 2, (a[1] + b[1]) // 2
    far = hypot(spot[0] - at[0], spot[1] - at[1])
    return _Spot(is_on_wall(middle, was.outline), cos(radians(facing - angle)) < 0.5, far, spot, facing)
