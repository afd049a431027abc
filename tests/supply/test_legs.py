"""Which leg a space is on by the usual layout."""

import pytest

from floorplan_circuits.supply.legs import leg, legs_of, with_system
from tests.supply.wiring import breaker, panel

SPLIT, THREE = "split-phase 120/240", "three-phase 208Y/120"


@pytest.mark.parametrize("system", ["two-wire 120", "single-phase 230", "not known"])
def test_where_there_is_one_leg_or_nobody_knows_none_is_named(system):
    assert leg(panel(system=system), 3) == ""


@pytest.mark.parametrize("space", [0, 43, 200])
def test_a_space_that_the_panel_does_not_have_is_on_no_leg(space):
    assert leg(panel(system=SPLIT), space) == ""


def test_down_one_side_the_legs_alternate_space_by_space():
    known = panel(spaces=6, system=SPLIT, numbering="down one side, then the other")

    assert [leg(known, space) for space in range(1, 7)] == ["A", "B", "A", "A", "B", "A"]


def test_in_a_single_row_the_legs_alternate_space_by_space():
    assert [leg(panel(system=THREE, numbering="single row"), space) for space in (1, 2, 3, 4)] == ["A", "B", "C", "A"]


def test_a_breaker_has_a_leg_for_each_pole_in_their_order():
    assert legs_of(panel(system=SPLIT), breaker(7, 4, 2)) == ("B", "A")
    assert legs_of(panel(), breaker(7, 4, 2)) == ("", "")


def test_only_an_unknown_system_gives_way_to_the_homes():
    assert with_system(panel(), SPLIT).system == SPLIT
    assert with_system(panel(system=THREE), SPLIT).system == THREE
    assert with_system(panel(), "not known") == panel()
