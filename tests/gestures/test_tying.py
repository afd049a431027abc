"""Tying: a breaker, then devices, one or many; again to untie; until Escape."""

import pytest

from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.tying import ALL_TIED, NO_BREAKER, NO_ROOM, TIED, TieDevices
from floorplan_circuits.home.boxes import NOT_KNOWN
from tests.edits.samples import box_of, breaker_at, device_of, house, level_of, typed_in
from tests.gestures.hand import Hand


def tying(home=None) -> Hand:
    home = home or house()
    return Hand(home, TieDevices(breaker_at(home, 1)))


def box(hand: Hand, mark: str) -> Subject:
    return Subject("box", box_of(hand.home, mark))


def tied(hand: Hand) -> list[str]:
    return [one.mark for one in hand.home.boxes if one.feeds()[0].on != NOT_KNOWN]


def test_a_click_on_a_box_ties_it_and_says_that_it_is_only_a_claim():
    hand = tying()

    outcome = hand.click((1000, 60), box(hand, "B1"))

    assert outcome.edit.says == "Tie 1 feed to 1"
    assert hand.said == f"Tie 1 feed to 1. {TIED}"
    assert tied(hand) == ["B1"]
    assert hand.tool == TieDevices(breaker_at(hand.home, 1))


def test_a_click_on_one_device_ties_only_that():
    hand = tying()

    hand.click(on=Subject("device", device_of(hand.home, "B3")))

    assert tied(hand) == ["B3"]


def test_a_second_click_unties():
    hand = tying()
    hand.click((1000, 60), box(hand, "B1"))

    outcome = hand.click((1000, 60), box(hand, "B1"))

    assert outcome.edit.says == "Untie 1 feed"
    assert tied(hand) == []


def test_what_hangs_on_another_breaker_changes_over():
    home = typed_in(house(), 3, "15")
    home = tie(home, [box_of(home, "B1")], breaker_at(home, 3)).home
    hand = tying(home)

    hand.click((1000, 60), box(hand, "B1"))

    assert hand.home.boxes[box_of(home, "B1")].feeds()[0].on.supplies[0].breaker == breaker_at(home, 1)


def test_many_are_tied_in_one_drag_and_none_of_them_untied():
    hand = tying()
    hand.click((1000, 60), box(hand, "B1"))

    outcome = hand.drag((500, -500), (2500, 500))

    assert outcome.edit.says == "Tie 2 feeds to 1"
    assert tied(hand) == ["B1", "B2"]
    again = hand.drag((500, -500), (2500, 500))
    assert again.edit is None


@pytest.mark.parametrize("on", [None, Subject("room", 3), Subject("panel", 9)])
def test_a_click_on_what_takes_no_power_ties_nothing(on):
    hand = tying()

    assert hand.click((2000, 1500), on).edit is None
    assert hand.said.startswith("Click or drag round what 1 feeds; click again to untie. ")


def test_an_empty_marquee_says_what_to_do():
    hand = tying()

    assert hand.drag((5000, 5000), (6000, 6000)).edit is None
    assert "Choose devices first" in hand.said


def test_without_a_breaker_one_is_asked_for_and_a_click_takes_it():
    hand = tying()
    hand.tool = TieDevices()

    hand.click((1000, 60), box(hand, "B1"))
    assert (hand.said, tied(hand)) == (NO_BREAKER, [])
    outcome = hand.click(on=Subject("breaker", breaker_at(hand.home, 1)))
    assert hand.tool == TieDevices(breaker_at(hand.home, 1))
    assert outcome.selected == (Subject("breaker", breaker_at(hand.home, 1)),)


def test_a_breaker_that_is_gone_is_let_go():
    hand = tying()
    after = remove(hand.home, [breaker_at(hand.home, 1)])
    hand.history = hand.history.done(after.home, after.says)

    assert hand.click((1000, 60), box(hand, "B1")).edit is None
    assert hand.said == NO_BREAKER
    assert hand.tool == TieDevices()


def test_escape_leaves_the_tool_and_drops_the_marquee():
    hand = tying()
    assert hand.pull((500, -500), (2500, 500)).draft.marquee == ((500, -500), (2500, 500))
    before = hand.home

    hand.key("escape")

    assert (hand.tool, hand.draft) == (Select(), None)
    assert hand.home is before


def test_a_box_that_is_gone_is_refused():
    hand = tying()

    assert hand.click(on=Subject("box", 999_999)).edit is None
    assert "Choose devices first" in hand.said


def test_a_shift_click_on_the_floor_ties_what_nobody_has_tied_yet_in_the_room():
    home = typed_in(house(), 3, "15")
    hand = tying(tie(home, [box_of(home, "B1")], breaker_at(home, 3)).home)

    outcome = hand.click((2000, 1500), add=True)

    assert outcome.edit.says == "Tie 2 feeds to 1"
    assert breakers(hand) == [{breaker_at(home, 3)}, {breaker_at(home, 1)}, {breaker_at(home, 1)}]
    before = hand.home
    hand.click((2000, 1500), add=True)
    assert (hand.said, hand.home) == (ALL_TIED, before)
    hand.click((9000, 9000), add=True)
    assert (hand.said, hand.home) == (NO_ROOM, before)
    hand.click((2000, 1500))
    assert hand.home is before  # without shift the floor means nothing


def test_a_shift_drag_ties_only_what_nobody_has_tied_yet():
    home = typed_in(house(), 3, "15")
    hand = tying(tie(home, [box_of(home, "B1")], breaker_at(home, 3)).home)

    hand.drag((500, -500), (2500, 500), add=True)

    assert breakers(hand) == [{breaker_at(home, 3)}, {breaker_at(home, 1)}, set()]


def test_with_no_breaker_in_hand_a_click_takes_the_one_that_a_device_is_tied_to():
    home = tie(house(), [box_of(house(), "B1")], breaker_at(house(), 1)).home
    hand = Hand(home, TieDevices())

    hand.click(on=box(hand, "B2"))
    assert (hand.said, hand.tool) == (NO_BREAKER, TieDevices())
    hand.click(on=box(hand, "B1"))
    assert hand.tool == TieDevices(breaker_at(home, 1))
    assert hand.home is home
    hand.click(on=box(hand, "B2"))
    assert tied(hand) == ["B1", "B2"]


def breakers(hand: Hand) -> list[set[int]]:
    feeds = (one.feeds()[0] for one in hand.home.boxes)
    return [set() if feed.on == NOT_KNOWN else {one.breaker for one in feed.on.supplies} for feed in feeds]


def test_a_drag_within_a_room_means_what_hangs_on_its_walls_and_nothing_next_door():
    home = house()
    home = add_room(home, level_of(home), ((0, -3000), (4000, -3000), (4000, 0), (0, 0))).home
    home = put_device(home, level_of(home), (1500, 0), 270, "duplex receptacle").home
    hand = tying(home)
    assert [one.mark for one in home.boxes] == ["B1", "B2", "B3", "B4"]

    hand.drag((600, 120), (2400, 1500))
    assert tied(hand) == ["B1", "B2"]

    hand.drag((600, -120), (2400, 1500))
    assert tied(hand) == ["B1", "B2", "B4"]
