"""What stays live and helps: a tested point to prove the tester on, a light to work by, a light on the way."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from floorplan_circuits.findings import Conclusion
from floorplan_circuits.home.home import FeedPlace
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.shutoff.cut import Supplies, is_live
from floorplan_circuits.shutoff.nearest import Nearby, Spot

TOLD = ("proved", "traced", "suggested", "claimed")
"""Standings of which somebody or something told the breaker."""


class Helping:
    """All points and lights of a home that may help, whatever is off: sorted once."""

    def __init__(
        self, places: Iterable[FeedPlace], known: Mapping[int, Conclusion], room_of: Mapping[int, int | None]
    ) -> None:
        every = list(places)
        lights = list(_of_group("light", every))
        told = [place for place in lights if known[place.feed.id].standing in TOLD]
        points = _of_group("receptacle", every)
        self.points = Nearby(place for place in points if known[place.feed.id].standing == "proved")
        self.lights = Nearby(told)
        self.tested_lights = Nearby(place for place in told if known[place.feed.id].standing == "proved")
        self.lights_in: dict[int | None, list[FeedPlace]] = {}
        for place in told:
            self.lights_in.setdefault(room_of.get(place.box.id), []).append(place)


def _of_group(group: str, places: Iterable[FeedPlace]) -> Iterator[FeedPlace]:
    return (place for place in places if place.device is not None and kind_named(place.device.kind).group == group)


@dataclass(frozen=True, slots=True)
class Around:
    """What to search: what helps, what is known, all that is off, and what supplies each circuit all the same."""

    helping: Helping
    known: Mapping[int, Conclusion]
    off: frozenset[int]
    supplies: Supplies
    _live: dict[int, bool] = field(default_factory=dict)

    def stays_live(self, place: FeedPlace) -> bool:
        """Tell whether a feed keeps its supply: its breakers are on, and all above them."""
        breakers = self.known[place.feed.id].breakers
        return bool(breakers) and all(breaker not in self.off and self._is_live(breaker) for breaker in breakers)

    def _is_live(self, breaker: int) -> bool:
        if breaker not in self._live:
            self._live[breaker] = is_live(("circuit", breaker), self.off, self.supplies)
        return self._live[breaker]


def tested_point(near: Spot, without: Iterable[int], around: Around) -> int | None:
    """Return the box of the nearest receptacle that was tested and stays live, none of those to be opened."""
    barred = set(without)
    return around.helping.points.nearest(
        near, lambda place: place.box.id not in barred and around.stays_live(place)
    )  # fmt: skip


def light(near: Spot, around: Around, within: int | None) -> int | None:
    """Return the box of a light that stays on: in the room `within` where there is one, else the nearest.

    Tested lights come before those that are only said to stay on.
    """
    helping = around.helping
    inside = helping.lights_in.get(within, []) if within is not None else []
    here = [place for place in inside if around.stays_live(place)]
    if here:
        proved = [place for place in here if around.known[place.feed.id].standing == "proved"]
        return Nearby(proved or here).nearest(near, lambda _: True)
    found = helping.tested_lights.nearest(near, around.stays_live)
    return found if found is not None else helping.lights.nearest(near, around.stays_live)
