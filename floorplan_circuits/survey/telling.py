"""Saying it: feeds, handles and rounds by the names that people use for them."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from floorplan_circuits.home.days import written
from floorplan_circuits.home.home import FeedPlace, Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.ways import way_named
from floorplan_circuits.supply.numbering import marks
from floorplan_circuits.survey.log_book import LogBook, Seen, day
from floorplan_circuits.survey.witness import TESTERS

MOST_NAMED = 6
"""So many handles are named; of more only their number is told."""


@dataclass(frozen=True, slots=True)
class Telling:
    """The words of one home. `marks`: handle -> its number on the panel."""

    record: LogBook
    marks: Mapping[int, str]

    @classmethod
    def of(cls, home: Home, record: LogBook) -> "Telling":
        """Prepare the words of a home."""
        return cls(record, marks(home))

    def handle(self, handle: int) -> str:
        """Return a handle by its number; one that is gone from the panel says so."""
        return self.marks.get(handle, "one that is gone")

    def either(self, handles: Sequence[int]) -> str:
        """Return handles as a choice: '7', '7 or 12'."""
        *most, last = [self.handle(one) for one in handles]
        return f"{', '.join(most)} or {last}" if most else last

    def both(self, handles: Iterable[int]) -> str:
        """Return handles together, as on the panel: '7', '7 and 12', '9 breakers'."""
        together = sorted(handles)
        if len(together) > MOST_NAMED:
            return f"{len(together)} breakers"
        *most, last = [self.handle(one) for one in together]
        return f"{', '.join(most)} and {last}" if most else last

    def with_off(self, seen: Seen) -> str:
        """Return what was off in a reading beyond what was found off: 'with 7 off', 'with all on'."""
        beyond = seen.off - self.record.found_off
        pressed = ", a test button pressed" if seen.round.pressed else ""
        if beyond:
            return f"with {self.both(beyond)} off{pressed}"
        return f"with all as usual{pressed}" if self.record.found_off else f"with all on{pressed}"

    def reading(self, seen: Seen) -> str:
        """Return one reading in words: 'round 3, 14 March 2026, owner: live with 5 off, two-lead tester'."""
        when = ", ".join(
            part for part in (self.round(seen), written(day(seen.round)) or "no date", seen.round.who) if part
        )
        tester, way = seen.round.tester, way_named(seen.round.method).label.lower()
        proved = " proved before and after" if tester.before and tester.after and seen.round.method in TESTERS else ""
        return f"{when}: {seen.reading.says} {self.with_off(seen)}, {way}{proved}"

    def round(self, seen: Seen) -> str:
        """Return what people call the round of a reading: 'round 3'."""
        return f"round {self.record.round_numbers[seen.round.id]}"


def thing(place: FeedPlace) -> str:
    """Return what a feed is of, as a person points at it: 'the switch ‘patio’ in B1'.

    Examples:
        >>> from floorplan_circuits.home.boxes import Box, Feed
        >>> thing(FeedPlace(Box(id=1, mark="B1"), None, Feed(id=2)))
        'the cable in B1'
    """
    if place.device is None:
        return f"the cable in {place.box.mark}" + (f" ({place.feed.part})" if place.feed.part else "")
    label = kind_named(place.device.kind).label
    named = f" ‘{place.device.name}’" if place.device.name else ""
    part = f" ({place.feed.part})" if place.feed.part else ""
    return f"the {label}{named}{part} in {place.box.mark}"
