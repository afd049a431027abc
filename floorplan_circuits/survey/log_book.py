"""The log put in order: what still counts, and for each feed its readings one after another."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property, lru_cache
from itertools import chain

from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Change, Entry, Opened, Reading, Round, Struck, Traced, Trouble, UnknownEntry
from floorplan_circuits.home.record import Record

LONGEST_ID = 16
"""Digits that an id can have."""


@dataclass(frozen=True, slots=True)
class Seen:
    """One reading with its round, and its place in the log (order decides, not the date).

    `off`: every handle that was not on. `clear`: it may count towards a proof. Not where its round says something else
    of the same feed as well, nor where a newer program added to the round what this one cannot read, or named it.
    """

    place: int
    round: Round
    reading: Reading
    off: frozenset[int]
    clear: bool = True


class LogBook:
    """The log of one home, read once: entries that are not struck, with their places."""

    def __init__(self, home: Home) -> None:
        self.entries, self._perhaps_struck = _counting(home.log)
        self._panel_of = {breaker.id: breaker.panel for breaker in home.breakers}
        rounds = (entry.id for entry in home.log if isinstance(entry, Round))
        self.round_numbers: Mapping[int, int] = {entry: number for number, entry in enumerate(rounds, 1)}
        """Entry -> what people call the round: counted from 1 over all ever written, struck ones too."""
        self._newer = frozenset(_newer_in(home))
        self.found_off = frozenset(breaker.id for breaker in home.breakers if breaker.found.is_off)

    @cached_property
    def readings(self) -> Mapping[int, list[Seen]]:
        """Every feed's readings in the order of the log."""
        found: dict[int, list[Seen]] = {}
        for place, entry in self.rounds:
            unreadable = bool(entry.extras() or entry.tester.extras() or entry.id in self.named_by_unknown)
            off, disputed = frozenset(entry.off), _disputed(entry.readings)
            for reading in entry.readings:
                clear = not (unreadable or reading.feed in disputed or reading.extras())
                found.setdefault(reading.feed, []).append(Seen(place, entry, reading, off, clear))
        return found

    @cached_property
    def rounds(self) -> tuple[tuple[int, Round], ...]:
        """All rounds with their places."""
        return tuple((place, entry) for place, entry in self.entries if isinstance(entry, Round))

    @cached_property
    def last_on(self) -> Mapping[int, int]:
        """Handle that was found off -> place of the last round that had it on."""
        return {breaker: place for place, entry in self.rounds for breaker in self.found_off.difference(entry.off)}

    @cached_property
    def traces(self) -> Mapping[int, list[tuple[int, Traced]]]:
        """Every feed's traces with their places, but for those that a newer program's entry names."""
        found: dict[int, list[tuple[int, Traced]]] = {}
        for place, entry in self.entries:
            if isinstance(entry, Traced) and entry.id not in self.named_by_unknown:
                found.setdefault(entry.feed, []).append((place, entry))
        return found

    @cached_property
    def opened(self) -> Mapping[int, tuple[int, Opened]]:
        """Box -> the last entry in which somebody looked inside, with its place."""
        return {entry.box: (place, entry) for place, entry in self.entries if isinstance(entry, Opened)}

    @cached_property
    def changed_boxes(self) -> Mapping[int, int]:
        """Box -> place of its last change."""
        return {box: place for place, entry in self._changes() for box in entry.boxes}

    @cached_property
    def changed_panels(self) -> Mapping[int, int]:
        """Panel -> place of its last change."""
        return {panel: place for place, entry in self._changes() for panel in entry.panels}

    @cached_property
    def changed_anything(self) -> int:
        """Place of the last change that may have touched anything, -1 for none.

        It names neither box nor panel, or a newer program wrote more of it than this one can read.
        """
        return max((place for place, entry in self._changes() if _may_be_anything(entry)), default=-1)

    @cached_property
    def troubles(self) -> Mapping[int, list[tuple[int, Trouble]]]:
        """Handle -> what is wrong with it, each with its place; work on its panel mends all before it."""
        found: dict[int, list[tuple[int, Trouble]]] = {}
        for place, entry in self.entries:
            if isinstance(entry, Trouble) and place > self.panel_change(self._panel_of.get(entry.handle)):
                found.setdefault(entry.handle, []).append((place, entry))
        return found

    @cached_property
    def never_opened(self) -> frozenset[int]:
        """Handles that did not open when they were turned off, and that nobody mended."""
        return frozenset(
            handle for handle, some in self.troubles.items() if any(one.what == "did not open" for _, one in some)
        )

    @cached_property
    def last_panel_change(self) -> int:
        """Place of the last work on any panel, -1 for none."""
        return max(self.changed_anything, *self.changed_panels.values(), -1)

    @cached_property
    def named_by_unknown(self) -> frozenset[int]:
        """Whatever counts as unknown: what a newer program wrote of or named, and entries that may be struck."""
        return _named_in(entry for _, entry in self.entries) | self._perhaps_struck | self._newer

    def _changes(self) -> Iterator[tuple[int, Change]]:
        return ((place, entry) for place, entry in self.entries if isinstance(entry, Change))

    def panel_change(self, panel: int | None) -> int:
        """Return the place of the last work on a panel, -1 for none."""
        return max(-1 if panel is None else self.changed_panels.get(panel, -1), self.changed_anything)

    def opened_since_change(self, box: int) -> bool:
        """Tell whether somebody looked inside later than the box was last changed."""
        place, entry = self.opened.get(box, (-1, None))
        readable = entry is not None and not entry.extras() and entry.id not in self.named_by_unknown
        return readable and place > max(self.changed_boxes.get(box, -1), self.changed_anything)

    def opened_on(self, box: int) -> str:
        """Return the day somebody last looked inside, '' where nobody did or wrote it down."""
        _, entry = self.opened.get(box, (-1, None))
        return day(entry) if entry is not None else ""

    def last_date(self) -> str:
        """Return the date of the last entry that has one, or an empty string."""
        return next((entry.date for _, entry in reversed(self.entries) if entry.date), "")

    def testers(self) -> tuple[str, ...]:
        """Return who took readings or traced cables, helpers among them, in the order they first did."""
        names = (
            name
            for _, entry in self.entries
            if isinstance(entry, Round | Traced)
            for name in (entry.who, entry.helper if isinstance(entry, Round) else "")
        )
        return tuple(dict.fromkeys(name for name in names if name))


