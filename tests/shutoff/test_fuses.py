"""Fuses in a shut-off and in test rounds: out with the loads off, the shell live, the side asked for."""

import pytest

from floorplan_circuits.find import find, plan_rounds, shut_off
from floorplan_circuits.gestures.finding_out import SetUp, headline, taken
from floorplan_circuits.gestures.shutting_off import asks_for
from floorplan_circuits.home.handling import FUSE_BACK, FUSE_CARE, FUSE_KEPT, to_open
from floorplan_circuits.home.home import Home
from floorplan_circuits.reports.shutoff import as_text
from floorplan_circuits.rounds.wording import in_words
from floorplan_circuits.shutoff.steps import steps
from tests.drawing.drawn import box, breaker, device, fed, home

FUSE, BREAKER = 6, 7


def with_fuse(opens: str = "hot", **fields) -> Home:
    fuse = breaker(FUSE, 1, device="fuse", opens=opens, **fields)
    boxes = (box(20, (0, 0), device(21, fed(22, FUSE))), box(30, (900, 0), device(31, fed(32, BREAKER))))
    return home(boxes, (fuse, breaker(BREAKER, 2)))


def steps_for(one: Home, *boxes: int):
    findings = find(one)
    return steps(shut_off(findings, boxes), findings)


def told(one: Home, *boxes: int) -> str:
    return " ".join(f"{step.do} {' '.join(step.more)}" for step in steps_for(one, *boxes))


def test_a_fuse_comes_out_with_its_loads_off_and_its_shell_stays_live():
    words = told(with_fuse(), 20)

    assert "Take out fuse 1." in words
    assert FUSE_CARE in words
    assert FUSE_KEPT in words
    assert FUSE_BACK in words
    assert "Turn off 1" not in words


def test_a_breaker_is_turned_off_and_nothing_is_said_of_fuses():
    words = told(with_fuse(), 30)

    assert "Turn off 2." in words
    assert not any(one in words for one in (FUSE_CARE, FUSE_KEPT, FUSE_BACK, "fuse"))


def test_a_fuse_of_which_nobody_knows_the_side_is_left_in_and_it_is_said_why():
    one = with_fuse("not known")
    plan = shut_off(find(one), [20])

    assert FUSE not in {handle for step in plan.off for handle in step.handles}
    assert any("nobody knows which side it opens: leave it as it is" in words for words in plan.stays_live)


def test_the_words_without_a_window_follow_too():
    one = with_fuse()
    findings = find(one)
    plan = shut_off(findings, [20])

    assert "Take out fuse 1 (Main panel)" in as_text(plan, findings)
    assert FUSE_CARE in as_text(plan, findings)
    assert asks_for(plan, findings).startswith("To open B20 take out fuse 1, then test.")


def test_rounds_keep_fuses_in_and_say_how_each_is_tested():
    one = with_fuse()
    findings = find(one)
    said = in_words(plan_rounds(findings), findings).left_alone

    assert any(words.startswith("1 is a fuse: out one at a time.") and FUSE_CARE in words for words in said)


def test_while_finding_out_a_fuse_is_out():
    one = with_fuse()

    assert headline(SetUp(breaker=FUSE), one) == "1 is out"
    assert headline(SetUp(breaker=BREAKER), one) == "2 is off"
    assert "shell that held it stays live" in taken(SetUp(breaker=FUSE), one)


@pytest.mark.parametrize(
    ("handles", "says"),
    [
        ((FUSE,), "Take out fuse x"),
        ((FUSE, 8), "Take out fuses x"),
        ((BREAKER,), "Turn off x"),
        ((FUSE, BREAKER), "Turn off or take out x"),
        ((999,), "Turn off x"),
    ],
)
def test_what_is_done_with_a_handle_is_said_by_what_it_is(handles, says):
    one = home(breakers=(breaker(FUSE, 1, device="fuse"), breaker(BREAKER, 2), breaker(8, 3, device="fuse")))

    assert to_open(one, handles, "x") == says
