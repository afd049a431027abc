"""Turning on again: what feeds comes before what it feeds, and what runs by itself is named."""

import pytest

from floorplan_circuits.find import find
from floorplan_circuits.home.boxes import Control, FromBreaker
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from floorplan_circuits.shutoff.restoring import Loses, loses_power, mains_first, starts_by_itself
from tests.shutoff.plans import plan_of
from tests.supply.wiring import breaker, main, on, panel
from tests.survey.houses import FEED, MAIN, A, B, box_of, house

SUB = house(
    {FEED: on(B)},
    panels=[
        panel(1, mains=(main(MAIN),), spaces=200),
        panel(2, fed_by=(FromBreaker(kind="breaker", breaker=A),), spaces=200),
    ],
    breakers=[breaker(A), breaker(B, of=2)],
)


def test_mains_come_before_feeders_and_feeders_before_branches() -> None:
    assert mains_first((B, A, MAIN), find(SUB)) == (MAIN, A, B)


def test_handles_side_by_side_keep_their_order() -> None:
    assert mains_first((B, A), find(house({FEED: on(A)}))) == (B, A)


@pytest.mark.parametrize(
    ("what", "critical", "starts"),
    [
        ("sump pump", "keeps the basement dry", True),
        ("freezer", "", True),
        ("furnace", "the heating", True),
        ("stairwell light", "", False),
        ("receptacle", "medical: by the bed", False),
    ],
)
def test_pumps_cold_and_heating_start_by_themselves(what: str, critical: str, starts: bool) -> None:
    losing = (Loses(FEED, "Cellar", what, critical),)
    assert starts_by_itself(losing, find(house())) == ((f"{what} (Cellar)",) if starts else ())


@pytest.mark.parametrize(("by", "starts"), [("photocell", True), ("timer", True), ("hand", False), ("radio", False)])
def test_so_does_what_a_control_works_without_a_hand(by: str, starts: bool) -> None:
    control = Control(id=5000, feeds=(FEED,), by=by)
    home = change(house({FEED: on(A)}), controls=Table([control]))
    losing = loses_power(plan_of(home), find(home))
    assert starts_by_itself(losing, find(home)) == (("receptacle",) if starts else ())


def test_what_is_in_the_boxes_loses_power_and_what_goes_dark_with_them() -> None:
    home = house({FEED: on(A), 401: on(A), 402: on(B)})
    assert [one.feed for one in loses_power(plan_of(home, box_of(FEED)), find(home))] == [FEED, 401]
