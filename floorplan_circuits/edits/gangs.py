"""The gangs of a box: devices put in another order, and carried from one box to another."""

from floorplan_circuits.edits.boxes import MOST_GANGS, device_in
from floorplan_circuits.edits.edited import Edited, Refused, edit, there
from floorplan_circuits.edits.removal import lighter_box, noted_boxes, remove
from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.record import change


@edit
def order_gang(home: Home, device: int, slot: int) -> Edited:
    """Put a device into another gang of its box; those between move up. It is the picture that changes, no wire.

    Raises `Refused` for a gang that the box has not.
    """
    box, found = device_in(home, device)
    if not 1 <= slot <= box.gangs:
        raise Refused(f"{box.mark} has no gang {slot}.")
    ordered = change(box, devices=tuple(_with_slots(_ordered(box, found, slot))))
    return Edited(change(home, boxes=home.boxes.put(ordered)), f"Put the {_called(found)} in gang {slot} of {box.mark}")


@edit
def carry_device(home: Home, device: int, to: int, slot: int | None = None) -> Edited:
    """Carry a device with its feeds into another box: at a gang, those from there on move up, or at the end.

    The box it leaves goes with its last device, if nothing passes through it and nobody noted anything about it.
    Raises `Refused` if the other box is full, or is its own.
    """
    box, found = device_in(home, device)
    target = there(home.boxes, to, "box")
    if target.id == box.id:
        raise Refused(f"It is in {box.mark} already.")
    if max(target.gangs, *(one.slot for one in target.devices), 0) >= MOST_GANGS:
        raise Refused(f"{target.mark} has {MOST_GANGS} gangs already. Start another box beside it.")
    left = lighter_box(box, {device})
    after = change(home, boxes=home.boxes.put(left).put(_joined(target, found, slot)))
    if not left.devices and not left.passing and box.id not in noted_boxes(home):
        after = remove(after, [box.id]).home
    return Edited(after, f"Carry the {_called(found)} from {box.mark} to {target.mark}", (device,))


def _ordered(box: Box, moved: Device, slot: int) -> list[tuple[Device, int]]:
    """Return the devices with the gangs they are in once one has moved: into a free gang, or past the others."""
    taken = sorted(one.slot for one in box.devices)
    if slot not in taken:
        return [(one, slot if one is moved else one.slot) for one in box.devices]
    row = sorted((one for one in box.devices if one is not moved), key=lambda one: one.slot)
    row.insert(taken.index(slot), moved)
    return list(zip(row, taken, strict=True))


def _joined(box: Box, device: Device, slot: int | None) -> Box:
    """Return a box with one device more; an empty gang is filled before the box gets another."""
    taken = {one.slot for one in box.devices}
    free = next(gang for gang in range(1, MOST_GANGS + 1) if gang not in taken)
    at_end = change(device, slot=free)
    grown = change(box, devices=(*box.devices, at_end), gangs=max(box.gangs, free))
    if slot is None or not 1 <= slot <= grown.gangs:
        return grown
    return change(grown, devices=tuple(_with_slots(_ordered(grown, at_end, slot))))


def _with_slots(placed: list[tuple[Device, int]]) -> list[Device]:
    return [one if one.slot == slot else change(one, slot=slot) for one, slot in placed]


def _called(device: Device) -> str:
    return device.name or kind_named(device.kind).label
