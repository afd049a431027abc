"""What lapsed stays lapsed, whatever is said of the map afterwards."""

import pytest

from floorplan_circuits.edits.gangs import carry_device
from floorplan_circuits.edits.hanging import Hanging, hang
from floorplan_circuits.edits.history import History
from floorplan_circuits.edits.lapsing import keep_lapsed
from floorplan_circuits.edits.panels import feed_panel
from floorplan_circuits.edits.ties import tie, untie
from floorplan_circuits.find import find
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.log import Change
from floorplan_circuits.home.record import change
from tests.supply.wiring import behind, breaker, breaker_supply, main, on, panel
from tests.survey.houses import DAY, FEED, MAIN, PANEL, A, B, a_test, box_of, changed, device_of, house, logged, went

EMPTY, GUARD, GARAGE = 21_000, 401, 2


def carried() -> tuple[Home, Home]:
    """The device is carried to another box after its own was rewired."""
    home = house({FEED: on(A)}, *a_test(A), changed(box_of(FEED)))
    home = change(home, boxes=home.boxes.put(Box(id=EMPTY, mark="B7", gangs=2)))
    return home, carry_device(home, device_of(FEED), EMPTY).home


def fed_otherwise() -> tuple[Home, Home]:
    """Nobody knows any more what feeds the panel, after work in the one that fed it."""
    breakers = [breaker(A, of=GARAGE, opens="hot"), breaker(B, opens="hot")]
    garage = panel(GARAGE, spaces=200, prefix="G", fed_by=(breaker_supply(B),))
    panels = [panel(PANEL, spaces=200, mains=(main(MAIN),)), garage]
    home = house({FEED: on(A)}, *a_test(A), changed(panels=(PANEL,)), breakers=breakers, panels=panels)
    return home, feed_panel(home, GARAGE, None).home


def not_behind() -> tuple[Home, Home]:
    """It is said to hang on the breaker itself, after the box of what it hung behind was rewired."""
    home = house({FEED: behind(GUARD), GUARD: on(A)}, *a_test(A), changed(box_of(GUARD)))
    return home, hang(home, FEED, Hanging("breaker", (A,)), date=DAY).home


def read_since() -> tuple[Home, Home]:
    """As carried, but somebody looked at it since with all on: that is no test."""
    before, _ = carried()
    before = logged(before, went())
    return before, carry_device(before, device_of(FEED), EMPTY).home


@pytest.mark.parametrize("case", [carried, fed_otherwise, not_behind, read_since])
def test_a_test_that_a_change_put_an_end_to_never_counts_again_by_an_edit(case) -> None:
    before, after = case()
    assert find(before).conclusions[FEED].standing == "expired"
    assert find(after).conclusions[FEED].standing == "proved"  # as the edit alone would have it

    kept = History(before).done(after, "Edit").now

    assert find(kept).conclusions[FEED].standing == "expired"
    assert isinstance(kept.log[-1], Change)
    assert not problems(kept)
    assert keep_lapsed(kept, kept) is kept


def test_a_test_taken_again_since_the_change_counts_wherever_the_device_is_carried() -> None:
    before, _ = carried()
    before = logged(before, *a_test(A))
    after = carry_device(before, device_of(FEED), EMPTY).home
    assert keep_lapsed(before, after) is after
    assert find(after).conclusions[FEED].standing == "proved"


def test_a_stray_look_before_a_change_is_nothing_that_could_come_back() -> None:
    home = house({FEED: on(A)}, went("live", B), changed(panels=(PANEL,)))
    assert keep_lapsed(home, untie(home, [FEED]).home).log == home.log


def test_an_edit_that_brings_nothing_back_leaves_the_log_as_it_is() -> None:
    before, _ = carried()
    after = tie(before, [FEED], B).home
    assert keep_lapsed(before, after) is after
    fresh = house({FEED: on(A)}, *a_test(A))
    assert History(fresh).done(tie(fresh, [FEED], B).home, "Tie").past
