import pytest

from tests.supply.wiring import DISCONNECTED, UNKNOWN, behind, breaker, breaker_supply, elsewhere, on, panel, source
from tests.survey.houses import (
    FEED,
    MAIN,
    PANEL,
    A,
    B,
    C,
    a_test,
    box_of,
    changed,
    house,
    known,
    struck,
    traced,
    trouble,
    went,
)

NEXT = 401
WEAK = {"method": "non-contact tester"}
IN_GARAGE = {
    "panels": [panel(PANEL, spaces=200), panel(2, prefix="G", fed_by=(breaker_supply(A),))],
    "breakers": [breaker(A, opens="hot"), breaker(B, of=2, opens="hot"), breaker(C, of=2, opens="hot")],
}


# --- a strong 'live' denies -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("off", [(A,), (A, B), (MAIN,), (A, 999)])
def test_live_with_the_stated_breaker_or_all_above_it_off_denies_it(off) -> None:
    one = known(house({FEED: on(A)}, went("live", *off)))
    assert (one.standing, one.breakers) == ("contradicted", (A,))


@pytest.mark.parametrize("off", [(), (B,), (999,)])
def test_live_with_something_else_off_denies_nothing(off) -> None:
    assert known(house({FEED: on(A)}, went("live", *off))).standing == "claimed"


def test_live_with_the_feeder_off_denies_the_breaker_below_it() -> None:
    assert known(house({FEED: on(B)}, went("live", A), **IN_GARAGE)).standing == "contradicted"


@pytest.mark.parametrize("off", [(A,), (MAIN,)])
@pytest.mark.parametrize("first", [True, False])
def test_live_with_the_proved_breaker_off_denies_it_whatever_came_first(off, first) -> None:
    against = went("live", *off)
    entries = (against, *a_test(A)) if first else (*a_test(A), against)
    one = known(house(None, *entries))
    assert (one.standing, one.breakers) == ("contradicted", (A,))


def test_that_power_could_run_back_into_the_proved_breakers_circuit_excuses_no_live_reading() -> None:
    home = house({FEED: UNKNOWN, NEXT: on(A, B)}, *a_test(A), went("live", A))
    assert known(home).standing == "contradicted"


def test_a_weak_reading_after_a_strong_one_does_not_hide_it() -> None:
    assert known(house({FEED: on(A)}, went("live", A), went("live", A, **WEAK))).standing == "contradicted"


@pytest.mark.parametrize(
    "entries",
    [
        pytest.param(
            (went("live", A, readings=[{"feed": FEED, "says": s} for s in ("dead", "live")]),), id="says both"
        ),
        pytest.param((went("live", A), {"kind": "withdrawn", "round": 60_000}), id="a newer program names it"),
        pytest.param((went("live", A, lent=True),), id="a newer program added to it"),
        pytest.param((went("live", A, tester={"before": False, "after": False}),), id="its tester was not proved"),
        pytest.param((went("live", A, date=""),), id="nobody knows when"),
    ],
)
def test_what_is_too_little_to_prove_anything_still_denies(entries) -> None:
    assert known(house({FEED: on(A)}, *entries)).standing == "contradicted"


def test_a_loop_is_denied_only_by_live_with_all_its_breakers_off() -> None:
    assert known(house({FEED: on(A, B)}, went("live", A))).standing == "claimed"
    assert known(house({FEED: on(A, B)}, went("live", A, B))).standing == "contradicted"


def test_what_another_supply_can_keep_live_is_not_denied() -> None:
    assert known(house({FEED: on(A, elsewhere())}, went("live", A, MAIN))).standing == "claimed"
    solar = source(300, A, name="Solar")
    assert known(house({FEED: on(A)}, went("live", A), sources=[solar])).standing == "claimed"


def test_what_is_behind_a_denied_breaker_is_denied_by_its_own_reading_alone() -> None:
    feeds = {FEED: on(A), NEXT: behind(FEED)}
    assert known(house(feeds, went("live", A, feed=NEXT)), NEXT).standing == "contradicted"
    assert known(house(feeds, went("live", A)), NEXT).standing == "claimed"


def test_a_battery_denies_nothing() -> None:
    home = house({FEED: on(A)}, went("live", A, method="the fixture itself"), kind="smoke alarm")
    assert known(home).standing == "claimed"


def test_live_with_the_traced_breaker_off_denies_the_trace() -> None:
    one = known(house(None, traced(A), went("live", A)))
    assert (one.standing, one.breakers) == ("contradicted", (A,))


def test_a_change_lapses_what_was_denied_before_it() -> None:
    assert known(house({FEED: on(A)}, went("live", A), changed(box_of(FEED)))).standing == "claimed"


def test_a_struck_reading_denies_nothing() -> None:
    assert known(house({FEED: on(A)}, went("live", A), struck(60_000))).standing == "claimed"


@pytest.mark.parametrize(("fields", "standing"), [({}, "contradicted"), (WEAK, "unknown")])
@pytest.mark.parametrize("off", [(), (A,), (MAIN,)])
def test_live_though_said_to_be_connected_to_nothing(fields, standing, off) -> None:
    assert known(house({FEED: DISCONNECTED}, went("live", *off, **fields))).standing == standing


