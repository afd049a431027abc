"""Recording: the log grows at its end by what was seen, nothing else changes, and no part of a proof is made up."""

from collections.abc import Callable
from itertools import product
from typing import Any

import pytest
from hypothesis import event, given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.boxes import join_box, set_device, split_halves
from floorplan_circuits.edits.breakers import set_breaker, tie_handles
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.history import History
from floorplan_circuits.edits.panels import add_panel
from floorplan_circuits.edits.recording import (
    age_everything,
    dismiss,
    record_change,
    record_opened,
    record_receptacle_test,
    record_round,
    record_traced,
    record_trouble,
    single_test,
    strike,
)
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.find import find
from floorplan_circuits.home.home import Home, feeds, mains
from floorplan_circuits.home.log import Change, Round, Struck, Traced
from floorplan_circuits.home.power import Found, Permission
from floorplan_circuits.home.record import change
from tests.edits.samples import box_of, breaker_at, device_of, feeds_in, house, panel_of, typed_in
from tests.homes import generate, homes

DAY = "2026-03-14"
PROVED: dict[str, Any] = {"method": "two-lead tester", "tester_before": True, "tester_after": True, "date": DAY}
WHOLE: dict[str, Any] = PROVED | {"live_before": True, "live_again": True, "each_hot": True}


def home_with_three() -> Home:
    """The house with breakers at 1, 2 and 3."""
    return typed_in(typed_in(house(), 2, "15 hall"), 3, "15 bath")


HOME = home_with_three()
FIRST, SECOND, THIRD = (breaker_at(HOME, space) for space in (1, 2, 3))
(FEED,) = feeds_in(HOME, "B1")
BOX, PANEL, RECEPTACLE, SWITCH = box_of(HOME, "B1"), panel_of(HOME), device_of(HOME, "B1"), device_of(HOME, "B3")


def last_round(edited: Edited) -> Round:
    entry = edited.home.log[-1]
    assert isinstance(entry, Round)
    return entry


def found(home: Home, breaker: int, state: str, why: str = "") -> Home:
    return set_breaker(home, breaker, found=Found.model_validate({"state": state, "why": why})).home


def standing(home: Home, feed: int = FEED) -> str:
    return find(home).conclusions[feed].standing


# --- the state that a round is in -----------------------------------------------------------------------------------


def test_a_round_says_what_was_off_with_what_it_was_read_and_by_whom():
    edited = record_round(
        HOME, [FIRST], [(FEED, "dead")], **PROVED, each_hot=True, helper=" Kim ", who="A  B", note=" at dusk "
    )

    entry = last_round(edited)
    assert edited.says == "Record 1 reading with 1 off"
    assert edited.made == (entry.id,)
    assert (entry.off, entry.method, entry.date, entry.who, entry.note) == (
        (FIRST,),
        "two-lead tester",
        DAY,
        "A B",
        "at dusk",
    )
    assert (entry.tester.before, entry.tester.after, entry.helper) == (True, True, "Kim")
    assert [(one.feed, one.says, one.each_hot) for one in entry.readings] == [(FEED, "dead", True)]


def test_what_was_found_off_is_off_in_every_round_though_nobody_touched_it():
    home = found(found(HOME, SECOND, "off", "old pump"), THIRD, "tripped")

    assert last_round(record_round(home, [], [(FEED, "live")], **PROVED)).off == (SECOND, THIRD)
    assert last_round(record_round(home, [FIRST], [(FEED, "dead")], **PROVED)).off == (FIRST, SECOND, THIRD)
    assert record_round(home, [], [(FEED, "live")], **PROVED).says == "Record 1 reading with all as usual"


def test_a_breaker_found_on_is_not_off():
    assert last_round(record_round(found(HOME, SECOND, "on"), [], [(FEED, "live")], **PROVED)).off == ()


@pytest.mark.parametrize(
    ("made", "moved"), [("by the factory", (FIRST, THIRD)), ("makeshift", (FIRST,)), ("not sure", (FIRST,))]
)
def test_only_a_factory_made_tie_moves_the_other_handle_along(made, moved):
    home = tie_handles(HOME, [FIRST, THIRD], made).home

    assert last_round(record_round(home, [FIRST], [(FEED, "dead")], **PROVED)).off == moved


