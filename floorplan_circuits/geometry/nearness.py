"""Nearness: which boxes stand close enough that a person may take one for the other."""

import numpy as np
import shapely

from floorplan_circuits.geometry.outlines import PlacedBox, boxes_by_level
from floorplan_circuits.home.home import Home

WITHIN_MM = 300

Pair = tuple[int, int, float]


def near_boxes(home: Home, within: float = WITHIN_MM) -> tuple[Pair, ...]:
    """Return pairs of boxes on one level at most `within` mm apart on the plan, and their distance in mm.

    The lower id stands first, and pairs are in order. Heights do not count: a switch over a receptacle is near it.
    """
    return tuple(sorted(pair for placed in boxes_by_level(home).values() for pair in _near(placed, within)))


def _near(placed: list[PlacedBox], within: float) -> list[Pair]:
    ids = np.array([one.box.id for one in placed])
    at = np.array([one.at for one in placed], dtype=np.float64)
    points = shapely.points(at)
    a, b = shapely.STRtree(points).query(points, predicate="dwithin", distance=within)
    once = ids[a] < ids[b]
    a, b = a[once], b[once]
    apart = np.hypot(*(at[a] - at[b]).T)
    return list(zip(ids[a].tolist(), ids[b].tolist(), apart.tolist(), strict=True))
