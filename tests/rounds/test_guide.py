"""The guide: what comes next by plan and log alone, carried out to the end in homes with a hidden truth."""

from math import ceil, log2

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.guiding import answer, opens_unsaid, say_opens_hot, take_back, tie_found, to_tie
from floorplan_circuits.find import course_of, find, next_step, plan_rounds
from floorplan_circuits.home.record import change
from floorplan_circuits.rounds.guide_words import guide_words
from floorplan_circuits.supply.handles import may_move_along, moves_together
from tests.rounds.evenings import BY_EYE, BY_TESTER, MOST_STEPS, SIX, carried_out, least, on, truthful
from tests.supply.wiring import UNKNOWN, breaker
from tests.survey.hidden import SMALL, hidden_home
from tests.survey.houses import DAY, FEED, A, B, C, house, logged, trouble

SEEDS = st.integers(0, 100_000)


# --- the order of things ----------------------------------------------------------------------------------------------


def test_it_goes_from_all_on_over_rounds_and_each_alone_to_all_on_again() -> None:
    start = house({FEED: UNKNOWN, 401: UNKNOWN}, breakers=SIX)
    home, steps = carried_out(start, on({FEED: {A}, 401: {B}}), BY_EYE)
    stages = list(dict.fromkeys(step.stage for step in steps))
    assert stages == ["all on", "round", "all on again", "alone", "after alone", "main", "after kept on"]
    known = find(home).conclusions
    assert [(known[feed].standing, known[feed].breakers) for feed in (FEED, 401)] == [
        ("proved", (A,)),
        ("proved", (B,)),
    ]


def test_it_goes_on_from_the_log_at_any_step() -> None:
    """Whoever stops after any answer, even within a room, is asked the very next thing."""
    home = house({FEED: UNKNOWN, 401: UNKNOWN}, breakers=SIX)
    true, course = on({FEED: {A}, 401: {C}}), course_of(find(home), plan_rounds)
    for _ in range(MOST_STEPS):
        step = next_step(find(home), course, BY_EYE, DAY)
        anew = course_of(find(home), plan_rounds)
        assert anew.code == course.code
        assert next_step(find(home), anew, BY_EYE, DAY) == step
        if step.stage == "done":
            break
        home = answer(home, step, {step.feeds[0]: true(step, step.feeds[0])}, BY_EYE, DAY).home
    assert step.stage == "done"


def test_what_is_passed_by_is_asked_again_another_time() -> None:
    home = house()
    course, found = course_of(find(home), plan_rounds), find(home)
    step = next_step(found, course, BY_EYE, DAY)
    passed = {(step.key, feed) for feed in step.feeds}
    assert next_step(found, course, BY_EYE, DAY, passed).key != step.key
    assert next_step(found, course, BY_EYE, DAY) == step


def test_an_answer_taken_back_is_asked_again() -> None:
    home = house()
    course = course_of(find(home), plan_rounds)
    step = next_step(find(home), course, BY_EYE, DAY)
    answered = answer(home, step, {FEED: "live"}, BY_EYE, DAY)
    assert next_step(find(answered.home), course, BY_EYE, DAY) != step
    assert next_step(find(take_back(answered.home, answered.made, DAY, "Kim").home), course, BY_EYE, DAY) == step


def test_an_answer_to_something_else_is_refused() -> None:
    home = house()
    step = next_step(find(home), course_of(find(home), plan_rounds), BY_EYE, DAY)
    with pytest.raises(Refused, match="not asked here"):
        answer(home, step, {9999: "dead"}, BY_EYE, DAY)


def test_a_home_that_changed_meanwhile_gets_a_new_plan_and_loses_nothing() -> None:
    home = house()
    course = course_of(find(home), plan_rounds)
    step = next_step(find(home), course, BY_EYE, DAY)
    home = answer(home, step, {FEED: "live"}, BY_EYE, DAY).home
    grown = change(home, breakers=home.breakers.put(breaker(9, 90)))
    anew = course_of(find(grown), plan_rounds)
    assert anew.code != course.code
    assert anew.begun == len(grown.log) == 1


