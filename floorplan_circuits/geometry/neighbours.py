"""Neighbours: which rooms of a level share a stretch of wall."""

import numpy as np
import shapely

from floorplan_circuits.geometry.outlines import polygon, rooms_by_level
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home

SHARED_MM = 100.0
"""Least length of wall that makes rooms neighbours: less is a corner."""


def neighbouring_rooms(home: Home) -> tuple[tuple[int, int], ...]:
    """Return pairs of rooms with a wall between them, the lower id first, in order."""
    return tuple(sorted(pair for rooms in rooms_by_level(home).values() for pair in _neighbours(rooms)))


def _neighbours(rooms: list[Room]) -> list[tuple[int, int]]:
    floors = np.array([polygon(room.outline) for room in rooms], dtype=object)
    ids = np.array([room.id for room in rooms])
    a, b = shapely.STRtree(floors).query(floors, predicate="intersects")
    once = ids[a] < ids[b]
    a, b = a[once], b[once]
    shared = shapely.length(shapely.intersection(shapely.boundary(floors[a]), shapely.boundary(floors[b])))
    beside = shared >= SHARED_MM
    return list(zip(ids[a[beside]].tolist(), ids[b[beside]].tolist(), strict=True))