# --- tests that do not agree ----------------------------------------------------------------------------------------


def test_two_tests_on_two_breakers_contradict_each_other_and_both_are_named() -> None:
    one = known(house(None, *a_test(A), *a_test(B)))
    assert (one.standing, one.breakers) == ("contradicted", (A, B))


def test_a_test_on_another_breaker_than_stated_contradicts_and_both_are_named() -> None:
    one = known(house({FEED: on(B)}, *a_test(A)))
    assert (one.standing, one.breakers) == ("contradicted", (B, A))


def test_a_test_of_a_stated_loop_contradicts_it() -> None:
    one = known(house({FEED: on(A, B)}, *a_test(A, each_hot=True)))
    assert (one.standing, set(one.breakers)) == ("contradicted", {A, B})


def test_a_feeder_and_the_breaker_below_it_agree() -> None:
    assert known(house({FEED: on(B)}, *a_test(A), *a_test(B), **IN_GARAGE)).standing == "proved"


# --- a breaker that did not open ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "home",
    [
        pytest.param(house(None, *a_test(A), trouble(A)), id="proved before"),
        pytest.param(house({FEED: on(A)}, trouble(A)), id="stated"),
        pytest.param(house(None, traced(A), trouble(A)), id="traced"),
        pytest.param(house({FEED: behind(NEXT), NEXT: on(A)}, trouble(A)), id="behind what is stated"),
        pytest.param(house(None, *a_test(A)[:2], trouble(A), a_test(A)[2]), id="in the middle of the test"),
        pytest.param(house(None, *a_test(A), trouble(A), changed(box_of(FEED))), id="only the box was rewired"),
    ],
)
def test_a_handle_that_did_not_open_contradicts_every_feed_on_it(home) -> None:
    one = known(home)
    assert (one.standing, one.breakers) == ("contradicted", (A,))
    assert "did not open" in one.says


def test_a_later_test_shows_that_it_opens_and_still_says_that_it_once_did_not() -> None:
    one = known(house(None, trouble(A), *a_test(A)))
    assert one.standing == "proved"
    assert "its breaker once did not open" in one.says


def test_a_later_test_of_another_feed_shows_nothing_for_this_one() -> None:
    feeds = {FEED: on(A), NEXT: on(A)}
    assert known(house(feeds, trouble(A), *a_test(A, feed=NEXT))).standing == "contradicted"


def test_work_on_its_panel_mends_it_and_lapses_the_test() -> None:
    assert known(house(None, *a_test(A), trouble(A), changed(panels=(PANEL,)))).standing == "expired"
    assert known(house({FEED: on(A)}, trouble(A), changed(panels=(PANEL,)))).standing == "claimed"


def test_a_struck_trouble_or_that_of_another_handle_is_none() -> None:
    assert known(house(None, *a_test(A), trouble(A), struck(60_003))).standing == "proved"
    assert known(house(None, *a_test(A), trouble(B))).standing == "proved"


# --- doubts ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("off", [(A,), (A, B), (MAIN,)])
def test_a_weak_live_with_the_proved_handle_off_later_un_proves(off) -> None:
    one = known(house(None, *a_test(A), went("live", *off, **WEAK)))
    assert (one.standing, one.breakers) == ("claimed", (A,))


def test_a_weak_live_before_the_test_or_with_the_handle_on_does_not() -> None:
    assert known(house(None, went("live", A, **WEAK), *a_test(A))).standing == "proved"
    assert known(house(None, *a_test(A), went("live", B, **WEAK))).standing == "proved"


def test_dead_with_the_proved_handle_on_and_live_again_un_proves() -> None:
    again = (went("dead", B, tester={"before": False, "after": False}), went("live"))
    assert known(house(None, *a_test(A), *again)).standing == "claimed"


@pytest.mark.parametrize(
    "after",
    [
        pytest.param((went("dead", B),), id="never live again: void"),
        pytest.param((went("dead", B, **WEAK), went("live")), id="a weak tester's dead says nothing"),
        pytest.param((went("dead", A, B), went("live")), id="the handle was off too"),
        pytest.param((went("dead", MAIN), went("live")), id="all was off"),
        pytest.param((went("dead"),), id="a lamp burnt out"),
        pytest.param((went("unclear", B), went("live")), id="unclear"),
    ],
)
def test_a_later_dead_that_the_proof_explains_or_that_is_void_does_not(after) -> None:
    assert known(house(None, *a_test(A), *after)).standing == "proved"


def test_a_second_supply_beside_the_proved_one_un_proves() -> None:
    joined = house({FEED: on(A), NEXT: on(A, B)}, *a_test(A))
    assert (known(joined).standing, set(known(joined).breakers)) == ("claimed", {A, B})
    solar = house({FEED: on(A)}, *a_test(A), sources=[source(300, A, name="Solar")])
    assert (known(solar).standing, known(solar).others) == ("claimed", ("source: Solar",))
    neighbour = house({FEED: on(A, elsewhere("next door"))}, *a_test(A))
    assert known(neighbour).standing == "claimed"
