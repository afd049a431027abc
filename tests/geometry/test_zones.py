"""Zones: each point of the floor goes to its nearest place; the zones of a room add up to it."""

from collections import Counter
from itertools import pairwise
from math import dist

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from floorplan_circuits.geometry.outlines import polygon
from floorplan_circuits.geometry.zones import SLIVER_MM2, divide
from tests.geometry.plans import L_SHAPE, U_SHAPE, outlines, rectangle

ROOM = rectangle(0, 0, 4000, 3000)


def floor_of(rings):
    """The floor inside rings read even-odd."""
    floor = shapely.Polygon()
    for ring in rings:
        floor = floor.symmetric_difference(shapely.make_valid(shapely.Polygon(ring)))
    return floor


def areas(zones):
    return {key: floor_of(rings).area / 1e6 for key, rings in zones.items()}


def test_a_room_on_one_circuit_is_its_whole_outline():
    zones = divide(ROOM, [((500, 500), 5), ((3000, 2000), 5)])

    assert zones == {5: (((0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0)),)}


def test_a_room_without_places_has_no_zones():
    assert divide(ROOM, []) == {}


def test_a_room_without_a_floor_has_no_zones():
    assert divide(((0, 0), (1, 1)), [((0, 0), 5), ((1, 1), 6)]) == {}


def test_two_circuits_part_half_way_between_their_devices():
    zones = divide(ROOM, [((1000, 1500), 5), ((2000, 1500), 6)])

    assert areas(zones) == pytest.approx({5: 4.5, 6: 7.5})
    assert set(zones[5][0]) == {(0.0, 0.0), (1500.0, 0.0), (1500.0, 3000.0), (0.0, 3000.0)}


def test_cells_of_one_circuit_are_one_zone_without_a_seam_or_a_needless_corner():
    places = [((1000, 750), "a"), ((1000, 2250), "a"), ((3000, 750), "b"), ((3000, 2250), "b")]
    zones = divide(ROOM, places)

    assert {key: [len(ring) for ring in rings] for key, rings in zones.items()} == {"a": [4], "b": [4]}


def test_a_circuit_in_two_ends_of_a_room_has_two_pieces():
    zones = divide(ROOM, [((500, 1500), "a"), ((2000, 1500), "b"), ((3500, 1500), "a")])

    assert len(zones["a"]) == 2
    assert len(zones["b"]) == 1


def test_where_three_circuits_meet_all_have_the_corner():
    """Four devices in a square: two on one circuit, whose area has a straight edge along both others."""
    zones = divide(ROOM, [((1000, 1000), 5), ((1000, 2000), 5), ((3000, 1000), 6), ((3000, 2000), 7)])

    assert all((2000, 1500) in ring for rings in zones.values() for ring in rings)


def test_no_corner_comes_twice_where_an_edge_all_but_ends_in_a_corner_of_the_room():
    zones = divide(ROOM, [((1500, 1000), 0), ((2500, 1000), 1), ((3000, 500), 0), ((3500, 1000), 1)])

    for ring in (ring for rings in zones.values() for ring in rings):
        assert all(a != b for a, b in pairwise((*ring, ring[0])))


def test_a_circuit_amid_another_leaves_a_hole_in_it():
    ring_round = [((x, y), "a") for x in (1000, 2000, 3000) for y in (500, 1500, 2500) if (x, y) != (2000, 1500)]
    zones = divide(ROOM, [*ring_round, ((2000, 1500), "b")])

    assert len(zones["a"]) == 2
    assert areas(zones) == pytest.approx({"a": 11.0, "b": 1.0})


@pytest.mark.parametrize("at", [(2000, 0), (2000, 1500), (2000, 3000)])
def test_two_circuits_in_one_box_share_its_cell_evenly(at):
    assert areas(divide(ROOM, [(at, 5), (at, 6)])) == pytest.approx({5: 6.0, 6: 6.0})


def test_the_line_between_two_circuits_in_one_box_runs_square_off_its_wall():
    zones = divide(ROOM, [((1000, 0), 5), ((1000, 0), 6)])

    assert {x for rings in zones.values() for ring in rings for x, _ in ring} == {0.0, 1000.0, 4000.0}


@pytest.mark.parametrize("at", [(0, 1500), (4000, 1500), (2000, 0), (2000, 3000), (0, 0), (30, 1500)])
@pytest.mark.parametrize("count", [2, 3, 4, 6])
def test_every_circuit_in_a_shared_box_gets_a_share_of_the_floor(at, count):
    found = areas(divide(ROOM, [(at, key) for key in range(count)]))

    assert len(found) == count
    assert min(found.values()) > 0.3
    assert sum(found.values()) == pytest.approx(12.0)


def test_a_room_drawn_the_other_way_round_is_shared_alike():
    places = [((1000, 0), 5), ((1000, 0), 6), ((1000, 0), 7), ((3000, 3000), 5)]
    other_way = areas(divide(ROOM[::-1], places))

    assert sum(other_way.values()) == pytest.approx(12.0)
    assert other_way[6] == pytest.approx(areas(divide(ROOM, places))[6])


