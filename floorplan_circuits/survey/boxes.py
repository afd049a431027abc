"""What enters each box: its circuits, what nobody knows, and whether one hand movement makes it dead."""

from collections.abc import Iterable, Mapping

from floorplan_circuits.findings import BoxFinding, Conclusion
from floorplan_circuits.home.boxes import Behind, Box, Device, Disconnected, Feed
from floorplan_circuits.home.home import Home
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.survey.log_book import LogBook


def box_findings(
    home: Home,
    known: Mapping[int, Conclusion],
    room_of: Mapping[int, int | None],
    order: Mapping[int, int],
    record: LogBook,
) -> dict[int, BoxFinding]:
    """Return what enters each box that exists; `order` gives each breaker's place as a person reads the panels."""
    together = moves_together(home)
    return {
        box.id: _finding(box, home, known, room_of.get(box.id), order, record, together)
        for box in home.boxes
        if not _only_planned(box)
    }


def _only_planned(box: Box) -> bool:
    return bool(box.devices) and not box.passing and all(device.planned for device in box.devices)


def _finding(
    box: Box,
    home: Home,
    known: Mapping[int, Conclusion],
    room: int | None,
    order: Mapping[int, int],
    record: LogBook,
    together: Mapping[int, frozenset[int]],
) -> BoxFinding:
    found = [known[feed.id] for feed in _entering(box) if feed.id in known]
    breakers = sorted({breaker for one in found for breaker in one.breakers}, key=lambda one: order.get(one, one))
    others = tuple(dict.fromkeys(other for one in found for other in one.others))
    room_record, level = home.rooms.get(room), home.levels.get(box.level)
    return BoxFinding(
        box=box.id,
        room=room,
        room_name=room_record.name if room_record else "",
        level_name=level.name if level else "",
        breakers=tuple(breakers),
        others=others,
        unknown=sum(one.standing == "unknown" for one in found) + _not_recorded(box),
        shared=len(breakers) + len(others) > 1,
        tied=len(breakers) > 1 and not others and _one_movement(breakers, together),
        opened=record.opened_since_change(box.id),
    )


def _entering(box: Box) -> Iterable[Feed]:
    """Yield the feeds whose conductors can shock: not low voltage behind a transformer, not a seen loose end."""
    return (feed for feed in box.feeds() if not _harmless(feed))


def _harmless(feed: Feed) -> bool:
    behind_transformer = feed.volts == "low" and isinstance(feed.on, Behind)
    return behind_transformer or (isinstance(feed.on, Disconnected) and bool(feed.on.seen_by))


def _not_recorded(box: Box) -> int:
    """Count devices of which no feed is recorded; a box of which nothing is recorded counts as one unknown."""
    if not box.devices and not box.passing:
        return 1
    return sum(_takes_power(device) and not device.feeds for device in box.devices)


def _takes_power(device: Device) -> bool:
    return not device.planned


def _one_movement(breakers: Iterable[int], together: Mapping[int, frozenset[int]]) -> bool:
    first, *rest = breakers
    return set(rest) <= together.get(first, frozenset())
