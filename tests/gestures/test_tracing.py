import pytest

from floorplan_circuits.edits.underlays import lock_underlay
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.step import Tool
from floorplan_circuits.gestures.tracing import MarkLength, MarkWall, MovePicture
from floorplan_circuits.home.building import Underlay
from tests.edits.samples import house, level_of
from tests.edits.test_underlays import laid, with_picture
from tests.gestures.hand import Hand


def hand_with(tool: Tool) -> Hand:
    return Hand(with_picture(), tool)


def picture(hand: Hand) -> Underlay:
    return laid(hand.home)


def test_two_clicks_and_a_typed_length_set_the_scale() -> None:
    hand = hand_with(MarkLength())
    hand.click((1000, 1000))
    hand.click((3000, 1000))
    hand.type("5")
    hand.key("enter")

    assert picture(hand).width == 20_000
    assert hand.tool == Select()
    assert "20.00 m wide" in hand.said


def test_a_drag_marks_both_ends() -> None:
    hand = hand_with(MarkLength())
    hand.drag((1000, 1000), (3000, 1000))
    hand.type("500 cm")
    hand.key("enter")

    assert picture(hand).width == 20_000


def test_letters_of_a_length_take_no_other_tool() -> None:
    hand = hand_with(MarkLength())
    hand.drag((1000, 1000), (3000, 1000))
    hand.type("500 c")  # C alone would connect devices to a breaker

    assert isinstance(hand.tool, MarkLength)
    assert hand.tool.typed == "500 c"


def test_what_is_no_length_is_said_and_the_marks_stay() -> None:
    hand = hand_with(MarkLength())
    hand.drag((1000, 1000), (3000, 1000))
    hand.type("5 m m")
    hand.key("enter")

    assert "not a length" in hand.said
    assert hand.home == with_picture()
    hand.type("5")
    hand.key("enter")
    assert picture(hand).width == 20_000


def test_another_click_marks_anew() -> None:
    hand = hand_with(MarkLength())
    hand.drag((1000, 1000), (3000, 1000))
    hand.click((0, 0))
    hand.click((4000, 0))
    hand.type("4")
    hand.key("enter")

    assert picture(hand).width == 8000


def test_a_click_in_one_place_marks_one_end_only() -> None:
    hand = hand_with(MarkLength())
    hand.click((1000, 1000))
    hand.click((1010, 1000))  # within reach: the hand trembled

    assert isinstance(hand.tool, MarkLength)
    assert not hand.tool.is_typing


def test_two_clicks_along_a_wall_straighten_the_picture() -> None:
    hand = hand_with(MarkWall())
    hand.click((0, 0))
    hand.click((8000, 140))

    assert (picture(hand).angle, hand.tool) == (359, Select())


def test_a_wall_that_is_straight_makes_no_edit() -> None:
    hand = hand_with(MarkWall())
    hand.click((0, 0))
    hand.click((8000, 0))

    assert hand.history.past == ()
    assert "straight already" in hand.said


def test_dragging_moves_the_picture_and_the_tool_stays() -> None:
    hand = hand_with(MovePicture())
    hand.drag((1000, 1000), (1500, 700))

    assert picture(hand).at == (500, -300)
    assert isinstance(hand.tool, MovePicture)


@pytest.mark.parametrize("tool", [MarkLength(), MarkWall(), MovePicture()])
def test_escape_drops_what_is_begun_then_the_tool_and_changes_nothing(tool: Tool) -> None:
    hand = hand_with(tool)
    hand.press((1000, 1000))
    hand.key("escape")
    assert hand.tool == tool
    hand.key("escape")

    assert hand.tool == Select()
    assert hand.home == with_picture()


@pytest.mark.parametrize("tool", [MarkLength(), MarkWall(), MovePicture()])
def test_a_locked_picture_lets_go_of_the_tool_and_says_why(tool: Tool) -> None:
    locked = lock_underlay(with_picture(), level_of(house()), True).home
    hand = Hand(locked, tool)
    hand.drag((0, 0), (3000, 100))

    assert hand.home == locked
    assert hand.tool == Select()


@pytest.mark.parametrize("tool", [MarkLength(), MarkWall(), MovePicture()])
def test_without_a_picture_the_tool_says_how_to_get_one(tool: Tool) -> None:
    hand = Hand(house(), tool)
    hand.press((0, 0))

    assert "Drag one in" in hand.said