def test_a_circuit_named_twice_at_one_place_counts_once():
    once = divide(ROOM, [((1000, 0), 5), ((3000, 0), 6)])

    assert divide(ROOM, [((1000, 0), 5), ((1000, 0), 5), ((3000, 0), 6)]) == once


def test_a_device_too_far_outside_to_reach_the_floor_has_no_zone():
    assert list(divide(ROOM, [((1000, 1500), "in"), ((20_000, 1500), "far")])) == ["in"]


def test_an_equal_room_is_carried_over_and_the_answer_is_ones_own():
    places = [((1000, 1500), 5), ((2000, 1500), 6)]
    first, second = divide(ROOM, places), divide(ROOM, tuple(places))
    first.clear()

    assert second == divide(ROOM, places)
    assert divide(ROOM, places)[5] is second[5]


def test_keys_may_be_anything_hashable():
    assert set(divide(ROOM, [((1, 1), None), ((2000, 2000), ("G", 3))])) == {None, ("G", 3)}


@pytest.mark.parametrize("far", [0, 9_900_000])
def test_a_concave_room_is_filled_wherever_it_lies(far):
    for shape in (L_SHAPE, U_SHAPE):
        outline = tuple((x + far, y - far) for x, y in shape)
        places = [(corner, place % 3) for place, corner in enumerate(outline)]

        assert sum(areas(divide(outline, places)).values()) * 1e6 == pytest.approx(polygon(outline).area, rel=1e-6)


def test_where_rounding_makes_a_cell_cross_itself_the_floor_is_shared_all_the_same():
    """Several boxes on two circuits, places on a common circle: GEOS returned a bow tie as a cell here."""
    room = ((0, 4700), (5300, 4700), (5300, 8300), (0, 8300))
    first = [((2650, 6500), 9), ((1325, 5600), 8), ((3975, 7400), 7), ((3975, 7400), 0), ((1300, 8300), 8)]
    walls = [((400, 4700), 9), ((400, 4700), 8), ((4600, 8300), 0), ((0, 5700), 0), ((0, 5700), 8), ((0, 5100), 7)]
    rest = [((0, 5100), 0), ((0, 7300), 0), ((1000, 4700), 9), ((1000, 4700), 8), ((700, 8300), 0)]
    found = areas(divide(room, [*first, *walls, *rest]))
    assert found.keys() == {0, 7, 8, 9}
    assert sum(found.values()) == pytest.approx(5.3 * 3.6, abs=SLIVER_MM2 / 1e6)


@st.composite
def furnished(draw):
    """A room and places in and near it, some of them at one point, on up to four circuits."""
    outline = draw(outlines())
    (left, top, right, bottom) = polygon(outline).bounds
    near = st.tuples(
        st.integers(int(left) - 50, int(right) + 50), st.integers(int(top) - 50, int(bottom) + 50)
    ) | st.sampled_from(outline)
    return outline, draw(st.lists(st.tuples(near, st.integers(0, 3)), min_size=1, max_size=10))


@settings(max_examples=100, deadline=None)
@given(furnished())
def test_the_zones_of_a_room_add_up_to_it_and_do_not_overlap(drawn):
    outline, places = drawn
    floors = [floor_of(rings) for rings in divide(outline, places).values()]
    whole = polygon(outline)

    assert sum(floor.area for floor in floors) == pytest.approx(whole.area, abs=len(places) * SLIVER_MM2)
    assert shapely.union_all(floors).area == pytest.approx(whole.area, abs=len(places) * SLIVER_MM2)


@settings(max_examples=100, deadline=None)
@given(furnished(), st.floats(0, 1), st.floats(0, 1))
def test_a_point_of_the_floor_is_in_the_zone_of_its_nearest_place(drawn, across, down):
    outline, places = drawn
    left, top, right, bottom = polygon(outline).bounds
    point = (left + across * (right - left), top + down * (bottom - top))
    nearest = min(dist(point, at) for at, _ in places)
    keys = {key for at, key in places if dist(point, at) <= nearest + 2}
    assume(polygon(outline).contains(shapely.Point(point)))

    zones = divide(outline, places)

    assert any(floor_of(zones[key]).distance(shapely.Point(point)) < 1 for key in keys if key in zones)
    others = [floor_of(rings) for key, rings in zones.items() if key not in keys]
    assert not any(floor.buffer(-1).contains(shapely.Point(point)) for floor in others)


@settings(max_examples=150, deadline=None)
@given(
    st.lists(
        st.tuples(st.tuples(st.integers(1, 7), st.integers(1, 5)), st.integers(0, 3)),
        min_size=3, max_size=16, unique_by=lambda place: place[0],
    )
)  # fmt: skip
def test_an_edge_inside_the_room_is_the_same_in_both_zones_beside_it(drawn):
    """Devices stand on a grid here, as people put them: there areas have straight edges along two others."""
    zones = divide(ROOM, [((500 * x, 500 * y), key) for (x, y), key in drawn])
    beside = Counter()
    for rings in zones.values():
        for ring in rings:
            beside.update(frozenset(edge) for edge in pairwise((*ring, ring[0])))
    walls = polygon(ROOM).exterior

    for edge, count in beside.items():
        on_wall = shapely.LineString(list(edge)).interpolate(0.5, normalized=True).distance(walls) < 1
        assert count == (1 if on_wall else 2)
