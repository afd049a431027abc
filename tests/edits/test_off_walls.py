"""Boxes that an edit of rooms left on no wall are told, and stay where they were."""

from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.consequences import consequences
from floorplan_circuits.edits.dividing import join_rooms
from floorplan_circuits.edits.rooms import add_room, reshape_room
from floorplan_circuits.edits.walls import move_wall
from tests.edits.samples import box_of, house, level_of

HALL = ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))


def test_a_box_on_the_wall_between_joined_rooms_stands_on_none():
    home = add_room(house(), level_of(house()), HALL, "Hall").home
    home = put_device(home, level_of(home), (4000, 1500), 180, "switch").home
    joined = join_rooms(home, home.rooms.ids()).home

    assert consequences(home, joined) == ("1 box stands on no wall now: B4.",)
    assert joined.boxes[box_of(joined, "B4")] is home.boxes[box_of(home, "B4")]


def test_a_room_that_is_reshaped_over_them_names_a_few():
    home = house()
    away = reshape_room(home, home.rooms.ids()[0], ((0, 500), (4000, 500), (4000, 3000), (0, 3000))).home

    assert consequences(home, away) == ("3 boxes stand on no wall now: B1, B2, B3.",)


def test_boxes_that_go_with_their_wall_are_not_told():
    home = house()
    after = move_wall(home, level_of(home), (0, 0), (4000, 0), (0, -500)).home

    assert consequences(home, after) == ()
