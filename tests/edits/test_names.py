"""Names and uses, given in place."""

import pytest

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.names import USES, name_home, name_of, rename, set_use
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.home.boxes import Control
from floorplan_circuits.home.home import Home
from tests.edits.samples import SQUARE, device_of, house, level_of, panel_of, supplied, with_row


def thing(home: Home, kind: str) -> int:
    tables = {"room": home.rooms, "level": home.levels, "panel": home.panels, "control": home.controls}
    if kind == "device":
        return device_of(home, "B1")
    return home.sources.ids()[0] if kind == "source" else tables[kind].ids()[0]


@pytest.mark.parametrize("kind", ["room", "level", "panel", "control", "source", "device"])
def test_everything_with_a_name_takes_another(kind):
    home = supplied(with_row(house(), "controls", Control(id=house().next_id)), panel_of(house()))
    number = thing(home, kind)

    edited = rename(home, kind, number, "  Aunt  Ida's ")

    assert edited.says == "Name Aunt Ida's"
    assert name_of(edited.home, kind, number) == "Aunt Ida's"


def test_a_device_may_lose_its_name():
    home = rename(house(), "device", device_of(house(), "B1"), "fridge").home

    edited = rename(home, "device", device_of(home, "B1"), "")

    assert edited.says == "Name a device in B1"
    assert name_of(edited.home, "device", device_of(home, "B1")) == ""


def test_what_is_gone_has_no_name():
    assert [name_of(house(), kind, 999_999) for kind in ("device", "room", "panel")] == ["", "", ""]


def test_a_home_takes_a_name_and_loses_it():
    assert name_home(house(), " Mill ").home.name == "Mill"
    assert name_home(house(), "").says == "Name the home"
    with pytest.raises(Refused, match="at most 120 letters"):
        name_home(house(), "x" * 121)


@pytest.mark.parametrize(
    ("name", "use"),
    [
        ("Kitchen", "kitchen"),
        ("Bedroom 2", "bedroom"),
        ("Back bedroom", "bedroom"),
        ("Bathroom", "bath"),
        ("Dining room", "dining"),
        ("Hallway", "hall"),
        ("Hall closet", "closet"),
        ("Den", ""),
        ("7", ""),
    ],
)
def test_a_room_named_after_its_use_gets_it(name, use):
    made = add_room(new_home(), 1, SQUARE)

    assert rename(made.home, "room", made.made[0], name).home.rooms[made.made[0]].use == use


def test_a_use_that_was_said_stays():
    made = add_room(new_home(), 1, SQUARE)
    home = set_use(made.home, made.made, "study").home

    assert rename(home, "room", made.made[0], "Bedroom 2").home.rooms[made.made[0]].use == "study"


def test_several_rooms_get_a_use_at_once():
    home = add_room(house(), level_of(house()), SQUARE, "Other").home

    edited = set_use(home, [*home.rooms.ids(), 999_999], "laundry")

    assert edited.says == "Set the use to laundry"
    assert {room.use for room in edited.home.rooms} == {"laundry"}
    assert set_use(edited.home, home.rooms.ids(), "").says == "Set the use to none"


def test_uses_are_plain_words():
    assert all(use == use.lower().strip() for use in USES)
    assert len(set(USES)) == len(USES)
