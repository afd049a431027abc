"""Outlines as shapely polygons, and what stands on each level: what all questions of place start from."""

from functools import lru_cache
from typing import NamedTuple

import numpy as np
import numpy.typing as npt
import shapely

from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point

Outline = tuple[Point, ...]
Floats = npt.NDArray[np.float64]
Wholes = npt.NDArray[np.int64]
POLYGON = 3
"""shapely's number for the type of a polygon."""


class PlacedBox(NamedTuple):
    """A box that has a place on a level."""

    box: Box
    at: Point


@lru_cache(maxsize=2**14)
def polygon(outline: Outline) -> shapely.Geometry:
    """Return the floor inside the outline; nothing for fewer than three corners.

    An outline that crosses itself, which the integrity rules name, gives the floor inside its loops.

    Examples:
        >>> polygon(((0, 0), (4000, 0), (4000, 3000), (0, 3000))).area
        12000000.0
        >>> polygon(()).is_empty
        True
    """
    if len(set(outline)) < 3:
        return shapely.Polygon()
    drawn = shapely.Polygon(outline)
    return drawn if drawn.is_valid else shapely.union_all(pieces(shapely.make_valid(drawn)))


def pieces(geometry: shapely.Geometry) -> npt.NDArray[np.object_]:
    """Return the polygons that a geometry is made of, without the lines and points it may hold beside them."""
    parts = shapely.get_parts(geometry)
    found: npt.NDArray[np.object_] = parts[shapely.get_type_id(parts) == POLYGON]
    return found


def rooms_by_level(home: Home) -> dict[int, list[Room]]:
    """Return the rooms of each level that has any, in the order of the home's levels and rooms."""
    found: dict[int, list[Room]] = {level: [] for level in home.levels.ids()}
    for room in home.rooms:
        found.setdefault(room.level, []).append(room)
    return {level: rooms for level, rooms in found.items() if rooms}


def boxes_by_level(home: Home) -> dict[int, list[PlacedBox]]:
    """Return the boxes with a place, by their level, in the order of the home's boxes."""
    found: dict[int, list[PlacedBox]] = {}
    for box in home.boxes:
        level, at = box.level, box.at
        if level is not None and at is not None:
            found.setdefault(level, []).append(PlacedBox(box, at))
    return found
