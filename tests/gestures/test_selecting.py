"""Selecting: click, marquee, add; drag things, corners and walls; nudge and delete."""

import pytest

from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.panels import set_panel
from floorplan_circuits.edits.rooms import add_level, add_room
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.events import Move, Release
from floorplan_circuits.gestures.selecting import DRAGGING, GATHERING, NUDGE_FAR_MM, NUDGE_MM, SAYS, Select
from floorplan_circuits.home.home import Home
from tests.edits.samples import SQUARE, box_of, device_of, house, level_of, panel_of
from tests.gestures.hand import Hand


def two_rooms() -> Home:
    return add_room(house(), level_of(house()), [(4000, 0), (7000, 0), (7000, 3000), (4000, 3000)], "Hall").home


def box(home: Home, mark: str) -> Subject:
    return Subject("box", box_of(home, mark))


def room(home: Home, name: str = "Kitchen") -> Subject:
    return Subject("room", next(one.id for one in home.rooms if one.name == name))


def holding(*selected: Subject, home: Home | None = None) -> Hand:
    hand = Hand(home or two_rooms())
    hand.selected = selected
    return hand


# --- clicks and marquees --------------------------------------------------------------------------------------------


def test_a_click_selects_what_is_there_and_changes_nothing():
    hand = holding()
    home = hand.home

    hand.click((1000, 60), box(home, "B1"))

    assert hand.selected == (box(home, "B1"),)
    assert hand.home is home


def test_a_click_with_shift_adds_and_takes_away():
    hand = holding()
    one, other = box(hand.home, "B1"), box(hand.home, "B2")

    hand.click((1000, 60), one)
    hand.click((2000, 60), other, add=True)
    assert hand.selected == (one, other)
    hand.click((1000, 60), one, add=True)
    assert hand.selected == (other,)
    hand.click((-900, -900), add=True)
    assert hand.selected == (other,)


def test_a_click_on_bare_floor_selects_the_room_and_outside_lets_go():
    hand = holding()

    hand.click((2000, 1500))
    assert hand.selected == (room(hand.home),)
    hand.click((9000, 9000))
    assert hand.selected == ()


def test_a_marquee_gathers_boxes_and_the_rooms_wholly_in_it():
    hand = holding()

    outcome = hand.pull((-500, 3500), (4100, -500))
    assert (outcome.draft.marquee, outcome.says) == (((-500, 3500), (4100, -500)), GATHERING)
    hand.do(Release((4100, -500)))

    assert set(hand.selected) == {room(hand.home), *(box(hand.home, mark) for mark in ("B1", "B2", "B3"))}


def test_a_marquee_on_bare_floor_gathers_and_moves_no_room():
    hand = holding(room(two_rooms()))
    home = hand.home

    hand.drag((1500, 500), (2500, -100))

    assert hand.selected == (box(home, "B2"),)
    assert hand.home is home


def test_a_marquee_with_shift_keeps_what_was_selected():
    hand = holding(box(two_rooms(), "B3"))

    hand.drag((1500, 500), (2500, -100), add=True)

    assert hand.selected == (box(hand.home, "B3"), box(hand.home, "B2"))


def test_boxes_of_another_level_are_not_gathered():
    upstairs = add_level(two_rooms(), "First floor")
    home = put_device(upstairs.home, upstairs.made[0], (1000, 0), 90, "switch").home
    hand = holding(home=home)

    hand.drag((500, 500), (1500, -100))

    assert hand.selected == (box(home, "B1"),)


# --- dragging things ------------------------------------------------------------------------------------------------


def test_a_box_dragged_alone_turns_to_the_wall_it_comes_to():
    hand = holding()
    home = hand.home

    outcome = hand.pull((1000, 60), (3900, 1500), box(home, "B1"))
    assert (outcome.draft.symbol, outcome.draft.at, outcome.draft.angle) == ("duplex receptacle", (4000, 1500), 180)
    assert outcome.says == DRAGGING
    outcome = hand.do(Release((3900, 1500)))

    moved = hand.home.boxes[box_of(home, "B1")]
    assert (moved.at, moved.angle, moved.mount) == ((4000, 1500), 180, "wall")
    assert outcome.edit.says == "Move box B1"
    assert hand.selected == (box(home, "B1"),)


def test_a_box_dragged_out_of_the_house_is_outdoors():
    hand = holding()

    hand.drag((1000, 60), (1000, -60), box(hand.home, "B1"))

    assert hand.home.boxes[box_of(hand.home, "B1")].mount == "outdoor"


