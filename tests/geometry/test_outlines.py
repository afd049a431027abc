"""Outlines as polygons, and what stands on each level."""

import pytest

from floorplan_circuits.geometry.outlines import boxes_by_level, pieces, polygon, rooms_by_level
from floorplan_circuits.home.record import change
from tests.geometry.plans import L_SHAPE, plan, rectangle


@pytest.mark.parametrize("outline", [(), ((0, 0),), ((0, 0), (1, 1)), ((0, 0), (1, 1), (0, 0))])
def test_fewer_than_three_corners_have_no_floor(outline):
    assert polygon(outline).is_empty


def test_an_outline_that_crosses_itself_has_the_floor_of_its_loops():
    bow = ((0, 0), (2000, 2000), (2000, 0), (0, 2000))

    assert polygon(bow).is_valid
    assert polygon(bow).area == pytest.approx(2_000_000)
    assert len(pieces(polygon(bow))) == 2


def test_an_outline_without_width_has_no_floor():
    assert polygon(((0, 0), (1000, 0), (2000, 0))).area == 0


def test_a_floor_is_the_same_object_for_an_equal_outline():
    assert polygon(L_SHAPE) is polygon((*L_SHAPE[:2], *L_SHAPE[2:]))


def test_rooms_come_by_level_and_levels_without_rooms_are_left_out():
    home = plan([rectangle(0, 0, 3000, 3000), L_SHAPE])

    assert {level: [room.id for room in rooms] for level, rooms in rooms_by_level(home).items()} == {1: [11, 12]}
    assert rooms_by_level(plan([])) == {}


def test_boxes_without_a_place_or_a_level_are_on_no_level():
    home = plan([], [{"at": (5, 6)}, {"at": None}, {"at": (1, 1), "level": None}])

    assert {level: [one.box.id for one in boxes] for level, boxes in boxes_by_level(home).items()} == {1: [101]}


def test_a_room_of_a_level_that_is_gone_is_still_found():
    home = plan([L_SHAPE])
    lost = change(home, levels=type(home.levels)())

    assert list(rooms_by_level(lost)) == [1]
