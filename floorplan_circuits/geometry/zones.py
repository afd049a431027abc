"""Zones: a room's floor divided among the places in it, each point going to its nearest place, united by key."""

from collections.abc import Hashable, Iterable, Iterator, Sequence
from functools import lru_cache
from math import cos, radians, sin
from typing import TypeVar

import numpy as np
import numpy.typing as npt
import shapely

from floorplan_circuits.findings import XY
from floorplan_circuits.geometry.outlines import POLYGON, Outline, polygon
from floorplan_circuits.home.record import Point

Key = TypeVar("Key", bound=Hashable)
Ring = tuple[XY, ...]
"""A closed outline in mm; its first corner is not repeated at the end."""

SLIVER_MM2 = 100.0
"""A square centimetre of floor: smaller pieces are left out, no scale shows them."""

SHAKES_MM = (0.0, 0.003, 0.03, 0.3, 3.0)
"""How far places are moved, in turn, where their cells do not add up to the floor."""

CRISP_MM = 0.01
"""Corners that stray less than this from a straight edge are left out, but for those where three zones meet."""

NUDGE_MM = 0.3
"""How far places that coincide are set apart: less than half a millimetre, so that no two ever meet anew."""

LOOK_ROUND_MM = 150
"""How far round coinciding places the open floor is looked for: past the wall they stand at, within any cupboard."""


def divide(outline: Outline, places: Iterable[tuple[XY, Key]]) -> dict[Key, tuple[Ring, ...]]:
    """Return for each key the rings of the floor that is nearest to its places (Voronoi cells, clipped to the room).

    Rings are outer outlines and holes alike (even-odd). Places are taken to the whole millimetre. Where places with
    different keys coincide (one box on two circuits), they share the floor open to them in equal wedges that meet at
    the place, in the order given: two on a wall get a half each, left and right of the line square off it.
    A key whose places are too far off to reach the floor is left out; without places there is nothing.

    Examples:
        >>> room = ((0, 0), (4000, 0), (4000, 3000), (0, 3000))
        >>> divide(room, [((1000, 1000), "5"), ((2000, 1000), "6")])["5"]
        (((0.0, 3000.0), (1500.0, 3000.0), (1500.0, 0.0), (0.0, 0.0)),)
    """
    whole = tuple((round(x), round(y), key) for (x, y), key in places)
    return dict(_divided(outline, whole))


@lru_cache(maxsize=2**15)
def _divided(outline: Outline, places: tuple[tuple[int, int, Key], ...]) -> tuple[tuple[Key, tuple[Ring, ...]], ...]:
    floor = polygon(outline)
    keys = tuple(dict.fromkeys(key for _, _, key in places))
    if floor.is_empty or not keys:
        return ()
    if len(keys) == 1:
        return ((keys[0], _rings(np.array([floor]))[0]),)
    parts = _parts(floor, _sites(outline, places), keys)
    return tuple((key, rings) for key, rings in zip(keys, _rings(parts), strict=True) if rings)


def _parts(floor: shapely.Geometry, sites: list[tuple[XY, Key]], keys: Sequence[Key]) -> npt.NDArray[np.object_]:
    """Return the floor of each key.

    Where four places lie on one circle to within a hair, GEOS can return cells that overlap: the places are then
    shaken by a little more each time until the cells add up to the floor.
    """
    for shake in SHAKES_MM:
        shaken = [((x + shake * cos(7 * n), y + shake * sin(5 * n)), key) for n, ((x, y), key) in enumerate(sites)]
        parts = _within(_united(floor, shaken, keys), floor)
        if abs(shapely.area(parts).sum() - floor.area) < SLIVER_MM2:
            break
    return parts


def _united(floor: shapely.Geometry, sites: list[tuple[XY, Key]], keys: Sequence[Key]) -> npt.NDArray[np.object_]:
    """Return the united cells of each key, reaching past the floor."""
    points = shapely.multipoints([at for at, _ in sites])
    cells = shapely.get_parts(shapely.voronoi_polygons(points, extend_to=floor, ordered=True))
    frayed = shapely.get_type_id(cells) != POLYGON
    cells[frayed] = [_without_threads(cell) for cell in cells[frayed]]
    rank = {key: place for place, key in enumerate(keys)}
    of_key = np.array([rank[key] for _, key in sites])
    groups = [cells[of_key == place] for place in range(len(keys))]
    return np.array([group[0] if len(group) == 1 else _union(group) for group in groups])


