"""Edits of levels and rooms: add, reshape, name."""

from collections.abc import Sequence

from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import LARGEST_ROOM_MM, SMALLEST_ROOM_MM2
from floorplan_circuits.home.outlines import crossing, doubled_area
from floorplan_circuits.home.record import Point, change

LEAST_SIDE_MM = 200


def add_level(home: Home, name: str, order: int | None = None) -> Edited:
    """Add a level, above all others unless `order` says where."""
    ids = counter(home)
    above = max((level.order for level in home.levels), default=-1) + 1 if order is None else order
    level = Level(id=ids.new(), name=name, order=above)
    return Edited(change(home, levels=home.levels.put(level), next_id=ids.next_id), f"Add level {name}", (level.id,))


def add_room(home: Home, level: int, outline: Sequence[Point], name: str = "") -> Edited:
    """Add a room. Raises `Refused` for an outline that is no room."""
    corners = sound_outline(outline)
    ids = counter(home)
    room = Room(id=ids.new(), level=level, name=name or next_room_name(home), outline=corners)
    home = change(home, rooms=home.rooms.put(room), next_id=ids.next_id)
    return Edited(home, f"Draw {room.name}", (room.id,))


def next_room_name(home: Home) -> str:
    """Return a name that no room has yet."""
    taken = {room.name for room in home.rooms}
    number = len(home.rooms) + 1
    while f"Room {number}" in taken:
        number += 1
    return f"Room {number}"


def reshape_room(home: Home, room: int, outline: Sequence[Point]) -> Edited:
    """Give a room another outline. Raises `Refused` for an outline that is no room."""
    found = home.rooms[room]
    changed = change(found, outline=sound_outline(outline))
    return Edited(change(home, rooms=home.rooms.put(changed)), f"Reshape {found.name}")


def move_corner(home: Home, level: int, corner: Point, to: Point) -> Edited:
    """Move a corner of every room of the level that has it, so that shared walls stay shared.

    Raises `Refused` where a room would cross itself or shrink to nothing, or where no room has that corner.
    """
    return _reshaped(home, level, {corner: to}, "Move a corner of")


def move_wall(home: Home, level: int, a: Point, b: Point, by: Point) -> Edited:
    """Move the wall from `a` to `b`: both its corners, in every room that has them."""
    moves = {end: (end[0] + by[0], end[1] + by[1]) for end in (a, b)}
    return _reshaped(home, level, moves, "Move a wall of")


def _reshaped(home: Home, level: int, moves: dict[Point, Point], verb: str) -> Edited:
    touched = [room for room in home.rooms if room.level == level and not moves.keys().isdisjoint(room.outline)]
    if not touched:
        raise Refused("No room has that corner.")
    rooms = home.rooms
    for room in touched:
        outline = sound_outline([moves.get(corner, corner) for corner in room.outline])
        rooms = rooms.put(change(room, outline=outline))
    names = " and ".join(room.name for room in touched[:2]) + (" and others" if len(touched) > 2 else "")
    return Edited(change(home, rooms=rooms), f"{verb} {names}")


def sound_outline(outline: Sequence[Point]) -> tuple[Point, ...]:
    """Return the outline without repeated and straight-through corners. Raises `Refused` if it is no room."""
    corners = _tidy(outline)
    if len(corners) < 3:
        raise Refused("A room needs at least three corners that are apart.")
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
    corners = [corner for place, corner in enumerate(outline) if corner != outline[place - 1]]
    kept: list[Point] = []
    for place, (x, y) in enumerate(corners):
        (ax, ay), (bx, by) = corners[place - 1], corners[(place + 1) % len(corners)]
        between = (x - ax) * (bx - x) + (y - ay) * (by - y) >= 0
        if (x - ax) * (by - y) - (y - ay) * (bx - x) != 0 or not between:
            kept.append((x, y))
    return tuple(kept)
