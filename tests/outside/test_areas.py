"""Areas, middles and Voronoi cells against published figures. A metre of a source is a thousand millimetres of ours.

Sources, in words: the shoelace task of a chrestomathy wiki (Rosetta Code); a homework page on the shoelace formula;
an on-line calculator of centroids; the documentation of the polylabel library (L-shape); the PostGIS manual on
ST_MaximumInscribedCircle; the header of an example file of the building-energy package eppy.
"""

from math import hypot, sqrt
from random import Random

import pytest
import shapely

from floorplan_circuits.geometry.outlines import polygon
from floorplan_circuits.geometry.rooms import pole, room_shapes
from floorplan_circuits.geometry.zones import divide
from tests.geometry.plans import plan

METRE = 1000
L_SHAPE = [(0, 0), (4, 0), (4, 1), (1, 1), (1, 4), (0, 4)]
PUBLISHED = {
    "shoelace task, chrestomathy wiki (centroid computed)": (
        [(3, 4), (5, 11), (12, 8), (9, 5), (5, 6)], 30, (7.16667, 7.61111)),
    "homework page, concave (centroid computed)": (
        [(2, 5), (8, 5), (8, 9), (5, 7), (2, 9)], 18, (5, 6.55556)),
    "triangle of a centroid page": ([(0, 0), (4, 0), (2, 3)], 6, (2, 1)),
    "L-shape of the polylabel documentation": (L_SHAPE, 7, (1.3571428571, 1.3571428571)),
    "hexagon (computed)": ([(0, 0), (6, 0), (6, 2), (2, 2), (2, 5), (0, 5)], 18, (2.33333, 1.83333)),
    "square (computed)": ([(0, 0), (10, 0), (10, 10), (0, 10)], 100, (5, 5)),
}  # fmt: skip


def in_mm(corners):
    return tuple((round(x * METRE), round(y * METRE)) for x, y in corners)


@pytest.mark.parametrize("source", PUBLISHED)
def test_area_and_centroid_are_those_published(source):
    corners, area, centroid = PUBLISHED[source]
    outline = in_mm(corners)
    middle = polygon(outline).centroid

    assert room_shapes(plan([outline]))[11].area == area * METRE**2
    assert (middle.x / METRE, middle.y / METRE) == pytest.approx(centroid, abs=1e-5)


@pytest.mark.parametrize("source", PUBLISHED)
def test_an_area_is_unchanged_by_shift_turn_reversal_and_start(source):
    outline = in_mm(PUBLISHED[source][0])
    variants = [
        tuple((x + 123_456, y - 654_321) for x, y in outline),
        tuple((-y, x) for x, y in outline),
        outline[::-1],
        (*outline[2:], *outline[:2]),
    ]
    areas = {shape.area for shape in room_shapes(plan([outline, *variants])).values()}

    assert len(areas) == 1


def test_the_pole_of_the_l_shape_is_at_two_minus_the_root_of_two():
    """Exact by geometry; the polylabel documentation prints (0.5625, 0.5625) at a tolerance of 1."""
    exact = (2 - sqrt(2)) * METRE
    (x, y), free = pole(polygon(in_mm(L_SHAPE)), tolerance=0.01)

    assert (x, y, free) == pytest.approx((exact, exact, exact), abs=0.1)


def test_the_centroid_of_the_l_shape_lies_outside_and_no_name_stands_there():
    """Polylabel documentation: the centroid is no place for a label."""
    floor = polygon(in_mm(L_SHAPE))

    assert not floor.contains(floor.centroid)
    assert all(floor.contains(shapely.Point(at)) for at in room_shapes(plan([in_mm(L_SHAPE)]))[11].label_at)


def test_the_pole_of_a_square_is_half_its_side_from_the_walls():
    assert pole(polygon(in_mm([(0, 0), (10, 0), (10, 10), (0, 10)])))[1] == pytest.approx(5 * METRE, abs=5)


def test_the_postgis_example_has_the_radius_its_manual_prints():
    """PostGIS manual, ST_MaximumInscribedCircle: 45.1658 within its tolerance; area 17 950 computed."""
    shell = [(40, 180), (110, 160), (180, 180), (180, 120), (140, 90), (160, 40), (80, 10), (70, 40), (20, 50)]
    floor = shapely.Polygon(shell, [[(60, 140), (50, 90), (90, 140)]])
    _, free = pole(floor)

    assert floor.area == 17_950
    assert (floor.centroid.x, floor.centroid.y) == pytest.approx((99.443, 101.346), abs=1e-3)
    assert 45.16 <= free <= 45.3


def test_the_parts_of_a_real_building_add_up_to_the_area_its_file_prints():
    """eppy, five-zone example: 463.6 m² printed in the header; the parts computed from its corners."""
    outer, inner = [(0, 0), (30.5, 0), (30.5, 15.2), (0, 15.2)], [(3.7, 3.7), (26.8, 3.7), (26.8, 11.6), (3.7, 11.6)]
    sides = [[outer[at], outer[(at + 1) % 4], inner[(at + 1) % 4], inner[at]] for at in range(4)]
    shapes = room_shapes(plan([in_mm(part) for part in [*sides, inner]])).values()
    areas = [shape.area / METRE**2 for shape in shapes]

    assert sum(areas) == pytest.approx(463.6, abs=0.05)
    assert areas == pytest.approx([99.16, 42.73, 96.48, 42.73, 182.49], abs=0.7)


# --- Voronoi --------------------------------------------------------------------------------------------------------


def area_of(rings):
    """By the shoelace formula; rings of these rooms have no holes."""
    doubled = (
        x1 * y2 - x2 * y1 for ring in rings for (x1, y1), (x2, y2) in zip(ring, (*ring[1:], ring[0]), strict=True)
    )
    return abs(sum(doubled)) / 2


def test_two_devices_share_a_room_of_four_by_three_evenly():
    """Computed: devices at (1, 1) and (3, 1) get 6.0 m² each."""
    zones = divide(in_mm([(0, 0), (4, 0), (4, 3), (0, 3)]), [((1000, 1000), "a"), ((3000, 1000), "b")])

    assert {key: area_of(rings) / METRE**2 for key, rings in zones.items()} == {"a": 6.0, "b": 6.0}


def test_a_random_point_lies_in_the_cell_of_the_device_that_measuring_finds_nearest():
    """The definition of Voronoi cells, by brute force."""
    rng = Random(7)
    outline = in_mm(L_SHAPE)
    devices = [((rng.randrange(4000), rng.randrange(4000)), key) for key in range(9)]
    cells = {key: [shapely.Polygon(ring) for ring in rings] for key, rings in divide(outline, devices).items()}
    for _ in range(300):
        x, y = rng.uniform(0, 4000), rng.uniform(0, 4000)
        near, next_near = sorted((hypot(x - ax, y - ay), key) for (ax, ay), key in devices)[:2]
        if polygon(outline).contains(shapely.Point(x, y)) and next_near[0] - near[0] > 1:
            assert [
                key for key, parts in cells.items() if any(part.contains(shapely.Point(x, y)) for part in parts)
            ] == [near[1]]
