"""Nearness: pairs of boxes that one may take for each other."""

from itertools import combinations
from math import dist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.geometry.nearness import near_boxes
from tests.geometry.plans import plan


def test_two_boxes_within_a_hands_breadth_are_a_pair_with_their_distance():
    assert near_boxes(plan([], [{"at": (0, 0)}, {"at": (30, 40)}])) == ((101, 102, 50.0),)


@pytest.mark.parametrize(("apart", "near"), [(299, True), (300, True), (301, False)])
def test_the_limit_itself_is_near(apart, near):
    assert bool(near_boxes(plan([], [{"at": (0, 0)}, {"at": (apart, 0)}]))) is near


def test_boxes_at_one_place_are_near_each_other():
    assert near_boxes(plan([], [{"at": (7, 7), "height": 400}, {"at": (7, 7), "height": 1200}])) == ((101, 102, 0.0),)


def test_boxes_on_different_levels_or_without_a_place_are_not_near():
    assert near_boxes(plan([], [{"at": (0, 0)}, {"at": (0, 0), "level": 2}, {"at": None}])) == ()
    assert near_boxes(plan([])) == ()


def test_the_lower_id_stands_first_and_pairs_are_in_order():
    boxes = [{"at": (0, 0), "id": 9}, {"at": (10, 0), "id": 3}, {"at": (20, 0), "id": 5}]

    assert near_boxes(plan([], boxes)) == ((3, 5, 10.0), (3, 9, 10.0), (5, 9, 20.0))


spots = st.lists(st.tuples(st.integers(0, 900), st.integers(0, 900)), max_size=12)


@settings(max_examples=60, deadline=None)
@given(spots, st.integers(1, 600))
def test_the_pairs_are_those_that_measuring_each_with_each_finds(at, within):
    home = plan([], [{"at": one} for one in at])
    measured = [(a.id, b.id, dist(a.at, b.at)) for a, b in combinations(home.boxes, 2) if dist(a.at, b.at) <= within]
    found = near_boxes(home, within)

    assert [pair[:2] for pair in found] == [pair[:2] for pair in measured]
    assert [pair[2] for pair in found] == pytest.approx([pair[2] for pair in measured])
