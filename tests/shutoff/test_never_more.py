"""Never more than the evidence: what once passed for `should be dead`, or left a handle out, and must not."""

import pytest

from floorplan_circuits.edits.boxes import join_halves, set_device, split_halves
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.hanging import hang_behind
from floorplan_circuits.edits.recording import record_opened
from floorplan_circuits.edits.sources import add_source
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.find import find, shut_off
from floorplan_circuits.findings import ShutOff
from floorplan_circuits.home.boxes import Control, Device, Feed, FromBreaker
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.power import Breaker, Main, Permission, Source, Tie
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from tests.shutoff.plans import handles_off
from tests.supply.wiring import DISCONNECTED, UNKNOWN, behind, breaker, elsewhere, on, panel
from tests.survey.houses import (
    DAY,
    FEED,
    MAIN,
    PANEL,
    A,
    B,
    C,
    a_test,
    box_of,
    device_of,
    house,
    logged,
    opened,
    traced,
    went,
)
from tests.survey.houses import trouble as trouble_with

OTHER = 401
SEEN = opened(box_of(FEED), FEED)


def own(number: int, **fields: object) -> Breaker:
    """A breaker that opens its hot alone, with a neutral of its own."""
    made = breaker(number, opens="hot", **fields)
    return change(made, poles=tuple(change(pole, neutral="own") for pole in made.poles))


def sound(*entries, feeds=None, breakers=None, **fields) -> Home:
    """A box that somebody looked into, its feed proved on A, every neutral its own."""
    standing = [own(A), own(B), own(C)] if breakers is None else breakers
    return house(feeds or {FEED: on(A)}, *a_test(A), SEEN, *entries, breakers=standing, **fields)


def plan_of(home: Home, *boxes: int) -> ShutOff:
    return shut_off(find(home), boxes or (box_of(FEED),))


def state(plan: ShutOff) -> str:
    return plan.states[0].state


def test_the_house_itself_is_whole() -> None:
    plan = plan_of(sound())
    assert (plan.is_whole, state(plan), handles_off(plan)) == (True, "should be dead", {A})


# --- what is only planned -------------------------------------------------------------------------------------------


def with_second_gang(home: Home) -> Home:
    """A second device in the box, said to be on B; somebody saw the cables of both."""
    box = home.boxes[box_of(FEED)]
    second = Device(id=51_000, slot=2, kind="dimmer", feeds=(Feed(id=410, on=on(B)),))
    home = change(home, boxes=home.boxes.put(change(box, gangs=2, devices=(*box.devices, second))))
    return record_opened(home, box.id, [("top", FEED), ("left", 410)], date=DAY).home


def test_a_cable_that_was_seen_stays_there_when_its_device_is_called_planned() -> None:
    plan = plan_of(set_device(with_second_gang(sound()), 51_000, planned=True).home)
    assert (plan.is_whole, state(plan)) == (False, "unknown")


def test_a_box_that_somebody_looked_into_is_there_though_all_in_it_is_planned() -> None:
    home = set_device(sound(opened(box_of(FEED), None)), device_of(FEED), planned=True).home
    assert find(home).boxes[box_of(FEED)].unknown
    assert state(plan_of(home)) == "unknown"


def test_a_transformer_that_is_only_planned_makes_no_low_voltage() -> None:
    home = house({FEED: behind(OTHER), OTHER: on(A)}, SEEN, breakers=[own(A)], feed_fields={"volts": "low"})
    before = home.boxes[box_of(OTHER)]
    (device,) = before.devices
    mains = change(device.feeds[0], volts="mains")
    made = change(device, kind="doorbell transformer", feeds=(mains,))
    home = change(home, boxes=home.boxes.put(change(before, devices=(made,))))
    assert state(plan_of(home)) == "should be dead"
    planned = change(home, boxes=home.boxes.put(change(before, devices=(change(made, planned=True),))))
    assert not plan_of(planned).is_whole


