"""Levels and rooms: added, reshaped; shared walls stay shared and what stands on a wall goes with it."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.rooms import (
    add_level,
    add_room,
    move_corner,
    move_wall,
    next_room_name,
    reshape_room,
    wall_moves,
)
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from tests.edits.samples import SQUARE, house, level_of

HALL = ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))


def two_rooms() -> Home:
    """The house's kitchen, and a hall that shares its right wall."""
    return add_room(house(), level_of(house()), HALL, "Hall").home


def outline(home: Home, name: str):
    return next(room.outline for room in home.rooms if room.name == name)


def test_a_level_goes_on_top_unless_said_otherwise():
    home = add_level(house(), "First floor").home
    home = add_level(home, "Cellar", -1).home

    assert [(level.name, level.order) for level in home.levels] == [
        ("Ground floor", 0),
        ("First floor", 1),
        ("Cellar", -1),
    ]


def test_a_room_is_drawn_and_named_later():
    home = house()

    edited = add_room(home, level_of(home), HALL)

    assert edited.says == "Draw Room 2"
    assert edited.home.rooms[edited.made[0]].outline == HALL


def test_a_room_s_first_name_is_one_that_no_room_has():
    home = add_room(house(), level_of(house()), HALL, "Room 3").home

    assert next_room_name(home) == "Room 4"


def test_a_room_may_lie_over_another():
    home = add_room(house(), level_of(house()), ((1000, 1000), (2000, 1000), (2000, 2000)), "Pantry").home

    assert problems(home) == ()


def test_a_room_takes_another_outline():
    home = house()
    room = home.rooms.rows[0].id

    assert outline(reshape_room(home, room, HALL).home, "Kitchen") == HALL


# --- corners and walls ----------------------------------------------------------------------------------------------


def test_a_shared_corner_moves_in_both_rooms():
    home = two_rooms()

    edited = move_corner(home, level_of(home), (4000, 3000), (4200, 3300))

    assert edited.says == "Move a corner of Kitchen and Hall"
    assert (4200, 3300) in outline(edited.home, "Kitchen")
    assert (4200, 3300) in outline(edited.home, "Hall")


def test_a_shared_wall_moves_in_both_rooms():
    home = two_rooms()

    after = move_wall(home, level_of(home), (4000, 0), (4000, 3000), (-500, 0)).home

    assert outline(after, "Kitchen") == ((0, 0), (3500, 0), (3500, 3000), (0, 3000))
    assert outline(after, "Hall") == ((3500, 0), (7000, 0), (7000, 3000), (3500, 3000))


def test_a_long_wall_takes_along_the_corners_of_rooms_that_share_a_part_of_it():
    home = two_rooms()
    home = add_room(home, level_of(home), ((0, 3000), (7000, 3000), (7000, 5000), (0, 5000)), "Cellar stairs").home

    after = move_wall(home, level_of(home), (0, 3000), (7000, 3000), (0, 400)).home

    assert outline(after, "Kitchen") == ((0, 0), (4000, 0), (4000, 3400), (0, 3400))
    assert outline(after, "Hall") == ((4000, 0), (7000, 0), (7000, 3400), (4000, 3400))
    assert outline(after, "Cellar stairs")[:2] == ((0, 3400), (7000, 3400))


def test_walls_of_other_levels_stay():
    home = two_rooms()
    upstairs = add_level(home, "First floor")
    home = add_room(upstairs.home, upstairs.made[0], SQUARE, "Bedroom").home

    after = move_wall(home, level_of(home), (0, 0), (0, 3000), (-300, 0)).home

    assert outline(after, "Bedroom") == SQUARE
    assert wall_moves(home, upstairs.made[0], (9000, 0), (9000, 9), (1, 1)) == {}


@pytest.mark.parametrize(
    ("to", "says"),
    [((4000, 2990), "cross itself"), ((10**7, 0), "cross itself"), ((-300_000, 0), "over 200 m")],
)
def test_a_corner_goes_nowhere_that_leaves_no_room(to, says):
    home = house()

    with pytest.raises(Refused, match=says):
        move_corner(home, level_of(home), (0, 0), to)


def test_a_corner_that_comes_to_lie_on_another_is_one_corner():
    home = house()

    after = move_corner(home, level_of(home), (4000, 0), (4000, 3000)).home

    assert outline(after, "Kitchen") == ((0, 0), (4000, 3000), (0, 3000))


def test_where_there_is_no_corner_nothing_moves():
    with pytest.raises(Refused, match="No room has that corner"):
        move_corner(house(), level_of(house()), (1, 1), (2, 2))


corners = st.sampled_from(sorted({*SQUARE, *HALL}))
steps = st.tuples(*[st.integers(-20, 20).map(lambda step: step * 100)] * 2)


@settings(max_examples=60)
@given(st.lists(st.tuples(corners, corners, steps), max_size=4))
def test_rooms_that_shared_a_wall_share_it_still(moves):
    home = two_rooms()
    for a, b, by in moves:
        try:
            home = move_wall(home, level_of(home), a, b, by).home
        except Refused:
            continue
    kitchen, hall = (set(room.outline) for room in home.rooms)
    assert len(kitchen & hall) == 2 or len(kitchen) < 4 or len(hall) < 4
    assert problems(home) == ()