def test_the_next_day_it_is_seen_live_first_before_one_is_tried_alone() -> None:
    """A proof takes one day and one way: the look with all on of yesterday does not count for today's."""
    home, true = house(breakers=SIX), on({FEED: {A}})
    course = course_of(find(home), plan_rounds)
    while (step := next_step(find(home), course, BY_EYE, DAY)).stage != "alone":
        home = answer(home, step, {FEED: true(step, FEED)}, BY_EYE, DAY).home
    assert next_step(find(home), course, BY_EYE, "2027-01-01").stage == "before alone"


# --- what is left alone, what goes wrong ------------------------------------------------------------------------------


def test_what_may_not_be_turned_is_never_turned() -> None:
    breakers = [breaker(A, found={"state": "off"}), breaker(B, may_open={"may": "never"}), breaker(C)]
    home = logged(house(breakers=[*breakers, breaker(9, 90)]), trouble(9, "runs hot"))
    _, steps = carried_out(home, on({FEED: {C}}), BY_EYE)
    assert {handle for step in steps for handle in step.off} == {C}  # nor the main, which would take B with it


def test_a_breaker_that_comes_to_give_trouble_is_not_turned_any_more() -> None:
    home = house(breakers=SIX)
    course = course_of(find(home), plan_rounds)
    home = logged(home, trouble(A, "buzzes"))
    seen = set[int]()
    while (step := next_step(find(home), course, BY_EYE, DAY)).stage != "done":
        seen |= {*step.off}
        home = answer(home, step, {FEED: "dead" if B in step.off else "live"}, BY_EYE, DAY).home
    assert A not in seen
    assert find(home).conclusions[FEED].breakers == (B,)


def test_one_to_be_asked_for_is_turned_once_that_is_agreed() -> None:
    home = house(breakers=[breaker(A, may_open={"may": "ask", "whose": "Kim"}), breaker(B), breaker(C)])
    assert A not in plan_rounds(find(home)).handles
    assert A in plan_rounds(find(home), agreed=[A]).handles


def test_a_device_that_trips_in_a_round_is_not_suggested_on_what_was_off() -> None:
    """It is dead from the first round on, also with all on again: all that it showed since it was live is void."""
    home, steps = carried_out(house(), lambda step, _: "live" if step.stage == "all on" else "dead", BY_EYE)
    assert [step.stage for step in steps][-1] == "all on again"
    assert find(home).conclusions[FEED].standing == "unknown"


def test_what_is_dead_with_all_on_again_is_asked_about_until_it_is_live_and_only_then_tried_alone() -> None:
    answers = iter(["dead", "unclear", "live"])

    def shows(step, _) -> str:
        if step.stage == "all on again":
            return next(answers)
        return "dead" if {A} <= {*step.off} else "live"

    home, known = house(breakers=SIX), find(house(breakers=SIX))
    course, stages = course_of(known, plan_rounds), list[tuple[str, bool]]()
    while (step := next_step(known, course, BY_EYE, DAY)).stage != "main":
        stages.append((step.stage, bool(step.again)))
        assert ("burnt out" in guide_words(step, course.plan, known).why) == bool(step.again)
        home = answer(home, step, {feed: shows(step, feed) for feed in step.feeds}, BY_EYE, DAY).home
        known = find(home, known)
    asked = [again for stage, again in stages if stage == "all on again"]
    assert asked == [False, True, True]
    assert known.conclusions[FEED].standing == "proved"


def test_what_is_dead_after_it_was_tried_alone_is_asked_about_again() -> None:
    answers = iter(["dead", "live"])

    def shows(step, _) -> str:
        if step.stage == "after alone":
            return next(answers)
        return "dead" if {A} <= {*step.off} else "live"

    home, known = house(breakers=SIX), find(house(breakers=SIX))
    course, again = course_of(known, plan_rounds), list[bool]()
    while (step := next_step(known, course, BY_EYE, DAY)).stage != "main":
        if step.stage == "after alone":
            again.append(bool(step.again))
        home = answer(home, step, {feed: shows(step, feed) for feed in step.feeds}, BY_EYE, DAY).home
        known = find(home, known)
    assert again == [False, True]


def test_it_is_asked_what_breakers_open_only_where_a_proof_leans_on_it() -> None:
    double = breaker(B, 2, 4, opens="not known")
    home = house({FEED: UNKNOWN}, breakers=[breaker(A, 1, opens="not known"), double, breaker(C, 5, opens="not known")])
    known = find(home).conclusions
    assert opens_unsaid(home, known, [FEED], ()) == []  # nothing points to a breaker yet
    assert opens_unsaid(home, known, [FEED], (A, B)) == [A, B]
    said = say_opens_hot(home, [A, B]).home
    assert [said.breakers[one].opens for one in (A, B, C)] == ["hot", "both hots", "not known"]
    assert opens_unsaid(said, find(said).conclusions, [FEED], (A, B)) == []


