"""Floors cut, joined and clipped: nothing is lost, and what can be no room is None."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.geometry.cutting import around, joined, split, without
from floorplan_circuits.home.outlines import doubled_area

SQUARE = ((0, 0), (4000, 0), (4000, 3000), (0, 3000))
BESIDE = ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))
RING = [
    ((0, 0), (9000, 0), (9000, 1000), (0, 1000)), ((0, 1000), (1000, 1000), (1000, 9000), (0, 9000)),
    ((8000, 1000), (9000, 1000), (9000, 9000), (8000, 9000)), ((0, 9000), (9000, 9000), (9000, 9900), (0, 9900)),
]  # fmt: skip


def area(outline) -> float:
    return abs(doubled_area(outline)) / 2


@settings(max_examples=50)
@given(st.integers(1, 3999), st.integers(1, 3999))
def test_two_parts_are_the_whole_and_join_to_it(a, b):
    parts = split(SQUARE, [(a, -50), (b, 3050)])  # what of the line lies outside counts for nothing

    assert sum(map(area, parts)) == pytest.approx(area(SQUARE), abs=4000)
    assert area(parts[0]) >= area(parts[1])
    assert set(joined(parts)) >= set(SQUARE)


def test_rooms_round_a_court_leave_a_hole_and_are_none():
    assert joined(RING) is None
    assert joined([SQUARE, tuple((x + 9000, y) for x, y in SQUARE)]) is None


def test_what_others_leave_is_one_floor_or_none():
    assert without(SQUARE, [SQUARE]) is None
    assert without(SQUARE, [((1000, 0), (2000, 0), (2000, 3000), (1000, 3000))]) is None
    assert set(without(SQUARE, [BESIDE])) == set(SQUARE)


def test_the_outline_of_a_house_has_no_inner_walls_and_parts_that_stand_apart_have_their_own():
    shed = tuple((x + 20_000, y) for x, y in SQUARE)

    assert {frozenset(one) for one in around([SQUARE, BESIDE, shed])} == {
        frozenset({(0, 0), (7000, 0), (7000, 3000), (0, 3000)}),
        frozenset(shed),
    }
    assert around([]) == ()
