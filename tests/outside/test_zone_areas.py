"""Zones against scipy: the k-d tree says what is nearest, Qhull (by scipy.spatial.Voronoi) cuts its own cells.

That the cells of the nearest place are the Voronoi cells is their definition; Qhull: C. B. Barber, D. P. Dobkin,
H. Huhdanpaa, 'The quickhull algorithm for convex hulls', ACM TOMS 22 (1996).
"""

from math import cos, pi, sin
from random import Random

import numpy as np
import pytest
import shapely
from scipy.spatial import ConvexHull, Voronoi, cKDTree

from floorplan_circuits.find import find
from floorplan_circuits.geometry.outlines import polygon
from floorplan_circuits.geometry.zones import SLIVER_MM2, divide
from tests.geometry.plans import L_SHAPE, U_SHAPE
from tests.homes import generate

SEEDS = range(40)
CIRCUITS = 4
FAR_MM = 10**6
EDGE_MM = 1.0
"""Points nearer than this to the line between two places are left to either: places are whole millimetres."""


def convex_room(rng):
    """A room of three to eight corners on an ellipse, as a bay or a turret has; no corner is lost by rounding."""
    wide, deep = rng.randint(1500, 6000), rng.randint(1500, 6000)
    turns = sorted(rng.uniform(0, 2 * pi) for _ in range(rng.randint(3, 8)))
    return tuple((round(wide * cos(turn)), round(deep * sin(turn))) for turn in turns)


def room(rng):
    if rng.random() < 0.5:
        return convex_room(rng)
    return tuple((x * rng.choice((1, 2)), y) for x, y in rng.choice((L_SHAPE, U_SHAPE)))


def places_in(rng, outline, count):
    """Places spread over the room and a little past its walls, as boxes drawn on a wall's far face are."""
    left, top, right, bottom = (round(edge) for edge in polygon(outline).bounds)
    spots = {(rng.randint(left - 60, right + 60), rng.randint(top - 60, bottom + 60)) for _ in range(count)}
    return [(at, rng.randrange(CIRCUITS)) for at in sorted(spots)]


def floor_of(rings):
    floor = shapely.Polygon()
    for ring in rings:
        floor = floor.symmetric_difference(shapely.make_valid(shapely.Polygon(ring)))
    return floor


def zoned(seed, make=room):
    rng = Random(seed)
    outline = make(rng)
    places = places_in(rng, outline, rng.randint(2, 24))
    zones = {key: floor_of(rings) for key, rings in divide(outline, places).items()}
    return rng, outline, places, zones


@pytest.mark.parametrize("seed", SEEDS)
def test_the_zones_add_up_to_the_room(seed):
    _, outline, places, zones = zoned(seed)

    assert sum(zone.area for zone in zones.values()) == pytest.approx(
        polygon(outline).area, abs=len(places) * SLIVER_MM2
    )


@pytest.mark.parametrize("seed", SEEDS)
def test_a_random_point_is_in_the_zone_of_the_device_the_tree_finds_nearest(seed):
    rng, outline, places, zones = zoned(seed)
    left, top, right, bottom = polygon(outline).bounds
    points = np.array([(rng.uniform(left, right), rng.uniform(top, bottom)) for _ in range(2000)])
    points = points[shapely.contains_xy(polygon(outline), points)][:150]
    far, nearest = cKDTree([at for at, _ in places]).query(points, k=2)
    clear = far[:, 1] - far[:, 0] > EDGE_MM
    asked = 0
    for (x, y), place in zip(points[clear], nearest[clear, 0], strict=True):
        inside = [key for key, zone in zones.items() if zone.covers(shapely.Point(x, y))]
        assert places[place][1] in inside
        asked += len(inside) == 1
    assert asked > 10


def cells_by_qhull(outline, places):
    """The areas of the circuits' cells by scipy, clipped by shapely; four far sites close the outer cells."""
    corners = [(FAR_MM, 0), (-FAR_MM, 0), (0, FAR_MM), (0, -FAR_MM)]
    cut = Voronoi([at for at, _ in places] + corners)
    areas = dict.fromkeys(range(CIRCUITS), 0.0)
    for place, (_, key) in enumerate(places):
        corners_of_cell = cut.vertices[cut.regions[cut.point_region[place]]]
        areas[key] += shapely.intersection(shapely.MultiPoint(corners_of_cell).convex_hull, polygon(outline)).area
    return areas


@pytest.mark.parametrize("seed", SEEDS)
def test_the_cells_of_a_convex_room_are_those_qhull_cuts(seed):
    _, outline, places, zones = zoned(seed, convex_room)
    independent = cells_by_qhull(outline, places)

    for key in range(CIRCUITS):
        mine = zones[key].area if key in zones else 0.0
        assert mine == pytest.approx(independent[key], abs=len(places) * SLIVER_MM2)


def test_a_room_on_one_circuit_has_the_area_of_its_hull_by_qhull():
    """In two dimensions scipy's ConvexHull calls the area its volume (scipy documentation)."""
    for seed in SEEDS:
        outline = convex_room(Random(seed))
        (zone,) = divide(outline, [((0, 0), 1)]).values()
        assert floor_of(zone).area == pytest.approx(ConvexHull(outline).volume, rel=1e-9)


def test_the_zones_of_whole_homes_add_up_to_their_rooms():
    zones = 0
    for seed in range(12):
        found = find(generate(seed, 60).home)
        areas = dict.fromkeys(found.home.rooms.ids(), 0.0)
        for zone in found.zones:
            areas[zone.room] += floor_of(zone.rings).area
            zones += 1
        for number, area in areas.items():
            assert area == pytest.approx(found.rooms[number].area, abs=1000 * SLIVER_MM2 / 100)
    assert zones > 100