def test_one_wrong_dead_is_never_proved() -> None:
    """Said dead in a round in which it was live: the rounds clash, or the look alone tells."""

    def shows(step, _) -> str:
        return "dead" if step.key == ("round", 1) or {A} <= {*step.off} else "live"

    home, _ = carried_out(house(breakers=SIX), shows, BY_EYE)
    known = find(home).conclusions[FEED]
    assert known.standing != "proved" or known.breakers == (A,)


def test_a_fuse_is_tried_alone_and_never_in_a_group() -> None:
    home = house(breakers=[breaker(A, device="fuse", opens="hot"), breaker(B), breaker(C)])
    _, steps = carried_out(home, on({FEED: {A}}), BY_EYE)
    assert {step.off for step in steps if A in step.off} == {(A,)}
    assert {step.stage for step in steps if A in step.off} == {"alone"}


# --- in homes with a hidden truth -------------------------------------------------------------------------------------


@settings(max_examples=4)
@given(SEEDS)
def test_each_feed_on_one_handle_is_proved_to_be_on_it(seed) -> None:
    hidden = hidden_home(seed, odd=False, right=True, sizes=SMALL)
    plan = plan_rounds(find(hidden.home))
    home, steps = carried_out(hidden.home, truthful(hidden, hidden.home), BY_TESTER)
    known, together, along = find(home).conclusions, moves_together(hidden.home), may_move_along(hidden.home)
    for feed in plan.feeds:
        true = hidden.single(feed)
        if true is not None and min(together[true]) in plan.handles and along[true] == together[true]:
            assert known[feed].standing == "proved"
            assert {*known[feed].breakers} <= together[true]
    looks = sum(len(step.feeds) for step in steps)
    apart = len(plan.kept_on) + 1
    assert looks <= plan.compared["plan"].readings + (3 + apart) * len(plan.feeds)


@settings(max_examples=4)
@given(SEEDS)
def test_with_odd_wiring_what_is_proved_is_true(seed) -> None:
    hidden = hidden_home(seed, sizes=SMALL)
    home, _ = carried_out(hidden.home, truthful(hidden, hidden.home), BY_TESTER)
    together = moves_together(home)
    resting = frozenset(one.id for one in home.breakers if one.found.state == "off")
    for feed, known in find(home).conclusions.items():
        if known.standing == "proved":
            off = frozenset(other for one in known.breakers for other in together[one]) | resting
            assert not hidden.hot(feed, off)


@pytest.mark.parametrize("handles", [1, 3, 8, 20, 31, 42, 50])
def test_one_feed_is_found_in_as_few_rounds_as_halving_takes_and_one_alone(handles) -> None:
    """Published: ceil(log2(m + 1)) rounds tell m handles and none apart (Renyi 1961, from memory)."""
    numbers = range(1, handles + 1)
    home = house(breakers=[breaker(100 + number, number) for number in numbers])
    for true in {101, 100 + handles // 2 + 1, 100 + handles}:
        after, steps = carried_out(home, on({FEED: {true}}), BY_EYE, least)
        assert len({step.key for step in steps if step.stage == "round"}) <= ceil(log2(handles + 1))
        assert [step.off for step in steps if step.stage == "alone"] == [(true,)]
        assert find(after).conclusions[FEED].breakers == (true,)


# --- ties -------------------------------------------------------------------------------------------------------------


def test_what_was_found_is_tied_only_when_somebody_says_so() -> None:
    home, _ = carried_out(house({FEED: UNKNOWN, 401: UNKNOWN}), on({FEED: {A}, 401: {A, B}}), BY_EYE)
    known = find(home).conclusions
    assert to_tie(home, known, [FEED, 401]) == (FEED,)
    tied = tie_found(home, known, [FEED, 401]).home
    assert find(tied).conclusions[FEED].standing == "proved"
    with pytest.raises(Refused, match="No feed is left"):
        tie_found(tied, find(tied).conclusions, [FEED, 401])
