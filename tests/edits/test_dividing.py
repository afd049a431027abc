"""Floors divided: cut in two, joined, notched; no floor is lost, and no box, door or reading."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.dividing import (
    add_on,
    add_room_into,
    clip_room,
    cut_out,
    join_rooms,
    lapped,
    split_room,
)
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.openings import put_opening
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.geometry.overlaps import overlap_mm2
from floorplan_circuits.geometry.wall_spots import faces_into, is_on_wall
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.outlines import doubled_area
from tests.edits.samples import SQUARE, box_of, feeds_in, house, level_of, read

HALL = ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))


def kitchen(home: Home):
    return next(room for room in home.rooms if room.name == "Kitchen")


def two_rooms() -> Home:
    home = house()
    return add_room(home, level_of(home), HALL, "Hall").home


def floor(home: Home) -> int:
    return sum(abs(doubled_area(room.outline)) for room in home.rooms) // 2


def test_a_room_is_cut_in_two_and_the_larger_part_keeps_its_name():
    home = house()

    edited = split_room(home, kitchen(home).id, [(3000, 0), (3000, 3000)])

    assert set(kitchen(edited.home).outline) == {(0, 0), (3000, 0), (3000, 3000), (0, 3000)}
    assert set(edited.home.rooms[edited.made[0]].outline) == {(3000, 0), (4000, 0), (4000, 3000), (3000, 3000)}
    assert edited.says == "Divide Kitchen"


def test_a_cut_may_turn_corners():
    home = house()

    edited = split_room(home, kitchen(home).id, [(4000, 2000), (2500, 2000), (2500, 3000)])

    assert floor(edited.home) == floor(home)
    assert abs(doubled_area(edited.home.rooms[edited.made[0]].outline)) == 2 * 1500 * 1000


@pytest.mark.parametrize(
    "path",
    [
        [(1000, 0), (1000, 2000)],
        [(1000, 1000), (2000, 2000)],
        [(0, 0), (4000, 0)],
        [(9000, 0), (9000, 3000)],
        [(50, 0), (50, 3000)],
        [(1000, 0)],
        [],
    ],
)
def test_a_line_that_makes_no_two_rooms_is_refused(path):
    home = house()

    with pytest.raises(Refused, match=r"from one wall|next to no area"):
        split_room(home, kitchen(home).id, path)


edge = st.integers(1, 39).map(lambda step: step * 100)


@settings(max_examples=40)
@given(edge, edge, st.booleans())
def test_what_was_cut_and_joined_again_is_the_room_that_it_was(a, b, level_cut):
    home = read(house(), feeds_in(house(), "B1"), 1)
    path = [(0, a % 3000), (4000, b % 3000)] if level_cut else [(a, 0), (b, 3000)]
    try:
        cut = split_room(home, kitchen(home).id, path).home
    except Refused:
        return

    whole = join_rooms(cut, cut.rooms.ids()).home

    assert abs(floor(cut) - floor(home)) <= 4000  # an end of the cut between two millimetres of a wall
    assert problems(cut) == problems(whole) == ()
    assert len(whole.rooms) == 1
    assert set(whole.rooms.rows[0].outline) == set(SQUARE)
    assert whole.boxes == cut.boxes == home.boxes
    assert whole.log is cut.log is home.log


def test_the_door_between_joined_rooms_goes_and_all_others_stay():
    home = two_rooms()
    home = put_opening(home, level_of(home), "door", (4000, 1500), 0).home
    home = put_opening(home, level_of(home), "window", (7000, 1500), 0).home

    edited = join_rooms(home, home.rooms.ids())

    assert edited.says == "Join Kitchen and Hall"
    assert kitchen(edited.home)
    assert [one.kind for one in edited.home.openings] == ["window"]


def test_rooms_that_are_apart_or_on_two_levels_are_not_joined():
    home = add_room(house(), level_of(house()), ((5000, 0), (7000, 0), (7000, 3000)), "Shed").home

    with pytest.raises(Refused, match="don’t share a wall"):
        join_rooms(home, home.rooms.ids())
    with pytest.raises(Refused, match="two or more"):
        join_rooms(home, [kitchen(home).id])


# --- notches and bays -----------------------------------------------------------------------------------------------


def test_a_box_in_a_wall_that_is_notched_stands_on_the_notch_s_wall():
    home = house()

    after = cut_out(home, kitchen(home).id, [(1500, -500), (2500, -500), (2500, 600), (1500, 600)]).home

    moved = after.boxes[box_of(after, "B2")]
    assert (moved.at, moved.angle) == ((2000, 600), 90)
    assert after.boxes[box_of(after, "B1")] is home.boxes[box_of(home, "B1")]
    assert moved.devices == home.boxes[moved.id].devices


def test_a_door_in_a_wall_that_is_pushed_out_stands_in_the_bay_s_wall():
    home = put_opening(house(), level_of(house()), "window", (2000, 3000), 90).home

    after = add_on(home, kitchen(home).id, [(1000, 3000), (3000, 3000), (3000, 3500), (1000, 3500)]).home

    assert after.openings.rows[0].at == (2000, 3500)
    assert after.openings.rows[0].angle == 90


def test_a_box_at_whose_middle_a_notch_begins_goes_along_with_the_wall_that_was_cut():
    after = cut_out(house(), kitchen(house()).id, [(1000, 0), (1200, 0), (1200, 200), (1000, 200)]).home

    assert after.boxes.rows[0].at == (1060, 200)
    assert after.boxes.rows[0].angle == 90


pieces = st.tuples(*[st.integers(-10, 45).map(lambda step: step * 100)] * 4)


@settings(max_examples=60)
@given(st.lists(st.tuples(st.sampled_from([cut_out, add_on]), pieces), max_size=4))
def test_after_any_notches_and_bays_all_boxes_are_on_walls_and_face_in(steps):
    home = house()
    for verb, (left, top, right, bottom) in steps:
        before = floor(home)
        try:
            home = verb(home, kitchen(home).id, [(left, top), (right, top), (right, bottom), (left, bottom)]).home
        except Refused:
            continue
        assert floor(home) <= before if verb is cut_out else floor(home) >= before
    outline = kitchen(home).outline
    assert [box.mark for box in home.boxes] == ["B1", "B2", "B3"]
    assert all(is_on_wall(box.at, outline) and faces_into(box.at, box.angle, [outline]) for box in home.boxes)
    assert problems(home) == ()


def test_a_hole_in_a_room_is_refused():
    home = house()

    with pytest.raises(Refused, match="without a hole"):
        cut_out(home, kitchen(home).id, [(1000, 1000), (2000, 1000), (2000, 2000), (1000, 2000)])


# --- overlaps -------------------------------------------------------------------------------------------------------


def test_a_room_drawn_over_another_is_cut_back_to_it():
    home = house()
    over = add_room(home, level_of(home), ((3000, 0), (7000, 0), (7000, 3000), (3000, 3000)), "Hall")

    edited = clip_room(over.home, over.made[0])

    assert set(edited.home.rooms[over.made[0]].outline) == set(HALL)
    assert edited.says == "Cut Hall back to Kitchen"
    with pytest.raises(Refused, match="lies over no other"):
        clip_room(edited.home, over.made[0])


def test_a_closet_drawn_in_the_corner_of_a_room_is_cut_out_of_it():
    home = house()

    edited = add_room_into(home, level_of(home), ((3000, 2000), (4000, 2000), (4000, 3000), (3000, 3000)))

    assert floor(edited.home) == floor(home)
    assert len(kitchen(edited.home).outline) == 6
    assert not lapped(edited.home, level_of(home), kitchen(edited.home).outline, kitchen(edited.home).id)


rectangles = st.tuples(*[st.integers(-30, 70).map(lambda step: step * 100)] * 4)


@settings(max_examples=60)
@given(rectangles)
def test_whichever_way_an_overlap_is_mended_no_floor_is_had_twice(sides):
    left, top, right, bottom = sides
    home = two_rooms()
    try:
        over = add_room(home, level_of(home), ((left, top), (right, top), (right, bottom), (left, bottom)))
    except Refused:
        return
    for mend in (
        lambda: clip_room(over.home, over.made[0]).home,
        lambda: add_room_into(home, level_of(home), over.home.rooms[over.made[0]].outline).home,
    ):
        try:
            mended = mend()
        except Refused:
            continue
        rooms = [room.outline for room in mended.rooms]
        twice = sum(overlap_mm2(a, b) for place, a in enumerate(rooms) for b in rooms[:place])
        assert twice == 0
        assert problems(mended) == ()
