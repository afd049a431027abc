"""Edits that divide floors: a room cut in two, rooms joined, a notch cut out, a bay added, an overlap cut off."""

from collections.abc import Collection, Iterable, Sequence

from floorplan_circuits.edits.edited import Edited, Refused, edit, there
from floorplan_circuits.edits.following import resettled
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.edits.outlines import sound_outline
from floorplan_circuits.edits.rooms import add_room, next_room_name
from floorplan_circuits.edits.walls import named
from floorplan_circuits.geometry.wall_spots import is_on_wall
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.outlines import Outline, doubled_area
from floorplan_circuits.home.record import Point, change


@edit
def split_room(home: Home, room: int, path: Sequence[Point]) -> Edited:
    """Cut a room in two along a path from wall to wall; the larger part keeps the name.

    Raises `Refused` where the path does not cut it in just two, or a part would be no room.
    """
    from floorplan_circuits.geometry.cutting import split  # late: shapely must not delay the first frame

    found, ids = there(home.rooms, room, "room"), counter(home)
    parts = split(found.outline, path)
    if parts is None:
        raise Refused(f"Draw the line from one wall of {found.name} to another, so that it makes two rooms.")
    larger, smaller = map(sound_outline, parts)
    new = Room(id=ids.new(), level=found.level, name=next_room_name(home), outline=smaller)
    rooms = home.rooms.put(change(found, outline=larger)).put(new)
    return Edited(change(home, rooms=rooms, next_id=ids.next_id), f"Divide {found.name}", (new.id,))


@edit
def join_rooms(home: Home, ids: Collection[int]) -> Edited:
    """Make one room of several that share walls; the largest gives the name. Openings between them go.

    Raises `Refused` for fewer than two, for rooms on several levels, and where they are apart or leave a hole.
    """
    from floorplan_circuits.geometry.cutting import joined  # late, as above

    rooms = [room for room in home.rooms if room.id in ids]
    if len(rooms) < 2 or len({room.level for room in rooms}) > 1:
        raise Refused("Select two or more rooms of one level to join.")
    outline = joined(room.outline for room in rooms)
    if outline is None:
        raise Refused("These rooms don’t share a wall, or leave a hole between them: they stay as they are.")
    kept = max(rooms, key=lambda room: abs(doubled_area(room.outline)))
    gone = {room.id for room in rooms} - {kept.id}
    after = change(home, rooms=home.rooms.put(change(kept, outline=sound_outline(outline))).without(gone))
    return Edited(_without_lost_openings(home, after, kept.level), f"Join {named(rooms)}")


def _without_lost_openings(before: Home, after: Home, level: int) -> Home:
    """Return the home without the openings of a level whose wall went."""
    was, now = ([room.outline for room in home.rooms if room.level == level] for home in (before, after))
    lost = {one.id for one in after.openings if one.level == level and _is_on(one.at, was) and not _is_on(one.at, now)}
    return change(after, openings=after.openings.without(lost)) if lost else after


def _is_on(at: Point, outlines: Iterable[Outline]) -> bool:
    return any(is_on_wall(at, outline) for outline in outlines)


# --- a piece less, a piece more -------------------------------------------------------------------------------------


@edit
def cut_out(home: Home, room: int, piece: Sequence[Point]) -> Edited:
    """Cut a notch out of a room. Raises `Refused` where that leaves nothing, pieces or a hole."""
    from floorplan_circuits.geometry.cutting import without  # late, as above

    found = there(home.rooms, room, "room")
    left = without(found.outline, [sound_outline(piece)])
    if left is None:
        raise Refused(f"Cut from a wall of {found.name}, so that one room without a hole is left.")
    return Edited(_reshaped(home, found, left), f"Cut a notch out of {found.name}")


@edit
def add_on(home: Home, room: int, piece: Sequence[Point]) -> Edited:
    """Add a bay to a room. Raises `Refused` where the piece does not touch the room."""
    from floorplan_circuits.geometry.cutting import joined  # late, as above

    found = there(home.rooms, room, "room")
    grown = joined([found.outline, sound_outline(piece)])
    if grown is None:
        raise Refused(f"Draw the bay from a wall of {found.name}.")
    return Edited(_reshaped(home, found, grown), f"Add a bay to {found.name}")


@edit
def clip_room(home: Home, room: int) -> Edited:
    """Cut off what of a room lies over others. Raises `Refused` where it lies over none, or no room would be left."""
    from floorplan_circuits.geometry.cutting import without  # late, as above

    found = there(home.rooms, room, "room")
    over = lapped(home, found.level, found.outline, found.id)
    if not over:
        raise Refused(f"{found.name} lies over no other room.")
    left = without(found.outline, [one.outline for one in over])
    if left is None:
        raise Refused(f"{named(over)} would leave no room of {found.name}.")
    return Edited(_reshaped(home, found, left), f"Cut {found.name} back to {named(over)}")


@edit
def add_room_into(home: Home, level: int, outline: Sequence[Point]) -> Edited:
    """Add a room inside others, which are cut back to it. Raises `Refused` where one of them would be no room then."""
    from floorplan_circuits.geometry.cutting import without  # late, as above

    added = add_room(home, level, outline)
    new = added.home.rooms[added.made[0]]
    rooms = added.home.rooms
    for one in lapped(home, level, new.outline):
        left = without(one.outline, [new.outline])
        if left is None:
            raise Refused(f"That would leave no room of {one.name}, or one with a hole.")
        rooms = rooms.put(change(one, outline=sound_outline(left)))
    return Edited(change(added.home, rooms=rooms), added.says, added.made)


def lapped(home: Home, level: int, outline: Outline, but: int = 0) -> list[Room]:
    """Return the rooms of a level that an outline lies over by more than a hair."""
    from floorplan_circuits.geometry.overlaps import overlap_mm2  # late, as above

    rooms = (room for room in home.rooms if room.level == level and room.id != but)
    return [room for room in rooms if overlap_mm2(room.outline, outline) > HAIR_MM2]


HAIR_MM2 = 10_000
"""A hundredth of a square metre: what a line drawn a few millimetres off covers of the room beside it."""


def _reshaped(home: Home, room: Room, outline: Outline) -> Home:
    """Return the home with a room of another outline; what stood on a wall that went stands on the nearest that is."""
    changed = change(room, outline=sound_outline(outline))
    return resettled(home, change(home, rooms=home.rooms.put(changed)), room, changed)
