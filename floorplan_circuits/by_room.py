"""The dangers of a home room by room, as somebody goes through it who is to mend them."""

from collections.abc import Mapping
from typing import NamedTuple

from floorplan_circuits.findings import Findings, Hazard

NOT_PLACED = "Not placed yet"
IN_NO_ROOM = "In no room"
AT_THE_PANEL = "At the panel"


class RoomHazards(NamedTuple):
    """The hazards of one room, worst first. `place` is its name, or says where else they are; `level` may be empty."""

    place: str
    level: str
    hazards: tuple[Hazard, ...]


class _Order(NamedTuple):
    """The place of each level, from below, and of each room."""

    levels: Mapping[int, int]
    rooms: Mapping[int, int]

    @classmethod
    def of(cls, findings: Findings) -> "_Order":
        by_height = sorted(findings.home.levels, key=lambda level: level.order)
        levels = {level.id: at for at, level in enumerate(by_height)}
        return cls(levels, {room.id: at for at, room in enumerate(findings.home.rooms)})


def hazards_by_room(findings: Findings) -> tuple[RoomHazards, ...]:
    """Return the listed hazards by room: those of panels first, then levels from below, rooms in the home's order.

    On each level boxes in no room come after the rooms; boxes without a place come last. None is in two rooms.
    """
    order = _Order.of(findings)
    groups: dict[tuple[int, int, int], list[Hazard]] = {}
    for hazard in findings.hazards:
        if hazard.listed:
            groups.setdefault(_place(hazard, findings, order), []).append(hazard)
    return tuple(_group(some) for _, some in sorted(groups.items()))


def _place(hazard: Hazard, findings: Findings, order: _Order) -> tuple[int, int, int]:
    """Return what a hazard's room comes by: panel, placed or not; level; room."""
    home = findings.home
    if _is_at_panel(hazard):
        return 0, 0, 0
    if hazard.room is not None:
        level = home.rooms[hazard.room].level
    else:
        found = None if hazard.box is None else home.boxes[hazard.box].level
        if found is None:
            return 2, 0, 0
        level = found
    return 1, order.levels.get(level, len(order.levels)), order.rooms.get(hazard.room or 0, len(order.rooms))


def _is_at_panel(hazard: Hazard) -> bool:
    return hazard.box is None and hazard.room is None


def _group(some: list[Hazard]) -> RoomHazards:
    first = some[0]
    if _is_at_panel(first):
        return RoomHazards(AT_THE_PANEL, "", tuple(some))
    nowhere = IN_NO_ROOM if first.level_name else NOT_PLACED
    return RoomHazards(first.room_name or nowhere, first.level_name, tuple(some))
