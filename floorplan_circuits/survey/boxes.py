"""What enters each box: its circuits, what nobody knows, and whether one hand movement makes it dead."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from floorplan_circuits.findings import BoxFinding, Conclusion
from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.home import Home
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.statements import Stated
from floorplan_circuits.survey.witness import NOTHING_TO_WORK


@dataclass(frozen=True, slots=True)
class Survey:
    """What is known and stated of every existing feed, with the log that says so.

    `room_of` gives each box's room, `order` each breaker's place as a person reads the panels.
    """

    home: Home
    record: LogBook
    known: Mapping[int, Conclusion]
    stated: Mapping[int, Stated]
    room_of: Mapping[int, int | None]
    order: Mapping[int, int]


def box_findings(survey: Survey) -> dict[int, BoxFinding]:
    """Return what enters each box that exists."""
    together = moves_together(survey.home)
    return {box.id: _finding(box, survey, together) for box in survey.home.boxes if not _only_planned(box)}


def placed_again(
    found: Mapping[int, BoxFinding], home: Home, room_of: Mapping[int, int | None]
) -> dict[int, BoxFinding]:
    """Return the findings of boxes that only moved: the same contents, told by the rooms they are in now."""
    return {box: _placed(one, home, room_of.get(box)) for box, one in found.items()}


def _placed(found: BoxFinding, home: Home, room: int | None) -> BoxFinding:
    room_name, level_name = _names(home, room, home.boxes[found.box].level)
    if (found.room, found.room_name, found.level_name) == (room, room_name, level_name):
        return found
    return replace(found, room=room, room_name=room_name, level_name=level_name)


def _names(home: Home, room: int | None, level: int | None) -> tuple[str, str]:
    found, storey = home.rooms.get(room), home.levels.get(level)
    return found.name if found else "", storey.name if storey else ""


def _only_planned(box: Box) -> bool:
    return bool(box.devices) and not box.passing and all(device.planned for device in box.devices)


def _finding(box: Box, survey: Survey, together: Mapping[int, frozenset[int]]) -> BoxFinding:
    own = [feed.id for feed in box.feeds() if feed.id in survey.known]
    strange = [feed for feed in _cables(box, survey.record) if feed not in own]
    entering = [*own, *(feed for feed in strange if feed is not None and feed in survey.known)]
    found = [survey.known[feed] for feed in entering if not _is_harmless(feed, survey)]
    breakers = sorted(
        {breaker for one in found for breaker in one.breakers}, key=lambda one: survey.order.get(one, one)
    )
    others = {key: words for one in found for key, words in survey.stated[one.feed].others.items()}
    room = survey.room_of.get(box.id)
    room_name, level_name = _names(survey.home, room, box.level)
    return BoxFinding(
        box=box.id,
        room=room,
        room_name=room_name,
        level_name=level_name,
        breakers=tuple(breakers),
        others=tuple(others.values()),
        unknown=sum(one.standing == "unknown" for one in found)
        + sum(feed not in survey.known for feed in strange)
        + _not_recorded(box),
        shared=len(breakers) + len(others) > 1,
        tied=len(breakers) > 1 and not others and _one_movement(breakers, together),
        opened=survey.record.opened_since_change(box.id),
    )


def _cables(box: Box, record: LogBook) -> Iterator[int | None]:
    """Yield the feed of every cable that somebody saw when the box was last opened, None for one not known."""
    _, entry = record.opened.get(box.id, (-1, None))
    if entry is not None:
        yield from (cable.feed for cable in entry.cables)


def _is_harmless(feed: int, survey: Survey) -> bool:
    """Tell whether its conductors cannot shock: low voltage behind a stated transformer, and nothing beside it."""
    stated = survey.stated[feed]
    if not stated.is_low_voltage or stated.joined or survey.known[feed].standing == "contradicted":
        return False
    named = survey.record.named_by_unknown
    return named.isdisjoint(above.feed.id for above in stated.chain)


def _not_recorded(box: Box) -> int:
    """Count devices of which no feed is recorded; a box of which nothing is recorded counts as one unknown."""
    if not box.devices and not box.passing:
        return 1
    return sum(not device.planned and not device.feeds and not _only_holds(device, box) for device in box.devices)


def _only_holds(device: Device, box: Box) -> bool:
    """Tell whether it takes no power itself and the cables that it holds are recorded."""
    return device.kind in NOTHING_TO_WORK and bool(box.passing)


def _one_movement(breakers: Iterable[int], together: Mapping[int, frozenset[int]]) -> bool:
    first, *rest = breakers
    return set(rest) <= together.get(first, frozenset())
