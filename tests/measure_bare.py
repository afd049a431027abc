"""What the bare libraries take for the heart of an analysis, on arrays made ready: the yardstick of `tests.measure`."""

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass

import networkx as nx
import numpy as np
import shapely

from floorplan_circuits.findings import Findings
from floorplan_circuits.geometry.nearness import WITHIN_MM
from floorplan_circuits.supply.graph import ALWAYS_LIVE, SupplyGraph
from floorplan_circuits.supply.walks import Node, reached

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


def ancestors(graph: SupplyGraph, feeds: Sequence[int]) -> "nx.DiGraph[tuple[str, Node]]":
    """Return the graph above some feeds as a flow wants it: every handle parted in two, one source, one sink."""
    made: nx.DiGraph[tuple[str, Node]] = nx.DiGraph()
    for node in reached(graph.supplies, [("feed", feed) for feed in feeds]):
        is_handle = node[0] in ("breaker", "main")
        made.add_edge(("in", node), ("out", node), **({"capacity": 1} if is_handle else {}))
        made.add_edges_from((("out", giver), ("in", node)) for giver in graph.supplies.get(node, ()))
        if node[0] in ALWAYS_LIVE:
            made.add_edge(("source", ("", 0)), ("in", node))
    made.add_edges_from((("out", ("feed", feed)), ("sink", ("", 0))) for feed in feeds)
    return made


def least_cut(made: "nx.DiGraph[tuple[str, Node]]") -> None:
    """Cut the sink off, or find that it can't be."""
    with suppress(nx.NetworkXUnbounded):
        nx.minimum_cut(made, ("source", ("", 0)), ("sink", ("", 0)))