def _union(cells: npt.NDArray[np.object_]) -> shapely.Geometry:
    """Unite cells that only touch; the slower way where rounding made two of them overlap by a hair."""
    try:
        return shapely.coverage_union_all(cells)
    except shapely.errors.GEOSException:
        return shapely.union_all(shapely.make_valid(cells))


def _within(cells: npt.NDArray[np.object_], floor: shapely.Geometry) -> npt.NDArray[np.object_]:
    """Return the cells as far as they lie on the floor; the slower way where rounding made one of them cross itself."""
    found: npt.NDArray[np.object_]
    try:
        found = shapely.intersection(cells, floor)
    except shapely.errors.GEOSException:
        found = shapely.intersection(shapely.make_valid(cells), floor)
    return found


def _without_threads(cell: shapely.Geometry) -> shapely.Geometry:
    """Return a cell's area without the lines that GEOS leaves hanging on it where corners all but meet."""
    parts = shapely.get_parts(cell)
    return shapely.union_all(parts[shapely.get_type_id(parts) == POLYGON])


# --- places that coincide -------------------------------------------------------------------------------------------


def _sites(outline: Outline, places: tuple[tuple[int, int, Key], ...]) -> list[tuple[XY, Key]]:
    """Return one site a place and key, those that coincide set a little apart."""
    keys_at: dict[Point, dict[Key, None]] = {}
    for x, y, key in places:
        keys_at.setdefault((x, y), {})[key] = None
    return [site for at, keys in keys_at.items() for site in _set_apart(outline, at, list(keys))]


def _set_apart(outline: Outline, at: Point, keys: list[Key]) -> Iterator[tuple[XY, Key]]:
    if len(keys) == 1:
        yield at, keys[0]
        return
    middle, width = _open_side(outline, at)
    for place, key in enumerate(keys):
        angle = radians(middle + (place - (len(keys) - 1) / 2) * width / len(keys))
        yield (at[0] + NUDGE_MM * cos(angle), at[1] + NUDGE_MM * sin(angle)), key


def _open_side(outline: Outline, at: Point) -> tuple[float, float]:
    """Return which way the floor lies from `at` and how wide, in degrees: (90, 180) on a wall along the top.

    All round, and to both sides of straight down, in the open and where no floor is near.
    """
    turned = np.radians(np.arange(360) + 0.5)
    xs, ys = at[0] + LOOK_ROUND_MM * np.cos(turned), at[1] + LOOK_ROUND_MM * np.sin(turned)
    shut = np.flatnonzero(~shapely.contains_xy(polygon(outline), xs, ys))
    if len(shut) in (0, 360):
        return 90.0, 360.0
    widths = np.diff(shut, append=shut[0] + 360)
    widest = int(np.argmax(widths))
    return float(shut[widest] + (widths[widest] + 1) / 2), float(widths[widest] - 1)


# --- rings ----------------------------------------------------------------------------------------------------------


def _rings(parts: npt.NDArray[np.object_]) -> list[tuple[Ring, ...]]:
    """Return the rings of each part, crisp, in micrometre steps, without slivers."""
    pieces, of_part = shapely.get_parts(_crisp(parts), return_index=True)
    kept = (shapely.get_type_id(pieces) == POLYGON) & (shapely.area(pieces) > SLIVER_MM2)
    rings, of_piece = shapely.get_rings(pieces[kept], return_index=True)
    corners, of_ring = shapely.get_coordinates(rings, return_index=True)
    rounded = [(x, y) for x, y in np.round(corners, 3).tolist()]
    ends = np.cumsum(np.bincount(of_ring, minlength=len(rings))).tolist()
    found: list[list[Ring]] = [[] for _ in parts]
    for part, start, end in zip(of_part[kept][of_piece].tolist(), [0, *ends], ends, strict=False):
        found[part].append(tuple(rounded[start : end - 1]))
    return [tuple(rings) for rings in found]


def _crisp(parts: npt.NDArray[np.object_]) -> npt.NDArray[np.object_]:
    """Return the parts without corners on straight edges, but for those of others: an edge of two is the same in both.

    Where three meet, the corner of two may lie on a straight edge of the third.
    """
    crisp: npt.NDArray[np.object_] = shapely.remove_repeated_points(shapely.simplify(parts, CRISP_MM), CRISP_MM)
    if len(parts) == 1:
        return crisp
    corners = shapely.multipoints(np.round(shapely.get_coordinates(crisp), 3))
    snapped: npt.NDArray[np.object_] = shapely.remove_repeated_points(shapely.snap(crisp, corners, 2 * CRISP_MM))
    return np.where(shapely.is_valid(snapped), snapped, crisp)
