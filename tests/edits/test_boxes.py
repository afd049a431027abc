"""Boxes and devices: put, joined as the next gang, split into halves, set."""

import pytest

from floorplan_circuits.edits.boxes import (
    MOST_GANGS,
    add_passing,
    device_in,
    join_box,
    join_halves,
    put_device,
    set_box,
    set_device,
    split_halves,
)
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.home.boxes import NOT_KNOWN
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.kinds import catalogue
from floorplan_circuits.home.record import change
from tests.edits.samples import box_of, breaker_at, device_of, feeds_in, grouped, house, level_of


def test_a_device_makes_a_box_with_the_next_mark_at_its_usual_height():
    home = house()

    edited = put_device(home, level_of(home), (500, 3000), 270, "dimmer")
    box = edited.home.boxes[edited.made[0]]

    assert edited.says == "Put a dimmer in B4"
    assert (box.mark, box.at, box.angle, box.mount, box.gangs) == ("B4", (500, 3000), 270, "wall", 1)
    assert box.height == catalogue()["dimmer"].height
    assert [feed.on for feed in box.feeds()] == [NOT_KNOWN]
    assert edited.home.marks_given == 4


@pytest.mark.parametrize("kind", catalogue())
def test_every_kind_can_be_put_and_takes_its_own_mount(kind):
    home = house()

    edited = put_device(home, level_of(home), (500, 500), -90, kind)
    box = edited.home.boxes[edited.made[0]]

    assert (box.mount, box.angle) == (catalogue()[kind].mount, 270)
    assert problems(edited.home) == ()


def test_a_kind_that_nobody_knows_is_put_on_a_wall():
    edited = put_device(house(), level_of(house()), (0, 0), 0, "antenna socket")

    assert edited.says == "Put an antenna socket in B4"
    assert edited.home.boxes[edited.made[0]].mount == "wall"


# --- gangs ----------------------------------------------------------------------------------------------------------


def test_a_device_joins_a_box_as_its_next_gang():
    home = house()

    edited = join_box(home, box_of(home, "B3"), "switch")
    box = edited.home.boxes[box_of(home, "B3")]

    assert edited.says == "Add a switch to B3"
    assert [device.slot for device in box.devices] == [1, 2]
    assert box.gangs == 2
    assert edited.home.marks_given == home.marks_given


def test_a_blank_gang_is_taken_first():
    home = house()
    box = home.boxes[box_of(home, "B3")]
    second = change(box.devices[0], slot=2)
    home = change(home, boxes=home.boxes.put(change(box, gangs=3, devices=(second,))))

    joined = join_box(home, box.id, "switch").home.boxes[box.id]

    assert [device.slot for device in joined.devices] == [2, 1]
    assert joined.gangs == 3


def test_a_full_box_takes_no_more():
    home = house()
    for _ in range(MOST_GANGS - 1):
        home = join_box(home, box_of(home, "B3"), "switch").home

    with pytest.raises(Refused, match="B3 has 12 gangs already"):
        join_box(home, box_of(home, "B3"), "switch")


# --- halves ---------------------------------------------------------------------------------------------------------


def test_a_receptacle_splits_and_its_first_half_keeps_what_is_known():
    home = tie(house(), [box_of(house(), "B1")], breaker_at(house(), 1)).home
    before = device_in(home, device_of(home, "B1"))[1].feeds[0]

    edited = split_halves(home, device_of(home, "B1"))
    upper, lower = device_in(edited.home, device_of(home, "B1"))[1].feeds

    assert edited.says == "Split the halves in B1"
    assert (upper.part, upper.id, upper.on) == ("upper", before.id, before.on)
    assert (lower.part, lower.on) == ("lower", NOT_KNOWN)


def test_a_part_that_is_named_keeps_its_name_when_the_rest_is_split():
    home = split_halves(house(), device_of(house(), "B1")).home
    home = remove(home, feeds_in(home, "B1")[:1]).home

    feeds = device_in(split_halves(home, device_of(home, "B1")).home, device_of(home, "B1"))[1].feeds

    assert [feed.part for feed in feeds] == ["lower", "upper"]


def test_a_device_that_has_no_feed_gets_one_a_part():
    home = remove(house(), feeds_in(house(), "B1")).home

    feeds = device_in(split_halves(home, device_of(home, "B1")).home, device_of(home, "B1"))[1].feeds

    assert [feed.part for feed in feeds] == ["upper", "lower"]


def test_what_has_no_parts_or_is_split_already_is_refused():
    home = split_halves(house(), device_of(house(), "B1")).home

    with pytest.raises(Refused, match="split already"):
        split_halves(home, device_of(home, "B1"))
    with pytest.raises(Refused, match="A switch has no parts"):
        split_halves(home, device_of(home, "B3"))


def test_halves_join_on_the_first_and_nothing_names_the_other_any_more():
    home = split_halves(house(), device_of(house(), "B1")).home
    upper, lower = feeds_in(home, "B1")
    home = grouped(home, device_of(home, "B3"), [upper, lower])

    edited = join_halves(home, device_of(home, "B1"))

    assert edited.says == "Join the halves in B1"
    assert [(feed.id, feed.part) for feed in device_in(edited.home, device_of(home, "B1"))[1].feeds] == [(upper, "")]
    assert edited.home.controls.rows[0].feeds == (upper,)
    assert problems(edited.home) == ()


# --- the rest -------------------------------------------------------------------------------------------------------


def test_a_cable_that_passes_hangs_on_nothing_known():
    home = house()

    edited = add_passing(home, box_of(home, "B3"))

    assert edited.says == "Add a passing cable to B3"
    assert [feed.id for feed in edited.home.boxes[box_of(home, "B3")].passing] == list(edited.made)


def test_fields_of_a_device_and_a_box_are_set():
    home = house()

    device = set_device(home, device_of(home, "B1"), name="fridge", va=700, critical="food")
    box = set_box(home, box_of(home, "B1"), reach="behind the fridge", wiring="cloth")

    assert device.says == "Edit fridge in B1"
    assert device_in(device.home, device_of(home, "B1"))[1].va == 700
    assert box.says == "Edit box B1"
    assert box.home.boxes[box_of(home, "B1")].wiring == "cloth"
