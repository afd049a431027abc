import pytest

from floorplan_circuits.home.boxes import Control
from floorplan_circuits.home.power import Found, Tie
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from tests.supply.wiring import UNKNOWN, behind, breaker, breaker_supply, main, on, panel
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
    changed,
    device_of,
    house,
    proofs_of,
    trouble,
    went,
)

LIVE, DEAD = went("live"), went("dead", A)


def found_off(home, *numbers: int, state: str = "off"):
    rows = {number: change(home.breakers[number], found={"state": state}) for number in numbers}
    return change(home, breakers=Table(rows.get(one.id, one) for one in home.breakers))


def tied(made: str, *more: int):
    tie = Tie(group=900, made=made)
    return [
        breaker(A, opens="hot", tie=tie),
        breaker(B, opens="hot", tie=tie),
        *(breaker(n, opens="hot") for n in more),
    ]


# --- whole, and with a part missing ---------------------------------------------------------------------------------


def test_live_dead_with_one_handle_off_and_live_again_proves_the_handle() -> None:
    (proof,) = proofs_of(house(None, LIVE, DEAD, LIVE))
    assert (proof.handle, proof.since, proof.place, proof.date) == (frozenset({A}), 0, 1, DAY)
    assert proof.besides == frozenset()


@pytest.mark.parametrize(
    "entries",
    [
        pytest.param((DEAD, LIVE), id="not live before"),
        pytest.param((LIVE, DEAD), id="not live after"),
        pytest.param((LIVE, LIVE), id="never dead"),
        pytest.param((LIVE, went("unclear", A), LIVE), id="unclear, not dead"),
        pytest.param((went("unclear"), DEAD, LIVE), id="unclear before"),
        pytest.param((LIVE, DEAD, went("dead")), id="dead after"),
        pytest.param((LIVE, DEAD, went("dead"), LIVE), id="dead at the closing check, live only later"),
        pytest.param((LIVE, went("dead"), DEAD, LIVE), id="dead as usual just before"),
        pytest.param((LIVE, went("dead", A, tester={"before": False, "after": True}), LIVE), id="tester not before"),
        pytest.param((LIVE, went("dead", A, tester={"before": True, "after": False}), LIVE), id="tester not after"),
        pytest.param((LIVE, went("dead", A, B), LIVE), id="two handles off"),
        pytest.param((LIVE, went("dead", A, MAIN), LIVE), id="the main off as well"),
        pytest.param((LIVE, went("dead", MAIN), LIVE), id="only the main off"),
        pytest.param((LIVE, went("dead", A, 999), LIVE), id="a handle off that is gone"),
        pytest.param((LIVE, went("dead", 999), LIVE), id="only something off that is gone"),
        pytest.param((LIVE, went("dead", A, date="2026-03-15"), LIVE), id="on another day"),
        pytest.param((went(date="2026-03-13"), DEAD, LIVE), id="live the day before"),
        pytest.param((LIVE, DEAD, went(date="2026-03-15")), id="live again the day after"),
        pytest.param(a_test(A, date=""), id="nobody wrote down the day"),
        pytest.param((went(method="low-impedance meter"), DEAD, LIVE), id="another witness before"),
        pytest.param((LIVE, DEAD, went(method="low-impedance meter")), id="another witness after"),
        pytest.param(a_test(A, method="non-contact tester"), id="a weak witness"),
        pytest.param(a_test(A, method="high-impedance meter"), id="a meter that shows ghosts"),
        pytest.param(a_test(A, method="not said"), id="nobody says what with"),
        pytest.param((LIVE, went("dead", A, lent=True), LIVE), id="a newer program added to the round"),
        pytest.param(
            (LIVE, went("dead", A, readings=[{"feed": FEED, "says": s} for s in ("dead", "live")]), LIVE),
            id="the round says both",
        ),
        pytest.param((LIVE, went("dead", A, feed=401), LIVE), id="another feed was dead"),
    ],
)
def test_a_part_missing_proves_nothing(entries) -> None:
    assert proofs_of(house(None, *entries)) == []


def test_the_time_of_day_does_not_matter() -> None:
    entries = [entry | {"date": f"{DAY}T{hour}:00"} for entry, hour in zip(a_test(A), (19, 20, 21), strict=True)]
    assert len(proofs_of(house(None, *entries))) == 1


