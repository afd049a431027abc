"""What the bare libraries take for the heart of an analysis, on arrays made ready: the yardstick of `tests.measure`."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from floorplan_circuits.findings import Findings
from floorplan_circuits.geometry.nearness import WITHIN_MM

Cells = tuple[shapely.Geometry, shapely.Geometry, np.ndarray]
"""A room's floor, its places as a multipoint, and each place's circuit."""


@dataclass(frozen=True, slots=True)
class Ready:
    """A home as arrays: floors and boxes of each level, places of each room, what hangs on each breaker."""

    levels: Sequence[tuple[np.ndarray, np.ndarray]]
    rooms: Sequence[Cells]
    feeds_of: dict[int, list[int]]
    box_of: dict[int, int]


def ready(found: Findings) -> Ready:
    """Return the arrays of a home."""
    home, levels, places = found.home, [], dict[int, list[tuple[tuple[int, int], int]]]()
    for level in home.levels.ids():
        floors = [shapely.Polygon(room.outline) for room in home.rooms if room.level == level]
        points = shapely.points([box.at for box in home.boxes if box.level == level and box.at is not None])
        levels.append((np.array(floors), points))
    feeds_of: dict[int, list[int]] = {}
    for one in found.conclusions.values():
        breaker = one.breakers[0] if one.breakers else 0
        feeds_of.setdefault(breaker, []).append(one.feed)
        room, at = found.room_of[one.box], home.boxes[one.box].at
        if room is not None and at is not None:
            places.setdefault(room, []).append((at, breaker))
    rooms = [_cells(home.rooms[room].outline, dict(inside)) for room, inside in places.items()]
    return Ready(levels, rooms, feeds_of, {one.feed: one.box for one in found.conclusions.values()})


def _cells(outline: Sequence[tuple[int, int]], inside: dict[tuple[int, int], int]) -> Cells:
    return shapely.Polygon(outline), shapely.multipoints(list(inside)), np.array(list(inside.values()))


def analyse(given: Ready) -> None:
    """Locate every box, find its neighbours, cut the rooms' zones, and walk from breakers to boxes."""
    for floors, points in given.levels:
        shapely.STRtree(floors).query(points, predicate="intersects")
        shapely.STRtree(points).query(points, predicate="dwithin", distance=WITHIN_MM)
    for floor, places, circuits in given.rooms:
        kinds = np.unique(circuits)
        if len(kinds) > 1:
            cells = shapely.get_parts(shapely.voronoi_polygons(places, extend_to=floor, ordered=True))
            shapely.intersection([shapely.coverage_union_all(cells[circuits == kind]) for kind in kinds], floor)
    boxes: dict[int, set[int]] = {}
    for breaker, feeds in given.feeds_of.items():
        for feed in feeds:
            boxes.setdefault(given.box_of[feed], set()).add(breaker)
