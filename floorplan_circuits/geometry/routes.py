"""Ways to walk: how far it is from one room to another, through doors and open ways and over stairs."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from heapq import heappop, heappush
from math import hypot, inf

import shapely

from floorplan_circuits.geometry.outlines import polygon
from floorplan_circuits.home.building import Opening
from floorplan_circuits.home.home import Home

THROUGH_MM = 250
"""An opening belongs to the rooms whose outline passes this near its middle: outlines run in the middle of a wall."""
NO_WAY_KNOWN = 2.0
"""Where no opening is drawn between two rooms, the straight way counts so many times over: there must be one."""
STAIR_MM = 3_000
"""What is added for going to another level where no stair is drawn."""

Spot = tuple[int, float, float]
"""A level and a place on it, in mm."""


@dataclass(frozen=True)
class Routes:
    """The places where one can walk and the ways between them. `spots`: room -> its middle."""

    spots: Mapping[int, Spot]
    ways: Mapping[Spot, Mapping[Spot, float]]

    def far(self, start: Spot, ends: Iterable[Spot]) -> dict[Spot, float]:
        """Return the length of the shortest known way in mm to each of `ends`, or a guess where none is drawn."""
        wanted = set(ends)
        found = {spot: length for spot, length in self._walked(start) if spot in wanted}
        return found | {end: _guess(start, end) for end in wanted - found.keys()}

    def _walked(self, start: Spot) -> Iterator[tuple[Spot, float]]:
        done, todo = set[Spot](), [(0.0, start)]
        while todo:
            length, at = heappop(todo)
            if at in done:
                continue
            done.add(at)
            yield at, length
            for other, way in self.ways.get(at, {}).items():
                if other not in done:
                    heappush(todo, (length + way, other))


def routes(home: Home) -> Routes:
    """Return the ways through a home: each opening joins the middles of its rooms, each stair two levels."""
    shapes = {room.id: polygon(room.outline) for room in home.rooms}
    middles = {room: _middle(shape) for room, shape in shapes.items()}
    spots = {room.id: (room.level, *middles[room.id]) for room in home.rooms}
    ways: dict[Spot, dict[Spot, float]] = {}
    for opening, room in _openings_of_rooms(home, shapes):
        _join(ways, spots[room], (opening.level, float(opening.at[0]), float(opening.at[1])))
    for stair in home.stairs:
        ends = [
            spot
            for level in (stair.level, stair.head)
            if level is not None and (spot := _room_at(home, shapes, spots, level, stair.at)) is not None
        ]
        if len(ends) == 2:
            _join(ways, ends[0], ends[1], float(stair.run))
    return Routes(spots, ways)


def _openings_of_rooms(home: Home, shapes: Mapping[int, "shapely.Polygon"]) -> Iterator[tuple[Opening, int]]:
    """Yield each opening that one can walk through with each room whose outline passes it."""
    openings = [one for one in home.openings if one.kind != "window"]
    rooms = list(home.rooms)
    if not openings or not rooms:
        return
    edges = shapely.STRtree([shapes[room.id].exterior for room in rooms])
    middles = shapely.points([one.at for one in openings])
    for at, nth in zip(*edges.query(middles, predicate="dwithin", distance=THROUGH_MM), strict=True):
        if openings[at].level == rooms[nth].level:
            yield openings[at], rooms[nth].id


def _middle(shape: "shapely.Polygon") -> tuple[float, float]:
    point = shape.representative_point()
    return point.x, point.y


def _room_at(
    home: Home, shapes: Mapping[int, "shapely.Polygon"], spots: Mapping[int, Spot], level: int, at: tuple[int, int]
) -> Spot | None:
    """Return the middle of the room of a level in which a place lies, or which is nearest to it."""
    here = [room.id for room in home.rooms if room.level == level]
    if not here:
        return None
    return spots[min(here, key=lambda room: (_far(shapes[room], at), room))]


def _far(shape: "shapely.Geometry", at: tuple[int, int]) -> float:
    return float(shape.distance(shapely.Point(at)))


def _join(ways: dict[Spot, dict[Spot, float]], a: Spot, b: Spot, least: float = 0.0) -> None:
    length = max(least, hypot(a[1] - b[1], a[2] - b[2]))
    ways.setdefault(a, {})[b] = length
    ways.setdefault(b, {})[a] = length


def _guess(a: Spot, b: Spot) -> float:
    straight = hypot(a[1] - b[1], a[2] - b[2])
    return straight * NO_WAY_KNOWN + (STAIR_MM if a[0] != b[0] else 0.0) if straight < inf else inf
