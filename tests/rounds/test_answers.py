"""Answers brought back: what fits the plan is recorded as it was seen, what does not is refused with its line."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.answering import take_answers
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.find import course_of, find, plan_rounds
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Round
from floorplan_circuits.rounds.answers import CannotRead, answers_text, plan_code, read_answers
from tests.supply.wiring import UNKNOWN, on
from tests.survey.houses import DAY, FEED, A, B, C, house

HOME = house({FEED: UNKNOWN, 401: UNKNOWN})
PLAN = plan_rounds(find(HOME))
STATED = house({FEED: on(A), 401: on(C)})
"""The same house where a label says which breaker each is on: each is to be tried alone."""
ALONE = plan_rounds(find(STATED))
HEAD = f"plan {plan_code(PLAN)}\ndate 2026-03-14\nwho Kim\nwith lamp plugged in\n"


def answered(*lines: str) -> str:
    return HEAD + "\n".join(lines)


def test_answers_are_recorded_round_by_round_with_what_was_off() -> None:
    after = take_answers(HOME, read_answers(answered("0 ll", "1 dl", "2 l-", "4 ll"), PLAN)).home
    entries = [entry for entry in after.log if isinstance(entry, Round)]
    assert [entry.off for entry in entries] == [(), PLAN.rounds[0].off, PLAN.rounds[1].off, ()]
    assert [[(one.feed, one.says) for one in entry.readings] for entry in entries] == [
        [(FEED, "live"), (401, "live")],
        [(FEED, "dead"), (401, "live")],
        [(FEED, "live")],
        [(FEED, "live"), (401, "live")],
    ]
    assert {(entry.method, entry.date, entry.who) for entry in entries} == {("lamp plugged in", "2026-03-14", "Kim")}
    assert not any(entry.tester.before or entry.tester.after for entry in entries)


def test_a_whole_evening_suggests_each_feeds_breaker() -> None:
    lines = ["0 ll"]
    for nth, one in enumerate(PLAN.rounds, 1):
        lines.append(f"{nth} {'d' if A in one.off else 'l'}{'d' if C in one.off else 'l'}")
    lines.append(f"{len(PLAN.rounds) + 1} ll")
    after = take_answers(HOME, read_answers(answered(*lines), PLAN)).home
    known = find(after).conclusions
    assert [(known[feed].standing, known[feed].breakers) for feed in (FEED, 401)] == [
        ("suggested", (A,)),
        ("suggested", (C,)),
    ]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("plan AAAAAA\n0 ll", "These answers are of plan AAAAAA"),
        ("0 ll", "These answers are of plan unknown"),
        (answered("9 ll"), "Line 5: the plan has no round 9"),
        (answered("1 l"), "Line 5: round 1 has 1 answers, and the plan has 2 feeds"),
        (answered("1 lx"), "Line 5: 'x' is no answer"),
        (answered("1 ll", "1 ll"), "Line 6: round 1 is answered twice"),
        (answered("hello"), "Line 5: 'hello' is no line of answers"),
        (HEAD, "No round is answered"),
        (HEAD.replace("lamp plugged in", "a spoon") + "0 ll", "Nobody can tell what 'a spoon' is"),
        ("x" * 300_000, "too long"),
    ],
)
def test_what_does_not_fit_the_plan_is_refused_with_its_line(text, says) -> None:
    with pytest.raises(CannotRead, match=says):
        read_answers(text, PLAN)


def test_nothing_looked_at_and_a_day_that_is_none_are_refused() -> None:
    with pytest.raises(Refused, match="Nothing was looked at"):
        take_answers(HOME, read_answers(answered("0 --"), PLAN))
    for day in ("yesterday", "2026-03-14junk", "0000-00-00", "2026-02-30"):
        with pytest.raises(CannotRead, match="is no day"):
            read_answers(answered("0 ll").replace("2026-03-14", day), PLAN)


# --- one handle alone -----------------------------------------------------------------------------------------------


def tried(*lines: str) -> str:
    return "\n".join((f"plan {plan_code(ALONE)}", "who Kim", "with lamp plugged in", *lines))


WHOLE = (f"before {DAY} - ll", f"alone {A} {DAY} ba d-", f"alone {C} {DAY} ba -d", f"after {DAY} - ll")


def standings(home: Home) -> list[tuple[str, tuple[int, ...]]]:
    known = find(home).conclusions
    return [(known[feed].standing, known[feed].breakers) for feed in (FEED, 401)]


def test_each_handle_tried_alone_is_proved_whether_its_answers_come_at_once_or_in_parts() -> None:
    proved = [("proved", (A,)), ("proved", (C,))]
    at_once = take_answers(STATED, read_answers(tried(*WHOLE), ALONE)).home
    assert standings(at_once) == proved
    first = take_answers(STATED, read_answers(tried(WHOLE[0], WHOLE[1], f"after {DAY} - l-"), ALONE)).home
    assert standings(first)[0] == proved[0]
    assert standings(first)[1][0] == "claimed"
    plan = course_of(find(first), plan_rounds).plan
    assert standings(take_answers(first, read_answers(tried(*WHOLE), plan)).home) == proved
    with pytest.raises(Refused, match="in the log already"):
        take_answers(at_once, read_answers(tried(*WHOLE), ALONE))


@pytest.mark.parametrize(
    ("at", "line"),
    [
        (0, "before 2026-03-13 - ll"),
        (1, f"alone {A} {DAY} b d-"),
        (1, f"alone {A} {DAY} a d-"),
        (1, f"alone {A} {DAY} - d-"),
        (1, f"alone {A} {DAY} ba l-"),
        (1, f"alone {A} {DAY} ba u-"),
        (3, f"after {DAY} - dl"),
        (3, f"after {DAY} - ul"),
        (3, "after 2026-03-15 - ll"),
        (0, f"before {DAY} - -l"),
        (3, f"after {DAY} - -l"),
    ],
)
def test_any_part_missing_proves_nothing(at: int, line: str) -> None:
    lines = [*WHOLE]
    lines[at] = line
    after = take_answers(STATED, read_answers(tried(*lines), ALONE)).home
    assert standings(after)[0][0] != "proved"


@pytest.mark.parametrize(
    ("line", "says"),
    [
        (f"alone {B} {DAY} ba d-", f"Line 4: this plan tries no handle '{B}' alone"),
        ("alone", "Line 4: this plan tries no handle '' alone"),
        (f"alone {A} ba d-", "must hold a day"),
        (f"alone {A} {DAY} x d-", "'x' says nothing of how it was tested"),
        (f"alone {A} {DAY} ba d", f"Line 4: handle {A} alone has 1 answers"),
        (f"before {DAY} - lz", "'z' is no answer"),
        (f"after {DAY} - ll\nafter {DAY} - ll", "Line 5: .* is answered twice"),
    ],
)
def test_what_was_seen_alone_and_does_not_fit_is_refused_with_its_line(line: str, says: str) -> None:
    with pytest.raises(CannotRead, match=says):
        read_answers(tried(line), ALONE)


@given(
    st.lists(st.tuples(st.sampled_from(["before", f"alone {A}", f"alone {C}", "after"]),
                       st.sampled_from(["-", "b", "a", "h", "ba", "bah"]), st.text("ldu-", min_size=2, max_size=2)),
             min_size=1, max_size=4, unique_by=lambda one: one[0])
)  # fmt: skip
def test_what_was_seen_alone_comes_back_as_it_was_given(looks) -> None:
    answers = read_answers(tried(*(f"{what} {DAY} {flags} {letters}" for what, flags, letters in looks)), ALONE)
    assert read_answers(answers_text(ALONE, answers), ALONE) == answers
    assert len(answers.tries) == len(looks)


# --- the text -------------------------------------------------------------------------------------------------------


@settings(max_examples=30)
@given(st.lists(st.tuples(st.integers(0, 4), st.text("ldu-", min_size=2, max_size=2)), min_size=1, max_size=5))
def test_the_text_comes_back_as_it_was_given(rounds) -> None:
    once = dict(rounds)
    answers = read_answers(answered(*(f"{nth} {letters}" for nth, letters in once.items())), PLAN)
    assert read_answers(answers_text(PLAN, answers), PLAN) == answers


@settings(max_examples=50)
@given(st.text())
def test_whatever_is_pasted_is_refused_in_words(text) -> None:
    with pytest.raises(CannotRead, match=r"\w"):
        read_answers(text, PLAN)


def test_another_plan_has_another_code() -> None:
    assert plan_code(plan_rounds(find(HOME), strength="least rounds")) != plan_code(PLAN)
    assert plan_code(plan_rounds(find(HOME))) == plan_code(PLAN)


def test_answers_may_come_in_parts_and_nothing_is_recorded_twice() -> None:
    """A phone gives back all it has each time: what was taken already stays as it is."""
    first = take_answers(HOME, read_answers(answered("0 ll"), PLAN)).home
    second = take_answers(first, read_answers(answered("0 ll", "1 dl"), PLAN)).home
    assert len(second.log) == len(first.log) + 1
    with pytest.raises(Refused, match="in the log already"):
        take_answers(second, read_answers(answered("0 ll", "1 dl"), PLAN))


def test_the_plan_that_was_begun_is_found_again_from_the_log() -> None:
    """The log has grown since the plan was made: a plan made now is another, but the begun one takes more answers."""
    first = take_answers(HOME, read_answers(answered("0 ll", "1 dl"), PLAN)).home
    begun = course_of(find(first), plan_rounds)
    assert begun.code == plan_code(PLAN)
    assert read_answers(answered("2 ll"), begun.plan).rounds
