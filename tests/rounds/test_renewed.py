"""The rest of an evening planned anew after a round: never longer than the first plan, nothing lost, nothing untrue."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.guiding import answer
from floorplan_circuits.find import course_of, find, next_step, plan_rounds, renewed
from floorplan_circuits.rounds.steps import GuideStep
from floorplan_circuits.supply.handles import moves_together
from tests.rounds.evenings import BY_EYE, BY_TESTER, MOST_STEPS, carried_out, least, on, truthful
from tests.supply.wiring import breaker
from tests.survey.hidden import SMALL, hidden_home
from tests.survey.houses import DAY, FEED, house

SEEDS = st.integers(0, 100_000)


def rounds_in(steps: list[GuideStep]) -> int:
    return len({step.note for step in steps if step.stage == "round"})


def looks_in(steps: list[GuideStep]) -> int:
    return sum(len(step.feeds) for step in steps if step.stage == "round")


def of_many(handles: int):
    return house(breakers=[breaker(100 + number, number, opens="hot") for number in range(1, handles + 1)])


def saved(handles: int) -> list[int]:
    """How many rounds fewer each place of the one feed takes than the first plan has."""
    found = []
    for true in range(101, 101 + handles):
        home = of_many(handles)
        first = len(least(find(home)).rounds)
        after, steps = carried_out(home, on({FEED: {true}}), BY_EYE, least, anew=True)
        assert find(after).conclusions[FEED].standing == "proved"
        assert find(after).conclusions[FEED].breakers == (true,)
        found.append(first - rounds_in(steps))
    return found


@pytest.mark.parametrize(("handles", "most"), [(3, 0), (5, 0), (8, 1)])
def test_one_feed_is_found_in_fewer_rounds_and_never_in_more(handles, most) -> None:
    """Just past a power of two halving has a round to spare: it is saved where the answers leave few."""
    fewer = saved(handles)
    assert min(fewer) >= 0
    assert max(fewer) == most


@settings(max_examples=5)
@given(SEEDS, st.sampled_from((plan_rounds, least)))
def test_the_rest_never_takes_more_than_the_first_plan_and_finds_all(seed, make) -> None:
    hidden = hidden_home(seed, odd=False, right=True, sizes=SMALL)
    first, together = make(find(hidden.home)), moves_together(hidden.home)
    home, steps = carried_out(hidden.home, truthful(hidden, hidden.home), BY_TESTER, make, anew=True)
    assert rounds_in(steps) <= len(first.rounds)
    assert looks_in(steps) <= len(first.feeds) * len(first.rounds)
    known = find(home).conclusions
    for feed in first.feeds:
        true = hidden.single(feed)
        if true is not None and min(together[true]) in first.handles:
            assert known[feed].standing == "proved"
            assert {*known[feed].breakers} <= together[true]


@settings(max_examples=5)
@given(SEEDS)
def test_a_loop_or_a_supply_from_elsewhere_is_never_proved_by_it(seed) -> None:
    hidden = hidden_home(seed, sizes=SMALL)
    home, _ = carried_out(hidden.home, truthful(hidden, hidden.home), BY_TESTER, anew=True)
    together = moves_together(home)
    resting = frozenset(one.id for one in home.breakers if one.found.state == "off")
    for feed, known in find(home).conclusions.items():
        if known.standing == "proved":
            off = frozenset(other for one in known.breakers for other in together[one]) | resting
            assert not hidden.hot(feed, off)


def test_whoever_stops_after_it_was_planned_anew_goes_on_at_the_very_next_thing() -> None:
    place = 101 + saved(8).index(1)
    home, true = of_many(8), on({FEED: {place}})
    course, was_renewed = course_of(find(home), least), False
    for _ in range(MOST_STEPS):
        known = find(home)
        course = renewed(known, course, least)
        was_renewed = was_renewed or bool(course.earlier)
        step = next_step(known, course, BY_EYE, DAY)
        again = renewed(known, course_of(known, least), least)
        assert (again.code, again.earlier, again.done) == (course.code, course.earlier, course.done)
        assert next_step(known, again, BY_EYE, DAY) == step
        if step.stage == "done":
            break
        home = answer(home, step, {FEED: true(step, FEED)}, BY_EYE, DAY).home
    assert was_renewed
    assert find(home).conclusions[FEED].breakers == (place,)


def test_within_a_round_nothing_is_planned_anew() -> None:
    home = of_many(8)
    known = find(home)
    course = course_of(known, least)
    assert renewed(known, course, least) is course
