"""Edits of boxes and devices: put a device on a wall, join it to a box, split its halves, say what passes through."""

from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.numbering import Counter, counter, next_mark
from floorplan_circuits.home.boxes import Box, Device, Feed, Mount
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.record import Point, change

MOST_GANGS = 12
MOUNTS: dict[str, Mount] = {
    "wall": "wall",
    "ceiling": "ceiling",
    "floor": "floor",
    "outdoor": "outdoor",
    "loose cable end": "loose cable end",
}


def put_device(home: Home, level: int, at: Point, angle: int, kind: str, mount: Mount | None = None) -> Edited:
    """Make a box at a place with one device in it; its circuit stays unknown until somebody says or tests it."""
    ids, found = counter(home), kind_named(kind)
    device = _new_device(ids, kind, 1)
    box = Box(
        id=ids.new(),
        mark=next_mark(home),
        level=level,
        at=at,
        angle=angle % 360,
        mount=mount or MOUNTS.get(found.mount, "wall"),
        height=found.height,
        devices=(device,),
    )
    made = with_box(home, box, ids)
    return Edited(made, f"Put {_a(found.label)} in {box.mark}", (box.id, device.id))


def with_box(home: Home, box: Box, ids: Counter) -> Home:
    """Return the home with a new box, its mark counted as given."""
    number = int(box.mark[1:]) if box.mark[1:].isdigit() else 0
    given = max(home.marks_given, number)
    return change(home, boxes=home.boxes.put(box), next_id=ids.next_id, marks_given=given)


def _new_device(ids: Counter, kind: str, slot: int) -> Device:
    return Device(id=ids.new(), slot=slot, kind=kind, feeds=(Feed(id=ids.new()),))


def _a(words: str) -> str:
    return f"an {words}" if words[:1].lower() in "aeiou" else f"a {words}"


def join_box(home: Home, box: int, kind: str) -> Edited:
    """Put a device into a box that is there, as its next gang. Raises `Refused` if the box is full."""
    found = home.boxes[box]
    if len(found.devices) >= MOST_GANGS:
        raise Refused(f"{found.mark} has {MOST_GANGS} gangs already. Start another box beside it.")
    ids = counter(home)
    device = _new_device(ids, kind, len(found.devices) + 1)
    grown = change(found, devices=(*found.devices, device), gangs=max(found.gangs, device.slot))
    home = change(home, boxes=home.boxes.put(grown), next_id=ids.next_id)
    return Edited(home, f"Add {_a(kind_named(kind).label)} to {found.mark}", (device.id,))


def split_halves(home: Home, device: int) -> Edited:
    """Give each half of a receptacle its own feed; the first keeps what is known, the others are unknown.

    Raises `Refused` for a device without parts, or one that is split already.
    """
    box, found = device_in(home, device)
    parts = kind_named(found.kind).parts
    if len(parts) < 2:
        raise Refused(f"{_a(kind_named(found.kind).label).capitalize()} has no parts to split.")
    if len(found.feeds) >= len(parts):
        raise Refused("Its parts are split already.")
    ids = counter(home)
    first = change(found.feeds[0], part=parts[0]) if found.feeds else Feed(id=ids.new(), part=parts[0])
    taken = [first, *found.feeds[1:]]
    rest = [Feed(id=ids.new(), part=part) for part in parts[len(taken) :]]
    split = change(found, feeds=(*taken, *rest))
    return Edited(_with_device(home, box, split, ids), f"Split the halves in {box.mark}")


def join_halves(home: Home, device: int) -> Edited:
    """Let all parts of a device hang on its first feed again."""
    box, found = device_in(home, device)
    if len(found.feeds) < 2:
        raise Refused("Its parts are on one feed already.")
    joined = change(found, feeds=(change(found.feeds[0], part=""),))
    return Edited(_with_device(home, box, joined, counter(home)), f"Join the halves in {box.mark}")


def add_passing(home: Home, box: int) -> Edited:
    """Say that a cable passes through a box without a device on it; what it hangs on is unknown."""
    found, ids = home.boxes[box], counter(home)
    feed = Feed(id=ids.new())
    grown = change(found, passing=(*found.passing, feed))
    home = change(home, boxes=home.boxes.put(grown), next_id=ids.next_id)
    return Edited(home, f"Add a passing cable to {found.mark}", (feed.id,))


def set_device(home: Home, device: int, **fields: object) -> Edited:
    """Change fields of a device: name, kind, va, ground, critical, continuous, planned."""
    box, found = device_in(home, device)
    changed = change(found, **fields)
    called = changed.name or kind_named(changed.kind).label
    return Edited(_with_device(home, box, changed, counter(home)), f"Edit {called} in {box.mark}")


def set_box(home: Home, box: int, **fields: object) -> Edited:
    """Change fields of a box: height, mount, reach, wiring, note, placed."""
    found = home.boxes[box]
    return Edited(change(home, boxes=home.boxes.put(change(found, **fields))), f"Edit box {found.mark}")


def device_in(home: Home, device: int) -> tuple[Box, Device]:
    """Return a device with its box. Raises `Refused` if it is not there."""
    for box in home.boxes:
        for found in box.devices:
            if found.id == device:
                return box, found
    raise Refused("That device is not there any more.")


def _with_device(home: Home, box: Box, device: Device, ids: Counter) -> Home:
    devices = tuple(device if other.id == device.id else other for other in box.devices)
    return change(home, boxes=home.boxes.put(change(box, devices=devices)), next_id=ids.next_id)
