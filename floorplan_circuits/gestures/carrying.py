"""Carrying one device of a selected box: to another gang of it, or into another box."""

from dataclasses import dataclass

from floorplan_circuits.edits.boxes import device_in
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.gangs import carry_device, order_gang
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.events import Context
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named

HOW = "Drag one gang to another place in the box or onto another box; drag its number to move all."


@dataclass(frozen=True, slots=True)
class Target:
    """Where a device would go: into a box, and into which gang of it (None: at the end); how that is shown."""

    box: Box
    slot: int | None
    own: bool
    symbol: str

    @property
    def words(self) -> str:
        """What stands beside the pointer."""
        return f"{self.box.mark}, gang {self.slot}" if self.slot is not None else f"into {self.box.mark}"

    def edit(self, home: Home, device: int) -> Edited:
        """Return the edit that puts the device there. Raises `Refused`."""
        if self.own and self.slot is not None:
            return order_gang(home, device, self.slot)
        return carry_device(home, device, self.box.id, self.slot)


def gang_taken(on: Subject | None, context: Context) -> int | None:
    """Return the device that a drag takes out of the one box that is selected; None where the box is meant."""
    if on is None or len(context.selected) != 1 or context.selected[0].kind != "box":
        return None
    box = context.home.boxes.get(context.selected[0].id)
    if box is None or box.level != context.level:
        return None
    if on == context.selected[0]:
        return box.devices[0].id if len(box.devices) == 1 else None
    return next((one.id for one in box.devices if on.kind == "device" and one.id == on.id), None)


def gang_target(device: int | None, over: Subject | None, home: Home) -> Target | None:
    """Return where a device let go over something goes; None where it goes nowhere, so that its box moves."""
    found = None if device is None or over is None else _over(over, home)
    if device is None or found is None:
        return None
    try:
        own, carried = device_in(home, device)
    except Refused:
        return None
    (box, slot), symbol = found, kind_named(carried.kind).symbol
    if box.id != own.id:
        return Target(box, slot, False, symbol)
    return Target(box, slot, True, symbol) if slot is not None and slot != carried.slot else None


def _over(over: Subject, home: Home) -> tuple[Box, int | None] | None:
    for box in home.boxes:
        if over == Subject("box", box.id):
            return box, None
        for one in box.devices:
            if over == Subject("device", one.id):
                return box, one.slot
    return None
