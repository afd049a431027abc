"""Shutting off: what a click picks, what a click flips on the screen, and what goes to the log afterwards."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.find import find, shut_off
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.shutting_off import (
    NOTHING_OFF,
    NOTHING_PICKED,
    Told,
    asks_for,
    boxes_of,
    changed,
    flipped,
    found,
    picked,
    stop_sentence,
    to_test,
)
from floorplan_circuits.home.log import Change, Round
from floorplan_circuits.home.power import Found, Permission, Tie
from tests.drawing.drawn import box, device, fed, home, room, sample
from tests.homes import homes
from tests.supply.wiring import UNKNOWN, breaker, on
from tests.survey.houses import FEED, MAIN, A, B, C, a_test, box_of, house, opened

NONE: frozenset[int] = frozenset()
TESTER = Told("two-lead tester", tester_before=True, tester_after=True, who="owner")


# --- picking --------------------------------------------------------------------------------------------------------


def test_a_box_a_device_and_a_rooms_name_mean_boxes() -> None:
    inside = [box(20 + 10 * nth, (1000 + 500 * nth, 1000), device(21 + 10 * nth, fed(22 + 10 * nth))) for nth in (0, 1)]
    outside = box(50, (9000, 9000), device(51, fed(52)))
    planned = box(60, (2000, 2000), device(61, fed(62), planned=True))
    findings = find(home((*inside, outside, planned), (), (room(70, "Kitchen", 0, 0, 4000, 3000),)))

    assert boxes_of(Subject("box", 20), findings) == (20,)
    assert boxes_of(Subject("device", 31), findings) == (30,)
    assert boxes_of(Subject("room", 70), findings) == (20, 30)
    assert boxes_of(Subject("box", 60), findings) == ()
    assert boxes_of(Subject("breaker", 20), findings) == boxes_of(None, findings) == ()


def test_a_click_adds_and_a_second_one_takes_out() -> None:
    assert picked((), [1]) == (1,)
    assert picked((1,), [2, 1, 3]) == (1, 2, 3)
    assert picked((1, 2, 3), [2, 1]) == (3,)
    assert picked((1,), []) == (1,)


# --- flipping -------------------------------------------------------------------------------------------------------


def test_a_handle_flips_off_and_on_and_the_home_is_not_touched() -> None:
    house_ = house({FEED: on(A)})
    off = flipped(NONE, house_, A)
    assert off.handles == {A}
    assert off.says == "1 is off. On the screen alone: nothing is turned in the house."
    again = flipped(off.handles | {B}, house_, A)
    assert again.handles == {B}
    assert again.says == "1 is on again. On the screen alone: nothing is turned in the house."
    assert flipped(NONE, house_, MAIN).handles == {MAIN}


def test_tied_handles_move_together_both_ways() -> None:
    tied = [breaker(one, tie=Tie(group=1, made="by the factory")) for one in (A, B)]
    house_ = house({FEED: on(B)}, breakers=tied)
    off = flipped(NONE, house_, A)
    assert off.handles == {A, B}
    assert off.says.startswith("1 and 5 are off.")
    assert flipped(off.handles, house_, B).handles == NONE


def test_a_makeshift_tie_moves_nothing_along() -> None:
    tied = [breaker(one, tie=Tie(group=1, made="makeshift")) for one in (A, B)]
    assert flipped(NONE, house({FEED: on(B)}, breakers=tied), A).handles == {A}


def test_what_was_found_off_stays_as_it_was_found() -> None:
    resting = house({FEED: on(A)}, breakers=[breaker(A, found=Found(state="off", why="old pump")), breaker(B)])
    with pytest.raises(Refused, match=r"1 was found off \(old pump\): it stays as it was found"):
        flipped(NONE, resting, A)
    with pytest.raises(Refused, match="not there any more"):
        flipped(NONE, resting, 77)


@pytest.mark.parametrize(
    ("may", "says"),
    [
        (Permission(may="never", whose="the neighbour"), "In the house leave it alone: it must never be turned off"),
        (Permission(may="ask", whose="the tenant", why="freezer"), "Ask the tenant: freezer before it goes off."),
    ],
)
def test_trying_says_what_must_be_minded_in_the_house(may: Permission, says: str) -> None:
    off = flipped(NONE, house({FEED: on(A)}, breakers=[breaker(A, may_open=may), breaker(B)]), A)
    assert off.handles == {A}
    assert says in off.says


@settings(max_examples=40)
@given(homes(), st.data())
def test_flipping_twice_changes_nothing(one, data) -> None:
    handles = [each.id for each in one.breakers if each.found.state not in ("off", "tripped")]
    if not handles:
        return
    handle = data.draw(st.sampled_from(handles))
    try:
        once = flipped(NONE, one, handle)
    except Refused:
        return
    assert handle in once.handles
    assert flipped(once.handles, one, handle).handles == NONE


# --- what is asked for ----------------------------------------------------------------------------------------------


def test_the_status_line_says_what_to_turn_off_or_that_nothing_is_known() -> None:
    known = find(house({FEED: on(A)}))
    assert asks_for(shut_off(known, [box_of(FEED)]), known) == (
        "To open B400 turn off 1, then test. On the screen alone they are off now."
    )
    unknown = find(house({FEED: UNKNOWN}))
    assert "no handle is known that makes it dead. Treat it as live." in asks_for(
        shut_off(unknown, [box_of(FEED)]), unknown
    )
    both = find(house({FEED: on(A), 401: UNKNOWN}))
    assert asks_for(shut_off(both, [box_of(FEED), box_of(401)]), both).startswith(
        "Don’t open B401: unknown: treat as live. To open B400 turn off 1, then test."
    )


def test_a_bare_cable_end_is_not_to_be_touched() -> None:
    findings = sample("cottage")
    (end,) = [box for box in findings.home.boxes if box.is_bare]
    assert asks_for(shut_off(findings, [end.id]), findings).startswith(f"Don’t touch {end.mark}: unknown")


# --- afterwards -----------------------------------------------------------------------------------------------------


def test_every_feed_of_the_boxes_is_asked_for_and_what_was_seen_in_them_besides() -> None:
    seen = opened(box_of(FEED), FEED, 401)
    findings = find(house({FEED: on(A), 401: on(B), 402: on(C)}, seen))
    assert [place.feed.id for place in to_test(findings, [box_of(FEED)])] == [FEED, 401]
    assert [place.feed.id for place in to_test(findings, [box_of(402), box_of(FEED)])] == [402, FEED, 401]


def test_what_was_found_is_one_round_with_the_handles_that_were_off() -> None:
    house_ = house({FEED: on(A), 401: on(B)})
    edited = found(house_, {A, B}, [(FEED, "dead"), (401, "dead")], TESTER, "2026-03-14")
    (entry,) = edited.home.log
    assert isinstance(entry, Round)
    assert (entry.off, entry.method, entry.who, entry.date) == ((A, B), "two-lead tester", "owner", "2026-03-14")
    assert entry.tester.before
    assert entry.tester.after
    assert [(one.feed, one.says) for one in entry.readings] == [(FEED, "dead"), (401, "dead")]


def test_a_dead_is_no_proof() -> None:
    edited = found(house({FEED: on(A)}), {A}, [(FEED, "dead")], TESTER, "2026-03-14")
    assert find(edited.home).conclusions[FEED].standing != "proved"


def test_found_live_contradicts_what_the_map_says() -> None:
    tested = house({FEED: on(A)}, *a_test(A))
    assert find(tested).conclusions[FEED].standing == "proved"
    edited = found(tested, {A}, [(FEED, "live")], TESTER, "2026-03-15")
    assert find(edited.home).conclusions[FEED].standing == "contradicted"


@pytest.mark.parametrize(
    ("off", "readings", "told", "says"),
    [
        (NONE, [(FEED, "dead")], TESTER, NOTHING_OFF),
        ({A}, [(FEED, "dead")], Told(), "Say how you tested."),
        ({A}, [], TESTER, "Nothing was read"),
    ],
)
def test_what_cannot_be_written_down_is_refused_in_words(off, readings, told, says) -> None:
    with pytest.raises(Refused, match=says):
        found(house({FEED: on(A)}), off, readings, told, "2026-03-14")


def test_live_says_stop_and_names_the_box_and_dead_does_not() -> None:
    house_ = house({FEED: on(A), 401: on(B)})
    says = stop_sentence(house_, {A}, [(FEED, "live"), (401, "dead")])
    assert says.startswith("Stop: B400 was found live with 1 off. Keep out of B400")
    assert "B401" not in says
    assert stop_sentence(house_, {A}, [(FEED, "dead")]) == ""
    assert "were found live" in stop_sentence(house_, {A}, [(FEED, "live"), (401, "live")])


def test_a_change_expires_what_was_tested_in_these_boxes_alone() -> None:
    tested = house({FEED: on(A), 401: on(B)}, *a_test(A), *a_test(B, feed=401))
    edited = changed(tested, [box_of(FEED)], "Rewired", "2026-03-20", "owner")
    entry = edited.home.log[-1]
    assert isinstance(entry, Change)
    assert (entry.what, entry.boxes) == ("rewired", (box_of(FEED),))
    known = find(edited.home).conclusions
    assert (known[FEED].standing, known[401].standing) == ("expired", "proved")
    with pytest.raises(Refused, match=NOTHING_PICKED):
        changed(tested, [], "Rewired", "2026-03-20", "")
