"""What can have been seen: handles and feeds that are there, and no breaker that nobody should turn off."""

import pytest

from floorplan_circuits.edits.breakers import set_breaker, tie_handles
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.recording import record_change, record_trouble
from floorplan_circuits.edits.seen import found_off, handle_called, may_turn_off, turned_off
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Found, Permission
from tests.edits.samples import breaker_at, house, panel_of, typed_in

HOME = typed_in(typed_in(house(), 2, "15 hall"), 3, "15 bath")
FIRST, SECOND, THIRD = (breaker_at(HOME, space) for space in (1, 2, 3))


def never(home: Home, breaker: int) -> Home:
    return set_breaker(home, breaker, may_open=Permission(may="never", why="oxygen machine")).home


def found(home: Home, breaker: int, state: str) -> Home:
    return set_breaker(home, breaker, found=Found.model_validate({"state": state, "why": "old pump"})).home


def test_only_what_is_surely_off_counts_as_found_off():
    states = {FIRST: "off", SECOND: "tripped", THIRD: "on"}
    home = HOME
    for breaker, state in states.items():
        home = found(home, breaker, state)

    assert found_off(home) == {FIRST, SECOND}
    assert found_off(HOME) == frozenset()


def test_a_handle_is_called_as_on_the_panel():
    assert handle_called(HOME, SECOND) == "2"
    assert handle_called(HOME, HOME.panels[panel_of(HOME)].mains[0].id) == "main"


def test_what_was_found_off_may_be_named_though_it_may_never_be_turned_off():
    home = found(never(HOME, FIRST), FIRST, "off")

    assert turned_off(home, [FIRST]) == {FIRST}
    with pytest.raises(Refused, match=r"must never be turned off: oxygen machine\. Leave it on"):
        turned_off(never(HOME, FIRST), [FIRST])


def test_a_breaker_that_nothing_speaks_against_may_be_turned_off():
    may_turn_off(HOME, FIRST)
    may_turn_off(found(HOME, SECOND, "off"), FIRST)


def test_one_found_off_is_left_as_it_is():
    for state in ("off", "tripped"):
        with pytest.raises(Refused, match=rf"Breaker 1 was found {state} \(old pump\). Leave it as it is"):
            may_turn_off(found(HOME, FIRST, state), FIRST)


def test_one_in_trouble_is_kept_off_until_its_panel_was_worked_on():
    home = record_trouble(HOME, FIRST, "runs hot", date="").home
    mended = record_change(home, [], [panel_of(home)], "panel work", date="").home

    with pytest.raises(Refused, match=r"Breaker 1 runs hot\. Keep off it, and call an electrician"):
        may_turn_off(home, FIRST)
    may_turn_off(mended, FIRST)


def test_trouble_of_a_breaker_that_moves_along_counts_too():
    tied = tie_handles(HOME, [FIRST, THIRD], "by the factory").home

    with pytest.raises(Refused, match="Breaker 3 buzzes"):
        may_turn_off(record_trouble(tied, THIRD, "buzzes", date="").home, FIRST)
    with pytest.raises(Refused, match="Breaker 3 must never"):
        may_turn_off(never(tied, THIRD), FIRST)
