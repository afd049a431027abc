"""One wrong 'dead' in the rounds leaves few breakers: each is tried alone, and the feed is proved all the same."""

import pytest

from floorplan_circuits.find import find
from tests.rounds.evenings import BY_TESTER, carried_out, on
from tests.supply.wiring import breaker
from tests.survey.houses import FEED, house


@pytest.mark.parametrize("handles", [6, 20, 34])
@pytest.mark.parametrize("wrong", [1, 3])
def test_one_wrong_dead_is_settled_by_trying_what_is_left(handles, wrong) -> None:
    numbers = range(101, 101 + handles)
    home = house(breakers=[breaker(number, at, opens="hot") for at, number in enumerate(numbers, 1)])
    true, slipped = on({FEED: {110 % handles + 101}}), []

    def shows(step, feed) -> str:
        says = true(step, feed)
        if says == "live" and step.stage == "round" and step.nth >= wrong and not slipped:
            slipped.append(step)
            return "dead"
        return says

    after, steps = carried_out(home, shows, BY_TESTER)
    assert slipped
    assert find(after).conclusions[FEED].standing == "proved"
    assert find(after).conclusions[FEED].breakers == (110 % handles + 101,)
    assert len([step for step in steps if step.stage == "alone"]) <= 5
