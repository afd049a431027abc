"""Asking whether the map was wrong or the wiring changed: only where evidence that still counts was touched."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.asking import Touched, touched_evidence
from floorplan_circuits.edits.boxes import add_passing, join_box, set_box, set_device, split_halves
from floorplan_circuits.edits.breakers import retype_breaker, set_breaker, tie_handles
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.moving import move
from floorplan_circuits.edits.names import name_home, rename
from floorplan_circuits.edits.panels import feed_panel
from floorplan_circuits.edits.recording import (
    age_everything,
    record_change,
    record_opened,
    record_receptacle_test,
    record_traced,
    single_test,
    strike,
)
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.ties import tie, untie
from floorplan_circuits.edits.typed import read_typed
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Found, Panel, Permission
from floorplan_circuits.home.record import change
from tests.edits.samples import box_of, breaker_at, device_of, feeds_in, house, panel_of, typed_in, with_row
from tests.homes import homes

DAY: dict[str, Any] = {"date": "2026-03-14"}
HOME = typed_in(typed_in(house(), 3, "15 bath"), 4, "15 hall")
FIRST, THIRD, FOURTH = (breaker_at(HOME, space) for space in (1, 3, 4))
BOX, OTHER, PANEL = box_of(HOME, "B1"), box_of(HOME, "B2"), panel_of(HOME)
DEVICE, (FEED,), (OTHER_FEED,) = device_of(HOME, "B1"), feeds_in(HOME, "B1"), feeds_in(HOME, "B2")
TIED = tie(HOME, [BOX, OTHER], FIRST).home
TESTED = single_test(TIED, FIRST, FEED, "dead", method="two-lead tester", **DAY).home
NOTHING = Touched()

REWIRED = {
    "tied elsewhere": lambda home: tie(home, [FEED], THIRD),
    "untied": lambda home: untie(home, [BOX]),
    "another kind": lambda home: set_device(home, DEVICE, kind="switch"),
    "taken out of a box that stays": lambda home: remove(add_passing(home, BOX).home, [DEVICE]),
}
NO_WIRING = {
    "a name": lambda home: rename(home, "device", DEVICE, "the kettle"),
    "the home's name": lambda home: name_home(home, "Elm Street"),
    "a place": lambda home: move(home, [BOX], (100, 0)),
    "how to reach it": lambda home: set_box(home, BOX, reach="behind the oven"),
    "what is beside it": lambda home: tie(home, [OTHER], THIRD),
    "a device more": lambda home: join_box(home, BOX, "switch"),
    "an old label": lambda home: set_breaker(home, FIRST, as_found="KITCHEN"),
    "how it was found": lambda home: set_breaker(home, FIRST, found=Found(state="on")),
    "who may open it": lambda home: set_breaker(home, FIRST, may_open=Permission(may="ask")),
    "another reading": lambda home: single_test(home, FIRST, FEED, "dead", method="lamp plugged in", **DAY),
    "a breaker nobody tested": lambda home: retype_breaker(home, THIRD, read_typed("20 bath")),
}


@pytest.mark.parametrize("edit", REWIRED.values(), ids=REWIRED.keys())
def test_what_was_tested_and_is_wired_otherwise_is_asked_about(edit):
    assert touched_evidence(TESTED, edit(TESTED).home) == Touched((BOX,), ())
    assert touched_evidence(TIED, edit(TIED).home) == NOTHING


@pytest.mark.parametrize("edit", NO_WIRING.values(), ids=NO_WIRING.keys())
def test_nobody_is_asked_about_what_is_no_wiring_or_was_never_seen(edit):
    assert touched_evidence(TESTED, edit(TESTED).home) == NOTHING


REBUILT = {
    "another rating": lambda home: retype_breaker(home, FIRST, read_typed("15")),
    "a fuse": lambda home: set_breaker(home, FIRST, device="fuse"),
    "its handle tied": lambda home: tie_handles(home, [FIRST, THIRD], "by the factory"),
    "behind another": lambda home: set_breaker(home, FIRST, behind=THIRD),
    "the panel fed by something": lambda home: feed_panel(_with_garage(home), PANEL, _garage_breaker(home)),
}


def _with_garage(home: Home) -> Home:
    garage = with_row(home, "panels", Panel(id=home.next_id, name="Garage", prefix="G", spaces=4))
    return typed_in(garage, 1, "60", garage.panels.rows[-1].id)


def _garage_breaker(home: Home) -> int:
    return _with_garage(home).breakers.rows[-1].id


@pytest.mark.parametrize("edit", REBUILT.values(), ids=REBUILT.keys())
def test_a_breaker_or_panel_built_otherwise_is_asked_about_by_its_panel(edit):
    assert touched_evidence(TESTED, edit(TESTED).home) == Touched((), (PANEL,))
    assert touched_evidence(TIED, edit(TIED).home) == NOTHING


def test_a_breaker_that_goes_takes_its_boxes_with_it():
    assert touched_evidence(TESTED, remove(TESTED, [FIRST]).home) == Touched((BOX,), (PANEL,))


def test_a_box_or_panel_that_is_gone_can_not_be_said_to_have_changed():
    assert touched_evidence(TESTED, remove(TESTED, [BOX]).home) == NOTHING
    assert touched_evidence(TESTED, remove(TESTED, [PANEL]).home).panels == ()


def test_a_first_tie_is_no_map_that_could_be_wrong():
    tested = single_test(HOME, FIRST, FEED, "dead", method="two-lead tester", **DAY).home

    assert touched_evidence(tested, tie(tested, [FEED], FIRST).home) == NOTHING


@pytest.mark.parametrize(
    "seen",
    [
        lambda home: record_traced(home, FEED, FIRST, **DAY),
        lambda home: record_traced(home, FEED, FIRST, way="followed by eye", **DAY),
    ],
)
def test_a_trace_is_evidence_too(seen):
    home = seen(TIED).home

    assert touched_evidence(home, tie(home, [FEED], THIRD).home).boxes == (BOX,)


def test_a_receptacle_tester_speaks_of_its_device():
    home = record_receptacle_test(TIED, DEVICE, "correct", **DAY).home

    assert touched_evidence(home, set_device(home, DEVICE, kind="single receptacle").home).boxes == (BOX,)
    assert touched_evidence(home, tie(home, [FEED], THIRD).home) == NOTHING


def test_who_looked_in_a_box_counted_its_cables():
    home = record_opened(TIED, BOX, [("top", FEED)], **DAY).home

    assert touched_evidence(home, add_passing(home, BOX).home).boxes == (BOX,)
    assert touched_evidence(home, split_halves(home, DEVICE).home).boxes == (BOX,)
    assert touched_evidence(home, tie(home, [FEED], THIRD).home) == NOTHING


def test_what_lapsed_or_was_struck_is_not_asked_about_again():
    past = (
        age_everything(TESTED, "bought house", **DAY).home,
        record_change(TESTED, [BOX], [], "rewired", **DAY).home,
        strike(TESTED, TESTED.log[-1].id, "a slip", **DAY).home,
    )
    for home in past:
        assert touched_evidence(home, tie(home, [FEED], THIRD).home) == NOTHING
    worked = record_change(TESTED, [], [PANEL], "panel work", **DAY).home
    assert touched_evidence(worked, set_breaker(worked, FIRST, device="fuse").home) == NOTHING


def test_edits_one_after_another_are_asked_about_together_and_undone_ones_not_at_all():
    home = single_test(TESTED, FOURTH, OTHER_FEED, "live", method="two-lead tester", **DAY).home

    one = tie(home, [BOX], THIRD).home
    both = tie(one, [OTHER], THIRD).home

    assert touched_evidence(home, both).boxes == (BOX, OTHER)
    assert touched_evidence(home, tie(both, [BOX, OTHER], FIRST).home) == NOTHING


@settings(max_examples=60, deadline=None)
@given(homes(), st.data())
def test_what_is_asked_about_is_there_and_nothing_is_where_nothing_was_edited(home, data):
    assert touched_evidence(home, home) == NOTHING
    assert touched_evidence(home, change(home, name="x")) == NOTHING
    gone = data.draw(st.lists(st.sampled_from([*home.boxes.ids(), *home.breakers.ids(), *home.panels.ids(), 1])))
    try:
        after = remove(home, gone).home
    except Refused:
        return

    touched = touched_evidence(home, after)

    assert set(touched.boxes) <= set(after.boxes.ids())
    assert set(touched.panels) <= set(after.panels.ids())
    assert touched == NOTHING or record_change(after, *touched, "rewired", **DAY).home.log[:-1] == home.log
