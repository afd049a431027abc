"""Copies put down once a click: a box with its gangs on any wall, a group as it stands, a room with all in it."""

import pytest

from floorplan_circuits.edits.boxes import join_box, put_device
from floorplan_circuits.edits.pasting import Clip, copied
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.stamping import SAYS, StampClip
from floorplan_circuits.home.boxes import NOT_KNOWN
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from tests.edits.samples import box_of, breaker_at, house, level_of
from tests.gestures.hand import Hand

HALL = ((4000, 0), (8000, 0), (8000, 3000), (4000, 3000))


def wired() -> Home:
    """The kitchen with a switch of two gangs (B3), a ceiling light (B4), all tied; and a hall beside it."""
    home = add_room(house(), level_of(house()), HALL, "Hall").home
    home = join_box(home, box_of(home, "B3"), "switch").home
    home = put_device(home, level_of(home), (2000, 1500), 90, "ceiling light").home
    return tie(home, home.boxes.ids(), breaker_at(home, 1)).home


def stamping(*marks: str, home: Home | None = None) -> Hand:
    home = home or wired()
    return Hand(home, StampClip(copied(home, [box_of(home, mark) for mark in marks])))


def test_a_box_with_its_gangs_is_put_down_on_wall_after_wall_and_turns_to_each():
    hand = stamping("B3")

    hand.click((4060, 1000))
    hand.click((6000, 2950))

    first, second = hand.home.boxes.rows[-2:]
    assert (first.at, first.angle, second.at, second.angle) == ((4000, 1000), 0, (6000, 3000), 270)
    assert [one.kind for one in second.devices] == ["switch", "switch"]
    assert len(hand.history.past) == hand.gestures == 2
    assert hand.selected == (Subject("box", second.id),)
    assert all(feed.on == NOT_KNOWN for box in (first, second) for feed in box.feeds())


def test_a_group_keeps_its_shape_and_meets_the_wall_it_is_near():
    hand = stamping("B1", "B2", "B4")

    hand.click((6000, 900))

    assert [(box.at, box.angle, box.mount) for box in hand.home.boxes.rows[-3:]] == [
        ((5500, 0), 90, "wall"),
        ((6500, 0), 90, "wall"),
        ((6500, 1500), 90, "ceiling"),
    ]


def test_arrows_turn_and_mirror_what_is_in_hand():
    hand = stamping("B1", "B2")

    hand.do_move((4900, 1500))
    hand.key("right")
    hand.click((4900, 1500))
    assert [(box.at, box.angle) for box in hand.home.boxes.rows[-2:]] == [((4900, 1000), 180), ((4900, 2000), 180)]
    hand.key("left")
    hand.key("up")
    hand.click((6000, 100))
    assert [(box.at, box.angle) for box in hand.home.boxes.rows[-2:]] == [((6500, 0), 90), ((5500, 0), 90)]


def test_a_room_is_put_down_with_all_in_it():
    home = wired()
    room = home.rooms.rows[0].id
    hand = Hand(home, StampClip(copied(home, [room])))

    outcome = hand.click((6010, 4490))

    assert outcome.edit.says == "Paste 1 room and 4 boxes"
    assert hand.home.rooms.rows[-1].outline[0] == (4000, 3000)
    assert problems(hand.home) == ()


@pytest.mark.parametrize(
    ("clip", "at", "says"),
    [
        (None, (30_000, 30_000), "Click nearer to a wall: this box goes on one."),
        (Clip(), (1000, 1000), "Nothing of what was copied has a place on the plan."),
        (None, (10_000_500, 0), "Click nearer to a wall: this box goes on one."),
    ],
)
def test_a_refusal_leaves_the_home_and_the_clip_in_hand(clip, at, says):
    hand = stamping("B3")
    hand.tool = StampClip(clip) if clip is not None else hand.tool
    before = hand.home

    hand.click(at)

    assert (hand.said, hand.home) == (says, before)
    assert isinstance(hand.tool, StampClip)


def test_the_copy_is_shown_before_it_is_put_down_and_escape_leaves():
    hand = stamping("B3")

    hand.do_move((4060, 1000))
    assert (hand.draft.symbol, hand.draft.at, hand.draft.angle, hand.draft.words) == (
        "switch",
        (4000, 1000),
        0,
        "2 gangs",
    )
    assert hand.said == SAYS
    hand.key("escape")
    assert hand.tool == Select()
