"""Gangs: another order, another box; every device and feed is there afterwards, once."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.asking import touched_evidence
from floorplan_circuits.edits.boxes import join_box, set_box
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.gangs import carry_device, order_gang
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.record import change
from tests.edits.samples import box_of, breaker_at, device_of, feeds_in, house, read
from tests.homes import homes


def three_gangs() -> Home:
    """The house with a dimmer and a fan control joined to the switch in B3."""
    home = join_box(house(), box_of(house(), "B3"), "dimmer").home
    return join_box(home, box_of(home, "B3"), "fan control").home


def kinds(home: Home, mark: str) -> list[str]:
    box = home.boxes[box_of(home, mark)]
    return [one.kind for one in sorted(box.devices, key=lambda one: one.slot)]


def test_a_device_is_dragged_into_order_and_the_others_move_up():
    home = three_gangs()

    edited = order_gang(home, device_of(home, "B3", 0), 3)

    assert kinds(edited.home, "B3") == ["dimmer", "fan control", "switch"]
    assert edited.says == "Put the switch in gang 3 of B3"
    assert kinds(order_gang(home, device_of(home, "B3", 2), 1).home, "B3") == ["fan control", "switch", "dimmer"]
    assert order_gang(home, device_of(home, "B3", 1), 2).home is home


def test_a_free_gang_is_taken_alone():
    home = three_gangs()
    box = home.boxes[box_of(home, "B3")]
    home = change(home, boxes=home.boxes.put(change(box, gangs=4)))

    after = order_gang(home, device_of(home, "B3", 0), 4).home

    assert [one.slot for one in after.boxes[box.id].devices] == [4, 2, 3]


def test_a_device_goes_to_another_box_and_the_gang_it_left_is_closed_up():
    home = three_gangs()

    edited = carry_device(home, device_of(home, "B3", 1), box_of(home, "B2"))
    after = edited.home

    assert edited.says == "Carry the dimmer from B3 to B2"
    assert (kinds(after, "B3"), kinds(after, "B2")) == (["switch", "fan control"], ["duplex receptacle", "dimmer"])
    assert (after.boxes[box_of(after, "B3")].gangs, after.boxes[box_of(after, "B2")].gangs) == (2, 2)


def test_it_can_be_put_before_what_is_there():
    home = three_gangs()

    after = carry_device(home, device_of(home, "B3", 1), box_of(home, "B2"), 1).home

    assert kinds(after, "B2") == ["dimmer", "duplex receptacle"]


def test_a_box_left_empty_goes_unless_somebody_noted_something_about_it():
    home = house()
    noted = set_box(home, box_of(home, "B1"), note="stands open").home

    assert len(carry_device(home, device_of(home, "B1"), box_of(home, "B2")).home.boxes) == 2
    assert len(carry_device(noted, device_of(noted, "B1"), box_of(noted, "B2")).home.boxes) == 3


def test_evidence_is_asked_about_when_a_device_changes_its_box_and_not_when_it_changes_its_gang():
    home = three_gangs()
    home = read(home, feeds_in(home, "B3")[:1], breaker_at(home, 1))

    assert touched_evidence(home, order_gang(home, device_of(home, "B3"), 3).home) == ((), ())
    carried = carry_device(home, device_of(home, "B3"), box_of(home, "B2")).home
    assert box_of(home, "B3") in touched_evidence(home, carried).boxes


def test_what_can_not_be_is_refused():
    home = three_gangs()
    full = home
    for _ in range(11):
        full = join_box(full, box_of(full, "B2"), "switch").home

    with pytest.raises(Refused, match="no gang 4"):
        order_gang(home, device_of(home, "B3"), 4)
    with pytest.raises(Refused, match="in B3 already"):
        carry_device(home, device_of(home, "B3"), box_of(home, "B3"))
    with pytest.raises(Refused, match="12 gangs already"):
        carry_device(full, device_of(full, "B3"), box_of(full, "B2"))
    with pytest.raises(Refused, match="not there any more"):
        carry_device(home, 999_999, box_of(home, "B3"))


@settings(max_examples=60, deadline=None)
@given(homes(), st.data())
def test_whatever_is_carried_every_device_and_feed_is_there_once(home, data):
    devices = [device for box in home.boxes for device in box.devices]
    if not devices:
        return
    device, slot = data.draw(st.sampled_from(devices)), data.draw(st.integers(1, 5))
    try:
        after = carry_device(home, device.id, data.draw(st.sampled_from(home.boxes.ids())), slot).home
        box = next(box for box in after.boxes if any(one.id == device.id for one in box.devices))
        after = order_gang(after, device.id, min(slot, box.gangs)).home
    except Refused as refused:
        said = str(refused)
        assert said.endswith(".")
        return
    assert problems(after) == problems(home)
    assert sorted(feed.id for one in after.boxes for feed in one.feeds()) == sorted(
        feed.id for one in home.boxes for feed in one.feeds()
    )
    assert sorted(one.id for box in after.boxes for one in box.devices) == sorted(one.id for one in devices)
