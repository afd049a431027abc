"""The plan of an evening: patterns for the handles, rounds in the order that moves fewest, a short walk in each."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise, permutations

from floorplan_circuits.findings import Conclusion, Effort, PlannedRound, Solo, Stop, TestPlan
from floorplan_circuits.geometry.routes import Routes, Spot, routes
from floorplan_circuits.home.home import FeedPlace, Home
from floorplan_circuits.rounds.kept_on import kept_on
from floorplan_circuits.rounds.patterns import Strength, off_in, patterns
from floorplan_circuits.rounds.scope import Scope, feeds_on, said_on, scope
from floorplan_circuits.rounds.stretches import (
    A_MINUTE,
    MOVE_S,
    PACE_M_PER_S,
    READ_S,
    Leg,
    Timed,
    least_seconds,
    limits,
    limits_above,
    timed,
)
from floorplan_circuits.rounds.walk import length_of, short_walk
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.survey.log_book import LogBook

TRACE_S = 45.0
"""A tracer plugged in, two passes over the panel, unplugged: our own guess."""
MOST_ORDERED = 7
"""Up to so many rounds every order is tried for the fewest moves."""


@dataclass(frozen=True)
class Site:
    """Where it all is: rooms, ways between them, and the panel where each walk begins."""

    home: Home
    room_of: Mapping[int, int | None]
    ways: Routes
    start: Spot | None
    _walks: dict[tuple[int | None, ...], tuple[tuple[int | None, ...], float]] = field(default_factory=dict)

    def walk(self, rooms: Sequence[int | None]) -> tuple[tuple[int | None, ...], float]:
        """Return rooms in walking order from the panel, and how many metres that is."""
        key = tuple(rooms)
        if key not in self._walks:
            self._walks[key] = self._walked(key)
        return self._walks[key]

    def legs(self, walk: Sequence[Stop]) -> tuple[Leg, ...]:
        """Return the stops of a walk with the metres to each, from the stop before and from the panel."""
        found, at = list[Leg](), self.start
        for stop in walk:
            spot = self.ways.spots.get(stop.room) if stop.room is not None else None
            on = self._metres(at, spot)
            found.append(Leg(stop.feeds, on, self._metres(self.start, spot)))
            at = spot or at
        return tuple(found)

    def _metres(self, start: Spot | None, end: Spot | None) -> float:
        if start is None or end is None:
            return 0.0
        return self.ways.far(start, [end])[end] / 1000

    def _walked(self, rooms: tuple[int | None, ...]) -> tuple[tuple[int | None, ...], float]:
        placed = [room for room in rooms if room in self.ways.spots]
        nowhere = tuple(room for room in rooms if room not in self.ways.spots)
        if not placed:
            return rooms, 0.0
        spots = [self.ways.spots[room] for room in placed if room is not None]
        spots = [self.start or spots[0], *spots]
        table = [[far[other] for other in spots] for far in (self.ways.far(spot, spots) for spot in spots)]
        order = short_walk(table)
        return (*(placed[at - 1] for at in order[1:]), *nowhere), length_of(order, table) / 1000


def plan(
    home: Home,
    record: LogBook,
    known: Mapping[int, Conclusion],
    room_of: Mapping[int, int | None],
    *,
    strength: Strength = "equal weight",
    cap: int | None = None,
    leave_on: Collection[int] = (),
    boxes: Collection[int] = (),
    agreed: Collection[int] = (),
    minutes: int | None = None,
) -> TestPlan:
    """Return the plan for all that is not proved yet, or for `boxes` alone; it goes on from what the log says.

    `minutes`: the longest that any handle may be off at a stretch, beside what is said of single ones.
    """
    about = scope(home, record, known, leave_on, boxes, agreed, trusting=strength != "equal weight")
    site = Site(home, room_of, routes(home), _at_panel(home))
    all_on = _round((), (), about.feeds, site)
    legs = site.legs(all_on.walk)
    at_most = limits(home, minutes)
    about = _near_enough(about, at_most, legs)
    off, times = _in_time(about, strength, cap, legs, at_most)
    rounds = tuple(_rounds(off, times, about.feeds, site))
    solo = tuple(_solo(home, about, known))
    tested = () if boxes else tuple(kept_on(home, about.apart, about.left_alone, record.found_off))
    return TestPlan(
        handles=about.handles,
        left_alone=about.left_alone,
        apart=about.apart,
        feeds=tuple(place.feed.id for place in about.feeds),
        advice=about.advice,
        all_on=all_on,
        rounds=rounds,
        solo=solo,
        compared=_compared(about, rounds, times, all_on),
        kept_on=tested,
        at_most={one: at_most[one] for one in about.handles if one in at_most} | limits_above(home, tested, at_most),
    )


def _near_enough(about: Scope, at_most: Mapping[int, int], legs: Sequence[Leg]) -> Scope:
    """Return what there is to find out without the handles whose time is up before anybody is back at the panel."""
    needed = least_seconds(legs)
    short = {one: at_most[one] for one in about.handles if at_most.get(one, needed) * A_MINUTE < needed}
    why = {one: f"may be off for {least} min at most, and one look takes longer" for one, least in short.items()}
    handles = tuple(one for one in about.handles if one not in short)
    return replace(about, handles=handles, left_alone={**about.left_alone, **why}) if short else about


def _at_panel(home: Home) -> Spot | None:
    panel = next((panel for panel in home.panels if panel.at is not None and panel.level is not None), None)
    if panel is None or panel.at is None or panel.level is None:
        return None
    return panel.level, float(panel.at[0]), float(panel.at[1])


# --- rounds ---------------------------------------------------------------------------------------------------------

Off = list[tuple[int, ...]]
"""What is off in each round."""


def _in_time(
    about: Scope, strength: Strength, cap: int | None, legs: Sequence[Leg], at_most: Mapping[int, int]
) -> tuple[Off, Sequence[Timed]]:
    """Return what is off in each round, and how long they take: of fewer at once where turning them takes too long."""
    limited = {one: at_most[one] for one in about.handles if one in at_most}
    while True:
        masks = patterns([about.busy[handle] for handle in about.handles], strength, cap)
        count = max((mask.bit_length() for mask in masks), default=0)
        off = [tuple(about.handles[at] for at in off_in(masks, nth)) for nth in range(count)]
        orders = [_fewest_moves(off), *([_least_in_a_row(off, limited)] if limited else [])]
        tried = [(order, timed(order, legs, limited)) for order in orders]
        best = min(tried, key=lambda one: (sum(len(time.rests) for time in one[1]), moves_in(one[0])))
        most = max(map(len, off), default=0)
        if most <= 1 or not any(time.is_over for time in best[1]):
            return best
        cap = most - 1


def _least_in_a_row(rounds: Off, limited: Collection[int]) -> Off:
    """Return the rounds in the order in which what has a limit stays off the least from one round to the next."""
    if len(rounds) > MOST_ORDERED:
        return rounds
    kept = {(a, b): len({*a} & {*b} & {*limited}) for a in rounds for b in rounds}
    orders = (list(some) for some in permutations(rounds))
    return min(orders, key=lambda some: (sum(kept[pair] for pair in pairwise(some)), moves_in(some)), default=[])


def _fewest_moves(rounds: Off) -> Off:
    """Return the rounds in the order in which the fewest handles are turned, from all on to all on again."""
    if len(rounds) <= MOST_ORDERED:
        return min((list(some) for some in permutations(rounds)), key=moves_in, default=[])
    left, ordered = list(rounds), list[tuple[int, ...]]()
    while left:
        last = set(ordered[-1]) if ordered else set[int]()
        ordered.append(left.pop(min(range(len(left)), key=lambda at: len(last ^ {*left[at]}))))
    return ordered


def moves_in(rounds: Sequence[tuple[int, ...]]) -> int:
    """Return how many handles are turned in all: to each round from the one before, and back on at the end."""
    states = [set[int](), *map(set, rounds), set[int]()]
    return sum(len(a ^ b) for a, b in pairwise(states))


def _rounds(off: Off, times: Sequence[Timed], feeds: Sequence[FeedPlace], site: Site) -> Iterator[PlannedRound]:
    before: set[int] = set()
    for handles, time in zip(off, times, strict=True):
        moves = tuple(sorted(before ^ {*handles}))
        planned = _round(handles, moves, feeds, site)
        yield replace(planned, minutes=round(time.seconds / A_MINUTE, 1), rests=time.rests)
        before = {*handles}


def _round(off: tuple[int, ...], moves: tuple[int, ...], feeds: Sequence[FeedPlace], site: Site) -> PlannedRound:
    rooms: dict[int | None, list[int]] = {}
    for place in feeds:
        rooms.setdefault(site.room_of.get(place.box.id), []).append(place.feed.id)
    order, metres = site.walk(tuple(rooms))
    return PlannedRound(off, moves, tuple(Stop(room, tuple(rooms[room])) for room in order), metres)


def _solo(home: Home, about: Scope, known: Mapping[int, Conclusion]) -> Iterator[Solo]:
    """Yield each handle with the feeds that are said or suggested to be on it: one after another they prove it."""
    together, unproved = moves_together(home), {place.feed.id for place in about.feeds}
    order, said = {feed: place for place, feed in enumerate(known)}, said_on(known)
    for handle in about.handles:
        mine = (feed for feed in feeds_on(together[handle], said) if feed in unproved)
        feeds = tuple(sorted(mine, key=order.__getitem__))
        if feeds:
            yield Solo(handle, feeds)


# --- ways compared --------------------------------------------------------------------------------------------------


def _compared(
    about: Scope, rounds: Sequence[PlannedRound], times: Sequence[Timed], all_on: PlannedRound
) -> dict[str, Effort]:
    """Return what the plan takes beside one breaker at a time and beside a signal tracer."""
    feeds, handles = len(about.feeds), len(about.handles)
    mine = (len(rounds) + 2, moves_in([one.off for one in rounds]), feeds * (len(rounds) + 2))
    metres = sum(one.metres for one in rounds) + 2 * all_on.metres
    plain = _effort(*mine, metres)
    return {
        "plan": replace(plain, minutes=round(plain.minutes + sum(one.rested for one in times) / A_MINUTE, 1)),
        "one_at_a_time": _effort(handles + 2, 2 * handles, feeds * (handles + 2), all_on.metres * (handles + 2)),
        "tracer": Effort(1, 0, feeds, 2 * all_on.metres, (feeds * TRACE_S + 2 * all_on.metres / PACE_M_PER_S) / 60),
    }


def _effort(rounds: int, moves: int, readings: int, metres: float) -> Effort:
    seconds = moves * MOVE_S + readings * READ_S + metres / PACE_M_PER_S
    return Effort(rounds, moves, readings, round(metres, 1), round(seconds / 60, 1))
