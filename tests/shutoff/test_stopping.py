"""When to stop: what is known of these boxes and handles is told before what always holds."""

import pytest

from floorplan_circuits.find import find, shut_off
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Conductor
from floorplan_circuits.home.record import change
from floorplan_circuits.shutoff.stopping import ALWAYS, lacks_ground, when_to_stop
from tests.supply.wiring import breaker, on
from tests.survey.houses import FEED, A, box_of, device_of, house, struck

BOX = box_of(FEED)


def told(home: Home) -> tuple[str, ...]:
    return when_to_stop(shut_off(find(home), (BOX,)), home)


def wired(wiring: str, *entries: dict[str, object]) -> Home:
    home = house({FEED: on(A)}, *entries)
    return change(home, boxes=home.boxes.put(change(home.boxes[BOX], wiring=wiring)))


def shown(shows: str) -> dict[str, object]:
    return {"kind": "tester", "device": device_of(FEED), "shows": shows}


def test_copper_with_nothing_against_it_leaves_what_always_holds() -> None:
    assert told(wired("copper")) == ALWAYS


@pytest.mark.parametrize(
    ("wiring", "words"),
    [("aluminium", "B400 is wired in aluminium."), ("cloth", "cloth insulation"), ("knob and tube", "knob and tube")],
)
def test_wiring_that_is_no_work_for_a_householder_is_named_first(wiring: str, words: str) -> None:
    assert words in told(wired(wiring))[0]


def test_wiring_that_nobody_wrote_down_is_not_taken_for_copper() -> None:
    assert told(house({FEED: on(A)}))[0] == "Nobody wrote down what the wires in B400 are: look first."


@pytest.mark.parametrize(
    ("shows", "words"),
    [
        ("open ground", "readings against it show nothing"),
        ("open neutral", "readings against it show nothing"),
        ("hot and ground reversed", "its ground may be live"),
        ("hot and neutral reversed", "its white may be hot"),
    ],
)
def test_a_fault_that_a_receptacle_tester_showed_is_named(shows: str, words: str) -> None:
    assert words in told(wired("copper", shown(shows)))[0]


def test_what_a_tester_showed_last_counts_and_a_struck_entry_does_not() -> None:
    assert told(wired("copper", shown("open ground"), shown("correct"))) == ALWAYS
    assert told(wired("copper", shown("open ground"), struck(60_000))) == ALWAYS


def test_an_aluminium_conductor_on_a_breaker_to_be_turned_off_is_named() -> None:
    home = house({FEED: on(A)}, breakers=[breaker(A, conductor=Conductor(metal="aluminium"))])
    assert "The conductor on the breaker in space 1 is aluminium." in told(home)


def test_knob_and_tube_has_no_ground() -> None:
    assert lacks_ground(wired("knob and tube").boxes[BOX])
    assert not lacks_ground(wired("copper").boxes[BOX])