def test_a_box_of_another_level_does_not_come_to_a_wall_of_this_one():
    upstairs = add_level(two_rooms(), "First floor")
    home = put_device(upstairs.home, upstairs.made[0], (1000, 0), 90, "switch").home
    hand = holding(home=home)

    hand.drag((1000, 60), (3900, 1500), box(home, "B4"))

    assert (hand.home.boxes[box_of(home, "B4")].at, hand.home.boxes[box_of(home, "B4")].angle) == ((3900, 1440), 90)


def test_several_boxes_keep_their_places_to_each_other():
    home = two_rooms()
    hand = holding(box(home, "B1"), box(home, "B2"), home=home)

    outcome = hand.pull((1000, 60), (1200, 160), box(home, "B1"))
    assert len(outcome.draft.lines) == 4
    outcome = hand.do(Release((1200, 160)))

    assert outcome.edit.says == "Move 2 boxes"
    assert [hand.home.boxes[box_of(home, mark)].at for mark in ("B1", "B2")] == [(1200, 100), (2200, 100)]


def test_a_room_is_dragged_by_its_name_with_all_that_is_in_it():
    hand = holding()

    hand.drag((2000, 1500), (2000, 6510), room(hand.home))

    assert hand.home.rooms[room(hand.home).id].outline == tuple((x, y + 5000) for x, y in SQUARE)
    assert hand.home.boxes[box_of(hand.home, "B1")].at == (1000, 5000)


def test_a_panel_is_dragged_freely():
    home = set_panel(two_rooms(), panel_of(two_rooms()), level=level_of(two_rooms()), at=(0, 2000)).home
    hand = holding(home=home)

    hand.drag((0, 2000), (33, 2555), Subject("panel", panel_of(home)))

    assert hand.home.panels[panel_of(home)].at == (33, 2555)


def test_a_drag_that_ends_where_it_began_is_no_edit():
    home = two_rooms()
    hand = holding(box(home, "B1"), box(home, "B2"), home=home)
    hand.pull((1000, 60), (1200, 160), box(home, "B1"))

    outcome = hand.do(Release((1000, 60)))

    assert outcome.edit is None
    assert hand.home is home


def test_things_that_are_gone_by_the_end_of_a_drag_are_refused():
    hand = holding()
    gone = Subject("box", 999_999)

    assert hand.drag((1000, 60), (1500, 60), gone).edit is None
    assert hand.said == "Choose something on the plan to move."


def test_what_has_no_place_on_the_plan_is_never_dragged():
    home = two_rooms()
    level, device = Subject("level", level_of(home)), Subject("device", device_of(home, "B1"))
    hand = holding(level, device, box(home, "B1"), home=home)

    hand.drag((1000, 60), (1200, 60), box(home, "B1"))
    assert hand.home.boxes[box_of(home, "B1")].at == (1200, 0)
    hand.drag((1000, 60), (1500, 60), device)
    assert hand.tool == Select()


# --- corners and walls ----------------------------------------------------------------------------------------------


def test_a_corner_of_a_selected_room_is_dragged_in_all_rooms_that_have_it():
    hand = holding(room(two_rooms()))

    outcome = hand.pull((4000, 3000), (4403, 3304))
    assert len(outcome.draft.lines) == 2
    hand.do(Release((4403, 3304)))

    assert [(4400, 3300) in one.outline for one in hand.home.rooms] == [True, True]
    assert hand.selected == (room(hand.home),)


def test_a_corner_is_drawn_back_into_line_with_the_others():
    hand = holding(room(two_rooms()))
    hand.drag((4000, 3000), (4400, 3300))

    hand.drag((4400, 3300), (4015, 3010))

    assert (4000, 3000) in hand.home.rooms[room(hand.home).id].outline


def test_a_wall_of_a_selected_room_moves_square_to_itself_in_both_rooms():
    hand = holding(room(two_rooms()))

    hand.drag((4000, 1500), (3500, 1900))

    assert [one.outline for one in hand.home.rooms] == [
        ((0, 0), (3500, 0), (3500, 3000), (0, 3000)),
        ((3500, 0), (7000, 0), (7000, 3000), (3500, 3000)),
    ]


def test_the_neighbour_under_the_pointer_does_not_take_over_the_drag():
    hand = holding(room(two_rooms()))

    hand.drag((4000, 1500), (3500, 1500), room(hand.home, "Hall"))

    assert hand.home.rooms[room(hand.home).id].outline[1] == (3500, 0)
    assert hand.selected == (room(hand.home),)