def test_the_main_can_be_what_was_turned_off():
    home = add_panel(HOME, 4, "Garage", main_amps=100).home
    main = next(main.id for _, main in mains(home) if main.amps == 100)

    edited = record_round(home, [main], [(FEED, "live")], **PROVED)

    assert last_round(edited).off == (main,)
    assert edited.says == "Record 1 reading with G main off"


def test_a_reading_said_twice_is_recorded_once():
    assert len(last_round(record_round(HOME, [], [(FEED, "live"), (FEED, "live")], **PROVED)).readings) == 1


# --- what can't have been seen --------------------------------------------------------------------------------------

NEVER = change(HOME.breakers[FIRST], may_open=Permission(may="never", why="sump pump", whose="the landlord"))
HELD = change(HOME, breakers=HOME.breakers.put(NEVER))
PLANNED = set_device(HOME, RECEPTACLE, planned=True).home
LESS = remove(HOME, [BOX]).home
GONE = 999_999
OTHER_FEED = feeds_in(HOME, "B2")[0]
ALONE = {"date": DAY}

CANNOT_BE: dict[str, tuple[str, Callable[[], object]]] = {
    "nothing read": ("Nothing was read", lambda: record_round(HOME, [FIRST], [], **PROVED)),
    "a handle gone": ("breaker is not there", lambda: record_round(HOME, [GONE], [(FEED, "dead")], **PROVED)),
    "a feed taken for a handle": (
        "breaker is not there",
        lambda: record_round(HOME, [FEED], [(FEED, "dead")], **PROVED),
    ),
    "a feed gone": ("feed is not there", lambda: record_round(LESS, [FIRST], [(FEED, "dead")], **PROVED)),
    "a feed planned": ("In B1, the .* only planned", lambda: record_round(PLANNED, [], [(FEED, "live")], **PROVED)),
    "never to be opened": (
        "Breaker 1 must never be turned off: sump pump · the landlord. Leave it on.",
        lambda: record_round(HELD, [FIRST], [(FEED, "dead")], **PROVED),
    ),
    "never to be opened, moved along": (
        "Breaker 1 must never",
        lambda: record_round(
            tie_handles(HELD, [FIRST, THIRD], "by the factory").home, [THIRD], [(FEED, "dead")], **PROVED
        ),
    ),
    "live and dead at once": (
        "B1 can't be both dead and live",
        lambda: record_round(HOME, [FIRST], [(FEED, "dead"), (FEED, "live")], **PROVED),
    ),
    "a reading of no sort": ("is one of", lambda: record_round(HOME, [FIRST], [(FEED, "off")], **PROVED)),
    "a way of no sort": (
        "method is none that is known",
        lambda: record_round(HOME, [], [(FEED, "live")], **PROVED | {"method": "?"}),
    ),
    "a day not in the calendar": (
        "day of the calendar",
        lambda: record_round(HOME, [], [(FEED, "live")], **PROVED | {"date": "2026-02-30"}),
    ),
    "a day the wrong way round": (
        "day of the calendar",
        lambda: record_round(HOME, [], [(FEED, "live")], **PROVED | {"date": "14-03-2026"}),
    ),
    "a day run together": (
        "day of the calendar",
        lambda: record_round(HOME, [], [(FEED, "live")], **PROVED | {"date": "20260314"}),
    ),
    "a test of what was found off": (
        r"Breaker 1 was found off \(old pump\): what is dead",
        lambda: single_test(found(HOME, FIRST, "off", "old pump"), FIRST, FEED, "dead", **WHOLE),
    ),
    "a trace from nothing": ("feed is not there", lambda: record_traced(HOME, GONE, FIRST, **ALONE)),
    "a trace to nothing": ("breaker is not there", lambda: record_traced(HOME, FEED, GONE, **ALONE)),
    "a trace in no pass": ("at least 1", lambda: record_traced(HOME, FEED, FIRST, passes=0, **ALONE)),
    "a look into nothing": ("box is not there", lambda: record_opened(HOME, GONE, [("top", None)], **ALONE)),
    "a feed that is gone": ("feed is not there", lambda: record_opened(HOME, BOX, [("top", GONE)], **ALONE)),
    "a cable gone": ("feed is not there", lambda: record_opened(HOME, BOX, [("top", GONE)], **ALONE)),
    "a tester in a switch": (
        "plugs into a receptacle",
        lambda: record_receptacle_test(HOME, SWITCH, "correct", **ALONE),
    ),
    "a tester in nothing": ("device is not there", lambda: record_receptacle_test(HOME, GONE, "correct", **ALONE)),
    "a tester in a plan": ("only planned", lambda: record_receptacle_test(PLANNED, RECEPTACLE, "correct", **ALONE)),
    "a tester that shows nothing known": ("is one of", lambda: record_receptacle_test(HOME, RECEPTACLE, "?", **ALONE)),
    "trouble with nothing": ("breaker is not there", lambda: record_trouble(HOME, GONE, "runs hot", **ALONE)),
    "trouble of no sort": ("is one of", lambda: record_trouble(HOME, FIRST, "sulks", **ALONE)),
    "a change of nothing": ("Say which boxes", lambda: record_change(HOME, [], [], "rewired", **ALONE)),
    "a change of a box gone": ("box is not there", lambda: record_change(HOME, [GONE], [], "rewired", **ALONE)),
    "a change of a panel gone": ("panel is not there", lambda: record_change(HOME, [], [GONE], "rewired", **ALONE)),
    "a mistake nobody made": ("not in the log", lambda: strike(HOME, GONE, "typo", **ALONE)),
    "a mistake without a reason": ("Say why", lambda: strike(_with_round(), _with_round().log[-1].id, " ", **ALONE)),
    "a danger about nothing": ("not there any more", lambda: dismiss(HOME, "shared box", [], "seen", **ALONE)),
    "a danger about what is gone": ("not there any more", lambda: dismiss(HOME, "shared box", [GONE], "seen", **ALONE)),
    "a danger without a reason": ("Say why", lambda: dismiss(HOME, "shared box", [BOX], "", **ALONE)),
    "no danger at all": ("Say which danger", lambda: dismiss(HOME, " ", [BOX], "seen", **ALONE)),
}


