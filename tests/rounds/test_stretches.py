"""How long a handle is off at a stretch: rests where it would be too long, told in words; replayed by another clock."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.find import find, plan_rounds
from floorplan_circuits.home.record import change
from floorplan_circuits.rounds.patterns import off_in, patterns
from floorplan_circuits.rounds.stretches import (
    A_MINUTE,
    MOVE_S,
    PACE_M_PER_S,
    READ_S,
    Leg,
    back_by,
    least_seconds,
    limits,
    seconds_left,
    timed,
    to_rest,
)
from floorplan_circuits.rounds.wording import in_words
from sample_homes.write_samples import SAMPLES
from tests.supply.wiring import UNKNOWN, breaker, main, panel
from tests.survey.houses import FEED, MAIN, PANEL, A, B, C, house


def walks(metres: list[tuple[int, int]]) -> tuple[Leg, ...]:
    """Stops along a corridor from the panel: so many feeds, so far away."""
    places = [0, *(away for _, away in metres)]
    feeds = iter(range(1000, 9000))
    return tuple(
        Leg(tuple(next(feeds) for _ in range(count)), float(abs(away - places[at])), float(away))
        for at, (count, away) in enumerate(metres)
    )


def longest_off(rounds, legs, at_most, times) -> dict[int, float]:
    """Replay an evening look by look, and return the longest that each limited handle was off at a stretch.

    Written apart from the planner: one clock, and for each handle when it went off.
    """
    now, went_off, longest, before = 0.0, {}, dict.fromkeys(at_most, 0.0), frozenset()

    def on(handles) -> None:
        for one in handles:
            if one in went_off:
                longest[one] = max(longest[one], now - went_off.pop(one))

    for off, time in zip(rounds, times, strict=True):
        rests, place = {rest.feed: rest.handles for rest in time.rests}, 0.0
        first = legs[0].feeds[0]
        on(before - frozenset(off))
        if first in rests:
            on(rests[first])
            now += 1.0
        for one in off:
            if one in at_most:
                went_off.setdefault(one, now)
        now += len(before ^ frozenset(off)) * MOVE_S
        for leg in legs:
            for at, feed in enumerate(leg.feeds):
                if feed in rests and feed != first:
                    now += place / PACE_M_PER_S
                    on(rests[feed])
                    now += 1.0
                    went_off.update(dict.fromkeys(rests[feed], now))
                    now += len(rests[feed]) * MOVE_S + leg.away / PACE_M_PER_S
                elif not at:
                    now += leg.on / PACE_M_PER_S
                now += READ_S
                place = leg.away
        now += place / PACE_M_PER_S
        before = frozenset(off)
    on(before)
    return longest


STOPS = st.lists(st.tuples(st.integers(1, 8), st.integers(0, 30)), min_size=1, max_size=5)


@settings(max_examples=60)
@given(STOPS, st.integers(2, 9), st.integers(3, 20), st.data())
def test_no_handle_is_off_for_longer_than_it_may(stops, handles, minutes, data) -> None:
    legs = walks(stops)
    masks = patterns([1] * handles)
    rounds = [off_in(masks, nth) for nth in range(max(mask.bit_length() for mask in masks))]
    limited = data.draw(st.sets(st.integers(0, handles - 1), min_size=1))
    at_most = dict.fromkeys(limited, minutes)
    times = timed(rounds, legs, at_most)
    if not any(time.is_over for time in times):
        most = longest_off(rounds, legs, at_most, times)
        assert all(seconds <= minutes * A_MINUTE + 1e-6 for seconds in most.values())


def test_without_a_limit_nothing_rests() -> None:
    assert all(not time.rests for time in timed([(1, 2), (2, 3)], walks([(50, 20)]), {}))


def test_a_walk_that_takes_too_long_is_broken_by_a_rest_before_a_room() -> None:
    legs = walks([(10, 5), (10, 10)])
    (time,) = timed([(1,)], legs, {1: 2})
    assert [rest.feed for rest in time.rests] == [legs[1].feeds[0]]
    assert time.rested > 60


def test_a_room_that_takes_too_long_is_broken_within_it() -> None:
    legs = walks([(30, 0)])
    (time,) = timed([(1,)], legs, {1: 1})
    assert len(time.rests) >= 3
    assert not time.is_over


def test_what_cannot_be_back_in_time_is_told() -> None:
    legs = walks([(1, 40)])
    assert least_seconds(legs) > A_MINUTE
    assert timed([(1,)], legs, {1: 1})[0].is_over


# --- in a plan --------------------------------------------------------------------------------------------------------


def test_a_limit_of_one_breaker_and_of_all_are_met_by_the_shorter() -> None:
    home = house(breakers=[breaker(A, may_open={"minutes": 5}), breaker(B), breaker(C)])
    assert limits(home) == {A: 5}
    assert limits(home, 20) == {A: 5, B: 20, C: 20}


def test_a_main_may_be_off_no_longer_than_what_hangs_on_it() -> None:
    panels = (panel(PANEL, spaces=200, mains=(main(MAIN),)),)
    home = house({FEED: UNKNOWN}, panels=panels, breakers=[breaker(A, may_open={"minutes": 5}), breaker(B)])
    assert plan_rounds(find(home)).at_most == {A: 5, MAIN: 5}


@pytest.mark.parametrize("minutes", [10, 30])
def test_the_large_house_with_a_limit_still_tells_all_apart_and_says_its_minutes_and_rests(minutes) -> None:
    findings = find(SAMPLES["house.json"]())
    free, plan = plan_rounds(findings), plan_rounds(findings, minutes=minutes)
    assert plan.handles == free.handles
    assert len(plan.rounds) == len(free.rounds)
    assert all(one.minutes > 0 for one in plan.rounds)
    assert bool([rest for one in plan.rounds for rest in one.rests]) == (minutes == 10)
    assert plan.compared["plan"].minutes >= free.compared["plan"].minutes
    told = [words for one in in_words(plan, findings).rounds for words in one.rests]
    assert all("for as long as off" in words for words in told)
    assert len(told) == sum(len(one.rests) for one in plan.rounds)


def test_what_may_be_off_too_shortly_for_any_look_is_left_alone_with_the_reason() -> None:
    home = SAMPLES["house.json"]()
    first = home.breakers.rows[5]
    short = change(first, may_open=change(first.may_open, minutes=1))
    home = change(home, breakers=home.breakers.put(short))
    plan = plan_rounds(find(home))
    assert first.id not in plan.handles
    assert "1 min at most" in plan.left_alone[first.id]


# --- by the clock -----------------------------------------------------------------------------------------------------


def test_by_the_clock_it_is_asked_for_before_its_time_is_up() -> None:
    since, at_most = {A: 0.0, B: 300.0, C: 0.0}, {A: 20, B: 20}
    assert seconds_left(since, at_most, now=0.0) == 19 * A_MINUTE
    assert to_rest(since, at_most, now=18 * A_MINUTE) == ()
    assert to_rest(since, at_most, now=19 * A_MINUTE) == (A, B)
    assert to_rest(since, at_most, now=15 * A_MINUTE, ahead=5 * A_MINUTE) == (A, B)
    assert dict(back_by(since, at_most)) == {A: 1200.0, B: 1500.0}
