"""Crowding: where a label finds no place of its own, others step aside, if they have somewhere else to stand."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import chain
from typing import Generic, Literal, TypeVar

from floorplan_circuits.drawing.ink import Bounds
from floorplan_circuits.drawing.placement import Candidate, Ground, Placed, Spot, first_clear, spots
from floorplan_circuits.findings import XY

Thing = TypeVar("Thing")
Form = Literal["whole", "plates", "tight", "danger", "mark"]
"""The whole label; its plates without the box's mark; the plates as long as they take no more than their numbers do,
else the mark; or the caution plate or the mark alone, told in a list."""
SHORT: tuple[Form, ...] = ("tight", "danger", "mark")
"""Forms that leave a box's circuits to a list beside the plan, if only while handles are off."""
Try = tuple[Form, bool, tuple[float, float], Iterator[Candidate]]
"""What a label may show, whether that is far off, its size, and the places for it, best first."""

ASIDE_AT_MOST = 2
"""How many labels may step aside for one."""
TRIES_FOR_ONE, TRIES_IN_ALL = 24, 600
"""How often others are asked to step aside, for one label and for a plan: past that the paper is too small."""
PATIENCE = 60
"""How many labels may go short until none looks far off or asks others aside: the scale is too small for the level."""


@dataclass(frozen=True, slots=True)
class Wish:
    """A label that wants a place: which, a point in the room it belongs to, the room its thing takes, what to try."""

    key: int
    at: XY
    own: Sequence[Bounds]
    tries: Callable[[], Iterator[Try]]


@dataclass(frozen=True, slots=True)
class Kept:
    """A label that has a place."""

    form: Form
    placed: Placed


class Replay(Generic[Thing]):
    """What an iterator yields, to be gone through again and again: each thing is made when it is first asked for."""

    def __init__(self, source: Iterator[Thing]) -> None:
        self._source = source
        self._seen: list[Thing] = []

    def __iter__(self) -> Iterator[Thing]:
        """Yield what was made, then make more."""
        at = 0
        while True:
            if at == len(self._seen):
                try:
                    self._seen.append(next(self._source))
                except StopIteration:
                    return
            yield self._seen[at]
            at += 1


Way = tuple[Form, bool, Replay[Spot]]
"""What a label may show, whether that is far off, and the places for it that walls and what stays allow."""


@dataclass(slots=True)
class Crowd:
    """Labels that are placed together, each in turn; `kept` is where they stand."""

    ground: Ground
    kept: dict[int, Kept] = field(default_factory=dict)
    _wishes: dict[int, Wish] = field(default_factory=dict)
    _ways: dict[int, Replay[Way]] = field(default_factory=dict)
    _ways_as_of: int = 0
    _hopeless: set[int] = field(default_factory=set)
    _tries_left: int = TRIES_IN_ALL
    _patience: int = PATIENCE

    def add(self, wish: Wish) -> None:
        """Give a label the first place that is free."""
        self._wishes[wish.key] = wish
        found = self._first_free(wish, may_shrink=True, may_go_far=self._patience > 0)
        if found is not None:
            self._put(wish.key, found)
        if self._is_short(wish.key):
            self._patience -= 1

    def wanted(self, key: int) -> bool:
        """Tell whether a label was asked for, whether or not it found a place."""
        return key in self._wishes

    def make_way(self) -> None:
        """Find places for labels that have none, or show no more than a mark, by moving others."""
        if self._patience <= 0:
            return
        for key, wish in self._wishes.items():
            if self._is_short(key) and key not in self._hopeless:
                before = self._lift(key)
                if not self._settled(wish):
                    self._hopeless.add(key)
                    if before is not None:
                        self._put(key, before)

    def _is_short(self, key: int) -> bool:
        return key not in self.kept or self.kept[key].form in SHORT

    def _ways_of(self, wish: Wish) -> Replay[Way]:
        """Return what may be tried for a label: found out once, as long as nothing else comes to stay on the ground."""
        if self._ways_as_of != self.ground.fixed:
            self._ways.clear()
            self._ways_as_of = self.ground.fixed
        if wish.key not in self._ways:
            self._ways[wish.key] = Replay(_ways(wish, self.ground))
        return self._ways[wish.key]

    def _first_free(self, wish: Wish, may_shrink: bool, may_go_far: bool) -> Kept | None:
        for form, is_far, found in self._ways_of(wish):
            if (form in SHORT and not may_shrink) or (is_far and not may_go_far):
                continue
            placed = first_clear(self.ground, found)
            if placed is not None:
                return Kept(form, placed)
        return None

    def _put(self, key: int, kept: Kept) -> None:
        self.kept[key] = kept
        self.ground.put(key, kept.placed)

    def _lift(self, key: int) -> Kept | None:
        kept = self.kept.pop(key, None)
        if kept is not None:
            self.ground.lift(key, kept.placed)
        return kept

    def _settled(self, wish: Wish) -> bool:
        """Put a label where at most a few stand that can go elsewhere; tell whether that was possible."""
        tries = 0
        for form, is_far, found in self._ways_of(wish):
            if form in SHORT or is_far:
                continue
            for placed in chain.from_iterable(spot.ways() for spot in found):
                movers = set(self.ground.in_the_way(placed))
                if len(movers) > ASIDE_AT_MOST:
                    continue
                if self._moved(wish, Kept(form, placed), movers):
                    return True
                tries += 1
                self._tries_left -= 1
                if tries >= TRIES_FOR_ONE or self._tries_left <= 0:
                    return False
        return False

    def _moved(self, wish: Wish, wanted: Kept, movers: Iterable[int]) -> bool:
        """Let the movers make room for what is wanted; leave all as it was where one has nowhere to go."""
        before = {key: kept for key in movers if (kept := self._lift(key)) is not None}
        self._put(wish.key, wanted)
        for key, kept in before.items():
            found = self._first_free(self._wishes[key], may_shrink=kept.form in SHORT, may_go_far=True)
            if found is None:
                for one in (wish.key, *before):
                    self._lift(one)
                for one, stood in before.items():
                    self._put(one, stood)
                return False
            self._put(key, found)
        return True


def _ways(wish: Wish, ground: Ground) -> Iterator[Way]:
    for form, is_far, size, candidates in wish.tries():
        yield form, is_far, Replay(spots(ground, wish.at, size, candidates, wish.own))