def test_what_is_on_the_map_of_a_box_and_was_not_seen_in_it_leaves_it_unopened() -> None:
    home = with_second_gang(sound())
    home = logged(home, *a_test(A, feed=410), opened(box_of(FEED), FEED))
    assert state(plan_of(home)) in ("not opened", "unknown")
    seen = logged(with_second_gang(house({FEED: on(A)}, *a_test(A), breakers=[own(A), own(B)])), *a_test(B, feed=410))
    assert state(plan_of(seen)) == "should be dead"
    fewer = logged(seen, opened(box_of(FEED), FEED))
    assert state(plan_of(fewer)) == "not opened"


# --- shared neutrals ------------------------------------------------------------------------------------------------

LENT = {"returns": FromBreaker(kind="breaker", breaker=B, pole=0)}


@pytest.mark.parametrize("feeds", [{FEED: UNKNOWN}, {FEED: on(A)}, {FEED: behind(OTHER), OTHER: on(A)}])
def test_the_circuit_whose_neutral_a_feed_returns_by_goes_off_whatever_the_map_says_of_the_feed(feeds) -> None:
    home = house(feeds, *a_test(A), SEEN, breakers=[own(A), own(B), own(C)])
    box = home.boxes[box_of(FEED)]
    (device,) = box.devices
    lent = change(device, feeds=(change(device.feeds[0], **LENT),))
    plan = plan_of(change(home, boxes=home.boxes.put(change(box, devices=(lent,)))))
    assert handles_off(plan) == {A, B}
    assert not plan.is_whole  # the neutral in the box is not its own circuit's


def test_a_third_circuit_that_returns_by_the_same_neutral_goes_off_too() -> None:
    home = sound(feeds={FEED: on(A), OTHER: on(C)}, feed_fields=LENT)
    assert handles_off(plan_of(home)) == {A, B, C}


def test_a_circuit_that_shares_a_neutral_and_may_never_go_off_leaves_nothing_whole() -> None:
    never = own(B, may_open=Permission(may="never", why="sump pump"))
    home = sound(feed_fields=LENT, breakers=[own(A), never, own(C)], panels=[panel(PANEL, spaces=200)])
    plan = plan_of(home)
    assert not plan.all_cut
    assert not plan.is_whole


def test_what_shares_a_neutral_that_a_breaker_watches_over_and_nothing_cuts_leaves_nothing_whole() -> None:
    """The neutral is known as its own, since a ground-fault breaker holds on it, and the other circuit uses it too."""
    watched = own(A, protects=("ground fault",))
    watched, never = (
        change(one, poles=tuple(change(pole, neutral=7) for pole in one.poles))
        for one in (watched, own(B, may_open=Permission(may="never")))
    )
    home = sound(breakers=[watched, never], panels=[panel(PANEL, spaces=200)])
    plan = plan_of(home)
    assert plan.states[0].neutral_known
    assert (state(plan), plan.all_cut, plan.is_whole) == ("should be dead", False, False)


# --- handles that may move together ---------------------------------------------------------------------------------


@pytest.mark.parametrize("made", ["makeshift", "not sure"])
def test_a_handle_nailed_to_one_that_may_never_go_off_is_no_choice(made) -> None:
    tied = [own(A, tie=Tie(group=1, made=made)), own(B, tie=Tie(group=1, made=made), may_open=Permission(may="never"))]
    plan = plan_of(sound(breakers=tied))
    assert A not in handles_off(plan)
    assert handles_off(plan) <= {MAIN}


def test_half_of_a_tied_handle_is_not_what_was_tested() -> None:
    """The test was of both; which of them feeds it nobody saw, and each may trip alone."""
    tied = [own(one, tie=Tie(group=1, made="by the factory")) for one in (A, B)]
    home = house({FEED: on(A)}, *a_test(A, B), SEEN, breakers=tied)
    findings = find(home)
    assert shut_off(findings, [box_of(FEED)], frozenset({A})).states[0].state == "not proved"
    assert shut_off(findings, [box_of(FEED)]).states[0].state == "should be dead"


# --- switches on two circuits ---------------------------------------------------------------------------------------


def switched(by: str = "hand", **fields: object) -> Home:
    """The feed's switch works something on B, in another box."""
    control = Control(id=900, switches=(device_of(FEED),), feeds=(OTHER,), by=by)
    return sound(feeds={FEED: on(A), OTHER: on(B)}, kind="switch", controls=Table([control]), **fields)


