"""Stairs, divided rooms, notches and bays, bent walls, rooms drawn over others."""

import pytest

from floorplan_circuits.edits.rooms import add_level, add_room, set_wall
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.dividing_rooms import DivideRoom
from floorplan_circuits.gestures.drawing_rooms import DrawRoom
from floorplan_circuits.gestures.events import Move
from floorplan_circuits.gestures.notching import NotchRoom
from floorplan_circuits.gestures.putting_stairs import PutStairs
from floorplan_circuits.gestures.selecting import Select
from tests.edits.samples import house, level_of
from tests.gestures.hand import Hand


def outlines(hand: Hand) -> list[set]:
    return [set(room.outline) for room in hand.home.rooms]


# --- stairs ---------------------------------------------------------------------------------------------------------


def test_one_drag_puts_stairs_that_lead_to_the_level_above():
    hand = Hand(add_level(house(), "First floor").home, PutStairs())

    hand.drag((500, 2500), (480, 400))

    (stair,) = hand.home.stairs
    assert (stair.at, stair.angle, stair.run) == ((500, 2500), 270, 2100)
    assert hand.said == "Put stairs. They lead to First floor."
    assert hand.selected == (Subject("stair", stair.id),)


def test_stairs_that_lead_nowhere_yet_say_so_and_a_click_puts_none():
    hand = Hand(house(), PutStairs())

    hand.click((500, 2500))
    assert "Drag from its lowest step" in hand.said
    assert len(hand.home.stairs) == 0

    hand.drag((500, 2500), (500, 500))
    assert hand.said.endswith("Add the level they lead to.")


# --- dividing -------------------------------------------------------------------------------------------------------


def test_one_drag_from_wall_to_wall_divides_a_room_and_asks_for_a_name():
    hand = Hand(house(), DivideRoom())

    hand.drag((3005, 10), (3010, 2990))

    assert outlines(hand) == [
        {(0, 0), (3000, 0), (3000, 3000), (0, 3000)},
        {(3000, 0), (4000, 0), (4000, 3000), (3000, 3000)},
    ]
    assert hand.asked == Subject("room", hand.home.rooms.ids()[-1])
    assert hand.gestures == 1


def test_a_line_with_a_corner_is_clicked():
    hand = Hand(house(), DivideRoom())

    for at in ((4000, 2000), (2500, 2000), (2500, 3000)):
        hand.click(at)

    assert outlines(hand)[1] == {(4000, 2000), (4000, 3000), (2500, 3000), (2500, 2000)}


def test_a_line_begins_on_a_wall_and_escape_drops_it():
    hand = Hand(house(), DivideRoom())

    hand.click((2000, 1500))
    assert "Begin on a wall" in hand.said
    hand.click((3000, 0))
    hand.click((3000, 1500))
    hand.key("escape")
    assert hand.tool == DivideRoom()
    assert len(hand.history.past) == 0


# --- notches and bays -----------------------------------------------------------------------------------------------


def test_a_rectangle_over_a_corner_cuts_a_notch_and_with_shift_adds_a_bay():
    hand = Hand(house(), NotchRoom())

    hand.drag((4500, 3500), (3000, 2000))
    assert outlines(hand) == [{(0, 0), (4000, 0), (4000, 2000), (3000, 2000), (3000, 3000), (0, 3000)}]

    hand.drag((0, 500), (-600, 1500), add=True)
    assert {(-600, 500), (-600, 1500)} < outlines(hand)[0]
    assert [step.says for step in hand.history.past] == ["Cut a notch out of Kitchen", "Add a bay to Kitchen"]


@pytest.mark.parametrize(
    ("start", "end", "says"),
    [
        ((5000, 0), (6000, 900), "Drag over a wall"),
        ((1000, 1000), (2000, 2000), "without a hole"),
        ((0, 0), (10, 0), "three corners"),
    ],
)
def test_a_rectangle_that_cuts_nothing_leaves_the_home(start, end, says):
    hand = Hand(house(), NotchRoom())
    home = hand.home

    hand.drag(start, end)

    assert hand.home is home
    assert says in hand.said


# --- corners --------------------------------------------------------------------------------------------------------


def test_with_shift_a_wall_is_bent_where_it_is_dragged():
    hand = Hand(house(), Select())
    hand.selected = (Subject("room", hand.home.rooms.ids()[0]),)

    hand.drag((4000, 1500), (4600, 1500), add=True)

    assert (4600, 1500) in outlines(hand)[0]
    assert len(outlines(hand)[0]) == 5


def test_the_wall_of_two_selected_rooms_in_one_line_moves_as_one():
    home = house()
    hall = ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))
    hand = Hand(add_room(home, level_of(home), hall, "Hall").home, Select())
    hand.selected = tuple(Subject("room", room) for room in hand.home.rooms.ids())

    hand.drag((2500, 3000), (2500, 3500))

    assert all({y for _, y in outline} == {0, 3500} for outline in outlines(hand))


# --- rooms over others ----------------------------------------------------------------------------------------------


def over_the_kitchen(start=(3000, 1000), end=(6000, 2000)) -> Hand:
    hand = Hand(house(), DrawRoom())
    hand.drag(start, end)
    return hand


def test_a_room_over_another_is_offered_cut_back():
    hand = over_the_kitchen()
    assert hand.said == "It lies over Kitchen. Enter draws the part outside, L lets it lie over, Esc drops it."
    assert len(hand.history.past) == 0
    assert set(hand.draft.lines[0]) == {(4000, 1000), (6000, 1000), (6000, 2000), (4000, 2000)}

    hand.key("enter")

    assert outlines(hand)[-1] == {(4000, 1000), (6000, 1000), (6000, 2000), (4000, 2000)}
    assert hand.asked is not None


def test_a_room_within_another_is_offered_to_be_cut_out_of_it():
    hand = over_the_kitchen((3000, 2000), (4000, 3000))
    assert "Enter cuts it out of Kitchen" in hand.said

    hand.key("enter")

    assert len(outlines(hand)[0]) == 6
    assert outlines(hand)[1] == {(3000, 2000), (4000, 2000), (4000, 3000), (3000, 3000)}


def test_a_room_in_the_middle_of_another_can_only_lie_over_it():
    hand = over_the_kitchen((1000, 1000), (2000, 2000))
    assert hand.said == "It lies over Kitchen. L draws it so, Esc drops it."

    hand.type("l")

    assert len(hand.home.rooms) == 2


def test_escape_drops_what_lies_over_and_the_tool_goes_on():
    hand = over_the_kitchen()

    hand.click((5000, 5000))
    assert "Esc drops it" in hand.said
    hand.key("escape")

    assert (hand.tool, len(hand.history.past)) == (DrawRoom(), 0)


# --- walls with a thickness -----------------------------------------------------------------------------------------


def test_a_room_typed_as_a_tape_measures_it_is_drawn_to_the_middles_of_its_walls():
    hand = Hand(set_wall(new_home("Ford"), 120).home, DrawRoom())

    hand.click((0, 0))
    hand.do(Move((900, 900)))
    hand.type("4.2x3.6")
    hand.key("enter")

    assert outlines(hand) == [{(0, 0), (4320, 0), (4320, 3720), (0, 3720)}]
    assert hand.pull((4320, 0), (8450, 3100)).draft.words == "4.01 m × 2.98 m, 11.9 m²"
