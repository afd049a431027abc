"""What stays live and helps: a tested point to prove the tester on, a light to work by, a light on the way."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from floorplan_circuits.findings import Conclusion
from floorplan_circuits.home.home import FeedPlace, Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.log import ReceptacleTest
from floorplan_circuits.shutoff.cut import Supplies, is_live
from floorplan_circuits.shutoff.nearest import Nearby, Spot
from floorplan_circuits.shutoff.stopping import lacks_ground
from floorplan_circuits.supply.handles import HANDLE_KINDS
from floorplan_circuits.supply.walks import reached
from floorplan_circuits.survey.log_book import LogBook

TOLD = ("proved", "traced", "suggested", "claimed")
"""Standings of which somebody or something told the breaker."""
TRIPS = ("ground fault", "residual current")
"""Protection that a tester held between a hot and the ground may trip."""
TAKEN = "single receptacle"
"""The kind that serves one appliance: a lead in it would have that unplugged."""


class Helping:
    """All points and lights of a home that may help, whatever is off: sorted once.

    No point and no light hangs on a handle in trouble: it cannot be relied on to stay on, nor be told to.
    """

    def __init__(
        self, places: Iterable[FeedPlace], known: Mapping[int, Conclusion], room_of: Mapping[int, int | None],
        home: Home, record: LogBook,
    ) -> None:  # fmt: skip
        every = list(places)
        told = [place for place in _of_group("light", every) if known[place.feed.id].standing in TOLD]
        inside = [place for place in told if not _is_outdoors(place, home, room_of)]
        fit = _Fit(home, record, known)
        points = [place for place in every if fit.for_a_lead(place)]
        self.points = Nearby(place for place in points if known[place.feed.id].standing == "proved")
        self.grounded = Nearby(place for place in self.points.all if _ground(place) == "present")
        self.lights = Nearby(inside)
        self.tested_lights = Nearby(place for place in inside if known[place.feed.id].standing == "proved")
        self.lights_in: dict[int | None, list[FeedPlace]] = {}
        for place in told:
            self.lights_in.setdefault(room_of.get(place.box.id), []).append(place)
        self.in_trouble = frozenset(record.troubles)


class _Fit:
    """Which receptacles an extension lead may be plugged into, so that a tester may be held between two of its slots.

    One hot, all of it on one supply that no switch works and no ground-fault device is before, and a ground that
    nobody found missing.
    """

    def __init__(self, home: Home, record: LogBook, known: Mapping[int, Conclusion]) -> None:
        self._known = known
        self._trip = frozenset(one.id for one in home.breakers if {*TRIPS} & {*one.protects})
        self._behind = {one.id: one.behind for one in home.breakers}
        self._switched = frozenset(feed for control in home.controls for feed in control.feeds)
        shown = {entry.device: entry.shows for _, entry in record.entries if isinstance(entry, ReceptacleTest)}
        self._faulty = frozenset(device for device, shows in shown.items() if shows != "correct")

    def for_a_lead(self, place: FeedPlace) -> bool:
        """Tell whether a lead may be plugged in there, whatever is known of its breaker."""
        return self._is_ordinary(place) and not lacks_ground(place.box) and not self._trips(place)

    def _is_ordinary(self, place: FeedPlace) -> bool:
        device = place.device
        if device is None or _outdoors(place) or device.id in self._faulty:
            return False
        kind = kind_named(device.kind)
        is_plain = kind.group == "receptacle" and kind.hots == 1 and not kind.in_series and kind.name != TAKEN
        is_one = len(device.feeds) == 1 and place.feed.on.how == "any" and len(place.feed.on.supplies) == 1
        return is_plain and is_one and place.feed.volts == "mains" and place.feed.id not in self._switched

    def _trips(self, place: FeedPlace) -> bool:
        known = self._known[place.feed.id]
        above = {one for breaker in known.breakers for one in (breaker, self._behind.get(breaker))}
        return bool(known.behind) or bool(self._trip & above)


def _of_group(group: str, places: Iterable[FeedPlace]) -> Iterator[FeedPlace]:
    return (place for place in places if place.device is not None and kind_named(place.device.kind).group == group)


def _is_outdoors(place: FeedPlace, home: Home, room_of: Mapping[int, int | None]) -> bool:
    room = room_of.get(place.box.id)
    return _outdoors(place) or (room is not None and home.rooms[room].use == "outdoors")


def _outdoors(place: FeedPlace) -> bool:
    kind = kind_named(place.device.kind) if place.device is not None else None
    return place.box.mount == "outdoor" or (kind is not None and kind.mount == "outdoor")


def _ground(place: FeedPlace) -> str:
    return place.device.ground if place.device is not None else "not known"


@dataclass(frozen=True, slots=True)
class Around:
    """What to search: what helps, what is known, all that is off, and what supplies each circuit all the same."""

    helping: Helping
    known: Mapping[int, Conclusion]
    off: frozenset[int]
    supplies: Supplies
    _live: dict[int, bool] = field(default_factory=dict)

    def stays_live(self, place: FeedPlace) -> bool:
        """Tell whether a feed keeps its supply: its breakers are on and without trouble, and all above them."""
        breakers = self.known[place.feed.id].breakers
        return bool(breakers) and all(breaker not in self.off and self._is_live(breaker) for breaker in breakers)

    def _is_live(self, breaker: int) -> bool:
        if breaker not in self._live:
            above = {number for kind, number in reached(self.supplies, [("circuit", breaker)]) if kind in HANDLE_KINDS}
            relied_on = not self.helping.in_trouble & (above | {breaker})
            self._live[breaker] = relied_on and is_live(("circuit", breaker), self.off, self.supplies)
        return self._live[breaker]


def tested_point(near: Spot, without: Iterable[int], around: Around) -> int | None:
    """Return the box of the nearest receptacle that was tested, stays live and takes a lead, none of those opened.

    One whose ground somebody saw comes before those of which nobody said.
    """
    barred = set(without)

    def helps(place: FeedPlace) -> bool:
        return place.box.id not in barred and around.stays_live(place)

    found = around.helping.grounded.nearest(near, helps)
    return found if found is not None else around.helping.points.nearest(near, helps)


def light(near: Spot, around: Around, within: int | None) -> int | None:
    """Return the box of a light that stays on: in the room `within` where there is one, else indoors on the level.

    Tested lights come before those that are only said to stay on. A light outdoors, or on another level, lights no
    room; where nobody recorded the level, any indoors may do.
    """
    helping = around.helping
    inside = helping.lights_in.get(within, []) if within is not None else []
    here = [place for place in inside if around.stays_live(place)]
    if here:
        proved = [place for place in here if around.known[place.feed.id].standing == "proved"]
        return Nearby(proved or here).nearest(near, lambda _: True)

    def lights(place: FeedPlace) -> bool:
        return near[0] in (None, place.box.level) and around.stays_live(place)

    found = helping.tested_lights.nearest(near, lights)
    return found if found is not None else helping.lights.nearest(near, lights)