def test_what_a_switch_works_on_another_circuit_goes_off_with_it() -> None:
    plan = plan_of(switched())
    assert handles_off(plan) == {A, B}
    assert handles_off(plan_of(switched("radio"))) == {A}


def test_what_works_together_on_a_circuit_that_stays_on_keeps_the_box_live() -> None:
    home = switched(breakers=[own(A), own(B, may_open=Permission(may="never")), own(C)])
    findings = find(home)
    assert shut_off(findings, [box_of(FEED)], frozenset({A})).states[0].state == "live"


def lamp(hangs, *entries, breakers=None) -> ShutOff:
    """What opening the switch's box takes, where what it works hangs on this."""
    control = Control(id=900, switches=(device_of(FEED),), feeds=(OTHER,), by="hand")
    feeds = {FEED: on(A), OTHER: hangs}
    return plan_of(sound(*entries, feeds=feeds, kind="switch", controls=Table([control]), breakers=breakers))


def test_what_a_switch_works_that_no_breaker_feeds_is_never_taken_for_dead() -> None:
    assert lamp(on(A)).is_whole
    assert state(lamp(on(elsewhere()))) == "live"
    assert state(lamp(UNKNOWN, went("live", A, feed=OTHER))) == "unknown"
    assert state(lamp(on(A), went("live", A, feed=OTHER))) == "unknown"
    assert lamp(UNKNOWN).is_whole  # of a lamp that is merely unknown nothing speaks for another circuit


def test_the_few_breakers_left_for_what_a_switch_works_go_off_too() -> None:
    many = [own(one) for one in (A, B, C, 104, 105, 106)]
    lives = [went("live", one, feed=OTHER) for one in (104, 105, 106, A)]
    plan = lamp(UNKNOWN, *lives, breakers=many)
    assert handles_off(plan) == {A, B, C}


def test_a_neutral_that_a_feed_elsewhere_returns_by_is_not_its_circuits_own() -> None:
    home = house({FEED: on(A), OTHER: UNKNOWN}, *a_test(A), SEEN, breakers=[own(A), own(B)])
    assert plan_of(home).is_whole
    box = home.boxes[box_of(OTHER)]
    (device,) = box.devices
    borrowing = change(device, feeds=(change(device.feeds[0], returns=FromBreaker(kind="breaker", breaker=A)),))
    plan = plan_of(change(home, boxes=home.boxes.put(change(box, devices=(borrowing,)))))
    assert not plan.states[0].neutral_known
    assert not plan.is_whole


# --- traces ---------------------------------------------------------------------------------------------------------


def test_what_is_said_to_be_disconnected_and_was_traced_is_not() -> None:
    feeds = {FEED: DISCONNECTED, OTHER: on(A)}
    seen = (opened(box_of(FEED), FEED), opened(box_of(OTHER), OTHER, FEED))
    home = house(feeds, *seen, *a_test(A, feed=OTHER), breakers=[own(A), own(B)])
    assert state(plan_of(home)) == "should be dead"
    assert state(plan_of(logged(home, traced(B)))) == "unknown"


def test_a_label_that_a_tracer_speaks_against_puts_both_in_and_the_box_is_shared() -> None:
    home = house({FEED: on(A)}, traced(C), SEEN, breakers=[own(A), own(B), own(C)])
    found = find(home)
    assert handles_off(plan_of(home)) == {A, C}
    assert found.boxes[box_of(FEED)].shared
    assert "points to" in found.conclusions[FEED].says


def test_a_cable_followed_by_eye_to_another_breaker_undoes_a_proof() -> None:
    home = sound(traced(C, way="followed by eye", passes=1))
    plan = plan_of(home)
    assert (plan.is_whole, handles_off(plan)) == (False, {A, C})
    assert plan_of(sound(traced(C))).is_whole  # a tracer proves nothing, and so denies no proof


