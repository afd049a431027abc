"""Edits of boxes and devices: put a device on a wall, join it to a box, split its halves, say what passes through."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit, only, there
from floorplan_circuits.edits.numbering import Counter, counter, marks_given, next_mark
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.home.boxes import NOT_KNOWN, Behind, Box, Device, Feed, Mount
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.record import Point, change
from floorplan_circuits.home.references import targets

MOST_GANGS = 12
MOST_AT_ONCE = 100
"""So many boxes may be put in one row."""
MOUNTS: dict[str, Mount] = {
    "wall": "wall",
    "ceiling": "ceiling",
    "floor": "floor",
    "outdoor": "outdoor",
    "loose cable end": "loose cable end",
}
OF_A_DEVICE = frozenset({"name", "kind", "va", "continuous", "critical", "ground", "rated", "planned"})
OF_A_BOX = frozenset({"height", "mount", "reach", "wiring", "note", "placed"})


class Place(NamedTuple):
    """Where a box goes: on a level, facing some way; `mount` None for what is usual for what is put in it."""

    at: Point
    angle: int
    mount: Mount | None = None


@edit
def put_device(home: Home, level: int, at: Point, angle: int, kind: str, mount: Mount | None = None) -> Edited:
    """Make a box at a place with one device in it; its circuit stays unknown until somebody says or tests it."""
    edited = put_devices(home, level, [Place(at, angle, mount)], kind)
    mark = edited.home.boxes[edited.made[0]].mark
    return edited._replace(says=f"Put {_a(kind_named(kind).label)} in {mark}")


@edit
def put_devices(home: Home, level: int, places: Sequence[Place], kind: str, gangs: int = 1) -> Edited:
    """Make a box with a device of this kind in each of its gangs at each place. `made`: each box, then its devices."""
    there(home.levels, level, "level")
    if not 1 <= gangs <= MOST_GANGS:
        raise Refused(f"A box has 1 to {MOST_GANGS} gangs.")
    if not 1 <= len(places) <= MOST_AT_ONCE:
        raise Refused(f"That is {counted(len(places), 'box', 'boxes')} at once; {MOST_AT_ONCE} at most.")
    ids, found = counter(home), kind_named(_some(kind))
    boxes, made = home.boxes.rows, list[int]()
    for nth, place in enumerate(places):
        devices = tuple(_new_device(ids, kind, slot) for slot in range(1, gangs + 1))
        box = Box(
            id=ids.new(),
            mark=next_mark(home, nth),
            level=level,
            at=place.at,
            angle=place.angle % 360,
            mount=place.mount or MOUNTS.get(found.mount, "wall"),
            height=found.height,
            gangs=gangs,
            devices=devices,
        )
        boxes = (*boxes, box)
        made += (box.id, *(device.id for device in devices))
    after = change(home, boxes=boxes, next_id=ids.next_id, marks_given=marks_given(home) + len(places))
    return Edited(after, f"Put {counted(len(places) * gangs, found.label, found.plural)}", tuple(made))


def _some(kind: str) -> str:
    if not kind:
        raise Refused("Say what it is, such as a receptacle or a switch.")
    return kind


def _new_device(ids: Counter, kind: str, slot: int) -> Device:
    return Device(id=ids.new(), slot=slot, kind=kind, feeds=(Feed(id=ids.new()),))


def _a(words: str) -> str:
    return f"an {words}" if words[:1].lower() in "aeiou" else f"a {words}"


@edit
def join_box(home: Home, box: int, kind: str, count: int = 1) -> Edited:
    """Put devices into a box that is there, in its next free gangs. Raises `Refused` if it has not as many."""
    found = there(home.boxes, box, "box")
    taken = {device.slot for device in found.devices}
    slots = [gang for gang in range(1, MOST_GANGS + 1) if gang not in taken][:count]
    if len(slots) < count:
        full = f"{found.mark} has {len(taken)} gangs already, and {MOST_GANGS} at most."
        raise Refused(f"{full} Start another box beside it.")
    ids, label = counter(home), kind_named(_some(kind)).label
    devices = tuple(_new_device(ids, kind, slot) for slot in slots)
    grown = change(found, devices=(*found.devices, *devices), gangs=max(found.gangs, *slots))
    home = change(home, boxes=home.boxes.put(grown), next_id=ids.next_id)
    what = _a(label) if count == 1 else counted(count, label, kind_named(kind).plural)
    return Edited(home, f"Add {what} to {found.mark}", tuple(device.id for device in devices))


# --- parts ----------------------------------------------------------------------------------------------------------


@edit
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
    split = change(found, feeds=_one_a_part(found.feeds, parts, ids))
    return Edited(_with_device(home, box, split, ids), f"Split the halves in {box.mark}")


def _one_a_part(feeds: tuple[Feed, ...], parts: tuple[str, ...], ids: Counter) -> tuple[Feed, ...]:
    """Return the feeds that are there, each with a part of its own, then a new one for each part that is left."""
    left = [part for part in parts if part not in {feed.part for feed in feeds}]
    named = tuple(change(feed, part=left.pop(0)) if not feed.part and left else feed for feed in feeds)
    lacking = left[: len(parts) - len(feeds)]
    return (*named, *(Feed(id=ids.new(), part=part) for part in lacking))


@edit
def join_halves(home: Home, device: int) -> Edited:
    """Let all parts of a device hang on one feed; what referred to the others meets its declared fate.

    What one half showed says nothing of the other: where a further one was said or seen to hang on anything, the feed
    is a new one, of which only what all agreed on is said.
    """
    box, found = device_in(home, device)
    if len(found.feeds) < 2:
        raise Refused("Its parts are on one feed already.")
    first, *others = found.feeds
    says = f"Join the halves in {box.mark}"
    halves = {feed.id for feed in found.feeds}
    if any(halves & {*source.into} for source in home.sources):
        raise Refused("A source comes in at one of the halves: say first where else it comes in.")
    named = {number for _, number in targets([*home.boxes, *home.log])}
    if not any(feed.on != NOT_KNOWN or feed.id in named for feed in others):
        lighter = remove(home, [feed.id for feed in others]).home
        box, found = device_in(lighter, device)
        return Edited(_with_device(lighter, box, change(found, feeds=(change(first, part=""),))), says)
    lighter = remove(home, [feed.id for feed in found.feeds]).home
    box, found = device_in(lighter, device)
    ids, agreed = counter(lighter), all(feed.on == first.on for feed in others)
    agreed = agreed and not (isinstance(first.on, Behind) and first.on.feed in halves)
    joined = change(first, id=ids.new(), part="", on=first.on if agreed else NOT_KNOWN, returns="not known")
    return Edited(_with_device(lighter, box, change(found, feeds=(joined,)), ids), says)


@edit
def add_passing(home: Home, box: int) -> Edited:
    """Say that a cable passes through a box without a device on it; what it hangs on is unknown."""
    found, ids = there(home.boxes, box, "box"), counter(home)
    feed = Feed(id=ids.new())
    grown = change(found, passing=(*found.passing, feed))
    home = change(home, boxes=home.boxes.put(grown), next_id=ids.next_id)
    return Edited(home, f"Add a passing cable to {found.mark}", (feed.id,))


# --- fields ---------------------------------------------------------------------------------------------------------


@edit
def set_device(home: Home, device: int, **fields: object) -> Edited:
    """Change fields of a device: name, kind, va, ground, critical, continuous, rated, planned."""
    only(fields, OF_A_DEVICE)
    box, found = device_in(home, device)
    changed = change(found, **fields)
    called = changed.name or kind_named(_some(changed.kind)).label
    return Edited(_with_device(home, box, changed), f"Edit {called} in {box.mark}")


@edit
def set_box(home: Home, box: int, **fields: object) -> Edited:
    """Change fields of a box: height, mount, reach, wiring, note, placed."""
    only(fields, OF_A_BOX)
    found = there(home.boxes, box, "box")
    return Edited(change(home, boxes=home.boxes.put(change(found, **fields))), f"Edit box {found.mark}")


@edit
def set_devices(home: Home, things: Iterable[int], **fields: object) -> Edited:
    """Change the same fields of many devices, boxes standing for all in them. Raises `Refused` if there are none."""
    only(fields, OF_A_DEVICE - {"name"})
    wanted = set(things)
    if "kind" in fields:
        _some(str(fields["kind"]))
    meant = {one.id for box in home.boxes for one in box.devices if one.id in wanted or box.id in wanted}
    boxes = [
        change(box, devices=tuple(change(one, **fields) if one.id in meant else one for one in box.devices))
        if any(one.id in meant for one in box.devices)
        else box
        for box in home.boxes
    ]
    if not meant:
        raise Refused("Choose devices first.")
    return Edited(change(home, boxes=tuple(boxes)), f"Edit {counted(len(meant), 'device')}")


@edit
def set_boxes(home: Home, boxes: Iterable[int], **fields: object) -> Edited:
    """Change the same fields of many boxes, as `set_box` does of one. Raises `Refused` if there are none."""
    only(fields, OF_A_BOX)
    wanted = [box for box in dict.fromkeys(boxes) if box in home.boxes]
    if not wanted:
        raise Refused("Choose boxes first.")
    table = home.boxes
    for box in wanted:
        table = table.put(change(table[box], **fields))
    return Edited(change(home, boxes=table), f"Edit {counted(len(wanted), 'box', 'boxes')}")


def device_in(home: Home, device: int) -> tuple[Box, Device]:
    """Return a device with its box. Raises `Refused` if it is not there."""
    for box in home.boxes:
        for found in box.devices:
            if found.id == device:
                return box, found
    raise Refused("That device is not there any more.")


def _with_device(home: Home, box: Box, device: Device, ids: Counter | None = None) -> Home:
    devices = tuple(device if other.id == device.id else other for other in box.devices)
    table = home.boxes.put(change(box, devices=devices))
    return change(home, boxes=table, next_id=home.next_id if ids is None else ids.next_id)
