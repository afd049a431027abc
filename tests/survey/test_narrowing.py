"""What readings leave of a feed: a strong 'live' excludes, a 'dead' only tells what would explain it."""

import pytest

from floorplan_circuits.home.boxes import Control
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from floorplan_circuits.survey.narrowing import Narrowed, narrowed, void_readings
from floorplan_circuits.survey.shut import Shut
from tests.supply.wiring import UNKNOWN, breaker, on, panel, source
from tests.survey.houses import (
    FEED,
    MAIN,
    PANEL,
    A,
    B,
    C,
    box_of,
    case,
    changed,
    evidence_of,
    house,
    known,
    struck,
    trouble,
    went,
)


def left(home: Home, feed: int = FEED) -> Narrowed:
    return narrowed(case(home, feed), Shut.of(evidence_of(home)))


def test_without_readings_everything_is_left() -> None:
    assert left(house()) == Narrowed((A, B, C), (A, B, C))
    assert known(house()).candidates == (A, B, C)


def test_a_strong_live_excludes_what_was_off_and_all_behind_it() -> None:
    assert left(house(None, went("live", A))).left == (B, C)
    home = house(
        panels=(panel(PANEL, spaces=200), panel(2, fed_by=({"kind": "breaker", "breaker": A},))),
        breakers=(breaker(A), breaker(B), breaker(C, of=2)),
    )
    with_round = change(home, log=house(None, went("live", A)).log)
    assert left(with_round).left == (B,)


def test_live_with_the_main_off_leaves_no_single_breaker_and_says_so() -> None:
    one = known(house(None, went("live", MAIN)))
    assert (one.standing, one.candidates) == ("unknown", ())
    assert one.says == "nobody knows; no one breaker explains what was read"


def test_a_dead_excludes_nothing_and_tells_what_would_explain_it() -> None:
    found = left(house(None, went("dead", A), went("live")))
    assert (found.left, found.fitting) == ((A, B, C), (A,))


@pytest.mark.parametrize(
    "weak",
    [
        went("live", A, method="non-contact tester"),
        went("live", A, method="high-impedance meter"),
        went("live", A, method="signal tracer"),
        went("live", A, method="not said"),
        went("dead", A, method="non-contact tester"),
        went("unclear", A),
    ],
)
def test_a_weak_witness_tells_nothing(weak) -> None:
    assert left(house(None, weak)) == Narrowed((A, B, C), (A, B, C))


def test_a_battery_tells_nothing() -> None:
    home = house(None, went("live", A, method="the fixture itself"), kind="smoke alarm")
    assert left(home).readings == ()


def test_a_breaker_that_did_not_open_is_not_excluded_until_its_panel_was_worked_on() -> None:
    assert left(house(None, went("live", A), trouble(A))).left == (A, B, C)
    assert left(house(None, trouble(A), changed(panels=(PANEL,)), went("live", A))).left == (B, C)


def test_a_source_on_a_circuit_keeps_its_panel_from_being_excluded_with_the_main() -> None:
    home = house(None, went("live", MAIN), sources=(source(900, A, kind="generator"),))
    assert left(home).left == (A, B, C)


def test_a_change_of_its_box_lapses_all_and_work_on_a_panel_what_it_says_of_that_panel() -> None:
    assert left(house(None, went("live", A), changed(box_of(FEED)))).left == (A, B, C)
    assert left(house(None, went("dead", A), changed())).fitting == (A, B, C)
    two = house(
        panels=(panel(PANEL, spaces=200), panel(2, prefix="G")), breakers=(breaker(A), breaker(B, of=2), breaker(C))
    )
    log = house(None, went("live", A), went("live", B), went("dead", C), changed(panels=(2,))).log
    found = left(change(two, log=log))
    assert found.left == (B, C)
    assert found.fitting == (B, C)


def test_a_struck_reading_tells_nothing() -> None:
    assert left(house(None, went("live", A), struck(60_000))).left == (A, B, C)


def test_a_round_that_names_a_handle_that_is_gone_excludes_but_never_concludes() -> None:
    assert left(house(None, went("live", A, 999))).left == (B, C)
    assert left(house(None, went("dead", A, 999))).fitting == (A, B, C)
    assert known(house(None, went("dead", A, 999), went("live"))).standing == "unknown"


# --- what is void ---------------------------------------------------------------------------------------------------


def test_readings_of_a_feed_that_is_dead_when_all_is_back_on_are_void_since_it_was_last_live() -> None:
    home = house(None, went("dead", A), went("live", B), went("dead", C), went("dead"))
    assert void_readings(case(home), evidence_of(home)) == {2, 3}
    assert left(home).fitting == (A,)


