"""How long handles are off at a stretch: minutes for each round, and rests where one would be off for too long.

Whoever must turn something back on has to walk back to the panel for it: the way back counts. All times are our own
guesses, made for planning; in the window the clock counts.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from math import inf

from floorplan_circuits.findings import Rest
from floorplan_circuits.home.home import Home
from floorplan_circuits.rounds.kept_on import below
from floorplan_circuits.supply.handles import moves_together

READ_S, MOVE_S, PACE_M_PER_S = 6.0, 5.0, 1.0
"""A look at one thing, a handle turned, and walking with open eyes: our own guesses, for comparing ways only."""
A_MINUTE = 60.0
LEAD_S = 60.0
"""So long before its time is up a handle is asked for: for the way back to the panel. A quarter of a short time."""


@dataclass(frozen=True, slots=True)
class Leg:
    """A stop on the walk: what is looked at there; metres from the stop before, and to and from the panel."""

    feeds: tuple[int, ...]
    on: float
    away: float


@dataclass(frozen=True, slots=True)
class Timed:
    """What a round takes, rests and the way back to the panel among it; the rests in it, and how long they take.

    `is_over`: even with rests some handle would be off for too long.
    """

    seconds: float
    rests: tuple[Rest, ...]
    is_over: bool
    rested: float = 0.0


def limits(home: Home, minutes: int | None = None) -> dict[int, int]:
    """Return for each breaker how many minutes its movement may be off at a stretch, where there is a limit.

    `minutes` is one for all; of several the shortest counts.
    """
    own = {one.id: one.may_open.minutes for one in home.breakers}
    found = dict[int, int]()
    for breaker, moved in moves_together(home).items():
        said = [limit for limit in (minutes, *(own[one] for one in moved)) if limit is not None]
        if said:
            found[breaker] = min(said)
    return found


def limits_above(home: Home, kept: Collection[tuple[int, ...]], at_most: Mapping[int, int]) -> dict[int, int]:
    """Return for how many minutes feeders and mains may be off: for what hangs on them, the shortest counts."""
    found = dict[int, int]()
    for handles in kept:
        said = [at_most[one] for one in (*handles, *below(home, handles).breakers) if one in at_most]
        if said:
            found.update(dict.fromkeys(handles, min(said)))
    return found


def least_seconds(legs: Sequence[Leg]) -> float:
    """Return how long one handle is off at the least for one look at the farthest stop."""
    return MOVE_S + READ_S + 2 * max((leg.away for leg in legs), default=0.0) / PACE_M_PER_S


def timed(rounds: Sequence[Sequence[int]], legs: Sequence[Leg], at_most: Mapping[int, int]) -> tuple[Timed, ...]:
    """Return for each round what it takes. `at_most`: handle -> minutes that it may be off at a stretch."""
    evening = _Evening(at_most)
    return tuple(evening.round(off, legs) for off in rounds)


def _seconds(leg: Leg) -> float:
    """Return how long it takes to look at all of a stop, from where one was and back to the panel."""
    return (leg.on + leg.away) / PACE_M_PER_S + len(leg.feeds) * READ_S


@dataclass
class _Evening:
    """Somebody who goes round, and how long each limited handle has been off."""

    at_most: Mapping[int, int]
    off: frozenset[int] = frozenset()
    off_for: dict[int, float] = field(default_factory=dict)
    seconds: float = 0.0
    rested: float = 0.0
    rests: list[Rest] = field(default_factory=list)
    is_over: bool = False

    def round(self, off: Sequence[int], legs: Sequence[Leg]) -> Timed:
        """Turn the handles, walk past all, and come back to the panel."""
        self.seconds, self.rested, self.rests, self.is_over = 0.0, 0.0, [], False
        turning = len(self.off ^ frozenset(off)) * MOVE_S
        self.off = frozenset(off)
        self.off_for = {one: had for one, had in self.off_for.items() if one in self.off}
        if legs and not self._fits(turning + _seconds(legs[0])):
            self._rest(legs[0].feeds[0], 0.0)  # before the others of this round are turned
        self.off_for |= {one: 0.0 for one in off if one in self.at_most and one not in self.off_for}
        self._spend(turning)
        away = 0.0
        for leg in legs:
            self._look(leg, away)
            away = leg.away
        self._spend(away / PACE_M_PER_S)
        return Timed(self.seconds, tuple(self.rests), self.is_over, self.rested)

    def _look(self, leg: Leg, away: float) -> None:
        """Go to a stop and look at all there: at once, after one rest, or with rests between."""
        reads, back = len(leg.feeds) * READ_S, leg.away / PACE_M_PER_S
        if self._fits(_seconds(leg)):
            self._spend(_seconds(leg) - back)
            return
        self._rest(leg.feeds[0], away)
        if self._fits(back + reads + back):
            self._spend(back + reads)
            return
        self._spend(back)
        for at, feed in enumerate(leg.feeds):
            if not self._fits(READ_S + back):
                if at:
                    self._rest(feed, leg.away)
                    self._spend(back)
                self.is_over = self.is_over or not self._fits(READ_S + back)
            self._spend(READ_S)

    def _fits(self, seconds: float) -> bool:
        return all(had + seconds <= self.at_most[one] * A_MINUTE for one, had in self.off_for.items())

    def _spend(self, seconds: float) -> None:
        self.seconds += seconds
        self.off_for = {one: had + seconds for one, had in self.off_for.items()}

    def _rest(self, feed: int, away: float) -> None:
        """Go back, turn on all that has a limit, let it run as long as it was off, and off again.

        Who rests one thing waits, and what stayed off meanwhile would be off for longer.
        """
        handles, turning = tuple(self.off_for), len(self.off_for) * MOVE_S
        self._spend(away / PACE_M_PER_S)
        resting = turning + max(self.off_for.values(), default=0.0)
        self.seconds += resting
        self.rested += resting + turning + 2 * away / PACE_M_PER_S
        self.off_for = dict.fromkeys(handles, 0.0)
        self._spend(turning)
        self.rests.append(Rest(feed, handles))


# --- by the clock -----------------------------------------------------------------------------------------------------


def seconds_left(since: Mapping[int, float], at_most: Mapping[int, int], now: float) -> float:
    """Return how long until a handle must be asked for, none later; infinite where none has a limit.

    `since`: handle -> when it was turned off; all times in seconds of one clock.

    Examples:
        >>> seconds_left({3: 0.0, 5: 100.0}, {3: 10, 5: 4}, now=120.0)
        160.0
    """
    return min((_asked_at(had, at_most[one]) - now for one, had in since.items() if one in at_most), default=inf)


def _asked_at(since: float, minutes: int) -> float:
    limit = minutes * A_MINUTE
    return since + limit - min(LEAD_S, limit / 4)


def to_rest(since: Mapping[int, float], at_most: Mapping[int, int], now: float, ahead: float = 0.0) -> tuple[int, ...]:
    """Return the handles to be turned back on now for a rest: their time is up, or will be within `ahead` seconds.

    Where one must rest, all that have a limit rest with it: that takes one walk to the panel.
    """
    if seconds_left(since, at_most, now) > ahead:
        return ()
    return tuple(one for one in since if one in at_most)


def back_by(since: Mapping[int, float], at_most: Mapping[int, int]) -> Iterator[tuple[int, float]]:
    """Yield each handle that has a limit with when it must be back on."""
    for one, had in since.items():
        if one in at_most:
            yield one, had + at_most[one] * A_MINUTE
