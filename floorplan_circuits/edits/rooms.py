"""Edits of levels and rooms: add them, give a room another outline."""

import re
from collections.abc import Sequence

from floorplan_circuits.edits.edited import Edited, edit, there
from floorplan_circuits.edits.names import use_named
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.edits.outlines import sound_outline
from floorplan_circuits.edits.stairs import level_above
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point, change


@edit
def add_level(home: Home, name: str, order: int | None = None) -> Edited:
    """Add a level, above all others unless `order` says where; stairs below it that led nowhere yet lead to it."""
    ids = counter(home)
    above = max((level.order for level in home.levels), default=-1) + 1 if order is None else order
    level = Level(id=ids.new(), name=name, order=above)
    after = change(home, levels=home.levels.put(level), next_id=ids.next_id)
    for stair in after.stairs:
        if stair.head is None and level_above(after, stair.level) == level.id:
            after = change(after, stairs=after.stairs.put(change(stair, head=level.id)))
    return Edited(after, f"Add level {name}", (level.id,))


@edit
def add_room(home: Home, level: int, outline: Sequence[Point], name: str = "") -> Edited:
    """Add a room. Raises `Refused` for an outline that is no room. It may lie over another: old plans do."""
    there(home.levels, level, "level")
    ids = counter(home)
    called = name or next_room_name(home)
    use = "" if name else use_named(called)
    room = Room(id=ids.new(), level=level, name=called, use=use, outline=sound_outline(outline))
    home = change(home, rooms=home.rooms.put(room), next_id=ids.next_id)
    return Edited(home, f"Draw {room.name}", (room.id,))


def next_room_name(home: Home) -> str:
    """Return a name that no room has yet: after Bedroom 2 comes Bedroom 3, after a room without a number Room 7.

    Examples:
        >>> next_room_name(Home())
        'Room 1'
    """
    last = max(home.rooms, key=lambda room: room.id, default=None)
    counted = re.fullmatch(r"(.*\S) (\d{1,2})", last.name) if last is not None else None
    word, number = (counted[1], int(counted[2]) + 1) if counted else ("Room", len(home.rooms) + 1)
    taken = {room.name for room in home.rooms}
    while f"{word} {number}" in taken:
        number += 1
    return f"{word} {number}"


@edit
def set_wall(home: Home, thick: int) -> Edited:
    """Say how thick walls are, in mm: rooms are typed and shown as a tape measures them; 0 for their middles."""
    return Edited(change(home, wall=thick), "Set how thick walls are")


@edit
def reshape_room(home: Home, room: int, outline: Sequence[Point]) -> Edited:
    """Give a room another outline. Raises `Refused` for an outline that is no room."""
    found = there(home.rooms, room, "room")
    changed = change(found, outline=sound_outline(outline))
    return Edited(change(home, rooms=home.rooms.put(changed)), f"Reshape {found.name}")
