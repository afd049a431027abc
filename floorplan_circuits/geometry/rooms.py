"""Which room each box belongs to, and each room's shape: its area, and where its name may stand."""

from collections.abc import Sequence
from functools import lru_cache
from math import hypot

import numpy as np
import shapely

from floorplan_circuits.findings import XY, RoomShape
from floorplan_circuits.geometry.outlines import (
    Floats,
    Outline,
    PlacedBox,
    Wholes,
    boxes_by_level,
    polygon,
    rooms_by_level,
)
from floorplan_circuits.home.home import Home

PROBE_MM = 60
"""How far in front of a box its room is looked for. Half a partition of 89 mm studs and 12.7 mm board is 57 mm (common
practice, no source), so a box drawn on the far face of its wall is still found; no cupboard is as shallow."""

FACING = frozenset({"wall", "outdoor"})
"""Mounts that belong to the side they face; all others belong to the floor they are on."""

LOOSE = "loose cable end"

AS_GOOD = 0.98
"""A room's middle is taken for its widest empty place if that leaves at least this share of the width round it."""


def room_of_boxes(home: Home) -> dict[int, int | None]:
    """Return the room of each box, or None: a box without a place, outside all rooms, or facing outdoors.

    A box on a wall belongs to the side it faces; if that is outside all rooms, to the room it stands inside of, if
    any (an outdoor box to none). Ceiling, floor and hidden boxes belong where they are; so does a loose cable end, but
    one that comes out of a wall belongs to the side it faces. Where rooms overlap, the smallest has the box, and of
    equal ones the first in the home's order.
    """
    found: dict[int, int | None] = dict.fromkeys(home.boxes.ids())
    boxes = boxes_by_level(home)
    for level, rooms in rooms_by_level(home).items():
        placed = boxes.get(level, [])
        if placed:
            places = _locate(tuple(room.outline for room in rooms), placed)
            found.update((one.box.id, None if at < 0 else rooms[at].id) for one, at in zip(placed, places, strict=True))
    return found


def _locate(outlines: tuple[Outline, ...], placed: Sequence[PlacedBox]) -> list[int]:
    """Return the place in `outlines` that each box belongs to, -1 for none."""
    at = np.array([one.at for one in placed], dtype=np.float64)
    faces = np.array([one.box.mount in FACING for one in placed])
    found = _floor_at(outlines, np.where(faces[:, None], at + _ahead(placed), at), "intersects")
    loose = np.flatnonzero([one.box.mount == LOOSE for one in placed])
    if loose.size:
        found[loose] = _of_loose(outlines, at[loose], at[loose] + _ahead([placed[one] for one in loose.tolist()]))
    lost = np.flatnonzero((found < 0) & [one.box.mount == "wall" for one in placed])
    if lost.size:
        found[lost] = _floor_at(outlines, at[lost], "within")
    places: list[int] = found.tolist()
    return places


def _of_loose(outlines: tuple[Outline, ...], at: Floats, ahead: Floats) -> Wholes:
    """Return the room of loose cable ends: round them, else of those in a wall the one ahead, else one they touch."""
    found = _floor_at(outlines, at, "within")
    for places in (ahead, at):
        found = np.where(found < 0, _floor_at(outlines, places, "intersects"), found)
    return found


def _ahead(placed: Sequence[PlacedBox]) -> Floats:
    turned = np.radians([one.box.angle for one in placed])
    return PROBE_MM * np.column_stack((np.cos(turned), np.sin(turned)))


def _floor_at(outlines: tuple[Outline, ...], places: Floats, predicate: str) -> Wholes:
    """Return for each place the outline that has it, -1 for none: one query for all of them."""
    tree, by_size = _tree(outlines)
    place, rank = tree.query(shapely.points(places), predicate=predicate)
    best = np.full(len(places), len(outlines))
    np.minimum.at(best, place, rank)
    found: Wholes = np.append(by_size, -1)[best]
    return found


@lru_cache(maxsize=64)
def _tree(outlines: tuple[Outline, ...]) -> tuple[shapely.STRtree, Wholes]:
    """Return a tree of the floors, smallest first, and the place in `outlines` of each."""
    floors = np.array([polygon(outline) for outline in outlines])
    by_size = np.argsort(shapely.area(floors), kind="stable")
    return shapely.STRtree(floors[by_size]), by_size


# --- shapes ---------------------------------------------------------------------------------------------------------


def room_shapes(home: Home) -> dict[int, RoomShape]:
    """Return each room's area in mm² and the places where its name may stand, best first."""
    return {room.id: RoomShape(room.id, *_shape(room.outline)) for room in home.rooms}


@lru_cache(maxsize=2**14)
def _shape(outline: Outline) -> tuple[float, tuple[XY, ...]]:
    floor = polygon(outline)
    return float(floor.area), label_places(floor)


def label_places(floor: shapely.Geometry) -> tuple[XY, ...]:
    """Return where a name may stand, best first: the widest empty middle, the centroid, and places round the middle.

    All of them lie inside; none for an empty floor. The places round the middle stand off it by half the free width.
    """
    if floor.is_empty:
        return ()
    middle = floor.centroid
    inside = bool(floor.contains(middle))
    (x, y), free = pole(floor)
    if inside and floor.boundary.distance(middle) >= AS_GOOD * free:
        x, y = middle.x, middle.y
    half = free / 2
    round_it = ((0, -half), (0, half), (-half, 0), (half, 0), (0, -half / 2), (0, half / 2))
    centroid = [(middle.x, middle.y)] if inside else []
    return tuple(dict.fromkeys([(x, y), *centroid, *((x + dx, y + dy) for dx, dy in round_it)]))


def pole(floor: shapely.Geometry, tolerance: float | None = None) -> tuple[XY, float]:
    """Return the pole of inaccessibility (the centre of the largest circle inside) and its distance to the edge.

    `tolerance` is how much wider, in mm, another place may be; by default a thousandth of the floor's larger side.
    Raises ValueError for an empty floor.
    """
    if floor.is_empty:
        raise ValueError("an empty floor has no middle")
    (x, y), (edge_x, edge_y) = shapely.get_coordinates(shapely.maximum_inscribed_circle(floor, tolerance)).tolist()
    return (x, y), hypot(edge_x - x, edge_y - y)
