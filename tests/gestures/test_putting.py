"""Putting devices: they turn to walls, join boxes, hang from ceilings, one a click until Escape."""

import pytest

from floorplan_circuits.edits.boxes import MOST_GANGS, join_box
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.events import Press, Release
from floorplan_circuits.gestures.putting import GANGS_TYPED, PutDevice
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.home.home import Home
from tests.edits.samples import box_of, house, level_of
from tests.gestures.hand import Hand


def putting(kind: str = "switch", home: Home | None = None) -> Hand:
    return Hand(home or house(), PutDevice(kind))


def last(hand: Hand):
    return hand.home.boxes.rows[-1]


@pytest.mark.parametrize(
    ("at", "place", "angle", "mount"),
    [
        ((2000, 2900), (2000, 3000), 270, "wall"),
        ((100, 1000), (0, 1000), 0, "wall"),
        ((-100, 1000), (0, 1000), 180, "outdoor"),
        ((4000, 1000), (4000, 1000), 180, "wall"),
    ],
)
def test_a_click_near_a_wall_makes_a_box_that_turns_to_it(at, place, angle, mount):
    hand = putting()

    outcome = hand.click(at)

    assert (last(hand).at, last(hand).angle, last(hand).mount) == (place, angle, mount)
    assert outcome.edit.says == "Put a switch in B4"
    assert outcome.selected == (Subject("box", last(hand).id),)
    assert "unknown until you tie or test it" in hand.said
    assert hand.tool == PutDevice("switch")


@pytest.mark.parametrize(("at", "angle"), [((2000, 2900), 270), ((100, 1000), 0), ((2000, 1500), 90)])
def test_a_loose_cable_end_stays_where_it_is_put_and_turns_away_from_the_wall_beside_it(at, angle):
    hand = putting("loose cable end")

    hand.click(at)

    assert (last(hand).at, last(hand).angle, last(hand).mount) == (at, angle, "loose cable end")


def test_a_click_far_from_any_wall_says_so_and_puts_nothing():
    hand = putting()

    hand.click((2000, 1500))

    assert hand.said == "Click nearer to a wall to put a switch. Shift-click puts it on the ceiling."
    assert len(hand.home.boxes) == 3

    hand.click((2000, 1500), add=True)
    assert (last(hand).at, last(hand).mount) == ((2000, 1500), "ceiling")


def test_a_click_on_a_box_adds_the_next_gang():
    hand = putting()

    hand.click((3000, 60))
    outcome = hand.click((3050, 90))

    assert outcome.edit.says == "Add a switch to B3"
    assert outcome.selected == (Subject("box", box_of(hand.home, "B3")),)
    assert [device.slot for device in hand.home.boxes[box_of(hand.home, "B3")].devices] == [1, 2, 3]
    assert len(hand.home.boxes) == 3


def test_a_box_on_the_other_side_of_the_wall_is_another_box():
    above = [(0, -3000), (4000, -3000), (4000, 0), (0, 0)]
    hand = putting(home=add_room(house(), level_of(house()), above, "Hall").home)

    hand.click((3000, -60))

    assert (last(hand).mark, last(hand).at, last(hand).angle) == ("B4", (3000, 0), 270)


def test_a_ceiling_light_hangs_where_it_is_clicked_and_joins_only_ceiling_boxes():
    hand = putting("ceiling light")

    hand.click((2000.4, 1500))
    hand.click((3000, 10))
    hand.click((2050, 1550))

    assert [(box.mark, box.at, box.mount, len(box.devices)) for box in hand.home.boxes.rows[3:]] == [
        ("B4", (2000, 1500), "ceiling", 2),
        ("B5", (3000, 10), "ceiling", 1),
    ]


def test_a_floor_receptacle_does_not_join_a_ceiling_box():
    hand = putting("ceiling light")
    hand.click((2000, 1500))
    hand.tool = PutDevice("floor receptacle")

    hand.click((2000, 1500))

    assert last(hand).mount == "floor"


def test_a_full_box_says_why_and_stays_as_it_is():
    home = house()
    for _ in range(MOST_GANGS - 1):
        home = join_box(home, box_of(home, "B3"), "switch").home
    hand = putting(home=home)

    outcome = hand.click((3000, 60))

    assert outcome.edit is None
    assert "12 gangs already" in hand.said
    assert hand.home is home


def test_off_the_sheet_nothing_is_put():
    hand = putting("ceiling light")

    assert hand.click((2e7, 0)).edit is None
    assert "ten kilometres" in hand.said


def test_many_are_put_until_escape():
    hand = putting("duplex receptacle")
    for y in (500, 1000, 1500):
        hand.click((60, y))

    outcome = hand.key("escape")

    assert len(hand.home.boxes) == 6
    assert outcome.edit is None
    assert hand.tool == Select()


def test_only_a_click_that_began_with_the_tool_puts_a_device():
    hand = putting()

    assert hand.do(Release((60, 1000))).edit is None
    hand.do(Press((60, 1000)))
    hand.key("escape")
    assert hand.do(Release((60, 1000))).edit is None
    assert len(hand.home.boxes) == 3


def test_the_draft_shows_where_it_would_go_and_whether_it_joins():
    hand = putting()

    hand.pull((60, 900), (60, 1000))
    assert (hand.draft.symbol, hand.draft.at, hand.draft.angle, hand.draft.joins) == ("switch", (0, 1000), 0, False)
    hand.pull((3000, 60), (3010, 60))
    assert (hand.draft.at, hand.draft.joins) == ((3000, 0), True)
    assert hand.said == "Click to add a switch to box B3. Esc leaves the tool."
    hand.pull((2000, 1500), (2010, 1500))
    assert (hand.draft.at, hand.draft.angle) == ((2010, 1500), 90)
    assert hand.said == f"Click a wall to place a switch. {GANGS_TYPED} Esc leaves the tool."


def test_a_plus_puts_one_more_into_one_box_at_each_click():
    hand = putting()

    hand.type("++")
    assert hand.said == f"Click a wall to place 3 switches in one box. {GANGS_TYPED} Esc leaves the tool."
    hand.click((60, 900))
    hand.click((3000, 60))

    new, joined = hand.home.boxes.rows[-1], hand.home.boxes[box_of(hand.home, "B3")]
    assert [(one.slot, one.kind) for one in new.devices] == [(1, "switch"), (2, "switch"), (3, "switch")]
    assert [box.gangs for box in (new, joined)] == [3, 4]
    assert hand.said.startswith("Add 3 switches to B3.")
    hand.type("---")
    hand.click((60, 1800))
    assert hand.home.boxes.rows[-1].gangs == 1
    assert len(hand.history.past) == hand.gestures == 3
