"""Homes with a hidden truth and honest but incomplete evidence: no box told 'should be dead' has a live conductor."""

from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.find import find, shut_off
from floorplan_circuits.home.home import Home
from tests.shutoff.plans import handles_off
from tests.survey.hidden import Hidden, evening, hidden_home, with_evening
from tests.survey.houses import logged, opened


def some_evening(seed: int) -> tuple[Hidden, Home]:
    """A home of which somebody tested a part and looked in some boxes."""
    hidden = hidden_home(seed)
    rng = Random(seed + 1)
    entries = evening(hidden, rng.randint(0, 60), slips=rng.random() < 0.3, solo=rng.random() < 0.8)
    entries = [entry for entry in entries if rng.random() < 0.97]
    home = with_evening(hidden, entries)
    looked = [opened(box.id, *(feed.id for feed in box.feeds())) for box in home.boxes if rng.random() < 0.8]
    hidden.tripped.clear()
    return hidden, logged(home, *looked)


def live_conductors(seed: int) -> tuple[int, int]:
    """How many boxes were told 'should be dead' with their shut-off, and how many of these have a live conductor."""
    hidden, home = some_evening(seed)
    findings, told, live = find(home), 0, 0
    for box in home.boxes:
        plan = shut_off(findings, (box.id,))
        off = frozenset(handles_off(plan) | {handle for one in plan.keep_off for handle in one.handles})
        resting = frozenset(one.id for one in home.breakers if one.found.state == "off")
        if plan.states and plan.states[0].state == "should be dead":
            told += 1
            live += any(hidden.hot(feed.id, off | resting) for feed in box.feeds())
    return told, live


@settings(max_examples=30)
@given(st.integers(0, 1_000_000))
def test_no_box_told_should_be_dead_has_a_live_conductor(seed) -> None:
    assert live_conductors(seed)[1] == 0


def test_many_boxes_are_told_so() -> None:
    assert sum(live_conductors(seed)[0] for seed in range(12)) > 12


if __name__ == "__main__":
    counted = [live_conductors(seed) for seed in range(10_000)]
    print(sum(told for told, _ in counted), "told should be dead,", sum(live for _, live in counted), "live")  # noqa: T201
