"""Removing things: nothing that stays refers to what is gone, whatever is removed from whatever home."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.boxes import add_passing, join_box, put_device, set_box, split_halves
from floorplan_circuits.edits.breakers import tie_handles
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.numbering import next_mark
from floorplan_circuits.edits.panels import add_panel, set_panel
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.rooms import add_level, add_room
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.home.boxes import NOT_KNOWN, Behind, Supplied
from floorplan_circuits.home.building import Opening
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import ids, problems
from floorplan_circuits.home.record import change
from tests.edits.samples import (
    box_of,
    breaker_at,
    device_of,
    feeds_in,
    grouped,
    house,
    level_of,
    opened,
    panel_of,
    read,
    supplied,
    typed_in,
    with_row,
)
from tests.homes import homes


@st.composite
def homes_with_ids(draw: st.DrawFn) -> tuple[Home, list[int]]:
    """A wild home, and some of the ids in it."""
    home = draw(homes())
    known = sorted(ids(home))
    return home, draw(st.lists(st.sampled_from(known), unique=True, max_size=8)) if known else []


@settings(max_examples=100)
@given(homes_with_ids())
def test_whatever_is_removed_the_home_stays_sound(drawn):
    home, wanted = drawn
    try:
        edited = remove(home, wanted)
    except Refused:
        assert not set(wanted) & set(ids(home)) - {entry.id for entry in home.log}
        return
    assert problems(edited.home) == ()
    assert not set(wanted) & set(ids(edited.home)) - {entry.id for entry in home.log}
    assert edited.says.startswith("Remove ")
    assert edited.home.log == home.log


@settings(max_examples=40)
@given(homes_with_ids())
def test_no_mark_and_no_id_of_what_was_removed_is_given_again(drawn):
    home, wanted = drawn
    try:
        after = remove(home, wanted).home
    except Refused:
        return
    assert after.next_id == home.next_id
    assert next_mark(after) == next_mark(home)


def test_the_mark_of_the_last_box_is_not_given_again_though_the_file_did_not_count_it():
    home = change(house(), marks_given=0)

    after = remove(home, [box_of(home, "B3")]).home

    assert next_mark(after) == "B4"


# --- boxes ----------------------------------------------------------------------------------------------------------


def test_a_box_that_loses_its_last_device_goes_with_it_and_nothing_names_it():
    home = grouped(house(), device_of(house(), "B3"), feeds_in(house(), "B1"))

    after = remove(home, [device_of(home, "B3")]).home

    assert [box.mark for box in after.boxes] == ["B1", "B2"]
    assert after.controls.rows[0].enters is None
    assert after.controls.rows[0].switches == ()
    assert problems(after) == ()


@pytest.mark.parametrize("noted", ["opened", "note", "passing"])
def test_a_box_of_which_something_is_known_stays_empty(noted):
    home = house()
    box = box_of(home, "B3")
    if noted == "opened":
        home = opened(home, "B3")
    elif noted == "note":
        home = set_box(home, box, note="cloth cable, handle with care").home
    else:
        home = add_passing(home, box).home

    after = remove(home, [device_of(home, "B3")]).home

    assert after.boxes[box].devices == ()
    assert problems(after) == ()


def test_a_removed_box_stays_in_the_log():
    home = opened(house(), "B1")

    after = remove(home, [box_of(home, "B1")]).home

    assert after.log == home.log
    assert problems(after) == ()


def test_the_gangs_close_up_where_a_device_goes():
    home = house()
    box = box_of(home, "B3")
    for kind in ("dimmer", "fan control"):
        home = join_box(home, box, kind).home
    assert home.boxes[box].gangs == 3

    after = remove(home, [device_of(home, "B3", 1)]).home

    assert [(device.kind, device.slot) for device in after.boxes[box].devices] == [("switch", 1), ("fan control", 2)]
    assert after.boxes[box].gangs == 2


def test_a_blank_gang_stays_blank_when_a_cable_goes():
    home = house()
    box = box_of(home, "B3")
    wide = change(home.boxes[box], gangs=4)
    home = add_passing(change(home, boxes=home.boxes.put(wide)), box).home

    after = remove(home, [home.boxes[box].passing[0].id])

    assert after.home.boxes[box].gangs == 4
    assert after.says == "Remove cable in B3"


def test_half_a_receptacle_can_be_removed():
    home = split_halves(house(), device_of(house(), "B1")).home
    lower = feeds_in(home, "B1")[1]

    edited = remove(home, [lower])

    assert edited.says == "Remove feed in B1"
    assert feeds_in(edited.home, "B1") == feeds_in(home, "B1")[:1]


def test_what_hung_behind_a_removed_feed_is_unknown():
    home = house()
    first, behind = feeds_in(home, "B1")[0], home.boxes[box_of(home, "B2")]
    fed = change(behind.devices[0], feeds=(change(behind.devices[0].feeds[0], on=Behind(how="behind", feed=first)),))
    home = change(home, boxes=home.boxes.put(change(behind, devices=(fed,))))

    after = remove(home, [box_of(home, "B1")]).home

    assert after.boxes[behind.id].feeds()[0].on == NOT_KNOWN


# --- power ----------------------------------------------------------------------------------------------------------


def test_feeds_of_a_removed_breaker_are_unknown():
    home = house()
    home = tie(home, [box.id for box in home.boxes], breaker_at(home, 1)).home

    after = remove(home, [breaker_at(home, 1)]).home

    assert all(feed.on == NOT_KNOWN for box in after.boxes for feed in box.feeds())


def test_a_loop_keeps_the_breaker_that_stays():
    home = typed_in(house(), 3, "15")
    box = home.boxes[box_of(home, "B1")]
    one, other = (tie(home, [box.id], breaker_at(home, space)).home.boxes[box.id].feeds()[0].on for space in (1, 3))
    loop = Supplied(how="any", supplies=(*one.supplies, *other.supplies))
    device = change(box.devices[0], feeds=(change(box.devices[0].feeds[0], on=loop),))
    home = change(home, boxes=home.boxes.put(change(box, devices=(device,))))

    after = remove(home, [breaker_at(home, 1)]).home

    assert after.boxes[box.id].feeds()[0].on == other


def test_a_panel_takes_its_breakers_along_and_what_it_fed_is_fed_by_nothing():
    home = house()
    home = tie(home, [box_of(home, "B1")], breaker_at(home, 1)).home
    home = add_panel(home, 4, "Garage", fed_by=breaker_at(home, 1)).home
    home = supplied(home, panel_of(home))

    after = remove(home, [panel_of(home)]).home

    assert [panel.name for panel in after.panels] == ["Garage"]
    assert after.panels.rows[0].fed_by == ()
    assert len(after.breakers) == 0
    assert after.sources.rows[0].into == ()
    assert problems(after) == ()


def test_a_main_can_be_removed_by_itself():
    home = house()
    panel = home.panels[panel_of(home)]

    edited = remove(home, [panel.mains[0].id])

    assert edited.says == "Remove main of Main panel"
    assert edited.home.panels[panel.id].mains == ()


def test_a_handle_is_not_tied_to_nothing():
    home = typed_in(house(), 3, "15")
    home = tie_handles(home, [breaker_at(home, 1), breaker_at(home, 3)]).home

    after = remove(home, [breaker_at(home, 3)]).home

    assert after.breakers[breaker_at(home, 1)].tie is None


def test_of_three_tied_handles_two_stay_tied():
    home = typed_in(typed_in(house(), 3, "15"), 5, "15")
    home = tie_handles(home, [breaker_at(home, space) for space in (1, 3, 5)]).home

    after = remove(home, [breaker_at(home, 3)]).home

    assert after.breakers[breaker_at(home, 1)].tie == after.breakers[breaker_at(home, 5)].tie is not None


def test_readings_outlive_what_they_read():
    home = read(house(), feeds_in(house(), "B1"), breaker_at(house(), 1))

    after = remove(home, [box_of(home, "B1"), breaker_at(home, 1)]).home

    assert after.log == home.log
    assert problems(after) == ()


# --- the building ---------------------------------------------------------------------------------------------------


def test_a_level_takes_its_rooms_and_boxes_along():
    home = house()

    after = remove(home, [level_of(home)]).home

    assert (len(after.rooms), len(after.boxes)) == (0, 0)
    assert len(after.panels) == 1
    assert problems(after) == ()


def test_a_room_keeps_its_boxes():
    home = house()

    edited = remove(home, [home.rooms.rows[0].id])

    assert edited.says == "Remove room Kitchen"
    assert edited.home.boxes is home.boxes


def test_a_door_goes_with_the_last_room_that_has_its_wall():
    home = add_room(house(), level_of(house()), [(4000, 0), (7000, 0), (7000, 3000), (4000, 3000)], "Hall").home
    door = Opening(id=home.next_id, level=level_of(home), kind="door", at=(4000, 1500), width=800, angle=0)
    home = with_row(home, "openings", door)
    kitchen, hall = home.rooms.ids()

    once = remove(home, [kitchen]).home

    assert once.openings == home.openings
    assert len(remove(once, [hall]).home.openings) == 0


# --- in words -------------------------------------------------------------------------------------------------------


def test_several_things_are_counted_by_kind():
    home = put_device(house(), level_of(house()), (500, 500), 0, "ceiling light").home
    wanted = [box_of(home, "B1"), box_of(home, "B2"), home.rooms.rows[0].id, device_of(home, "B3")]

    assert remove(home, wanted).says == "Remove 1 room, 2 boxes, 1 device"


@pytest.mark.parametrize("wanted", [[], [999_999]])
def test_nothing_to_remove_is_refused(wanted):
    with pytest.raises(Refused, match="Nothing is selected"):
        remove(house(), wanted)


def test_what_does_not_change_is_the_very_table():
    home = house()

    after = remove(home, [box_of(home, "B1")]).home

    assert after.rooms is home.rooms
    assert after.breakers is home.breakers
    assert after.panels is home.panels


def test_a_level_that_goes_leaves_its_panel_with_all_its_breakers() -> None:
    home = add_panel(new_home(), 8).home
    level = home.levels.ids()[0]
    panel = home.panels.rows[0]
    home = set_panel(home, panel.id, level=level, at=(0, 0)).home
    gone = remove(add_level(home, "Upper floor").home, [level]).home

    assert gone.panels[panel.id].level is None
    assert problems(gone) == ()
