"""Removing things: what nests in them goes too, and every reference meets the fate it was declared with."""

from collections import Counter
from collections.abc import Iterable, Iterator

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit
from floorplan_circuits.edits.numbering import marks_given
from floorplan_circuits.edits.rewriting import needs, rewritten
from floorplan_circuits.geometry.wall_spots import is_on_wall
from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.building import Opening, Room
from floorplan_circuits.home.home import TABLES, Home, mains
from floorplan_circuits.home.integrity import KIND_OF_TABLE
from floorplan_circuits.home.log import Opened
from floorplan_circuits.home.power import Breaker, Panel
from floorplan_circuits.home.record import change
from floorplan_circuits.home.references import Refers, targets
from floorplan_circuits.home.table import Table
from floorplan_circuits.supply.numbering import mark as mark_of

NOUNS = {"box": "boxes"}


@edit
def remove(home: Home, ids: Iterable[int]) -> Edited:
    """Remove rooms, boxes, devices, feeds, breakers, panels, levels and what else has an id.

    A box that loses its last device goes with it, if nothing passes through it and nobody noted anything about it:
    words, a picture, what was seen inside. Doors and windows go with the last room that has their wall.
    Raises `Refused` if nothing is there.
    """
    wanted = set(ids)
    called = _called(home, wanted)
    if not called:
        raise Refused("Nothing is selected to remove.")
    gone = _all_gone(home, wanted | _emptied(home, wanted) | _without_wall(home, wanted))
    boxes = _without_nested(home.boxes, gone)
    panels = _without_mains(home.panels, gone)
    lighter = change(home, boxes=boxes, panels=panels, marks_given=marks_given(home))
    return Edited(_untied(home, _cleared(lighter, gone)), f"Remove {called}")


# --- what is removed, in words ---------------------------------------------------------------------------------------


def _called(home: Home, wanted: set[int]) -> str:
    """Return what is removed, in words: its name if it is one thing, else counts."""
    found: dict[str, list[str]] = {}
    for kind, name in _named(home, wanted):
        found.setdefault(kind, []).append(name)
    if sum(map(len, found.values())) == 1:
        ((kind, names),) = found.items()
        return f"{kind} {names[0]}".strip()
    return ", ".join(counted(len(names), kind, NOUNS.get(kind, "")) for kind, names in found.items())


def _named(home: Home, wanted: set[int]) -> Iterator[tuple[str, str]]:
    """Yield the kind and name of everything wanted; what is in a wanted thing is not told apart."""
    for table in TABLES:
        for row in getattr(home, table):
            if row.id in wanted:
                yield KIND_OF_TABLE[table], _name(home, row)
    for box in home.boxes:
        if box.id not in wanted:
            yield from ((kind, f"in {box.mark}") for kind in _kinds_in(box, wanted))
    yield from (
        ("main", f"of {panel.name}") for panel, main in mains(home) if {main.id, panel.id} & wanted == {main.id}
    )


def _name(home: Home, row: object) -> str:
    """Return what a row is called: a breaker by its spaces, anything else by its mark or name."""
    if isinstance(row, Breaker):
        return mark_of(home.panels.get(row.panel), row)
    return str(getattr(row, "mark", "") or getattr(row, "name", ""))


def _kinds_in(box: Box, wanted: set[int]) -> Iterator[str]:
    for device in box.devices:
        if device.id in wanted:
            yield "device"
        else:
            yield from ("feed" for feed in device.feeds if feed.id in wanted)
    yield from ("cable" for feed in box.passing if feed.id in wanted)


# --- what goes with it -----------------------------------------------------------------------------------------------


def _emptied(home: Home, wanted: set[int]) -> set[int]:
    """Return the boxes that are left with nothing in them, and nothing that anybody noted about them."""
    noted = noted_boxes(home)
    return {
        box.id
        for box in home.boxes
        if box.devices
        and all(device.id in wanted for device in box.devices)
        and all(feed.id in wanted for feed in box.passing)
        and box.id not in noted
    }


def noted_boxes(home: Home) -> set[int]:
    """Return the boxes that somebody noted something about: words, a picture, what was seen inside."""
    seen = {entry.box for entry in home.log if isinstance(entry, Opened)}
    return seen | {box.id for box in home.boxes if box.note or box.pictures}


def _without_wall(home: Home, wanted: set[int]) -> set[int]:
    """Return the openings in walls of rooms that go and of none that stays."""
    going = [room for room in home.rooms if room.id in wanted]
    staying = [room for room in home.rooms if room.id not in wanted] if going else []
    return {one.id for one in home.openings if _is_in_wall(one, going) and not _is_in_wall(one, staying)}