def test_two_tests_are_two_proofs() -> None:
    assert [proof.handle for proof in proofs_of(house(None, *a_test(A), *a_test(B)))] == [{A}, {B}]


def test_what_came_between_is_told_by_since_a_change_after_the_live_reading_is_later() -> None:
    (proof,) = proofs_of(house(None, LIVE, changed(20_400), DEAD, LIVE))
    assert proof.since < 1 < proof.place


def test_a_trouble_does_not_hide_the_proof_itself() -> None:
    assert len(proofs_of(house(None, *a_test(A), trouble(A)))) == 1


# --- alone ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("state", ["off", "tripped"])
def test_what_was_found_off_may_stay_off_and_the_proof_names_it(state) -> None:
    (proof,) = proofs_of(found_off(house(None, *a_test(A, resting=(C,))), C, state=state))
    assert (proof.handle, proof.besides) == ({A}, {C})


@pytest.mark.parametrize("state", ["on", "not recorded"])
def test_a_handle_that_was_not_recorded_as_found_off_is_not_as_usual(state) -> None:
    assert proofs_of(found_off(house(None, *a_test(A, resting=(C,))), C, state=state)) == []


@pytest.mark.parametrize("odd", [0, 2])
def test_a_handle_found_off_that_was_on_in_one_reading_may_be_what_made_it_live(odd) -> None:
    entries = list(a_test(A, resting=(C,)))
    entries[odd] = went("live")
    assert proofs_of(found_off(house(None, *entries), C)) == []


def test_nearer_readings_as_usual_count_though_another_handle_rested() -> None:
    entries = (went("live", C), went("dead"), went("dead", A, C), went("live", C))
    assert proofs_of(found_off(house(None, *entries), C)) == []


def test_a_handle_that_was_found_off_is_itself_never_proved() -> None:
    assert proofs_of(found_off(house(None, *a_test(A)), A)) == []


# --- tied handles ---------------------------------------------------------------------------------------------------


def test_tied_handles_are_one_hand_movement() -> None:
    (proof,) = proofs_of(house(None, *a_test(A, B), breakers=tied("by the factory", C)))
    assert proof.handle == {A, B}


@pytest.mark.parametrize("made", ["makeshift", "not sure"])
def test_a_tie_that_the_factory_did_not_make_counts_as_none(made) -> None:
    assert proofs_of(house(None, *a_test(A, B), breakers=tied(made, C))) == []


def test_half_of_a_tied_handle_off_is_no_hand_movement() -> None:
    assert proofs_of(house(None, *a_test(A), breakers=tied("by the factory", C))) == []


def test_a_tied_handle_of_which_half_is_gone_proves_nothing() -> None:
    home = house(None, *a_test(A, B), breakers=tied("by the factory", C))
    assert proofs_of(change(home, breakers=home.breakers.without([B]))) == []


# --- a lamp, and each hot -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("opens", ["hot and neutral", "not known"])
def test_a_handle_that_may_open_the_neutral_needs_each_hot_shown(opens) -> None:
    breakers = [breaker(A, opens=opens)]
    assert proofs_of(house(None, *a_test(A), breakers=breakers)) == []
    assert len(proofs_of(house(None, *a_test(A, each_hot=True), breakers=breakers))) == 1


@pytest.mark.parametrize("lacking", [0, 1, 2])
def test_each_hot_must_be_shown_in_every_reading_since_without_ground_all_read_nothing(lacking) -> None:
    entries = list(a_test(A, each_hot=True))
    entries[lacking] = a_test(A)[lacking]
    assert proofs_of(house(None, *entries, kind="240 V receptacle")) == []
    assert len(proofs_of(house(None, *a_test(A, each_hot=True), kind="240 V receptacle"))) == 1


@pytest.mark.parametrize("kind", ["240 V appliance", "a thing nobody knows", "fixed appliance", "cooker point"])
def test_a_thing_that_may_have_two_hots_is_not_proved_by_one_reading(kind) -> None:
    assert proofs_of(house(None, *a_test(A), kind=kind)) == []


