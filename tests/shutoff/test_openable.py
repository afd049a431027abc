"""Which boxes stay shut: what is live all the same, and what no handle is for."""

from floorplan_circuits.home.boxes import FromBreaker
from floorplan_circuits.home.home import Home
from tests.shutoff.plans import plan_of
from tests.supply.wiring import DISCONNECTED, UNKNOWN, breaker, main, on, panel
from tests.survey.houses import FEED, A, B, box_of, house, opened, trouble


def shut(home: Home, *boxes: int) -> list[int]:
    return list(plan_of(home, *boxes).stay_shut)


def test_a_box_whose_breaker_is_turned_off_may_be_opened_to_be_tested() -> None:
    assert shut(house({FEED: on(A)})) == []


def test_a_box_of_which_nobody_knows_stays_shut_whatever_is_off_for_another() -> None:
    home = house({FEED: on(A), 401: UNKNOWN})
    assert shut(home, box_of(FEED), box_of(401)) == [box_of(401)]


def test_one_thing_nobody_knows_keeps_a_box_shut_whatever_is_off_for_the_rest_of_it() -> None:
    home = house({FEED: on(A)}, opened(box_of(FEED), FEED, None))
    assert plan_of(home).off
    assert shut(home) == [box_of(FEED)]


def test_a_box_whose_breaker_does_not_open_stays_shut() -> None:
    home = house({FEED: on(A)}, trouble(A, "did not open"), panels=[panel(1, spaces=200)])
    assert shut(home) == [box_of(FEED)]


def test_a_box_behind_a_feeder_that_is_off_may_be_opened() -> None:
    panels = [
        panel(1, mains=(main(200),), spaces=200),
        panel(2, fed_by=(FromBreaker(kind="breaker", breaker=A),), spaces=200),
    ]
    home = house({FEED: on(B)}, trouble(B, "runs hot"), panels=panels, breakers=[breaker(A), breaker(B, of=2)])
    plan = plan_of(home)
    assert [handle for one in plan.off for handle in one.handles] == [A]
    assert shut(home) == []


def test_wires_that_both_ends_of_were_seen_need_no_handle() -> None:
    away = DISCONNECTED
    home = house({FEED: away}, opened(box_of(FEED), FEED))
    assert shut(home) == [box_of(FEED)]  # only one end was seen
    both = house({FEED: away, 401: on(A)}, opened(box_of(FEED), FEED), opened(box_of(401), 401, FEED))
    assert plan_of(both).states[0].state == "should be dead"
    assert shut(both) == []
