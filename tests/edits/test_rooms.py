"""Levels and rooms: added, and given another outline."""

from floorplan_circuits.edits.rooms import add_level, add_room, next_room_name, reshape_room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from tests.edits.samples import house, level_of

HALL = ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))


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
