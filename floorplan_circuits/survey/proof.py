"""Proof: a feed found live, dead with one handle alone off, and live again, by one strong witness on one day.

Any part missing: not proved. A proof speaks for the handle, not for the pole, and for that feed alone.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from floorplan_circuits.home.boxes import FromBreaker, Supplied
from floorplan_circuits.home.home import FeedPlace, Home
from floorplan_circuits.home.kinds import catalogue
from floorplan_circuits.supply.handles import may_move_along, moves_together
from floorplan_circuits.survey.log_book import LogBook, Seen, day
from floorplan_circuits.survey.statements import Stated
from floorplan_circuits.survey.witness import TESTERS, Witnesses

OPENS_NO_NEUTRAL = ("hot", "both hots")
ONE_HOT_BY_KIND = ("receptacle", "light", "switch", "alarm")
"""Groups whose kinds tell how many hots they have; an appliance may be made for one or for two."""


@dataclass(frozen=True, slots=True)
class Proof:
    """One feed shown to hang on one handle: its breakers, where in the log, the day, and what had been found off.

    `since` is the place in the log of the live reading before it: a change after that voids the proof. It holds only
    while the handles in `besides` stay off.
    """

    handle: frozenset[int]
    since: int
    place: int
    date: str
    besides: frozenset[int]


@dataclass(frozen=True, slots=True)
class Bench:
    """What every proof in one home is judged by. `together`: breaker -> all that one hand movement opens with it.

    `along`: breaker -> all that may have moved with it, by a nail or by a tie that nobody is sure of.
    """

    home: Home
    record: LogBook
    together: Mapping[int, frozenset[int]]
    along: Mapping[int, frozenset[int]]
    witnesses: Witnesses

    @classmethod
    def of(cls, home: Home, record: LogBook) -> "Bench":
        """Set it up."""
        return cls(home, record, moves_together(home), may_move_along(home), Witnesses(home))


def proofs(place: FeedPlace, stated: Stated, bench: Bench) -> list[Proof]:
    """Return every proof of this feed that the log holds, oldest first."""
    seen = bench.record.readings.get(place.feed.id, [])
    return [
        proof
        for at, dead in enumerate(seen)
        if dead.reading.says == "dead" and (proof := _proof(seen[:at], dead, seen[at + 1 :], place, stated, bench))
    ]


def _proof(
    earlier: Sequence[Seen], dead: Seen, later: Sequence[Seen], place: FeedPlace, stated: Stated, bench: Bench
) -> Proof | None:
    handle = _handle_alone(dead, bench)
    if not handle or not _is_dead(dead) or not bench.witnesses.can_prove(place, dead.round.method):
        return None
    by_lamp = _has_one_hot(place, stated, bench.home) and _opens_no_neutral(bench.home, handle)
    if not (by_lamp or (dead.reading.each_hot and dead.round.method in TESTERS)):  # a lamp never shows each hot
        return None
    found_off = bench.record.found_off
    before = next((one for one in reversed(earlier) if one.off <= found_off), None)
    after = next((one for one in later if one.off <= found_off), None)
    if before is None or after is None:
        return None
    if not all(_is_live_beside(one, dead, handle, by_lamp) for one in (before, after)):
        return None
    return Proof(handle, before.place, dead.place, day(dead.round), dead.off - handle)


def _handle_alone(dead: Seen, bench: Bench) -> frozenset[int]:
    """Return the one handle that was off beyond those found off, whole; nothing if there was not exactly one.

    Nor where another may have moved with it, since that one may be what made it dead.
    """
    beyond = dead.off - bench.record.found_off
    moved = frozenset[int]().union(*(bench.along.get(one, frozenset()) for one in beyond))
    return beyond if is_one_handle(beyond, bench) and moved <= dead.off else frozenset()


def is_one_handle(breakers: frozenset[int], bench: Bench) -> bool:
    """Tell whether these breakers are all that one hand movement opens."""
    return bool(breakers) and bench.together.get(min(breakers)) == breakers


def _is_dead(dead: Seen) -> bool:
    """Tell whether it says dead, by a tester that was proved before and after, on a day that was written down."""
    tester = dead.round.tester
    if dead.round.pressed:  # the device behind its own test button may be the reason
        return False
    return dead.clear and dead.reading.says == "dead" and tester.before and tester.after and bool(day(dead.round))


def _is_live_beside(other: Seen, dead: Seen, handle: frozenset[int], by_lamp: bool) -> bool:
    """Tell whether the other reading is live by the same witness on the same day, with the handle the one difference.

    Where the proof leans on each hot being shown dead, each must have been shown live in the same way: in a box
    without ground every reading to it is 0.
    """
    return (
        other.clear
        and not other.round.pressed
        and other.reading.says == "live"
        and (by_lamp or other.reading.each_hot)
        and other.round.method == dead.round.method
        and day(other.round) == day(dead.round)
        and other.off == dead.off - handle
    )


def _has_one_hot(place: FeedPlace, stated: Stated, home: Home) -> bool:
    """Tell whether a lamp there can show all of it: one hot conductor, by its kind and by what is stated."""
    kind = None if place.device is None else catalogue().get(place.device.kind)
    if kind is None or kind.hots != 1:
        return False
    end = stated.end
    if not isinstance(end, Supplied):
        return kind.group in ONE_HOT_BY_KIND
    return len(end.supplies) == 1 and _is_one_pole(end.supplies[0], home)


def _is_one_pole(supply: object, home: Home) -> bool:
    if not isinstance(supply, FromBreaker):
        return False
    breaker = home.breakers.get(supply.breaker)
    return breaker is not None and (supply.pole is not None or len(breaker.poles) == 1)


def _opens_no_neutral(home: Home, handle: frozenset[int]) -> bool:
    return all(home.breakers[breaker].opens in OPENS_NO_NEUTRAL for breaker in handle)