def _counting(log: Sequence[Entry]) -> tuple[tuple[tuple[int, Entry], ...], frozenset[int]]:
    """Return the entries that count, and the ids of those that may have been struck.

    An entry is struck by a later one that counts itself: a struck `Struck` no longer strikes, and what it had struck
    counts again. Where a newer program added to the striking, or wrote of it, the entry counts but proves nothing.
    """
    struck, doubtful, counting = set[int](), set[int](), list[tuple[int, Entry]]()
    named = _named_in(log)
    for place, entry in reversed(tuple(enumerate(log))):
        if entry.id in struck:
            continue
        counting.append((place, entry))
        if isinstance(entry, Struck):
            sure = not (entry.extras() or entry.id in doubtful or entry.id in named)
            (struck if sure else doubtful).add(entry.entry)
    return tuple(reversed(counting)), frozenset(doubtful)


def _named_in(entries: Iterable[Entry]) -> frozenset[int]:
    """Return every number in the entries of unknown kind."""
    unknown = (entry for entry in entries if isinstance(entry, UnknownEntry))
    return frozenset(number for entry in unknown for number in numbers_in(entry.extras()))


def _newer_in(home: Home) -> Iterator[int]:
    """Yield whatever carries electricity and has fields that a newer program wrote, with every number in those."""
    records: Iterable[Record] = chain(
        home.sources,
        home.panels,
        home.breakers,
        home.boxes,
        (main for panel in home.panels for main in panel.mains),
        (device for box in home.boxes for device in box.devices),
        (feed for box in home.boxes for feed in box.feeds()),
    )
    for record in records:
        if record.model_extra:
            yield from (record.id, *numbers_in(record.extras()))  # type: ignore[attr-defined]  # each of these has one
    for group in home.controls:
        if group.model_extra:
            yield from (*group.switches, *group.feeds, *numbers_in(group.extras()))


def _may_be_anything(change: Change) -> bool:
    return not (change.boxes or change.panels) or bool(change.extras())


def _disputed(readings: Iterable[Reading]) -> set[int]:
    """Return the feeds of which one round says two things."""
    said: dict[int, str] = {}
    return {reading.feed for reading in readings if said.setdefault(reading.feed, reading.says) != reading.says}


def numbers_in(value: object) -> Iterator[int]:
    """Yield every whole number in a JSON value, the keys of its objects and numbers written as text among them."""
    if isinstance(value, dict):
        yield from numbers_in([*value, *value.values()])
    elif isinstance(value, list | tuple):
        for inner in value:
            yield from numbers_in(inner)
    elif isinstance(value, str):
        if value.isdecimal() and len(value) <= LONGEST_ID:
            yield int(value)
    elif isinstance(value, int | float) and not isinstance(value, bool) and value == int(value):
        yield int(value)


def day(entry: Entry) -> str:
    """Return the day of an entry, without the time of day; '' where none was written down, or one that never was."""
    return _real_day(entry.date[:10])


@lru_cache(maxsize=4096)
def _real_day(words: str) -> str:
    try:
        return date.fromisoformat(words).isoformat()
    except ValueError:
        return ""
