"""How far two rooms lie over each other."""

import shapely

from floorplan_circuits.geometry.outlines import Outline, polygon


def overlap_mm2(one: Outline, other: Outline) -> float:
    """Return the area in mm² that two outlines have in common; 0 for rooms that only share a wall.

    Examples:
        >>> overlap_mm2(((0, 0), (2000, 0), (2000, 1000), (0, 1000)), ((1000, 0), (3000, 0), (3000, 900), (1000, 900)))
        900000.0
    """
    return float(shapely.area(shapely.intersection(polygon(one), polygon(other))))