def _with_round() -> Home:
    return record_round(HOME, [FIRST], [(FEED, "dead")], **PROVED).home


@pytest.mark.parametrize(("says", "recorded"), CANNOT_BE.values(), ids=CANNOT_BE.keys())
def test_what_can_not_have_been_seen_is_refused_in_words(says, recorded):
    with pytest.raises(Refused, match=says):
        recorded()


def test_no_date_is_better_than_a_made_up_one():
    assert last_round(record_round(HOME, [], [(FEED, "live")], **PROVED | {"date": ""})).date == ""


# --- one test -------------------------------------------------------------------------------------------------------


def test_a_single_test_records_only_what_was_seen():
    bare = single_test(HOME, FIRST, FEED, "dead", method="lamp plugged in", date=DAY)

    (entry,) = bare.home.log
    assert isinstance(entry, Round)
    assert (entry.off, entry.readings[0].says, entry.readings[0].each_hot) == ((FIRST,), "dead", False)
    assert (entry.tester.before, entry.tester.after) == (False, False)
    assert bare.says == "Record B1: dead with 1 off"


def test_a_whole_test_is_three_rounds_in_the_order_in_which_they_were_seen():
    home = found(HOME, SECOND, "off")

    edited = single_test(home, FIRST, FEED, "dead", **WHOLE)

    assert [(one.off, one.readings[0].says) for one in edited.home.log if isinstance(one, Round)] == [
        ((SECOND,), "live"),
        ((FIRST, SECOND), "dead"),
        ((SECOND,), "live"),
    ]
    assert edited.made == tuple(entry.id for entry in edited.home.log)


PARTS = ("live_before", "live_again", "tester_before", "tester_after", "each_hot")


def test_all_parts_prove_and_any_part_missing_does_not():
    for seen in product((True, False), repeat=len(PARTS)):
        home = single_test(HOME, FIRST, FEED, "dead", **WHOLE | dict(zip(PARTS, seen, strict=True))).home
        assert (standing(home) == "proved") is all(seen), seen


@pytest.mark.parametrize("odd", [{"date": ""}, {"method": "non-contact tester"}, {"method": "not said"}])
def test_without_a_day_or_by_a_weak_way_nothing_is_proved(odd):
    assert standing(single_test(HOME, FIRST, FEED, "dead", **WHOLE | odd).home) != "proved"


def test_a_lamp_proves_where_the_breaker_is_known_to_open_the_hot_alone():
    lamp = WHOLE | {"method": "lamp plugged in", "each_hot": False}
    hot = set_breaker(HOME, FIRST, opens="hot").home

    assert standing(single_test(hot, FIRST, FEED, "dead", **lamp).home) == "proved"
    assert standing(single_test(HOME, FIRST, FEED, "dead", **lamp).home) != "proved"


