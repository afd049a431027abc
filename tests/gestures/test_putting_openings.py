"""Doors, windows and open ways: one click each, with the width typed."""

import pytest

from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.putting_openings import PutOpening
from floorplan_circuits.gestures.selecting import Select
from tests.edits.samples import house, level_of
from tests.gestures.hand import Hand

HALL = ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))


def putting(kind: str) -> Hand:
    home = house()
    return Hand(add_room(home, level_of(home), HALL, "Hall").home, PutOpening(kind))


def put(hand: Hand):
    return hand.home.openings.rows[-1]


@pytest.mark.parametrize("kind", ["door", "window", "open way"])
def test_one_click_puts_one_and_the_tool_stays(kind):
    hand = putting(kind)

    hand.click((3950, 1500))
    hand.click((2000, 2960))

    assert [one.kind for one in hand.home.openings] == [kind, kind]
    assert hand.gestures == len(hand.history.past) == 2
    assert hand.selected == (Subject("opening", put(hand).id),)


def test_a_door_opens_to_the_side_that_was_clicked():
    hand = putting("door")

    hand.click((3950, 700))
    assert (put(hand).angle, put(hand).hinge, put(hand).swing) == (180, "right", "ahead")

    hand.click((4050, 2300))
    assert (put(hand).angle, put(hand).hinge) == (0, "right")


def test_a_width_that_is_typed_stays_for_those_that_come():
    hand = putting("window")

    hand.type("2.0")
    assert hand.said.startswith("2.0 wide")
    hand.click((2000, 2960))
    hand.click((5500, 2960))

    assert [one.width for one in hand.home.openings] == [2000, 2000]


def test_a_width_is_mended_and_dropped_without_leaving_the_tool():
    hand = putting("door")

    hand.type("0.75")
    hand.key("backspace")
    hand.key("enter")
    assert hand.tool == PutOpening("door", 700)

    hand.type("9")
    hand.key("escape")
    assert hand.tool == PutOpening("door", 700)
    hand.key("escape")
    assert hand.tool == Select()


def test_what_is_no_width_is_told_and_puts_nothing():
    hand = putting("door")

    hand.type("0..")
    hand.click((2000, 2960))

    assert "not a length" in hand.said
    assert len(hand.home.openings) == 0


def test_a_click_on_a_door_hangs_it_the_other_way():
    hand = putting("door")
    hand.click((3950, 700))
    before = put(hand)

    hand.click((3950, 700), Subject("opening", before.id))

    assert put(hand).id == before.id
    assert (put(hand).hinge, put(hand).swing) != (before.hinge, before.swing)
    assert hand.said == "Turn a door over."


@pytest.mark.parametrize(
    ("at", "says"), [((2000, 1500), "nearer to a wall"), ((2000, 2960), "already"), ((2400, 3040), "already")]
)
def test_where_one_can_not_be_the_home_is_unchanged(at, says):
    hand = putting("window")
    hand.click((2000, 2960))
    home = hand.home

    hand.click(at)

    assert hand.home is home
    assert says in hand.said


def test_the_draft_shows_its_place_and_width():
    hand = putting("door")

    draft = hand.pull((3950, 1400), (3950, 1500)).draft

    assert draft.words == "0.80 m"
    assert set(draft.lines[0]) == {(4000.0, 1100.0), (4000.0, 1900.0)}


def test_a_door_is_dragged_along_its_wall_and_to_another():
    hand = putting("door")
    hand.click((3950, 700))
    door = Subject("opening", put(hand).id)
    hand.key("escape")

    hand.drag((4000, 700), (4010, 2000), door)
    assert (put(hand).at, put(hand).angle) == ((4000, 2000), 180)

    hand.drag((4000, 2000), (2000, 2990), door)
    assert put(hand).at == (2000, 3000)
    assert put(hand).angle in (90, 270)
