"""Floors cut, joined and clipped: outlines in, outlines out, to the millimetre. None where no room could be so."""

from collections.abc import Iterable, Sequence

import shapely

from floorplan_circuits.geometry.outlines import Outline, pieces, polygon
from floorplan_circuits.home.record import Point

GRID_MM = 1.0
"""All corners come out on whole millimetres."""


def split(outline: Outline, path: Sequence[Point]) -> tuple[Outline, Outline] | None:
    """Return the two floors that a path from wall to wall cuts a floor into, the larger first.

    None for a path that does not cut it in just two. What of the path lies outside counts for nothing.

    Examples:
        >>> split(((0, 0), (4000, 0), (4000, 3000), (0, 3000)), [(3000, 0), (3000, 3000)])[1]
        ((3000, 3000), (4000, 3000), (4000, 0), (3000, 0))
    """
    if len(set(path)) < 2:
        return None
    floor = polygon(outline)
    lines = shapely.union(floor.exterior, shapely.LineString(path), grid_size=GRID_MM)
    found = [one for one in pieces(shapely.polygonize([lines])) if floor.covers(one.representative_point())]
    if len(found) != 2 or any(one.interiors for one in found):
        return None
    larger, smaller = sorted(found, key=lambda one: -one.area)
    return _outline(larger), _outline(smaller)


def joined(outlines: Iterable[Outline]) -> Outline | None:
    """Return the one floor that these make together; None where they are apart, or leave a hole.

    Examples:
        >>> joined([((0, 0), (2, 0), (2, 2), (0, 2)), ((2, 0), (5, 0), (5, 2), (2, 2))])
        ((0, 0), (0, 2), (5, 2), (5, 0))
    """
    return _single(shapely.union_all([polygon(outline) for outline in outlines], grid_size=GRID_MM))


def without(outline: Outline, others: Iterable[Outline]) -> Outline | None:
    """Return what others leave of a floor; None where that is nothing, or in pieces, or has a hole.

    Examples:
        >>> without(((0, 0), (4, 0), (4, 3), (0, 3)), [((3, 0), (9, 0), (9, 9), (3, 9))])
        ((0, 0), (0, 3), (3, 3), (3, 0))
    """
    taken = shapely.union_all([polygon(other) for other in others])
    return _single(shapely.difference(polygon(outline), taken, grid_size=GRID_MM))


def around(outlines: Iterable[Outline]) -> tuple[Outline, ...]:
    """Return the outer outlines of floors: one of a house, more where it has parts that stand apart."""
    whole = shapely.union_all([polygon(outline) for outline in outlines], grid_size=GRID_MM)
    return tuple(_outline(part) for part in pieces(whole))


def _single(floor: shapely.Geometry) -> Outline | None:
    parts = [part for part in pieces(floor) if not part.is_empty]
    return _outline(parts[0]) if len(parts) == 1 and not parts[0].interiors else None


def _outline(floor: shapely.Geometry) -> Outline:
    """Return the corners of a floor's outer edge, those on a straight line left out."""
    ring = shapely.simplify(floor, 0.0).exterior
    return tuple((round(x), round(y)) for x, y in shapely.get_coordinates(ring).tolist()[:-1])