@pytest.mark.parametrize("before", [(), (traced(A),)])
def test_what_a_weak_tester_found_live_with_its_breaker_off_is_unknown_and_its_box_stays_shut(before) -> None:
    weak = went("live", A, method="non-contact tester")
    home = house({FEED: on(A)}, *before, SEEN, weak, breakers=[own(A), own(B)])
    plan = plan_of(home)
    assert state(plan) == "unknown"
    assert plan.stay_shut == (box_of(FEED),)
    assert "weak tester" in find(home).conclusions[FEED].says


# --- sources, halves, newer programs --------------------------------------------------------------------------------


def test_a_source_that_comes_in_nobody_knows_where_may_be_in_every_box() -> None:
    home = sound(sources=[Source(id=300, name="Roof", kind="solar")])
    plan = plan_of(home)
    assert (plan.is_whole, state(plan)) == (False, "unknown")
    assert any("Nobody said where the source Roof" in one.says for one in find(home).hazards)
    assert plan_of(sound(sources=[Source(id=300, name="Utility", kind="utility")])).is_whole


def test_halves_on_two_breakers_joined_again_are_a_feed_of_which_nobody_knows() -> None:
    home = split_halves(sound(), device_of(FEED)).home
    upper, lower = home.boxes[box_of(FEED)].feeds()
    home = logged(tie(home, [lower.id], B).home, *a_test(B, feed=lower.id))
    joined = join_halves(home, device_of(FEED)).home
    (feed,) = joined.boxes[box_of(FEED)].feeds()
    assert feed.id not in (upper.id, lower.id)
    assert find(joined).conclusions[feed.id].standing == "unknown"
    assert not plan_of(joined).is_whole


def test_halves_split_by_mistake_and_joined_at_once_keep_what_is_known() -> None:
    home = join_halves(split_halves(sound(), device_of(FEED)).home, device_of(FEED)).home
    assert plan_of(home).is_whole


def test_halves_one_of_which_hangs_behind_the_other_come_together_soundly() -> None:
    home = split_halves(sound(), device_of(FEED)).home
    upper, lower = home.boxes[box_of(FEED)].feeds()
    joined = join_halves(hang_behind(home, upper.id, lower.id).home, device_of(FEED)).home
    assert not problems(joined)
    assert not plan_of(joined).is_whole


def test_a_source_into_one_half_is_not_lost_by_joining() -> None:
    home = split_halves(sound(), device_of(FEED)).home
    _, lower = home.boxes[box_of(FEED)].feeds()
    home = add_source(home, "battery", [PANEL, lower.id]).home
    with pytest.raises(Refused, match="source"):
        join_halves(home, device_of(FEED))


def newer(home: Home, what: str) -> Home:
    """The home with a field that a newer program wrote into one of its records."""
    box = home.boxes[box_of(FEED)]
    (device,) = box.devices
    extra = {"joined_to": 12}
    raw = home.model_dump(mode="python")
    place = {
        "feed": raw["boxes"][0]["devices"][0]["feeds"][0],
        "device": raw["boxes"][0]["devices"][0],
        "box": raw["boxes"][0],
        "breaker": raw["breakers"][0],
        "panel": raw["panels"][0],
        "main": raw["panels"][0]["mains"][0],
        "cable": next(entry for entry in raw["log"] if entry["kind"] == "opened")["cables"][0],
    }[what]
    place |= extra
    assert device.id == device_of(FEED)
    return Home.model_validate(raw, strict=False)


@pytest.mark.parametrize("what", ["feed", "device", "box", "breaker", "panel", "main", "cable"])
def test_what_a_newer_program_wrote_more_of_is_unknown(what) -> None:
    plan = plan_of(newer(sound(), what))
    assert (plan.is_whole, state(plan)) == (False, "unknown")


def test_a_newer_programs_word_of_a_source_makes_what_it_names_unknown() -> None:
    source = Source.model_validate({"id": 300, "name": "Utility", "kind": "utility", "into": (), "also_at": FEED})
    assert not plan_of(sound(sources=[source])).is_whole


def test_a_main_in_trouble_makes_nothing_dead() -> None:
    home = sound(trouble_with(MAIN, "loose"))
    assert isinstance(home.panels.rows[0].mains[0], Main)
    assert shut_off(find(home), [box_of(FEED)], frozenset({MAIN})).states[0].state != "should be dead"
