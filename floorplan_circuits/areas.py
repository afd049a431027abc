"""Areas: the floor divided among the circuits of its devices, and the colours of circuits that meet.

Colour is what the devices are on, not what runs inside walls, floor or ceiling.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from floorplan_circuits.findings import BoxFinding, Conclusion, Layer, Zone
from floorplan_circuits.geometry.colouring import MIDDLING, STRONG, WEAK, colours
from floorplan_circuits.geometry.zones import divide
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.home.kinds import kind_named

SETTLED = ("proved", "traced")
UNKNOWN = 0
LIGHT_PARTS = ("light",)


@dataclass(frozen=True, slots=True)
class Load:
    """What an area is made from: where it is, the breaker it hangs on (0 for unknown), how well that is known."""

    at: tuple[int, int]
    breaker: int
    settled: bool
    group: str


Loads = Mapping[int, Sequence[Load]]
"""Room -> the loads in it."""


def loads_by_room(
    home: Home, known: Mapping[int, Conclusion], room_of: Mapping[int, int | None]
) -> dict[int, list[Load]]:
    """Return the loads of each room, those without a place or a room left out."""
    inside: dict[int, list[Load]] = {}
    for place in existing_feeds(home):
        room, one = room_of.get(place.box.id), known[place.feed.id]
        if room is None or place.box.at is None or place.device is None:
            continue
        breaker = one.breakers[0] if one.breakers and one.standing != "unknown" else UNKNOWN
        settled = bool(breaker) and one.standing in SETTLED
        inside.setdefault(room, []).append(Load(place.box.at, breaker, settled, _group(place.device, place.feed.part)))
    return inside


def _group(device: Device, part: str) -> str:
    """Return what a feed counts as on the plan: light, switch, or receptacle for all else that takes power."""
    group = kind_named(device.kind).group
    if group in ("light", "switch"):
        return group
    return "light" if part in LIGHT_PARTS else "receptacle"


def zones(home: Home, inside: Loads, layer: Layer) -> tuple[Zone, ...]:
    """Divide each room among the circuits of its lights, its receptacles, or both."""
    lone = _lone(inside)
    return tuple(zone for room in home.rooms for zone in _zones_of(room, inside.get(room.id, ()), lone, layer))


def _lone(inside: Loads) -> frozenset[int]:
    """Return the breakers that feed one device only: where there are others, those take no area."""
    counts = Counter(load.breaker for loads in inside.values() for load in loads)
    return frozenset(breaker for breaker, count in counts.items() if breaker and count == 1)


def _zones_of(room: Room, loads: Sequence[Load], lone: frozenset[int], layer: Layer) -> Iterator[Zone]:
    shown = _shown(loads, layer)
    shown = [load for load in shown if load.breaker not in lone] or shown
    places = tuple((load.at, load.breaker) for load in shown)
    for breaker, rings in divide(room.outline, places).items():
        settled = all(load.settled for load in shown if load.breaker == breaker)
        yield Zone(room.id, breaker or None, rings, settled)


def _shown(loads: Sequence[Load], layer: Layer) -> Sequence[Load]:
    """Return the loads that the layer shows; for lights and for both, a room of switches alone goes by those."""
    if layer == "receptacles":
        return [load for load in loads if load.group == "receptacle"]
    wanted = ("light",) if layer == "lights" else ("light", "receptacle")
    return [load for load in loads if load.group in wanted] or [load for load in loads if load.group == "switch"]


# --- colours --------------------------------------------------------------------------------------------------------


def circuit_colours(
    home: Home,
    inside: Loads,
    boxes: Mapping[int, BoxFinding],
    both: Iterable[Zone],
    neighbours: Iterable[tuple[int, int]],
) -> dict[int, int]:
    """Give each breaker that feeds something a place in the palette, in order of their ids.

    `both` are the zones of lights and receptacles together, whatever layer is shown: a colour is the home's.
    """
    meets: dict[tuple[int, int], int] = {}
    present = {room: {load.breaker for load in loads} - {UNKNOWN} for room, loads in inside.items()}
    for a, b in neighbours:
        meets.update(dict.fromkeys(_between(present.get(a, set()), present.get(b, set())), WEAK))
    for group in present.values():
        meets.update(dict.fromkeys(combinations(sorted(group), 2), MIDDLING))
    meets.update(dict.fromkeys(_along_edges(both), STRONG))
    used = set[int]()
    for found in boxes.values():
        used.update(found.breakers)
        meets.update(dict.fromkeys(combinations(sorted(set(found.breakers)), 2), STRONG))
    several = {breaker.id for breaker in home.breakers if len(breaker.poles) > 1}  # for one appliance, so without area
    given = colours(sorted(home.breakers.ids()), meets, several)  # all, so that a first device moves no other's colour
    return {breaker: place for breaker, place in given.items() if breaker in used}


def _between(here: set[int], there: set[int]) -> Iterator[tuple[int, int]]:
    return ((min(a, b), max(a, b)) for a in here for b in there if a != b)


def _along_edges(both: Iterable[Zone]) -> Iterator[tuple[int, int]]:
    """Yield the breakers whose zones share an edge."""
    owner: dict[tuple[tuple[float, float], tuple[float, float]], int] = {}
    for zone in both:
        if zone.breaker is None:
            continue
        for ring in zone.rings:
            for a, b in pairwise((*ring, ring[0])):
                other = owner.setdefault((a, b) if a < b else (b, a), zone.breaker)
                if other != zone.breaker:
                    yield min(other, zone.breaker), max(other, zone.breaker)