def test_a_wall_snaps_to_the_walls_of_other_rooms():
    home = add_room(two_rooms(), level_of(two_rooms()), [(0, 3512), (2000, 3512), (2000, 5000), (0, 5000)], "Bath").home
    hand = holding(room(home), home=home)

    hand.drag((3000, 3000), (3010, 3500))

    assert hand.home.rooms[room(home).id].outline[2:] == ((4000, 3512), (0, 3512))


def test_a_box_on_a_wall_is_dragged_rather_than_the_wall():
    home = two_rooms()
    hand = holding(room(home), home=home)

    hand.drag((1000, 0), (1500, 0), box(home, "B1"))

    assert hand.home.rooms == home.rooms
    assert hand.home.boxes[box_of(home, "B1")].at == (1500, 0)


def test_a_room_that_is_not_selected_keeps_its_walls():
    hand = holding()

    hand.drag((4000, 1500), (3500, 1500))

    assert hand.home.rooms[room(hand.home).id].outline == SQUARE


def test_what_would_be_no_room_is_refused_and_stays_selected():
    hand = holding(room(two_rooms()))
    home = hand.home

    hand.drag((2000, 3000), (2000, 20))

    assert "at least three corners" in hand.said
    assert hand.home is home
    assert hand.selected == (room(home),)


# --- keys -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "by"), [("left", (-1, 0)), ("right", (1, 0)), ("up", (0, -1)), ("down", (0, 1))])
def test_arrows_nudge_far_with_shift(name, by):
    hand = holding(box(two_rooms(), "B1"))

    hand.key(name)
    hand.key(name, add=True)

    far = NUDGE_MM + NUDGE_FAR_MM
    assert hand.home.boxes[box_of(hand.home, "B1")].at == (1000 + far * by[0], far * by[1])


def test_nudges_of_one_selection_merge_and_drags_do_not():
    hand = holding(box(two_rooms(), "B1"))
    home = hand.home
    for _ in range(3):
        hand.key("right")
    assert len(hand.history.past) == 1

    for x in (1500, 1600):
        hand.drag((1000, 60), (x, 60), box(home, "B1"))
    assert len(hand.history.past) == 3
    hand.selected = (box(home, "B2"),)
    hand.key("right")
    assert len(hand.history.past) == 4
    for _ in range(4):
        hand.undo()
    assert hand.home is home


def test_nudges_of_two_selections_are_two_steps():
    home = two_rooms()
    hand = holding(box(home, "B1"), home=home)

    for mark in ("B1", "B2"):
        hand.selected = (box(home, mark),)
        hand.key("right")
        hand.key("right")

    assert [step.says for step in hand.history.past] == ["Move box B1", "Move box B2"]


def test_delete_removes_what_is_selected():
    hand = holding(box(two_rooms(), "B1"), box(two_rooms(), "B2"))

    outcome = hand.key("delete")

    assert outcome.edit.says == "Remove 2 boxes"
    assert hand.selected == ()
    assert hand.key("backspace").edit is None
    assert hand.said == "Nothing is selected to remove."


def test_keys_without_a_selection_change_nothing():
    hand = holding()
    home = hand.home

    for name in ("left", "up", "enter", "tab"):
        assert hand.key(name).edit is None
    assert hand.home is home


def test_nothing_placed_is_not_nudged():
    hand = holding(Subject("level", level_of(two_rooms())))

    assert hand.key("left").edit is None
    assert hand.said == "Choose something on the plan to move."


def test_escape_drops_a_drag_and_keeps_the_selection_then_lets_go():
    hand = holding(box(two_rooms(), "B1"))
    home = hand.home
    hand.pull((1000, 60), (3900, 1500), box(home, "B1"))

    hand.key("escape")
    assert (hand.draft, hand.selected) == (None, (box(home, "B1"),))
    assert hand.do(Release((3900, 1500))).edit is None
    hand.key("escape")
    assert hand.selected == ()
    assert hand.home is home


def test_a_button_that_was_let_go_elsewhere_ends_the_drag():
    hand = holding(box(two_rooms(), "B1"))
    hand.pull((1000, 60), (3900, 1500), box(hand.home, "B1"))

    hand.do(Move((3900, 1500)))

    assert (hand.tool, hand.draft, hand.said) == (Select(), None, SAYS)


def test_a_selected_room_says_what_can_be_dragged_of_it():
    hand = Hand(house(), Select())

    hand.click((2000, 1500))

    assert hand.said.startswith("Drag a corner or a wall of Kitchen; with Shift a wall bends.")
    hand.key("escape")
    assert hand.said.startswith("Click to select")
