"""Edits of levels and rooms: add, reshape; what stands on a wall goes with it."""

from collections.abc import Mapping, Sequence

from floorplan_circuits.edits.edited import Edited, Refused, edit, there
from floorplan_circuits.edits.following import followed
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.edits.outlines import sound_outline
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point, change

Moves = Mapping[Point, Point]
"""Where corners go."""


@edit
def add_level(home: Home, name: str, order: int | None = None) -> Edited:
    """Add a level, above all others unless `order` says where."""
    ids = counter(home)
    above = max((level.order for level in home.levels), default=-1) + 1 if order is None else order
    level = Level(id=ids.new(), name=name, order=above)
    return Edited(change(home, levels=home.levels.put(level), next_id=ids.next_id), f"Add level {name}", (level.id,))


@edit
def add_room(home: Home, level: int, outline: Sequence[Point], name: str = "") -> Edited:
    """Add a room. Raises `Refused` for an outline that is no room. It may lie over another: old plans do."""
    there(home.levels, level, "level")
    ids = counter(home)
    room = Room(id=ids.new(), level=level, name=name or next_room_name(home), outline=sound_outline(outline))
    home = change(home, rooms=home.rooms.put(room), next_id=ids.next_id)
    return Edited(home, f"Draw {room.name}", (room.id,))


def next_room_name(home: Home) -> str:
    """Return a name that no room has yet."""
    taken = {room.name for room in home.rooms}
    number = len(home.rooms) + 1
    while f"Room {number}" in taken:
        number += 1
    return f"Room {number}"


@edit
def reshape_room(home: Home, room: int, outline: Sequence[Point]) -> Edited:
    """Give a room another outline. Raises `Refused` for an outline that is no room."""
    found = there(home.rooms, room, "room")
    changed = change(found, outline=sound_outline(outline))
    return Edited(change(home, rooms=home.rooms.put(changed)), f"Reshape {found.name}")


# --- corners and walls ----------------------------------------------------------------------------------------------


@edit
def move_corner(home: Home, level: int, corner: Point, to: Point) -> Edited:
    """Move a corner of every room of the level that has it, so that shared walls stay shared.

    Raises `Refused` where a room would cross itself or shrink to nothing, or where no room has that corner.
    """
    return _reshaped(home, level, {corner: to}, "Move a corner of")


@edit
def move_wall(home: Home, level: int, a: Point, b: Point, by: Point) -> Edited:
    """Move the wall from `a` to `b`, in every room that shares a part of it. Raises `Refused` as `move_corner` does."""
    return _reshaped(home, level, wall_moves(home, level, a, b, by), "Move a wall of")


def wall_moves(home: Home, level: int, a: Point, b: Point, by: Point) -> dict[Point, Point]:
    """Return where the corners go that lie on the wall from `a` to `b`, its ends among them, if it moves."""
    corners = {corner for room in home.rooms if room.level == level for corner in room.outline}
    return {corner: (corner[0] + by[0], corner[1] + by[1]) for corner in corners if _is_on(corner, a, b)}


def _is_on(at: Point, a: Point, b: Point) -> bool:
    """Tell whether a corner lies on a wall, to the millimetre."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    along, across = (at[0] - a[0]) * dx + (at[1] - a[1]) * dy, (at[0] - a[0]) * dy - (at[1] - a[1]) * dx
    return 0 <= along <= dx * dx + dy * dy and across * across <= dx * dx + dy * dy


def _reshaped(home: Home, level: int, moves: Moves, verb: str) -> Edited:
    touched = [room for room in home.rooms if room.level == level and not moves.keys().isdisjoint(room.outline)]
    if not touched:
        raise Refused("No room has that corner.")
    rooms = home.rooms
    for room in touched:
        rooms = rooms.put(change(room, outline=sound_outline(moved_outline(room, moves))))
    boxes, openings = followed(home, level, [(room.outline, moved_outline(room, moves)) for room in touched])
    names = " and ".join(room.name for room in touched[:2]) + (" and others" if len(touched) > 2 else "")
    return Edited(change(home, rooms=rooms, boxes=boxes, openings=openings), f"{verb} {names}")


def moved_outline(room: Room, moves: Moves) -> tuple[Point, ...]:
    """Return a room's outline with its corners moved, none left out."""
    return tuple(moves.get(corner, corner) for corner in room.outline)