def test_a_live_reading_denies_the_breaker_that_is_said_to_feed_it():
    home = tie(HOME, [FEED], FIRST).home

    assert standing(single_test(home, FIRST, FEED, "live", **PROVED).home) == "contradicted"


def test_one_half_is_tested_alone_and_called_so():
    home = split_halves(HOME, RECEPTACLE).home
    upper, lower = feeds_in(home, "B1")

    edited = single_test(home, FIRST, upper, "dead", **WHOLE)

    assert edited.says == "Record B1 upper: dead with 1 off"
    assert (standing(edited.home, upper), standing(edited.home, lower)) == ("proved", "unknown")


def test_of_two_devices_in_a_box_the_one_that_was_read_is_named():
    home = join_box(HOME, box_of(HOME, "B3"), "dimmer").home

    assert single_test(home, FIRST, feeds_in(home, "B3")[1], "live", **PROVED).says == (
        "Record B3 dimmer: live with 1 off"
    )


# --- everything else ------------------------------------------------------------------------------------------------


def test_a_cable_followed_by_eye_is_told_from_a_tracer_s_signal():
    by_eye = record_traced(HOME, FEED, FIRST, way="followed by eye", **ALONE).home.log[-1]
    signal = record_traced(HOME, FEED, FIRST, passes=2, adapter="lamp socket", **ALONE).home.log[-1]

    assert isinstance(by_eye, Traced)
    assert isinstance(signal, Traced)
    assert (by_eye.way, signal.way, signal.passes, signal.adapter) == (
        "followed by eye",
        "signal tracer",
        2,
        "lamp socket",
    )


def test_who_looked_in_a_box_counts_every_cable_those_not_known_too():
    edited = record_opened(HOME, BOX, [("top", FEED), ("bottom", FEED), ("back", None)], **ALONE)

    assert edited.says == "Record what was seen in B1: 3 cables"
    assert find(edited.home).boxes[BOX].opened
    assert find(edited.home).boxes[BOX].unknown == 2  # the feed that nobody knows, and the strange cable


def test_a_receptacle_tester_can_be_recorded_in_a_receptacle():
    assert record_receptacle_test(HOME, RECEPTACLE, "open ground", **ALONE).says == (
        "Record a receptacle tester in B1: open ground"
    )


def test_a_breaker_in_trouble_is_not_relied_on():
    home = single_test(HOME, FIRST, FEED, "dead", **WHOLE).home

    after = record_trouble(home, FIRST, "did not open", **ALONE)

    assert after.says == "Record trouble with 1: did not open"
    assert standing(after.home) != "proved"


def test_a_change_of_a_box_or_a_panel_expires_what_was_tested_there():
    home = single_test(HOME, FIRST, FEED, "dead", **WHOLE).home

    for boxes, panels, called in (([BOX], [], "B1"), ([], [PANEL], "Main panel"), ([BOX, BOX], [PANEL], "B1, ")):
        after = record_change(home, boxes, panels, "rewired", **ALONE)
        assert after.says.startswith(f"Record a change of {called}")
        assert standing(after.home) == "expired"
    elsewhere = record_change(home, [box_of(home, "B2")], [], "rewired", **ALONE).home
    assert standing(elsewhere) == "proved"


def test_a_house_that_changed_hands_expires_everything_and_can_be_tested_anew():
    home = single_test(HOME, FIRST, FEED, "dead", **WHOLE).home

    aged = age_everything(home, "bought house", note="keys on Monday", **ALONE)

    entry = aged.home.log[-1]
    assert isinstance(entry, Change)
    assert (entry.boxes, entry.panels, entry.note) == ((), (), "The house changed hands. keys on Monday")
    assert standing(aged.home) == "expired"
    assert standing(single_test(aged.home, FIRST, FEED, "dead", **WHOLE).home) == "proved"


def test_a_struck_entry_counts_no_more_until_what_struck_it_is_struck():
    home = single_test(HOME, FIRST, FEED, "dead", **WHOLE).home
    dead = home.log[1].id

    struck = strike(home, dead, "read the wrong half", **ALONE)
    with pytest.raises(Refused, match="struck already"):
        strike(struck.home, dead, "again", **ALONE)
    back = strike(struck.home, struck.made[0], "it was the right half", **ALONE).home

    assert isinstance(struck.home.log[-1], Struck)
    assert (standing(struck.home), standing(back)) == ("unknown", "proved")


