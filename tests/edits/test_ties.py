"""Ties: claims of which breaker feeds what, many at once, across poles where a load takes both."""

import pytest

from floorplan_circuits.edits.boxes import add_passing, join_box, put_device, split_halves
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.ties import feeds_of, tie, untie
from floorplan_circuits.home.boxes import NOT_KNOWN, Feed, FromBreaker, Supplied
from floorplan_circuits.home.home import Home, feeds
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.record import change
from tests.edits.samples import box_of, breaker_at, device_of, feeds_in, house, level_of, typed_in


def on(home: Home, feed: int):
    return next(place.feed.on for place in feeds(home) if place.feed.id == feed)


def breakers_of(home: Home, feed: int) -> list[tuple[int, int | None]]:
    hangs = on(home, feed)
    return [(one.breaker, one.pole) for one in hangs.supplies] if isinstance(hangs, Supplied) else []


def test_many_boxes_are_tied_at_once():
    home = house()

    edited = tie(home, home.boxes.ids(), breaker_at(home, 1))

    assert edited.says == "Tie 3 feeds to 1"
    assert all(breakers_of(edited.home, place.feed.id) == [(breaker_at(home, 1), None)] for place in feeds(edited.home))
    assert {place.feed.said_by for place in feeds(edited.home)} == {"person"}


def test_one_half_can_be_tied_alone():
    home = split_halves(house(), device_of(house(), "B1")).home
    upper, lower = feeds_in(home, "B1")

    after = tie(home, [lower], breaker_at(home, 1)).home

    assert on(after, upper) == NOT_KNOWN
    assert breakers_of(after, lower) == [(breaker_at(home, 1), None)]


def test_one_device_of_a_box_can_be_tied_alone():
    home = join_box(house(), box_of(house(), "B3"), "dimmer").home

    after = tie(home, [device_of(home, "B3", 1)], breaker_at(home, 1)).home

    assert [bool(breakers_of(after, feed)) for feed in feeds_in(home, "B3")] == [False, True]


def test_what_only_passes_through_a_box_is_not_tied_with_it():
    home = add_passing(house(), box_of(house(), "B3")).home
    inside, passing = feeds_in(home, "B3")

    after = tie(home, [box_of(home, "B3")], breaker_at(home, 1)).home

    assert (bool(breakers_of(after, inside)), on(after, passing)) == (True, NOT_KNOWN)
    assert breakers_of(tie(home, [passing], breaker_at(home, 1)).home, passing)


def test_a_box_in_which_cables_only_pass_is_tied_by_them():
    home = house()
    box = change(home.boxes[box_of(home, "B3")], devices=(), passing=(Feed(id=home.next_id),))
    home = change(home, boxes=home.boxes.put(box), next_id=home.next_id + 1)

    assert len(feeds_of(home, [box.id])) == 1
    assert breakers_of(tie(home, [box.id], breaker_at(home, 1)).home, box.passing[0].id)


@pytest.mark.parametrize(
    ("kind", "breaker", "poles"),
    [
        ("240 V receptacle", "30/2", [0, 1]),
        ("240 V receptacle", "15", [None]),
        ("240 V receptacle", "60/3", [None]),
        ("240 V receptacle", "60/4", [None]),
        ("switch", "30/2", [None]),
        ("something nobody knows", "30/2", [None]),
    ],
)
def test_only_a_load_that_takes_all_poles_hangs_on_each(kind, breaker, poles):
    home = typed_in(house(), 2, breaker)
    made = put_device(home, level_of(home), (500, 0), 90, kind)

    edited = tie(made.home, made.made, breaker_at(home, 2))
    (feed,) = feeds_of(edited.home, made.made)

    assert [one.pole for one in feed.on.supplies] == poles
    assert feed.on.how == ("all" if len(poles) > 1 else "any")
    assert problems(edited.home) == ()


def test_the_menu_calls_a_breaker_by_its_spaces():
    home = typed_in(house(), 2, "30/2 dryer")

    assert tie(home, [box_of(home, "B1")], breaker_at(home, 2)).says == "Tie 1 feed to 2·4"
    assert tie(home, [box_of(home, "B1")], breaker_at(home, 2), "the dryer").says == "Tie 1 feed to the dryer"


def test_a_label_s_word_becomes_a_person_s_when_a_person_says_otherwise():
    home = typed_in(house(), 3, "15")
    box = home.boxes[box_of(home, "B1")]
    said = Supplied(how="any", supplies=(FromBreaker(kind="breaker", breaker=breaker_at(home, 1)),))
    labelled = change(box.devices[0].feeds[0], on=said, said_by="label")
    home = change(home, boxes=home.boxes.put(change(box, devices=(change(box.devices[0], feeds=(labelled,)),))))

    same, other = (tie(home, [box.id], breaker_at(home, space)).home for space in (1, 3))

    assert same is home
    assert other.boxes[box.id].feeds()[0].said_by == "person"


def test_untying_leaves_nothing_said():
    home = tie(house(), [box_of(house(), "B1")], breaker_at(house(), 1)).home

    edited = untie(home, home.boxes.ids())

    assert edited.says == "Untie 3 feeds"
    assert {(place.feed.on, place.feed.said_by) for place in feeds(edited.home)} == {(NOT_KNOWN, "not said")}


def test_what_takes_no_power_can_not_be_tied():
    home = remove(house(), feeds_in(house(), "B3")).home

    for edit in (lambda: tie(home, [box_of(home, "B3")], breaker_at(home, 1)), lambda: untie(home, [1])):
        with pytest.raises(Refused, match="Choose devices first"):
            edit()
