"""Placing: whatever is on the sheet, a label that is placed covers nothing and stays on its own side of the walls."""

from itertools import chain, pairwise
from math import dist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.candidates import around_point, from_ceiling, from_wall
from floorplan_circuits.drawing.overlaps import Segment, around, crosses_box, overlap, segments_cross
from floorplan_circuits.drawing.placement import CLEAR, SEEN, Candidate, Ground, Placed, place, spots

AT = (0.0, 0.0)
places = st.tuples(st.floats(-25, 25), st.floats(-25, 25))
sizes = st.tuples(st.floats(2, 12), st.floats(2, 9))
taken = st.lists(st.builds(around, places, st.tuples(st.floats(0.5, 8), st.floats(0.5, 8))), max_size=25)
HOUSE = [
    Segment((-20, -20), (20, -20), 0.5, True),
    Segment((20, -20), (20, 20), 0.5, True),
    Segment((20, 20), (-20, 20), 0.5, True),
    Segment((-20, 20), (-20, -20), 0.5, True),
]
inner_walls = st.lists(st.builds(Segment, places, places, st.just(0.25)), max_size=5)


def placed(ground: Ground, size: tuple[float, float]) -> tuple[Placed, str] | None:
    """Try all that a shared box tries, and tell in which way a place was found."""
    for where in ("own side", "outside", "anywhere"):
        rings = around_point(AT, size, 5.5, 34.0, where)
        tried = chain(from_ceiling(AT, 1.5, size), rings) if where == "own side" else rings
        found = place(ground, AT, size, tried, [around(AT, (2.9, 2.9))])
        if found is not None:
            return found, where
    return None


@settings(max_examples=80, deadline=None)
@given(taken, inner_walls, sizes)
def test_a_placed_label_overlaps_nothing_and_touches_no_wall(
    others: list[tuple[float, float, float, float]], walls: list[Segment], size: tuple[float, float]
) -> None:
    ground = Ground([*HOUSE, *walls])
    for other in others:
        ground.take(other)
    result = placed(ground, size)
    if result is None:
        return
    found, where = result
    assert not any(overlap(found.bounds, other) for other in others)
    assert not any(crosses_box(wall, found.bounds) for wall in (*HOUSE, *walls))
    inside = abs(found.centre[0]) < 20 and abs(found.centre[1]) < 20
    if where == "own side":
        assert not any(segments_cross(AT, found.centre, wall.a, wall.b) for wall in walls)
        assert inside
    else:
        assert inside == (where == "anywhere")
    if where != "own side":
        assert found.leader is not None


@settings(max_examples=80, deadline=None)
@given(taken, inner_walls, sizes)
def test_a_leader_runs_over_nothing_and_ends_at_the_label(
    others: list[tuple[float, float, float, float]], walls: list[Segment], size: tuple[float, float]
) -> None:
    ground = Ground([*HOUSE, *walls])
    for other in others:
        ground.take(other)
    result = placed(ground, size)
    if result is None or result[0].leader is None:
        return
    leader, bounds = result[0].leader, result[0].bounds
    x, y = leader[-1]
    assert bounds[0] - 1e-6 <= x <= bounds[2] + 1e-6
    assert bounds[1] - 1e-6 <= y <= bounds[3] + 1e-6
    for a, b in pairwise(leader):
        assert not any(crosses_box(Segment(a, b), other) for other in others)
        dx, dy = abs(b[0] - a[0]), abs(b[1] - a[1])
        assert min(dx, dy, abs(dx - dy)) < 0.06  # level, upright or at 45°
    if result[1] != "own side":
        assert sum(dist(a, b) for a, b in pairwise(leader)) >= SEEN


def test_labels_keep_clear_of_each_other() -> None:
    ground = Ground()
    ground.take((0, 0, 4, 4))
    assert not ground.is_free((4 + CLEAR / 2, 0, 8, 4))
    assert ground.is_free((4 + 2 * CLEAR, 0, 8, 4))


def test_a_later_label_keeps_off_an_earlier_leader() -> None:
    ground, line = Ground(), ((0.0, 0.0), (10.0, 0.0), (14.0, 4.0))
    ground.put(1, Placed((20.0, 5.0), (14.0, 4.0, 26.0, 6.0), line))
    assert not ground.is_free((5, -1, 7, 1))
    assert ground.is_free((5, 1, 7, 3))
    crossing = Placed((5.0, 5.0), (4.0, 4.0, 6.0, 6.0), ((5.0, -3.0), (5.0, 4.0)))
    assert not ground.is_led_clear(crossing)
    assert set(ground.in_the_way(crossing)) == {1}