def test_a_danger_set_aside_keeps_its_reason():
    entry = dismiss(HOME, "shared box", [BOX, FIRST], " seen by  an electrician ", **ALONE).home.log[-1]

    assert (entry.kind, entry.about, entry.why) == ("dismissed", (BOX, FIRST), "seen by an electrician")


# --- what every recording promises ----------------------------------------------------------------------------------


@st.composite
def recorded(draw: st.DrawFn) -> tuple[Home, Edited]:
    """A wild home, and the same after one recording about something that is there; as it was where that is refused."""
    home = draw(homes())
    handles = [*home.breakers.ids(), *(main.id for _, main in mains(home))]
    verbs: list[Callable[[], Edited]] = [lambda: age_everything(home, "an electrician was here", **ALONE)]
    if handles:
        handle = draw(st.sampled_from(handles))
        verbs += [lambda: record_trouble(home, handle, "buzzes", **ALONE)]
    if built := [one.feed.id for one in feeds(home) if one.device is None or not one.device.planned]:
        feed, says = draw(st.sampled_from(built)), draw(st.sampled_from(("dead", "live", "unclear")))
        verbs += [lambda: record_round(home, [], [(feed, says)], **PROVED)]
    if built and handles:
        seen = dict(zip(PARTS, draw(st.tuples(*[st.booleans()] * 5)), strict=True))
        verbs += [
            lambda: record_round(home, [handle], [(feed, says)], **PROVED),
            lambda: single_test(home, handle, feed, says, method="lamp plugged in", date=DAY, **seen),
            lambda: record_traced(home, feed, handle, **ALONE),
        ]
    if home.boxes.ids():
        box = draw(st.sampled_from(home.boxes.ids()))
        verbs += [
            lambda: record_opened(home, box, [("top", None)], **ALONE),
            lambda: record_change(home, [box], [], "rewired", **ALONE),
            lambda: dismiss(home, "shared box", [box], "seen", **ALONE),
        ]
    if home.log:
        entry = draw(st.sampled_from(home.log)).id
        verbs += [lambda: strike(home, entry, "a slip", **ALONE)]
    try:
        return home, draw(st.sampled_from(verbs))()
    except Refused as refused:
        event(f"refused: {str(refused)[:30]}")
        return home, Edited(home, "")


@settings(max_examples=80, deadline=None)
@given(recorded())
def test_the_log_grows_at_its_end_alone_and_nothing_else_changes(given_home):
    before, edited = given_home
    after, grown = edited.home, len(edited.made)

    assert len(after.log) == len(before.log) + grown
    assert all(now is was for now, was in zip(after.log, before.log, strict=False))
    assert [entry.id for entry in after.log[len(before.log) :]] == list(edited.made)
    assert list(edited.made) == list(range(before.next_id, before.next_id + grown))
    assert after.next_id == before.next_id + grown
    assert change(after, log=before.log, next_id=before.next_id) == before
    assert all(getattr(after, table) is getattr(before, table) for table in ("boxes", "breakers", "panels", "rooms"))
    assert Home.model_validate_json(after.model_dump_json()) == after


@settings(max_examples=40, deadline=None)
@given(recorded())
def test_a_recording_is_never_undone(given_home):
    before, edited = given_home

    history = History(before).done(edited.home, edited.says)

    assert history.undone() is history
    assert history.now is edited.home


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 50), st.sampled_from(PARTS), st.data())
def test_a_test_with_a_part_missing_proves_nothing_in_any_home(seed, missing, data):
    home = generate(seed, 6).home
    feed = data.draw(st.sampled_from([place.feed.id for place in feeds(home)]))
    handle = data.draw(st.sampled_from([one.id for one in home.breakers if one.found.state != "off"]))

    after = single_test(home, handle, feed, "dead", **WHOLE | {missing: False, "method": "two-lead tester"}).home

    lamp_may_do = missing == "each_hot" and home.breakers[handle].opens in ("hot", "both hots")
    assert lamp_may_do or find(after).conclusions[feed].standing != "proved"


def test_a_cable_may_be_the_other_end_of_a_feed_of_another_box():
    (entry,) = record_opened(HOME, BOX, [("top", OTHER_FEED)], **ALONE).home.log

    assert entry.cables[0].feed == OTHER_FEED