def test_an_appliance_that_is_stated_on_one_pole_is() -> None:
    assert len(proofs_of(house({FEED: on(A)}, *a_test(A), kind="fixed appliance"))) == 1


def test_a_stated_breaker_of_two_poles_needs_each_hot_unless_the_pole_is_known() -> None:
    breakers = [breaker(A, 1, 3, opens="both hots")]
    assert proofs_of(house({FEED: on(A)}, *a_test(A), breakers=breakers)) == []
    on_pole = on(breaker_supply(A, 0))
    assert len(proofs_of(house({FEED: on_pole}, *a_test(A), breakers=breakers))) == 1


def test_what_hangs_behind_two_hots_has_two() -> None:
    feeds = {FEED: behind(401), 401: on(A, B, how="all")}
    assert proofs_of(house(feeds, *a_test(A))) == []


def test_a_cable_without_a_device_needs_each_hot_and_a_tester() -> None:
    home = house(None, *a_test(A, each_hot=True))
    (box,) = home.boxes
    bare = change(box, devices=(), passing=box.devices[0].feeds)
    assert len(proofs_of(change(home, boxes=Table([bare])))) == 1
    lamp = house(None, *a_test(A, each_hot=True, method="lamp plugged in"))
    assert proofs_of(change(lamp, boxes=Table([bare]))) == []


# --- who bears witness ----------------------------------------------------------------------------------------------


def test_a_timer_that_may_have_put_it_out_leaves_a_dead_lamp_unclear() -> None:
    def worked(by: str):
        control = Control(id=900, feeds=(FEED,), by=by)
        return house(None, *a_test(A, method="the fixture itself"), kind="wall light", controls=Table([control]))

    assert len(proofs_of(worked("hand"))) == 1
    for by in ("timer", "photocell", "sensor", "radio", "thermostat", "not known"):
        assert proofs_of(worked(by)) == []


def test_a_switch_is_proved_with_the_one_lamp_that_it_works_by_hand() -> None:
    entries, feeds = a_test(A, method="the fixture itself"), {FEED: UNKNOWN, 401: UNKNOWN}
    assert proofs_of(house(feeds, *entries, kind="switch")) == []
    control = Control(id=900, switches=(device_of(FEED),), feeds=(401,), by="hand")
    worked = house(feeds, *entries, kind="switch", controls=Table([control]))
    assert len(proofs_of(worked)) == 1
    two = Table([control, change(control, id=901)])
    assert proofs_of(house(feeds, *entries, kind="switch", controls=two)) == []
    lamp = worked.boxes[box_of(401)]
    planned = change(lamp, devices=(change(lamp.devices[0], planned=True),))
    assert proofs_of(change(worked, boxes=worked.boxes.put(planned))) == []


@pytest.mark.parametrize("made", ["makeshift", "not sure"])
def test_a_handle_that_may_have_moved_another_was_never_off_alone(made) -> None:
    """A nail counts for nothing where both must open, and for something where one should be off alone."""
    joined = [breaker(one, opens="hot", tie=Tie(group=1, made=made)) for one in (A, B)]
    assert proofs_of(house(None, *a_test(A), breakers=joined)) == []
    resting = [joined[0], change(joined[1], found=Found(state="off"))]
    assert len(proofs_of(house(None, *a_test(A, resting=(B,)), breakers=resting))) == 1


@pytest.mark.parametrize("method", ["lamp plugged in", "the fixture itself", "radio plugged in, no battery"])
def test_a_lamp_never_shows_each_hot_whatever_is_ticked(method) -> None:
    unsure = [breaker(A, opens="not known")]
    assert proofs_of(house(None, *a_test(A, each_hot=True, method=method), breakers=unsure)) == []
    assert len(proofs_of(house(None, *a_test(A, each_hot=True), breakers=unsure))) == 1


def test_a_feeder_that_is_turned_off_alone_is_what_the_test_shows() -> None:
    panels = [panel(PANEL, spaces=200), panel(2, prefix="G", fed_by=(breaker_supply(A),), mains=(main(201),))]
    breakers = [breaker(A, opens="hot"), breaker(B, of=2, opens="hot")]
    assert [proof.handle for proof in proofs_of(house(None, *a_test(A), breakers=breakers, panels=panels))] == [{A}]
