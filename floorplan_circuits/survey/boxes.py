"""What enters each box: its circuits, what nobody knows, and whether one hand movement makes it dead."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from floorplan_circuits.findings import BoxFinding, Conclusion, SeenCable
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import only_holds_cables
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.statements import Stated


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

    def named(self, one: Conclusion) -> tuple[int, ...]:
        """Return the breakers that one feed can be on; nothing where that may be any, or none alone."""
        there = tuple(breaker for breaker in one.breakers if breaker in self.order)
        if there and one.standing != "contradicted":
            return there
        return one.candidates if len(one.candidates) < len(self.order) else ()

    def is_harmless(self, feed: int) -> bool:
        """Tell whether a feed's conductors cannot shock."""
        return is_harmless(feed, self.stated[feed], self.known[feed], self.record)


def box_findings(survey: Survey, kept: Mapping[int, BoxFinding]) -> dict[int, BoxFinding]:
    """Return what enters each box that exists; what is `kept` is not looked into anew."""
    together = moves_together(survey.home)
    return {
        box.id: kept.get(box.id) or _finding(box, survey, together)
        for box in survey.home.boxes
        if not is_only_planned(box, survey.record)
    }


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


def is_only_planned(box: Box, record: LogBook) -> bool:
    """Tell whether nothing in the box is built yet. One that somebody looked into is there."""
    built = not box.devices or box.passing or not all(device.planned for device in box.devices)
    return not built and box.id not in record.opened


def _finding(box: Box, survey: Survey, together: Mapping[int, frozenset[int]]) -> BoxFinding:
    own = [feed.id for feed in box.feeds() if feed.id in survey.known]
    strange = [feed for feed in cables(box, survey.record) if feed not in own]
    entering = [*own, *(feed for feed in strange if feed is not None and feed in survey.known)]
    found = [survey.known[feed] for feed in entering if not survey.is_harmless(feed)]
    breakers = sorted(
        {breaker for one in found for breaker in one.breakers}, key=lambda one: survey.order.get(one, one)
    )
    others = {key: words for one in found for key, words in survey.stated[one.feed].others.items()}
    apart = len(breakers) + len(others) < 2 and _cannot_meet(found, survey, together)
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
        + not_recorded(box),
        shared=len(breakers) + len(others) > 1 or apart,
        tied=len(breakers) > 1 and not others and _one_movement(breakers, together),
        apart=apart,
        opened=survey.record.opened_since_change(box.id),
        seen=_seen(box, survey.record),
        seen_on=survey.record.opened_on(box.id),
    )


def _seen(box: Box, record: LogBook) -> tuple[SeenCable, ...]:
    """Return every cable that somebody saw when the box was last opened, and where it enters."""
    _, entry = record.opened.get(box.id, (-1, None))
    return tuple(SeenCable(cable.enters, cable.feed) for cable in entry.cables) if entry is not None else ()


def cables(box: Box, record: LogBook) -> Iterator[int | None]:
    """Yield the feed of every cable that somebody saw when the box was last opened, None for one not known.

    Nor is one known of which a newer program wrote more than this one can read.
    """
    _, entry = record.opened.get(box.id, (-1, None))
    if entry is not None:
        yield from (None if cable.extras() else cable.feed for cable in entry.cables)


def is_harmless(feed: int, stated: Stated, known: Conclusion, record: LogBook) -> bool:
    """Tell whether its conductors cannot shock: low voltage behind a stated transformer, and nothing beside it."""
    if not stated.is_low_voltage or stated.joined or known.standing == "contradicted":
        return False
    return record.named_by_unknown.isdisjoint(number for above in stated.chain for number in above.ids())


def not_recorded(box: Box) -> int:
    """Count devices of which no feed is recorded; a box of which nothing is recorded counts as one unknown."""
    if not box.devices and not box.passing:
        return 1
    built = (device for device in box.devices if not device.planned)
    return sum(not device.feeds and not only_holds_cables(device, box) for device in built)


def _cannot_meet(found: Sequence[Conclusion], survey: Survey, together: Mapping[int, frozenset[int]]) -> bool:
    """Tell whether two feeds cannot hang on one handle, though nobody knows on which each does."""
    named = [frozenset[int]().union(*(together[one] for one in some)) for some in map(survey.named, found) if some]
    return any(one.isdisjoint(other) for one, other in combinations(dict.fromkeys(named), 2))


def _one_movement(breakers: Iterable[int], together: Mapping[int, frozenset[int]]) -> bool:
    first, *rest = breakers
    return set(rest) <= together.get(first, frozenset())
