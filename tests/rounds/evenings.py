"""Evenings with the guide, carried out to the end: answered from a truth that the home does not know."""

from collections.abc import Callable

from floorplan_circuits.edits.guiding import answer
from floorplan_circuits.find import course_of, find, next_step, plan_rounds, renewed
from floorplan_circuits.findings import Findings, TestPlan
from floorplan_circuits.home.home import Home
from floorplan_circuits.rounds.steps import GuideStep, Manner
from floorplan_circuits.supply.handles import moves_together
from tests.supply.wiring import breaker
from tests.survey.hidden import Hidden
from tests.survey.houses import DAY, A, B, C

BY_TESTER = Manner(way="two-lead tester", tried=True, each_hot=True, who="Kim")
BY_EYE = Manner(tried=True, who="Kim")
MOST_STEPS = 4000
SIX = [breaker(number, opens="hot") for number in (A, B, C, 104, 105, 106)]
"""More handles than rounds: with three, each round is one handle alone already."""

Shows = Callable[[GuideStep, int], str]


def least(known: Findings) -> TestPlan:
    return plan_rounds(known, strength="least rounds")


def carried_out(
    home: Home, shows: Shows, manner: Manner, make=plan_rounds, *, anew: bool = False
) -> tuple[Home, list[GuideStep]]:
    """The home after an evening with the guide, answered feed by feed, and the steps it gave.

    `anew`: after each round the rest is planned anew where that saves something, as the window does. What is asked
    about again, since it was not live with all on, is passed by.
    """
    steps, known, skipped = list[GuideStep](), find(home), set[tuple[tuple[str, int], int]]()
    course = course_of(known, make)
    while len(steps) < MOST_STEPS:
        course = renewed(known, course, make) if anew else course
        step = next_step(known, course, manner, DAY, skipped)
        if step.stage == "done":
            return home, steps
        if step.again:
            skipped |= {(step.key, feed) for feed in step.again}
            continue
        steps.append(step)
        home = answer(home, step, {feed: shows(step, feed) for feed in step.feeds}, manner, DAY).home
        known = find(home, known)
    raise AssertionError("the guide does not end")


def truthful(hidden: Hidden, home: Home) -> Shows:
    together = moves_together(home)
    resting = frozenset(one.id for one in home.breakers if one.found.state == "off")

    def shows(step: GuideStep, feed: int) -> str:
        off = frozenset(other for handle in step.off for other in together.get(handle, {handle})) | resting
        return "live" if hidden.hot(feed, off) else "dead"

    return shows


def on(true: dict[int, set[int]]) -> Shows:
    """A feed is dead where all that it hangs on is off, or the main."""
    return lambda step, feed: "dead" if true[feed] <= {*step.off} or step.stage == "main" else "live"
