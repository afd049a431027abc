"""What stays live and helps: a tested point to prove the tester on, a light to work by, a light on the way."""

from collections.abc import Iterable, Mapping, Set
from dataclasses import dataclass
from math import dist, inf

from floorplan_circuits.findings import Conclusion
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.supply.walks import Node

LEVEL_AWAY_MM = 8_000
"""What a stair counts as when the nearest point is sought: about its own run and the way to it."""

Spot = tuple[int | None, tuple[int, int] | None]
"""A level and a place on it; None where nobody recorded it."""


@dataclass(frozen=True, slots=True)
class Around:
    """What to search: the home, what is known, what is off, and every node that a source reaches all the same."""

    home: Home
    known: Mapping[int, Conclusion]
    off: frozenset[int]
    live: Set[Node]

    def stays_live(self, place: FeedPlace) -> bool:
        """Tell whether a tested feed keeps its supply: its breakers are on, and all above them."""
        one = self.known[place.feed.id]
        on = one.breakers and not any(breaker in self.off for breaker in one.breakers)
        return bool(on) and all(("circuit", breaker) in self.live for breaker in one.breakers)


def tested_point(near: Spot, without: Iterable[int], around: Around) -> int | None:
    """Return the box of the nearest receptacle that was tested and stays live, none of those to be opened."""
    barred = set(without)
    tested = [
        place
        for place in existing_feeds(around.home)
        if place.box.id not in barred
        and place.device is not None
        and kind_named(place.device.kind).group == "receptacle"
        and around.known[place.feed.id].standing == "proved"
        and around.stays_live(place)
    ]
    return _nearest(near, tested)


def light(near: Spot, around: Around, within: int | None, room_of: Mapping[int, int | None]) -> int | None:
    """Return the box of a light that stays on: in the room `within` where there is one, else the nearest.

    Tested lights come before those that are only said to stay on.
    """
    lights = [
        place
        for place in existing_feeds(around.home)
        if place.device is not None
        and kind_named(place.device.kind).group == "light"
        and around.known[place.feed.id].standing in ("proved", "traced", "suggested", "claimed")
        and around.stays_live(place)
    ]
    here = [place for place in lights if within is not None and room_of.get(place.box.id) == within]
    best = here or lights
    proved = [place for place in best if around.known[place.feed.id].standing == "proved"]
    return _nearest(near, proved or best)


def _nearest(near: Spot, places: Iterable[FeedPlace]) -> int | None:
    every = list(places)
    if not every:
        return None
    return min(every, key=lambda place: (_far(near, spot_of(place.box)), place.box.id)).box.id


def spot_of(box: Box) -> Spot:
    """Return where a box is."""
    return box.level, None if box.at is None else (box.at[0], box.at[1])


def _far(a: Spot, b: Spot) -> float:
    if a[1] is None or b[1] is None:
        return inf
    return dist(a[1], b[1]) + (LEVEL_AWAY_MM if a[0] != b[0] else 0)
