"""Removing things: what nests in them goes too, and every reference meets the fate it was declared with."""

from collections.abc import Iterable

from floorplan_circuits.edits.edited import Edited, Refused, counted
from floorplan_circuits.edits.rewriting import rewritten
from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.home import TABLES, Home
from floorplan_circuits.home.integrity import KIND_OF_TABLE
from floorplan_circuits.home.power import Panel
from floorplan_circuits.home.record import Record, change
from floorplan_circuits.home.references import Refers, references
from floorplan_circuits.home.table import Table

NOUNS = {"box": "boxes", "switch": "switches"}


def remove(home: Home, ids: Iterable[int]) -> Edited:
    """Remove rooms, boxes, devices, feeds, breakers, panels, levels and what else has an id.

    A box that loses its last device and has nothing passing goes with it. Raises `Refused` if nothing is there.
    """
    wanted = set(ids)
    called = _called(home, wanted)
    if not called:
        raise Refused("Nothing is selected to remove.")
    boxes = _without_nested(home.boxes, wanted)
    panels = _without_mains(home.panels, wanted)
    gone = _all_gone(change(home, boxes=boxes, panels=panels), wanted | _nested(home, wanted))
    return Edited(_cleared(change(home, boxes=boxes, panels=panels), gone), f"Remove {called}")


def _called(home: Home, wanted: set[int]) -> str:
    """Return what is removed, in words: its name if it is one thing, else counts."""
    found: dict[str, list[str]] = {}
    for table in TABLES:
        for row in getattr(home, table):
            if row.id in wanted:
                name = getattr(row, "mark", "") or getattr(row, "name", "")
                found.setdefault(KIND_OF_TABLE[table], []).append(str(name))
    for box in home.boxes:
        for device in box.devices:
            if device.id in wanted and box.id not in wanted:
                found.setdefault("device", []).append(f"in {box.mark}")
        if any(feed.id in wanted for feed in box.passing) and box.id not in wanted:
            found.setdefault("cable", []).append(f"in {box.mark}")
    if sum(map(len, found.values())) == 1:
        ((kind, names),) = found.items()
        return f"{kind} {names[0]}".strip()
    return ", ".join(counted(len(names), kind, NOUNS.get(kind, "")) for kind, names in found.items())


def _nested(home: Home, wanted: set[int]) -> set[int]:
    """Return the ids of all that is nested in what is removed."""
    inside: set[int] = set()
    for box in home.boxes:
        for device in box.devices:
            if box.id in wanted or device.id in wanted:
                inside.update((device.id, *(feed.id for feed in device.feeds)))
        if box.id in wanted:
            inside.update(feed.id for feed in box.passing)
    inside.update(main.id for panel in home.panels if panel.id in wanted for main in panel.mains)
    return inside


def _without_nested(boxes: Table[Box], wanted: set[int]) -> Table[Box]:
    """Return the boxes without the devices and feeds that go; a box left with nothing goes too."""
    for box in boxes:
        devices = tuple(_lighter(device, wanted) for device in box.devices if device.id not in wanted)
        passing = tuple(feed for feed in box.passing if feed.id not in wanted)
        if devices == box.devices and passing == box.passing:
            continue
        if not devices and not passing and box.id not in wanted:
            boxes = boxes.without([box.id])
        else:
            slots = {device.slot: place for place, device in enumerate(sorted(devices, key=lambda one: one.slot), 1)}
            ordered = tuple(change(device, slot=slots[device.slot]) for device in devices)
            boxes = boxes.put(change(box, devices=ordered, passing=passing, gangs=max(1, len(ordered))))
    return boxes.without(wanted)


def _lighter(device: Device, wanted: set[int]) -> Device:
    feeds = tuple(feed for feed in device.feeds if feed.id not in wanted)
    return device if feeds == device.feeds else change(device, feeds=feeds)


def _without_mains(panels: Table[Panel], wanted: set[int]) -> Table[Panel]:
    for panel in panels:
        mains = tuple(main for main in panel.mains if main.id not in wanted)
        if mains != panel.mains:
            panels = panels.put(change(panel, mains=mains))
    return panels


# --- fates ----------------------------------------------------------------------------------------------------------


def _all_gone(home: Home, gone: set[int]) -> set[int]:
    """Return all that goes: whatever holds a 'remove' reference to something gone goes too, with what nests in it."""
    grown = True
    while grown:
        grown = False
        for table in TABLES:
            for row in getattr(home, table):
                if row.id not in gone and _goes_with(row, gone):
                    gone |= {row.id} | _nested(home, {row.id})
                    grown = True
    return gone


def _goes_with(row: Record, gone: set[int]) -> bool:
    return any(one.declared.fate == "remove" and one.target in gone for one in references(row))


def _cleared(home: Home, gone: set[int]) -> Home:
    def target(declared: Refers, named: int) -> int | None:
        return None if named in gone and declared.fate == "clear" else named

    tables = {}
    for name in TABLES:
        rows = [rewritten(row, target) for row in getattr(home, name) if row.id not in gone]
        kept = Table(row for row in rows if row is not None)
        before = getattr(home, name)
        tables[name] = before if len(kept) == len(before) and all(map(_is, kept, before)) else kept
    return change(home, **tables)


def _is(a: object, b: object) -> bool:
    return a is b
