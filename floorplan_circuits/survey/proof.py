"""Proof: a feed found live, dead with one handle alone off, and live again, by one strong witness.

Any part missing: not proved. A proof speaks for the handle, not for the pole, and for that feed alone.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from floorplan_circuits.home.boxes import FromBreaker, Supplied
from floorplan_circuits.home.home import FeedPlace, Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.survey.log_book import LogBook, Seen, day

OPENS_NO_NEUTRAL = ("hot", "both hots")


@dataclass(frozen=True, slots=True)
class Proof:
    """One feed shown to hang on one handle: its breakers, where in the log, the day, and what had been found off.

    `since` is the place in the log of the live reading before it: a change after that voids the proof.
    """

    handle: frozenset[int]
    since: int
    place: int
    date: str
    besides: frozenset[int]


def proofs(place: FeedPlace, home: Home, record: LogBook, together: Mapping[int, frozenset[int]]) -> list[Proof]:
    """Return every proof of this feed that the log holds, oldest first.

    `together` gives, for each breaker, all that one hand movement opens with it.
    """
    seen = record.readings.get(place.feed.id, [])
    found = []
    for at, dead in enumerate(seen):
        handle = _handle_alone(dead, record, together)
        if not handle or not _shows_dead(dead, place, home, handle):
            continue
        before, after = _as_usual_beside(seen, at, record)
        if before is not None and after is not None and _agrees(before, dead) and _agrees(after, dead):
            besides = frozenset(dead.round.off) & record.found_off
            found.append(Proof(handle, before.place, dead.place, day(dead.round), besides))
    return found


def _handle_alone(dead: Seen, record: LogBook, together: Mapping[int, frozenset[int]]) -> frozenset[int]:
    """Return the one handle that was off beyond those found off, or nothing if there was not exactly one."""
    beyond = frozenset(dead.round.off) - record.found_off
    first = min(beyond, default=None)
    if first is None or not beyond <= together.get(first, frozenset()):
        return frozenset()
    return beyond


def _shows_dead(dead: Seen, place: FeedPlace, home: Home, handle: frozenset[int]) -> bool:
    tester = dead.round.tester
    if dead.reading.says != "dead" or not dead.strong or not (tester.before and tester.after):
        return False
    return dead.reading.each_hot or (_has_one_hot(place, home) and _opens_no_neutral(home, handle))


def _has_one_hot(place: FeedPlace, home: Home) -> bool:
    """Tell whether a lamp there can show all of it: one hot conductor, by its kind and by what is stated."""
    if place.device is None or kind_named(place.device.kind).hots != 1:
        return False
    on = place.feed.on
    if not isinstance(on, Supplied):
        return True
    return len(on.supplies) == 1 and all(_is_one_pole(supply, home) for supply in on.supplies)


def _is_one_pole(supply: object, home: Home) -> bool:
    if not isinstance(supply, FromBreaker):
        return False
    breaker = home.breakers.get(supply.breaker)
    return breaker is not None and (supply.pole is not None or len(breaker.poles) == 1)


def _opens_no_neutral(home: Home, handle: frozenset[int]) -> bool:
    breakers = [home.breakers.get(breaker) for breaker in handle]
    return all(breaker is not None and breaker.opens in OPENS_NO_NEUTRAL for breaker in breakers)


def _as_usual_beside(seen: Sequence[Seen], at: int, record: LogBook) -> tuple[Seen | None, Seen | None]:
    """Return the nearest readings of the feed with all as usual, before and after."""
    before = next((one for one in reversed(seen[:at]) if _as_usual(one, record)), None)
    after = next((one for one in seen[at + 1 :] if _as_usual(one, record)), None)
    return before, after


def _as_usual(one: Seen, record: LogBook) -> bool:
    return frozenset(one.round.off) <= record.found_off


def _agrees(other: Seen, dead: Seen) -> bool:
    """Tell whether the other reading is live, by the same strong witness, on the same day."""
    return (
        other.reading.says == "live"
        and other.strong
        and other.round.method == dead.round.method
        and day(other.round) == day(dead.round)
    )
