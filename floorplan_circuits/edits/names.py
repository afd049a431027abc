"""Naming things in place: a home, level, room, device, panel, control, source; and what rooms are used for."""

from collections.abc import Collection

from floorplan_circuits.edits.boxes import device_in, set_device
from floorplan_circuits.edits.edited import Edited, Refused, edit, there
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change

LONGEST_NAME = 120
TABLE_OF = {"level": "levels", "room": "rooms", "panel": "panels", "control": "controls", "source": "sources"}
"""Where each kind of thing that has a name of its own is kept; a device is in its box."""

USES = ("bedroom", "bath", "kitchen", "dining", "living", "hall", "stairs", "closet", "laundry", "utility",
        "garage", "basement", "attic", "study", "outdoors")  # fmt: skip
"""What rooms are mostly used for; any other use can be typed."""


def name_of(home: Home, kind: str, number: int) -> str:
    """Return the name a thing has now, to edit it in place; nothing for what is gone."""
    if kind == "device":
        return next((device.name for box in home.boxes for device in box.devices if device.id == number), "")
    return str(getattr(getattr(home, TABLE_OF[kind]).get(number), "name", ""))


@edit
def rename(home: Home, kind: str, number: int, name: str) -> Edited:
    """Give a room, level, panel, device, control or source another name. Raises `Refused` for an empty or odd one.

    A room that is named after a use ("Kitchen", "Bedroom 2") gets that use, if nobody said another.
    """
    tidy = _tidy(name)
    if kind == "device":
        box, _ = device_in(home, number)
        return Edited(set_device(home, number, name=tidy).home, f"Name {tidy or f'a device in {box.mark}'}")
    if not tidy:
        raise Refused("Type a name.")
    table = getattr(home, TABLE_OF[kind])
    named = change(there(table, number, kind), name=tidy)
    if isinstance(named, Room) and not named.use:
        named = change(named, use=use_named(tidy))
    return Edited(change(home, **{TABLE_OF[kind]: table.put(named)}), f"Name {tidy}")


def _tidy(name: str) -> str:
    tidy = " ".join(name.split())
    if len(tidy) > LONGEST_NAME:
        raise Refused(f"A name has at most {LONGEST_NAME} letters.")
    if not tidy.isprintable():
        raise Refused("A name is one line of letters that print.")
    return tidy


def use_named(name: str) -> str:
    """Return the use that a name begins or ends with; a number after it does not matter."""
    words = name.lower().rstrip("0123456789 ").split()
    meant = {f"{use}{ending}": use for use in USES for ending in ("", "room", "way")}
    return next((meant[word] for word in (*words[-1:], *words[:1]) if word in meant), "")


@edit
def set_use(home: Home, rooms: Collection[int], use: str) -> Edited:
    """Say what rooms are used for, such as kitchen or bath."""
    table, tidy = home.rooms, _tidy(use)
    for room in rooms:
        if room in table:
            table = table.put(change(table[room], use=tidy))
    return Edited(change(home, rooms=table), f"Set the use to {tidy or 'none'}")


@edit
def name_home(home: Home, name: str) -> Edited:
    """Name the home; an empty name is allowed."""
    tidy = _tidy(name)
    return Edited(change(home, name=tidy), f"Name the home {tidy}".strip())
