"""Readings that cannot all hold, in words."""

import pytest

from floorplan_circuits.findings import Disagreement
from floorplan_circuits.home.home import Home
from floorplan_circuits.survey.disagreements import DANGERS, FALSE_DEAD, LIVE_WHATEVER, WRONG, WRONG_MAP
from tests.supply.wiring import behind, on
from tests.survey.houses import FEED, A, B, C, a_test, found, house, trouble, went

WHAT = "the receptacle in B400"


def said(home: Home) -> Disagreement:
    (one,) = found(home).disagreements
    return one


def test_two_tests_of_one_breaker_are_told_with_what_to_repeat() -> None:
    one = said(house(None, went("dead", A), went("live"), went("live", A)))
    assert one.says == f"Round 1 found {WHAT} dead with 1 off, round 3 found it live with 1 off."
    assert one.do == f"Repeat with 1 alone. {LIVE_WHATEVER}"
    assert one.may_be[0] == FALSE_DEAD
    assert one.may_be[-1] == WRONG
    assert one.entries == (60_000, 60_002)


def test_where_all_are_live_the_dangerous_explanations_come_first() -> None:
    one = said(house(None, went("live", A), went("live", B), went("live", C)))
    assert one.may_be == (*DANGERS, WRONG)
    assert one.says == (
        f"Round 1 found {WHAT} live with 1 off, round 2 found it live with 5 off, round 3 found it live with 9 off. "
        "No one breaker explains that."
    )
    assert one.do == f"Repeat round 1, round 2 and round 3. {LIVE_WHATEVER}"


def test_a_claim_that_is_denied_names_the_map() -> None:
    one = said(house({FEED: on(A)}, went("live", A)))
    assert one.says == f"Round 1 found {WHAT} live with 1 off. The map says 1."
    assert one.may_be == (*DANGERS, WRONG_MAP, WRONG)


def test_a_tested_breaker_that_is_denied_may_not_be_the_maps_mistake() -> None:
    one = said(house({FEED: on(A)}, *a_test(A), went("live", A)))
    assert WRONG_MAP not in one.may_be


def test_a_breaker_that_did_not_open_is_left_to_an_electrician() -> None:
    one = said(house({FEED: on(A)}, trouble(A)))
    assert "did not open" in one.says
    assert "licensed electrician" in one.do
    assert one.entries == ()


def test_struck_rounds_keep_their_numbers() -> None:
    home = house({FEED: on(A)}, went("live", B), went("live", A), {"kind": "struck", "entry": 60_000})
    assert said(home).says.startswith("Round 2 found")


def test_many_breakers_that_were_off_are_counted() -> None:
    home = house(None, went("live", *range(1, 8), A, B, C))
    assert "live with 10 breakers off" in said(home).says


@pytest.mark.parametrize("hangs", [on(A), behind(401)])
def test_a_map_that_fits_is_not_at_odds(hangs) -> None:
    assert found(house({FEED: hangs, 401: on(A)}, *a_test(A), *a_test(A, feed=401))).disagreements == ()
