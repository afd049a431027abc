"""What was seen of a box or a handle, each log entry a plain sentence, newest first; struck ones stay, with why."""

from collections.abc import Mapping
from dataclasses import dataclass

from floorplan_circuits.home.boxes import Box, FromBreaker, Supplied
from floorplan_circuits.home.called import called_there, feed_called
from floorplan_circuits.home.days import written
from floorplan_circuits.home.home import Home, feeds
from floorplan_circuits.home.log import (
    Change,
    Dismissed,
    Entry,
    Opened,
    ReceptacleTest,
    Round,
    Struck,
    Tester,
    Traced,
    Trouble,
    UnknownEntry,
)
from floorplan_circuits.home.ways import way_named
from floorplan_circuits.supply.numbering import marks
from floorplan_circuits.survey.log_book import LogBook, numbers_in

MOST_NAMED = 6
"""So many handles are named; of more only their count is told."""
SAYS_OF_CHANGE = {
    "rewired": "rewired",
    "panel work": "work in the panel",
    "plates mixed up": "plates were mixed up",
    "unknown work": "anything may have been touched",
}


@dataclass(frozen=True, slots=True)
class Told:
    """One entry of the log in words. `struck` tells when and why it counts no more, by the entry `struck_by`."""

    entry: int
    says: str
    struck: str = ""
    struck_by: int | None = None


def box_history(home: Home, box: int) -> tuple[Told, ...]:
    """Return what the log tells of a box, its devices and feeds, newest first; nothing for a box that is gone."""
    found = home.boxes.get(box)
    if found is None:
        return ()
    book = LogBook(home)
    teller, struck = _Teller(home, found, book), _struck(book)
    told = ((entry, teller.words(entry)) for entry in reversed(home.log))
    return tuple(_told(entry, words, struck) for entry, words in told if words)


def handle_history(home: Home, handle: int) -> tuple[Told, ...]:
    """Return what trouble the log tells of a breaker or main, newest first."""
    struck = _struck(LogBook(home))
    found = (entry for entry in reversed(home.log) if isinstance(entry, Trouble) and entry.handle == handle)
    return tuple(_told(entry, f"trouble: {entry.what}", struck) for entry in found)


def _struck(book: LogBook) -> Mapping[int, Struck]:
    """Return the entries that count no more, each with the one that strikes it."""
    counting = {entry.id for _, entry in book.entries}
    strikes = (entry for _, entry in book.entries if isinstance(entry, Struck))
    return {entry.entry: entry for entry in strikes if entry.entry not in counting}


def _told(entry: Entry, words: str, struck: Mapping[int, Struck]) -> Told:
    says = f"{_when(entry)}: {words}{f' – {entry.note}' if entry.note else ''}"
    by = struck.get(entry.id)
    if by is None:
        return Told(entry.id, says)
    return Told(entry.id, says, f"Struck, {_when(by)}: {by.why or 'no reason given'}", by.id)


class _Teller:
    """Puts entries about one box into words."""

    def __init__(self, home: Home, box: Box, book: LogBook) -> None:
        self._home, self._box, self._marks = home, box, marks(home)
        self._found_off = book.found_off
        self._all = {place.feed.id: place for place in feeds(home)}
        self._feeds = {feed: place for feed, place in self._all.items() if place.box.id == box.id}
        self._devices = {device.id for device in box.devices}
        self._everything = {box.id, *self._devices, *self._feeds}

    def words(self, entry: Entry) -> str:
        """Return what an entry says of the box; nothing if it is not about it."""
        match entry:
            case Round():
                return self._round(entry)
            case Traced() if entry.feed in self._feeds:
                return self._traced(entry)
            case Opened() if entry.box == self._box.id:
                return self._opened(entry)
            case ReceptacleTest() if entry.device in self._devices:
                return f"receptacle tester: {entry.shows}"
            case Change() if self._is_touched(entry):
                return f"{SAYS_OF_CHANGE[entry.what]}: what was tested before counts no more"
            case Dismissed() if self._everything.intersection(entry.about):
                return f"set aside: {entry.hazard} ({entry.why})"
            case UnknownEntry() if self._everything.intersection(numbers_in(entry.extras())):
                return "a newer program wrote of it what this one cannot read: what it names counts as not known"
        return ""

    # --- one kind each ----------------------------------------------------------------------------------------------

    def _round(self, entry: Round) -> str:
        said: dict[str, list[str]] = {}
        for reading in entry.readings:
            if reading.feed in self._feeds:
                said.setdefault(reading.says, []).append(called_there(self._feeds[reading.feed]))
        if not said:
            return ""
        shown = ", ".join(f"{' and '.join(names)} {says}".strip() for says, names in said.items())
        each = any(reading.each_hot for reading in entry.readings if reading.feed in self._feeds)
        parts = (
            f"{shown} {self._state(entry)}",
            way_named(entry.method).label.lower() + _proved(entry.tester),
            "each hot shown" if each else "",
            f"{entry.helper} called across" if entry.helper else "",
        )
        return ", ".join(part for part in parts if part)

    def _state(self, entry: Round) -> str:
        turned = [one for one in entry.off if one not in self._found_off]
        resting = [one for one in entry.off if one in self._found_off]
        pressed = [feed_called(self._all[feed]) for feed in entry.pressed if feed in self._all]
        states = [f"with {self._named(turned)} off"] if turned else []
        states += [f"with the test button pressed at {', '.join(pressed) or 'what is gone'}"] if entry.pressed else []
        words = " and ".join(states) or "with all as usual"
        return f"{words} ({self._named(resting)} found off)" if resting else words

    def _named(self, handles: list[int]) -> str:
        if len(handles) > MOST_NAMED:
            return f"{len(handles)} breakers"
        return ", ".join(self._marks.get(handle, "a breaker that is gone") for handle in handles)

    def _traced(self, entry: Traced) -> str:
        called = called_there(self._feeds[entry.feed])
        handle = self._named([entry.handle])
        if entry.way == "followed by eye":
            return f"{called} cable followed by eye to {handle}".strip()
        passes = "one pass" if entry.passes == 1 else f"{entry.passes} passes"
        return f"{called} signal traced to {handle}, {passes}{f', {entry.adapter}' if entry.adapter else ''}".strip()

    def _opened(self, entry: Opened) -> str:
        count, strange = len(entry.cables), sum(cable.feed is None for cable in entry.cables)
        cables = "1 cable" if count == 1 else f"{count} cables"
        return f"looked inside, {cables}{f', {strange} of them not known' if strange else ''}"

    def _is_touched(self, entry: Change) -> bool:
        if not entry.boxes and not entry.panels:
            return True
        return self._box.id in entry.boxes or not _panels_of(self._box, self._home).isdisjoint(entry.panels)


def _when(entry: Entry) -> str:
    return ", ".join(part for part in (written(entry.date[:10]) or "no date", entry.who) if part)


def _proved(tester: Tester) -> str:
    seen = {(True, True): "before and after", (True, False): "before only", (False, True): "after only"}
    words = seen.get((tester.before, tester.after))
    return f" proved {words}" if words else ""


def _panels_of(box: Box, home: Home) -> set[int]:
    """Return the panels of the breakers that the box's feeds are stated to hang on."""
    stated = (feed.on for feed in box.feeds())
    supplies = (supply for on in stated if isinstance(on, Supplied) for supply in on.supplies)
    breakers = (home.breakers.get(one.breaker) for one in supplies if isinstance(one, FromBreaker))
    return {breaker.panel for breaker in breakers if breaker is not None}
