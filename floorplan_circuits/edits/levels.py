"""Edits of levels: put one above another with its outline, and change their order."""

from floorplan_circuits.edits.edited import Edited, Refused, edit, there
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.edits.outlines import sound_outline
from floorplan_circuits.edits.rooms import add_level, next_room_name
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change


@edit
def add_level_like(home: Home, name: str, like: int) -> Edited:
    """Add a level on top that begins with another's outline: one room for each part of the house, to be divided.

    Raises `Refused` where the other level has no rooms.
    """
    from floorplan_circuits.geometry.cutting import around  # late: shapely must not delay the first frame

    there(home.levels, like, "level")
    outlines = around(room.outline for room in home.rooms if room.level == like)
    if not outlines:
        raise Refused("That level has no rooms whose outline could be taken.")
    added = add_level(home, name)
    (level,) = added.made
    after = added.home
    for outline in outlines:
        ids = counter(after)
        room = Room(id=ids.new(), level=level, name=next_room_name(after), outline=sound_outline(outline))
        after = change(after, rooms=after.rooms.put(room), next_id=ids.next_id)
    return Edited(after, added.says, (level,))


@edit
def shift_level(home: Home, level: int, up: bool) -> Edited:
    """Swap a level with the next one up or down. Raises `Refused` for the topmost and the lowest."""
    found = there(home.levels, level, "level")
    ranked = ranked_levels(home)
    place = ranked.index(found) + (1 if up else -1)
    if not 0 <= place < len(ranked):
        raise Refused(f"{found.name} is the {'topmost' if up else 'lowest'} level already.")
    ranked[ranked.index(found)], ranked[place] = ranked[place], found
    levels = home.levels
    for row, order in zip(ranked, _orders(home), strict=True):
        levels = levels.put(change(row, order=order))
    return Edited(change(home, levels=levels), f"Move {found.name} {'up' if up else 'down'}")


def ranked_levels(home: Home) -> list[Level]:
    """Return the levels, the lowest first."""
    return sorted(home.levels, key=lambda level: level.order)


def _orders(home: Home) -> list[int]:
    """Return the orders that the levels have, lowest first, each told apart from the one before it."""
    orders: list[int] = []
    for level in ranked_levels(home):
        orders.append(max(level.order, orders[-1] + 1) if orders else level.order)
    return orders


def level_below(home: Home, level: int) -> int | None:
    """Return the level next below another, or None."""
    ranked = [one.id for one in ranked_levels(home)]
    place = ranked.index(level) if level in home.levels else 0
    return ranked[place - 1] if place else None
