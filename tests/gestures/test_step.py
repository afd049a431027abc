"""One event with whatever tool is in hand: letters take tools, Escape gives way to selecting."""

import pytest

from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.drawing_rooms import DrawRoom
from floorplan_circuits.gestures.putting import PutDevice
from floorplan_circuits.gestures.putting_panels import PutPanel
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.step import BUILDING_KEYS, TIE_KEY, at_rest, says_of, tool_for_key
from floorplan_circuits.gestures.tying import TieDevices
from floorplan_circuits.home.kinds import catalogue
from tests.edits.samples import box_of, breaker_at, house, panel_of
from tests.gestures.hand import Hand

TOOLS = (
    Select(), *BUILDING_KEYS.values(), PutDevice("switch"), PutPanel(panel_of(house())),
    TieDevices(breaker_at(house(), 1)),
)  # fmt: skip


@pytest.mark.parametrize("tool", TOOLS)
@pytest.mark.parametrize("letter", ["N", "n"])
def test_a_letter_takes_another_tool_whatever_is_in_hand(tool, letter):
    hand = Hand(house(), tool)

    hand.type(letter)

    assert hand.tool == DrawRoom()
    assert hand.said == says_of(DrawRoom())


def test_every_kind_with_a_key_of_its_own_is_taken_by_it():
    keys = {kind.key.lower(): kind.name for kind in catalogue().values() if kind.key}

    assert {letter: tool_for_key(letter) for letter in keys} == {key: PutDevice(name) for key, name in keys.items()}
    assert tool_for_key(TIE_KEY) == TieDevices()
    assert not {*BUILDING_KEYS, TIE_KEY} & keys.keys()
    assert {letter: tool_for_key(letter) for letter in BUILDING_KEYS} == BUILDING_KEYS


def test_no_two_kinds_have_one_key():
    keys = [kind.key.lower() for kind in catalogue().values() if kind.key]

    assert len(set(keys)) == len(keys)


@pytest.mark.parametrize("letter", ["%", "", " ", "é", "rr"])
def test_other_letters_take_nothing(letter):
    assert tool_for_key(letter) is None


@pytest.mark.parametrize("tool", TOOLS)
def test_escape_at_rest_gives_way_to_selecting(tool):
    hand = Hand(house(), tool)

    hand.key("escape")

    assert hand.tool == Select()


@pytest.mark.parametrize("tool", TOOLS)
def test_every_tool_says_what_to_do(tool):
    assert says_of(tool).endswith(".")


@pytest.mark.parametrize("tool", TOOLS)
def test_a_tool_at_rest_has_begun_nothing(tool):
    hand = Hand(house(), tool)
    hand.pull((1000, 10), (3000, 900), Subject("box", box_of(hand.home, "B1")))

    assert hand.tool != tool
    assert at_rest(hand.tool) == tool
    assert at_rest(tool) == tool
