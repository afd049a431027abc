"""Naming things in place: a home, level, room, device, panel, breaker's old label."""

from collections.abc import Collection

from floorplan_circuits.edits.boxes import device_in, set_device
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change

LONGEST_NAME = 120


def name_of(home: Home, kind: str, number: int) -> str:
    """Return the name a thing has now, to edit it in place."""
    if kind == "device":
        return device_in(home, number)[1].name
    row = getattr(home, f"{kind}s").get(number)
    return str(getattr(row, "name", "")) if row is not None else ""


def rename(home: Home, kind: str, number: int, name: str) -> Edited:
    """Give a room, level, panel, device, control or source another name. Raises `Refused` for an empty or odd one."""
    tidy = " ".join(name.split())
    if len(tidy) > LONGEST_NAME:
        raise Refused(f"A name has at most {LONGEST_NAME} letters.")
    if any(not letter.isprintable() for letter in tidy):
        raise Refused("A name is one line of letters that print.")
    if kind == "device":
        return Edited(set_device(home, number, name=tidy).home, f"Name {tidy or 'a device'}")
    if not tidy:
        raise Refused("Type a name.")
    table = getattr(home, f"{kind}s")
    if number not in table:
        raise Refused("It is not there any more.")
    return Edited(change(home, **{f"{kind}s": table.put(change(table[number], name=tidy))}), f"Name {tidy}")


def set_use(home: Home, rooms: Collection[int], use: str) -> Edited:
    """Say what rooms are used for, such as kitchen or bath."""
    table = home.rooms
    for room in rooms:
        if room in table:
            table = table.put(change(table[room], use=use))
    return Edited(change(home, rooms=table), f"Set the use to {use or 'none'}")


def name_home(home: Home, name: str) -> Edited:
    """Name the home."""
    return Edited(change(home, name=" ".join(name.split())), "Name the home")
