"""The state of a box while handles are off: any part missing, and it is not 'should be dead'."""

import pytest

from floorplan_circuits.findings import BoxWhenOff
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from tests.supply.wiring import DISCONNECTED, UNKNOWN, behind, breaker, elsewhere, on, panel, source
from tests.survey.houses import (
    FEED,
    MAIN,
    PANEL,
    A,
    B,
    a_test,
    box_of,
    changed,
    house,
    opened,
    struck,
    traced,
    trouble,
    went,
)
from tests.survey.test_hidden_truth import states_of

SEEN = opened(box_of(FEED), FEED)


def state(home: Home, *off: int, feed: int = FEED) -> BoxWhenOff:
    return states_of(home, *off)[box_of(feed)]


def a_tested_box(*entries, **fields) -> Home:
    return house({FEED: on(A)}, *a_test(A), SEEN, *entries, **fields)


def test_with_everything_there_it_should_be_dead() -> None:
    one = state(a_tested_box(), A)
    assert (one.state, one.says, one.because) == ("should be dead", "should be dead: test it", ())
    assert state(a_tested_box(), MAIN).state == "should be dead"


def test_no_state_is_ever_called_safe() -> None:
    homes = a_tested_box(), house(), house({FEED: on(A)}), house({FEED: on(A)}, *a_test(A))
    words = [state(home, *off).says for home in homes for off in ((), (A,))]
    assert not any("safe" in one for one in words)
    assert {one for one in words if "dead" in one} == {"should be dead: test it"}


@pytest.mark.parametrize("off", [(), (B,)])
def test_with_its_breaker_on_it_is_live(off) -> None:
    assert state(a_tested_box(), *off).state == "live"


@pytest.mark.parametrize(
    ("home", "expected"),
    [
        (house({FEED: on(A)}, *a_test(A)), "not opened"),
        (house({FEED: on(A)}, *a_test(A), opened(box_of(FEED))), "not opened"),
        (house({FEED: on(A)}, *a_test(A), SEEN, struck(60_003)), "not opened"),
        (house({FEED: on(A)}, SEEN, changed(box_of(FEED)), *a_test(A)), "not opened"),
        (house({FEED: on(A)}, *a_test(A)[:2], SEEN), "not proved"),
        (house({FEED: on(A)}, SEEN), "not proved"),
        (house({FEED: on(A)}, SEEN, feed_fields={"said_by": "label"}), "not proved"),
        (house({FEED: on(A)}, SEEN, traced(A)), "not proved"),
        (house({FEED: UNKNOWN}, SEEN, went("dead", A)), "not proved"),
        (house({FEED: UNKNOWN}, SEEN), "unknown"),
        (house({FEED: on(elsewhere("next door"))}, SEEN), "unknown"),
        (house({FEED: on(A, elsewhere())}, *a_test(A), SEEN), "unknown"),
        (a_tested_box(went("live", A)), "unknown"),
        (a_tested_box(changed(box_of(FEED)), SEEN), "unknown"),
        (a_tested_box(changed(panels=(PANEL,))), "unknown"),
        (a_tested_box(opened(box_of(FEED), FEED, None)), "unknown"),
        (a_tested_box(opened(box_of(FEED), FEED, 999)), "unknown"),
        (a_tested_box(trouble(A, "runs hot")), "not proved"),
        (a_tested_box(trouble(A, "did not open")), "unknown"),
        (a_tested_box(sources=(source(900, FEED, kind="solar"),)), "live"),
    ],
)
def test_any_part_missing_makes_it_worse(home, expected) -> None:
    assert state(home, A).state == expected


def test_readings_at_odds_about_a_tested_feed_leave_it_unknown() -> None:
    home = a_tested_box(went("dead", B))
    assert state(home, A) == BoxWhenOff(box_of(FEED), "unknown", ("tests disagree",))


def test_a_cable_of_another_box_in_it_is_not_proved() -> None:
    feeds = {FEED: on(A), 401: on(A)}
    both = (*a_test(A), *a_test(A, feed=401))
    home = house(feeds, *both, opened(box_of(FEED), FEED, 401))
    assert state(home, A).state == "not proved"


def test_the_worst_feed_decides() -> None:
    home = house({FEED: on(A)}, *a_test(A), SEEN)
    box = home.boxes[box_of(FEED)]
    with_cable = change(box, passing=({"id": 500, "on": on(B).model_dump(), "volts": "mains"},))
    assert state(change(home, boxes=home.boxes.put(with_cable)), A).state == "live"
    assert state(change(home, boxes=home.boxes.put(with_cable)), A, B).state == "not proved"


def test_nothing_recorded_in_a_box_is_unknown() -> None:
    home = house({FEED: on(A)})
    empty = change(home.boxes[box_of(FEED)], devices=())
    assert state(change(home, boxes=home.boxes.put(empty)), A).state == "unknown"


def test_a_handle_above_a_tested_one_will_do() -> None:
    panels = (panel(PANEL, spaces=200), panel(2, prefix="G", fed_by=({"kind": "breaker", "breaker": B},)))
    home = house(
        {FEED: on(A)},
        *a_test(A),
        SEEN,
        panels=panels,
        breakers=(breaker(A, of=2, opens="hot"), breaker(B, opens="hot")),
    )
    assert state(home, B).state == "should be dead"
    assert state(house(None, SEEN), B).state == "unknown"


def test_a_test_that_leans_on_a_breaker_found_off_needs_it_off() -> None:
    found_off = [breaker(A, opens="hot"), breaker(B, opens="hot", found={"state": "off"})]
    home = house({FEED: on(A)}, *a_test(A, resting=(B,)), SEEN, breakers=found_off)
    assert state(home, A).state == "should be dead"


def test_a_disconnected_cable_needs_both_ends_seen() -> None:
    feeds = {FEED: DISCONNECTED, 401: on(A)}
    one_end = house(feeds, SEEN)
    assert state(one_end, A).state == "not proved"
    both_ends = house(feeds, SEEN, opened(box_of(401), 401, FEED))
    assert state(both_ends, A).state == "should be dead"
    changed_since = house(feeds, SEEN, opened(box_of(401), 401, FEED), changed(box_of(401)))
    assert state(changed_since, A).state == "not proved"


def test_what_hangs_behind_is_tested_for_itself() -> None:
    home = house({FEED: behind(401), 401: on(A)}, *a_test(A, feed=401), SEEN)
    assert state(home, A).state == "not proved"


@pytest.mark.parametrize(
    ("fields", "known"),
    [({}, False), ({"protects": ("arc fault",)}, True), ({"protects": ("ground fault",)}, True)],
)
def test_a_neutral_is_known_where_a_breaker_holds_that_compares_it(fields, known) -> None:
    """Common practice, no source: a breaker that compares hot and neutral trips where its neutral is shared."""
    home = house({FEED: on(A)}, *a_test(A), SEEN, breakers=(breaker(A, opens="hot", **fields),))
    assert state(home, A).neutral_known is known


def test_a_neutral_is_known_as_own_by_somebodys_word() -> None:
    home = a_tested_box()
    own = change(home.breakers[A], poles=({"space": 1, "neutral": "own"},))
    assert state(change(home, breakers=home.breakers.put(own)), A).neutral_known
