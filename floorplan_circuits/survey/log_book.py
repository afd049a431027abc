"""The log put in order: what still counts, and for each feed its readings one after another."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import (
    STRONG_METHODS,
    Change,
    Entry,
    Opened,
    Reading,
    Round,
    Struck,
    Traced,
    UnknownEntry,
)

DEFINITELY_OFF = ("off", "tripped")


@dataclass(frozen=True, slots=True)
class Seen:
    """One reading with its round, and its place in the log (order decides, not the date)."""

    place: int
    round: Round
    reading: Reading

    @property
    def strong(self) -> bool:
        """Whether the witness is one that the mains itself powers."""
        return self.round.method in STRONG_METHODS


class LogBook:
    """The log of one home, read once: entries that are not struck, with their places."""

    def __init__(self, home: Home) -> None:
        struck = {entry.entry for entry in home.log if isinstance(entry, Struck)}
        self.entries = tuple((place, entry) for place, entry in enumerate(home.log) if entry.id not in struck)
        self.found_off = frozenset(breaker.id for breaker in home.breakers if breaker.found.state in DEFINITELY_OFF)

    @cached_property
    def readings(self) -> Mapping[int, list[Seen]]:
        """Every feed's readings in the order of the log."""
        found: dict[int, list[Seen]] = {}
        for place, entry in self.entries:
            if isinstance(entry, Round):
                for reading in entry.readings:
                    found.setdefault(reading.feed, []).append(Seen(place, entry, reading))
        return found

    @cached_property
    def traces(self) -> Mapping[int, tuple[int, Traced]]:
        """The last trace of each feed with its place."""
        return {entry.feed: (place, entry) for place, entry in self.entries if isinstance(entry, Traced)}

    @cached_property
    def opened(self) -> Mapping[int, int]:
        """Box -> place of the last entry in which somebody looked inside."""
        return {entry.box: place for place, entry in self.entries if isinstance(entry, Opened)}

    @cached_property
    def changed_boxes(self) -> Mapping[int, int]:
        """Box -> place of its last change."""
        return {box: place for place, entry in self._changes() for box in entry.boxes}

    @cached_property
    def changed_panels(self) -> Mapping[int, int]:
        """Panel -> place of its last change."""
        return {panel: place for place, entry in self._changes() for panel in entry.panels}

    @cached_property
    def named_by_unknown(self) -> frozenset[int]:
        """Every number in entries of unknown kind: whatever has one of them as its id counts as unknown."""
        unknown = [entry for _, entry in self.entries if isinstance(entry, UnknownEntry)]
        return frozenset(number for entry in unknown for number in _numbers(entry.extras()))

    def _changes(self) -> Iterator[tuple[int, Change]]:
        return ((place, entry) for place, entry in self.entries if isinstance(entry, Change))

    def opened_since_change(self, box: int) -> bool:
        """Tell whether somebody looked inside later than the box was last changed."""
        return self.opened.get(box, -1) > self.changed_boxes.get(box, -1)

    def last_date(self) -> str:
        """Return the date of the last entry that has one, or an empty string."""
        return next((entry.date for _, entry in reversed(self.entries) if entry.date), "")


def _numbers(value: object) -> Iterator[int]:
    if isinstance(value, dict):
        for inner in value.values():
            yield from _numbers(inner)
    elif isinstance(value, list | tuple):
        for inner in value:
            yield from _numbers(inner)
    elif isinstance(value, int) and not isinstance(value, bool):
        yield value


def day(entry: Entry) -> str:
    """Return the day of an entry, without the time of day."""
    return entry.date[:10]
