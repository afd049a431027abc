"""Drawing rooms: in one drag or corner by corner, with typed lengths, snapped so that walls are shared."""

import pytest

from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.gestures.drawing_rooms import GOING_ON, ONE_LENGTH, SAYS, DrawRoom
from floorplan_circuits.gestures.events import Move, Release
from floorplan_circuits.gestures.selecting import Select
from tests.edits.samples import SQUARE, house
from tests.gestures.hand import Hand


def drawing(home=None) -> Hand:
    return Hand(home or new_home(), DrawRoom())


def drawn(hand: Hand):
    return hand.home.rooms.rows[-1].outline


def test_a_rectangle_is_drawn_in_one_drag_and_its_name_asked_for():
    hand = drawing()

    outcome = hand.drag((10, -10), (4012, 3011))

    assert drawn(hand) == SQUARE
    assert outcome.edit.says == "Draw Room 1"
    assert (outcome.name, outcome.selected) == (hand.asked, (hand.asked,))
    assert hand.tool == DrawRoom()
    assert hand.draft is None


def test_a_rectangle_beside_a_room_shares_its_wall():
    hand = drawing(house())

    hand.drag((4018, -12), (7000, 2985))

    assert drawn(hand) == ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))


def test_a_rectangle_over_a_part_of_a_room_is_drawn():
    hand = drawing(house())

    hand.drag((3000, 1000), (6000, 2000))
    assert "lies over Kitchen" in hand.said
    hand.type("l")

    assert drawn(hand) == ((3000, 1000), (6000, 1000), (6000, 2000), (3000, 2000))


def test_a_room_is_drawn_corner_by_corner_and_closed_on_the_first():
    hand = drawing()
    for at in ((0, 0), (5000, 10), (5010, 2000), (2000, 2010), (1990, 4000)):
        hand.click(at)
    assert hand.said == GOING_ON

    hand.click((10, 3990))
    outcome = hand.click((5, 5))

    assert outcome.edit is not None
    assert drawn(hand) == ((0, 0), (5000, 0), (5000, 2000), (2000, 2000), (2000, 4000), (0, 4000))


def test_corners_are_in_line_with_those_put_before():
    hand = drawing()
    for at in ((1234, 567), (4000, 560), (3990, 3333)):
        hand.click(at)

    hand.click((1240, 3340))

    assert hand.tool.corners == ((1250, 550), (4000, 550), (4000, 3350), (1250, 3350))


@pytest.mark.parametrize("close", ["enter", "double click"])
def test_enter_or_a_double_click_closes_an_outline(close):
    hand = drawing()
    for at in ((0, 0), (4000, 0), (4000, 3000)):
        hand.click(at)

    outcome = hand.key("enter") if close == "enter" else hand.click((4000, 3000))

    assert outcome.edit is not None
    assert drawn(hand) == ((0, 0), (4000, 0), (4000, 3000))


def test_two_corners_are_no_room_yet():
    hand = drawing()
    hand.click((0, 0))
    hand.click((4000, 0))

    for outcome in (hand.key("enter"), hand.click((4000, 0)), hand.click((0, 0))):
        assert outcome.edit is None
    assert hand.tool.corners == ((0, 0), (4000, 0))


# --- typed lengths --------------------------------------------------------------------------------------------------


def test_a_typed_length_makes_an_exact_wall_towards_the_pointer():
    hand = drawing()
    hand.click((0, 0))
    hand.do(Move((2000, 5)))

    hand.type("3.81")
    hand.key("enter")

    assert hand.tool.corners == ((0, 0), (3810, 0))


@pytest.mark.parametrize(
    ("typed", "wide", "deep"),
    [("4x3", 4000, 3000), ("4 × 2.5", 4000, 2500), ("12'6\"X10'", 3810, 3048), ("381 cm x 2 m", 3810, 2000)],
)
def test_two_typed_lengths_make_an_exact_rectangle(typed, wide, deep):
    hand = drawing()
    hand.pull((0, 0), (-1000, -1000))
    hand.type(typed)

    outcome = hand.key("enter")

    assert outcome.edit is not None
    assert drawn(hand) == ((0, 0), (-wide, 0), (-wide, -deep), (0, -deep))