@pytest.mark.parametrize("says", ["dead", "unclear"])
def test_an_unclear_closing_check_voids_as_well(says) -> None:
    assert left(house(None, went("live"), went("dead", A), went(says))).fitting == (A, B, C)


def test_a_dead_with_a_test_button_pressed_is_laid_to_no_breaker_and_proves_none() -> None:
    entries = went("live"), went("dead", A, pressed=[FEED]), went("live")
    assert left(house({FEED: on(A)}, *entries)).fitting == (A, B, C)
    assert known(house({FEED: on(A)}, *entries)).standing == "claimed"


def test_an_automatic_light_that_is_out_tells_nothing() -> None:
    home = house(None, went("dead", A, method="the fixture itself"), went("live"), kind="ceiling light")
    assert left(home).fitting == (A,)
    photocell = Control(id=30, feeds=(FEED,), by="photocell")
    assert left(change(home, controls=Table((photocell,)))).fitting == (A, B, C)


# --- standing -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("hangs", [UNKNOWN, on(A)])
def test_rounds_that_leave_one_breaker_alone_suggest_it(hangs) -> None:
    one = known(house({FEED: hangs}, went("dead", A)))
    assert (one.standing, one.breakers, one.says) == ("suggested", (A,), "rounds suggest it")
    assert one.candidates == (A, B, C)


def test_elimination_suggests_what_it_leaves_once_a_dead_speaks_for_it() -> None:
    lives = went("live", A), went("live", B)
    assert known(house(None, *lives)).says == "nobody knows; could be 9, on more than one, or from elsewhere"
    one = known(house(None, *lives, went("dead", B, C), went("live")))
    assert (one.standing, one.breakers, one.candidates) == ("suggested", (C,), (C,))


def test_nothing_is_suggested_on_a_circuit_that_the_map_joins_to_another() -> None:
    feeds = {FEED: UNKNOWN, 401: on(A, B)}
    assert known(house(feeds, went("dead", A, B), went("live", B), went("live", C))).standing == "unknown"


def test_a_suggestion_against_the_map_stays_a_claim_and_is_told() -> None:
    one = known(house({FEED: on(B)}, went("dead", A), went("live")))
    assert (one.standing, one.breakers) == ("claimed", (B,))
    assert one.says == "stated, nobody says by whom; but tests suggest 1"


def test_a_few_that_are_left_are_named() -> None:
    one = known(house(None, went("live", A)))
    assert one.standing == "unknown"
    assert one.says == "nobody knows; could be 5 or 9, on more than one, or from elsewhere"


def test_nothing_is_suggested_beside_another_supply() -> None:
    home = house({FEED: on(A)}, went("dead", A), sources=(source(900, FEED, kind="generator"),))
    assert known(home).standing != "suggested"


# --- at odds --------------------------------------------------------------------------------------------------------


def test_a_stated_loop_explains_what_no_one_breaker_does() -> None:
    entries = went("live", A), went("live", B), went("live", C)
    assert [one.round.id for one in left(house(None, *entries)).at_odds] == [60_000, 60_001, 60_002]
    assert left(house({FEED: on(A, B)}, *entries)).at_odds == ()
    assert left(house({FEED: on(A, B)}, *entries, went("live", A, B))).at_odds != ()


def test_two_hots_on_two_breakers_explain_a_load_that_stops_with_either() -> None:
    entries = went("dead", A), went("dead", B), went("live")
    assert left(house(None, *entries)).at_odds != ()
    assert left(house(None, *entries, kind="240 V appliance")).at_odds == ()
    assert left(house({FEED: on(A, B, how="all")}, *entries)).at_odds == ()
    assert left(house(None, *entries, went("dead", C), kind="240 V appliance")).at_odds != ()


@pytest.mark.parametrize("lacking", [{"before": True, "after": False}, {"before": False, "after": True}])
def test_a_tester_that_was_not_proved_before_and_after_suggests_nothing(lacking) -> None:
    """HSE GS38 and NFPA 70E 120.5: a test instrument is proved on a live point before and after."""
    seen = [went(), went("dead", A, tester=lacking), went("live", B), went("live", C), went()]
    assert known(house(None, *seen)).standing == "unknown"
    proved = [went(), went("dead", A), went("live", B), went("live", C), went()]
    assert known(house(None, *proved)).standing in ("suggested", "proved")


def test_a_fuse_of_which_nobody_knows_the_side_is_excluded_by_no_live() -> None:
    """With the neutral out the hot stays live: what is live may hang on it all the same."""
    fuses = [breaker(A, device="fuse", opens="not known"), breaker(B, opens="hot"), breaker(C, opens="hot")]
    assert A in known(house(None, went("live", A), breakers=fuses)).candidates
    sure = [breaker(A, device="fuse", opens="hot"), *fuses[1:]]
    assert A not in known(house(None, went("live", A), breakers=sure)).candidates