def test_a_label_through_a_wall_needs_a_line_that_is_seen() -> None:
    ground = Ground([*HOUSE, Segment((-20, 2), (20, 2), 0.25)])
    beyond = Candidate((0.0, 4.6), AT, "anywhere")
    own = [around(AT, (2.9, 2.9))]
    assert place(ground, AT, (4, 3.5), [beyond], own) is None
    farther = Candidate((0.0, 6.0), AT, "anywhere")
    assert place(ground, AT, (4, 3.5), [beyond, farther], own) is not None


def test_what_a_name_shuns_is_only_avoided() -> None:
    ground = Ground()
    ground.shun((0, 0, 10, 10))
    ground.shun_line(Segment((20, -5), (20, 5)))
    assert ground.is_shunned((5, 5, 7, 7))
    assert ground.is_shunned((19, 0, 21, 1))
    assert not ground.is_shunned((19, 0, 21, 1), lines=False)
    assert ground.is_free((5, 5, 7, 7))


def test_a_thing_steps_out_of_the_wall_it_looks_away_from() -> None:
    ground = Ground([Segment((0, 0), (10, 0), 0.5), Segment((5, 0), (5, 10), 2.0)])
    down, right = (0.0, 1.0), (1.0, 0.0)
    assert ground.out_of_wall((2, 0), down) == 0.5
    assert ground.out_of_wall((2, 0.3), down) == pytest.approx(0.2)
    assert ground.out_of_wall((2, -0.3), down) == pytest.approx(0.8)
    assert ground.out_of_wall((2, 0.9), down) == 0
    assert ground.out_of_wall((5, 8), right) == 2.0
    assert ground.out_of_wall((3.4, 8), right) == pytest.approx(3.6)
    assert ground.out_of_wall((5, 8), down) == 0
    assert ground.out_of_wall((9, 8), down) == 0


def test_a_thing_on_a_wall_tries_straight_in_first_then_beside_then_led() -> None:
    size = (5.0, 3.5)
    tried = list(from_wall((0, 0), (0.0, 1.0), 2.9, size))
    assert tried[0].centre == (0, 2.9 + 0.25 + 1.75)
    assert tried[0].led_from is tried[1].led_from is None
    assert {round(one.centre[1], 2) for one in tried[1:3]} == {round(1.75 + 0.2, 2)}
    assert all(one.led_from for one in tried[7:])


def test_a_thing_on_the_ceiling_tries_below_right_left_above() -> None:
    below, right, left, above = [one.centre for one in from_ceiling((0, 0), 1.5, (5, 3))][:4]
    assert below[1] > 0 == below[0]
    assert right[0] > 0 == right[1]
    assert left[0] < 0 == left[1]
    assert above[1] < 0 == above[0]


@given(places, sizes)
def test_rings_widen(at: tuple[float, float], size: tuple[float, float]) -> None:
    ring = [one.centre for one in around_point(at, size, 4.0, 12.0)]
    assert len(ring) == 16 * 5
    assert dist(ring[1], at) < dist(ring[-15], at)


# --- making room ----------------------------------------------------------------------------------------------------


labels = st.lists(st.tuples(st.builds(around, places, sizes), st.booleans()), max_size=12)
Bounds = tuple[float, float, float, float]


def with_leader(bounds: Bounds, is_led: bool) -> Placed:
    """A label in a place, with a level line to it if it is led."""
    left, top, right, bottom = bounds
    centre = (left + right) / 2, (top + bottom) / 2
    return Placed(centre, bounds, ((left - 6.0, centre[1]), (left, centre[1])) if is_led else None)


@settings(max_examples=60, deadline=None)
@given(taken, labels, inner_walls, sizes)
def test_the_first_place_with_nothing_in_the_way_is_the_one_that_is_taken(
    things: list[Bounds], others: list[tuple[Bounds, bool]], walls: list[Segment], size: tuple[float, float]
) -> None:
    ground, own = Ground([*HOUSE, *walls]), [around(AT, (2.9, 2.9))]
    for one in things:
        ground.take(one)
    for key, (bounds, is_led) in enumerate(others):
        ground.put(key, with_leader(bounds, is_led))
    tried = [*from_ceiling(AT, 1.5, size), *around_point(AT, size, 5.5, 20.0)]
    every = (way for spot in spots(ground, AT, size, tried, own) for way in spot.ways())
    free = (way for way in every if not list(ground.in_the_way(way)))
    assert next(free, None) == place(ground, AT, size, tried, own)


@given(taken, st.builds(around, places, sizes), st.booleans())
def test_where_a_label_stood_that_was_lifted_it_is_free_as_before(
    others: list[Bounds], bounds: Bounds, is_led: bool
) -> None:
    ground, label = Ground(), with_leader(bounds, is_led)
    for one in others:
        ground.take(one)
    before = ground.is_free(bounds)
    ground.put(1, label)
    assert not ground.is_free(bounds)
    ground.lift(1, label)
    assert ground.is_free(bounds) == before
    assert not list(ground.in_the_way(label))
