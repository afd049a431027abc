"""Feeders and mains are kept on in the rounds and tested when these are over, each alone, and left out if wanted."""

from floorplan_circuits.edits.guiding import answer
from floorplan_circuits.find import course_of, find, next_step, plan_rounds
from floorplan_circuits.home.home import Home
from floorplan_circuits.rounds.guide_words import guide_words, to_turn
from floorplan_circuits.rounds.kept_on import below
from tests.rounds.evenings import BY_TESTER, carried_out
from tests.supply.wiring import UNKNOWN, breaker, main, panel
from tests.survey.houses import DAY, FEED, MAIN, PANEL, A, B, C, house

OTHER = 401
GARAGE = 2


def two_panels(**fields) -> Home:
    """A on the garage's panel, which C feeds; B beside C on the first panel."""
    panels = (
        panel(PANEL, spaces=200, mains=(main(MAIN),)),
        panel(GARAGE, prefix="G", fed_by=({"kind": "breaker", "breaker": C},)),
    )
    breakers = [breaker(A, of=GARAGE, opens="hot"), breaker(B, opens="hot", **fields), breaker(C)]
    return house({FEED: UNKNOWN, OTHER: UNKNOWN}, panels=panels, breakers=breakers)


def shows(step, feed) -> str:
    of_it = {A, C, MAIN} if feed == FEED else {B, MAIN}
    return "dead" if of_it & {*step.off} else "live"


def test_a_feeder_and_then_the_main_are_tested_when_the_rounds_and_each_alone_are_over() -> None:
    home, steps = carried_out(two_panels(), shows, BY_TESTER)
    stages = list(dict.fromkeys(step.stage for step in steps))
    assert stages[-3:] == ["feeder", "main", "after kept on"]
    assert {step.feeds for step in steps if step.stage == "feeder"} == {(FEED,)}
    assert {feed for step in steps if step.stage == "main" for feed in step.feeds} == {FEED, OTHER}
    known = find(home).conclusions
    assert [(known[feed].standing, known[feed].breakers) for feed in (FEED, OTHER)] == [
        ("proved", (A,)),
        ("proved", (B,)),
    ]


def test_what_is_live_with_its_feeder_off_is_told_as_a_contradiction() -> None:
    def from_elsewhere_too(step, feed) -> str:
        return "live" if step.stage == "feeder" else shows(step, feed)

    home, _ = carried_out(two_panels(), from_elsewhere_too, BY_TESTER)
    assert find(home).conclusions[FEED].standing == "contradicted"


def test_what_must_never_go_dark_bars_the_main_above_it_and_not_the_feeder_beside_it() -> None:
    plan = plan_rounds(find(two_panels(may_open={"may": "never"})))
    assert plan.kept_on == ((C,),)


def test_what_rests_as_found_bars_nothing() -> None:
    plan = plan_rounds(find(two_panels(found={"state": "off"})))
    assert plan.kept_on == ((C,), (MAIN,))


def test_for_one_box_neither_feeder_nor_main_is_asked_for() -> None:
    home = two_panels()
    assert plan_rounds(find(home), boxes=[home.boxes.rows[0].id]).kept_on == ()


def test_a_main_left_out_ends_the_evening_and_nothing_of_it_is_in_the_log() -> None:
    home = two_panels()
    course = course_of(find(home), plan_rounds)
    skipped = {(("main", 2), feed) for feed in course.plan.feeds}
    while (step := next_step(find(home), course, BY_TESTER, DAY, skipped)).stage != "done":
        home = answer(home, step, {feed: shows(step, feed) for feed in step.feeds}, BY_TESTER, DAY).home
    assert not any(MAIN in entry.off for entry in home.log)
    assert any(C in entry.off for entry in home.log)


def test_before_the_main_is_turned_its_cautions_are_told_and_it_is_called_by_its_name() -> None:
    home = two_panels()
    course = course_of(find(home), plan_rounds)
    while (step := next_step(find(home), course, BY_TESTER, DAY)).stage != "main":
        home = answer(home, step, {feed: shows(step, feed) for feed in step.feeds}, BY_TESTER, DAY).home
    found = find(home)
    turn = to_turn((), step, found)
    assert turn.off == ("main",)
    assert any("may not go back on" in words for words in turn.mind)
    assert guide_words(step, course.plan, found).state.startswith("Off: main.")
    assert to_turn(step.off, step, found).mind == ()


def test_a_main_opens_all_that_its_panel_feeds() -> None:
    home = two_panels()
    assert below(home, (MAIN,)).breakers == {A, B, C}
    assert below(home, (MAIN,)).is_all
    assert below(home, (C,)).breakers == {A}
    assert not below(home, (C,)).is_all
