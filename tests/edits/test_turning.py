"""Rooms turned and mirrored with all in them."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.openings import put_opening
from floorplan_circuits.edits.rooms import add_level, add_room
from floorplan_circuits.edits.stairs import put_stair
from floorplan_circuits.edits.turning import mirror, turn
from floorplan_circuits.geometry.rooms import room_of_boxes
from floorplan_circuits.geometry.wall_spots import is_on_wall
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from tests.edits.samples import house, level_of


def furnished(wide: int = 4000, deep: int = 3000) -> Home:
    """A room with a box on each of two walls, a light, a door and stairs."""
    home = house().changed(rooms=(), boxes=())
    level = level_of(home)
    home = add_room(home, level, ((0, 0), (wide, 0), (wide, deep), (0, deep)), "Den").home
    home = put_device(home, level, (wide, deep // 2), 180, "switch").home
    home = put_device(home, level, (wide // 2, 0), 90, "duplex receptacle").home
    home = put_device(home, level, (wide // 2, deep // 2), 90, "ceiling light").home
    home = put_opening(home, level, "door", (500, deep), 90).home
    return put_stair(home, level, (300, 300), 0, 900, 500).home


def test_a_room_turns_with_all_in_it():
    home = furnished()

    after = turn(home, home.rooms.ids()).home

    assert set(after.rooms.rows[0].outline) == {(500, -500), (3500, -500), (3500, 3500), (500, 3500)}
    placed = [(box.at, box.angle) for box in after.boxes]
    assert placed == [((2000, 3500), 270), ((3500, 1500), 180), ((2000, 1500), 180)]
    (door,) = after.openings
    assert (door.at, door.angle) == ((500, 0), 180)
    assert after.stairs.rows[0].angle == 90


def test_a_mirrored_door_hangs_on_the_other_side():
    home = furnished()

    after = mirror(home, home.rooms.ids()).home

    (was,), (now,) = home.openings, after.openings
    assert (now.at, now.angle) == ((3500, 3000), 90)
    assert {was.hinge, now.hinge} == {"left", "right"}
    assert (after.boxes.rows[0].at, after.boxes.rows[0].angle) == ((0, 1500), 0)


sides = st.integers(900, 6000)


@settings(max_examples=30)
@given(sides, sides, st.integers(-3, 9))
def test_four_quarters_and_two_mirrors_leave_all_as_it_was(wide, deep, quarters):
    home = furnished(wide, deep)
    rooms = home.rooms.ids()

    once = turn(home, rooms, quarters).home
    assert turn(once, rooms, -quarters).home == home
    assert mirror(mirror(home, rooms).home, rooms).home == home
    assert problems(once) == ()
    assert room_of_boxes(once) == room_of_boxes(home)
    assert all(is_on_wall(box.at, once.rooms.rows[0].outline) for box in once.boxes.rows[:2])


def test_what_has_no_place_or_is_on_two_levels_is_not_turned():
    home = furnished()
    upper = add_level(home, "First floor")
    home = add_room(upper.home, upper.made[0], home.rooms.rows[0].outline).home

    with pytest.raises(Refused, match="one level"):
        turn(home, home.rooms.ids())
    with pytest.raises(Refused, match="Choose something"):
        mirror(home, [])