def test_one_typed_length_sets_the_width_of_a_rectangle_being_dragged():
    hand = drawing()
    hand.pull((0, 0), (1000, 2000))
    hand.type("3")
    hand.key("enter")

    assert drawn(hand) == ((0, 0), (3000, 0), (3000, 2000), (0, 2000))


def test_letting_go_after_a_typed_rectangle_draws_no_second_one():
    hand = drawing()
    hand.pull((0, 0), (1000, 2000))
    hand.type("3x2")
    hand.key("enter")

    assert hand.do(Release((1000, 2000))).edit is None
    assert len(hand.home.rooms) == 1


def test_what_is_no_length_is_said_and_nothing_is_lost():
    hand = drawing()
    hand.click((0, 0))
    hand.type("3..")
    hand.key("enter")

    assert "is not a length" in hand.said
    assert hand.tool.corners == ((0, 0),)
    assert hand.tool.typed == ""


@pytest.mark.parametrize(("typed", "says"), [("4x3", ONE_LENGTH), ("0", "A wall has a length. Type it again.")])
def test_a_wall_takes_one_length(typed, says):
    hand = drawing()
    hand.click((0, 0))
    hand.click((4000, 0))
    hand.type(typed)
    hand.key("enter")

    assert hand.said == says
    assert hand.tool.corners == ((0, 0), (4000, 0))


def test_letters_before_the_first_corner_take_tools_and_after_it_are_typed():
    hand = drawing()
    hand.click((0, 0))
    hand.type("2in")

    assert hand.tool.typed == "2in"
    hand.type("r")
    assert hand.tool.typed == "2in"


def test_the_room_is_made_when_the_button_is_let_go_not_before():
    hand = drawing()
    for at in ((0, 0), (4000, 0), (4000, 3000)):
        hand.click(at)

    assert hand.press((0, 0)).edit is None
    assert hand.do(Release((0, 0))).edit is not None


# --- back, out, and what can't be ---------------------------------------------------------------------------------


def test_backspace_takes_back_a_letter_then_a_corner():
    hand = drawing()
    hand.click((0, 0))
    hand.click((4000, 0))
    hand.type("35")

    hand.key("backspace")
    assert (hand.tool.typed, len(hand.tool.corners)) == ("3", 2)
    for _ in range(4):
        hand.key("backspace")
    assert hand.tool.corners == ()


def test_escape_drops_the_draft_then_the_tool():
    hand = drawing()
    hand.click((0, 0))
    hand.click((4000, 0))
    before = hand.home

    hand.key("escape")
    assert (hand.tool, hand.draft, hand.said) == (DrawRoom(), None, SAYS)
    hand.key("escape")
    assert hand.tool == Select()
    assert hand.home is before


def test_a_rectangle_without_area_is_refused():
    hand = drawing()

    hand.drag((0, 0), (4000, 40))

    assert "next to no area" in hand.said
    assert len(hand.home.rooms) == 0


def test_corners_put_one_by_one_stay_where_they_can_not_make_a_room():
    hand = drawing()
    for at in ((0, 0), (3000, 3000), (3000, 0), (0, 3000)):
        hand.click(at)

    hand.key("enter")

    assert "cross itself" in hand.said
    assert len(hand.tool.corners) == 4
    hand.key("backspace")
    assert hand.key("enter").edit is not None


def test_the_draft_shows_the_outline_and_its_measure():
    hand = drawing()

    assert hand.pull((0, 0), (4000, 3000)).draft.words == "4.00 m × 3.00 m, 12.0 m²"
    assert hand.draft.lines == (((0, 0), (4000, 0), (4000, 3000), (0, 3000), (0, 0)),)

    hand = drawing(new_home(units="feet and inches"))
    hand.click((0, 0))
    assert hand.do(Move((3048, 0))).draft.words == "10' 0\""
    hand.type("9'")
    assert hand.draft.words == "9'"