def _is_in_wall(opening: Opening, rooms: Iterable[Room]) -> bool:
    return any(room.level == opening.level and is_on_wall(opening.at, room.outline) for room in rooms)


def _all_gone(home: Home, wanted: set[int]) -> set[int]:
    """Return all that goes: whatever holds a 'remove' reference to something gone goes too, with what nests in it."""
    rows = [(row.id, needs(row)) for table in TABLES for row in getattr(home, table)]
    gone, new = set(wanted), set(wanted)
    while new:
        new = {number for number, needed in rows if number not in gone and not new.isdisjoint(needed)}
        gone |= new
    return gone | _nested(home, gone)


def _nested(home: Home, gone: set[int]) -> set[int]:
    """Return the ids of all that is nested in what is gone."""
    inside: set[int] = set()
    for box in home.boxes:
        for device in box.devices:
            if box.id in gone or device.id in gone:
                inside.update((device.id, *(feed.id for feed in device.feeds)))
        if box.id in gone:
            inside.update(feed.id for feed in box.passing)
    inside.update(main.id for panel, main in mains(home) if panel.id in gone)
    return inside


def _without_nested(boxes: Table[Box], gone: set[int]) -> Table[Box]:
    """Return the boxes that stay, without the devices and feeds that go."""
    kept = [lighter_box(box, gone) for box in boxes if box.id not in gone]
    return boxes if len(kept) == len(boxes) and all(map(_is, kept, boxes)) else Table(kept)


def lighter_box(box: Box, gone: set[int]) -> Box:
    """Return a box without the devices and feeds that go, the gangs that were freed closed up; the same if none do."""
    devices = tuple(_lighter(device, gone) for device in box.devices if device.id not in gone)
    passing = tuple(feed for feed in box.passing if feed.id not in gone)
    if len(devices) == len(box.devices):
        same = passing == box.passing and all(map(_is, devices, box.devices))
        return box if same else change(box, devices=devices, passing=passing)
    freed = {device.slot for device in box.devices} - {device.slot for device in devices}
    closed = tuple(change(device, slot=_slot_without(device.slot, freed)) for device in devices)
    return change(box, devices=closed, passing=passing, gangs=max(1, box.gangs - len(freed)))


def _slot_without(slot: int, freed: set[int]) -> int:
    """Return the gang a device is in once those that were freed are closed up."""
    return slot - sum(one < slot for one in freed)


def _lighter(device: Device, gone: set[int]) -> Device:
    feeds = tuple(feed for feed in device.feeds if feed.id not in gone)
    return device if len(feeds) == len(device.feeds) else change(device, feeds=feeds)


def _without_mains(panels: Table[Panel], gone: set[int]) -> Table[Panel]:
    for panel in panels:
        kept = tuple(main for main in panel.mains if main.id not in gone)
        if len(kept) < len(panel.mains):
            panels = panels.put(change(panel, mains=kept))
    return panels


# --- fates ----------------------------------------------------------------------------------------------------------


def _cleared(home: Home, gone: set[int]) -> Home:
    """Return the home without the rows that are gone, and every reference to one of them cleared as declared."""

    def target(declared: Refers, named: int) -> int | None:
        return None if named in gone and declared.fate == "clear" else named

    tables = {}
    for name in TABLES:
        staying = getattr(home, name).without(gone)
        if any(named in gone and declared.fate == "clear" for declared, named in targets(staying)):
            rows = (rewritten(row, target) for row in staying)
            staying = Table(row for row in rows if row is not None)
        tables[name] = staying
    return change(home, **tables)


def _untied(before: Home, after: Home) -> Home:
    """Take the tie off a breaker whose handle has lost all that it was tied with."""
    if len(after.breakers) == len(before.breakers):
        return after
    tied, was = _tied(after.breakers), _tied(before.breakers)
    breakers = after.breakers
    for breaker in after.breakers:
        if breaker.tie is not None and tied[breaker.tie.group] == 1 < was[breaker.tie.group]:
            breakers = breakers.put(change(breaker, tie=None))
    return change(after, breakers=breakers)


def _tied(breakers: Iterable[Breaker]) -> Counter[int]:
    return Counter(breaker.tie.group for breaker in breakers if breaker.tie is not None)


def _is(a: object, b: object) -> bool:
    return a is b
