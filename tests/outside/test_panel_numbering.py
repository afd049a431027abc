"""Numbering and legs of panels against what trade pages print.

Sources, in words: a training page on phases in an electrical panel ("1 and 6 on one leg, 3 and 4 on the other;
neighbours in a column differ, neighbours in a row agree"); an encyclopedia mirror on distribution boards (odd left,
even right, row by row); a forum of inspectors and a page on half-size breakers (tandems: both halves on one leg).
The NEC is silent on the scheme (a code forum).
"""

import pytest

from floorplan_circuits.home.power import Pole
from floorplan_circuits.supply.legs import leg, legs_of
from floorplan_circuits.supply.numbering import cells, mark
from tests.supply.wiring import breaker, panel

SPLIT = panel(spaces=42, system="split-phase 120/240")
THREE = panel(spaces=42, system="three-phase 208Y/120")


@pytest.mark.parametrize(
    ("spaces", "split", "three"),
    [
        ((1, 2), "A", "A"),
        ((3, 4), "B", "B"),
        ((5, 6), "A", "C"),
        ((7, 8), "B", "A"),
        ((9, 10), "A", "B"),
        ((11, 12), "B", "C"),
        ((41, 42), "A", "C"),
    ],
)
def test_both_spaces_of_a_row_are_on_the_leg_that_the_training_page_gives(spaces, split, three):
    assert [leg(SPLIT, space) for space in spaces] == [split, split]
    assert [leg(THREE, space) for space in spaces] == [three, three]


def test_one_and_six_are_on_one_leg_and_three_and_four_on_the_other():
    """Printed on the training page, word for word a check of ours."""
    assert leg(SPLIT, 1) == leg(SPLIT, 6)
    assert leg(SPLIT, 3) == leg(SPLIT, 4)
    assert leg(SPLIT, 1) != leg(SPLIT, 3)


@pytest.mark.parametrize("known", [SPLIT, THREE])
def test_neighbours_in_a_column_differ_and_neighbours_in_a_row_agree(known):
    assert all(leg(known, space) != leg(known, space + 2) for space in range(1, 41))
    assert all(leg(known, space) == leg(known, space + 1) for space in range(1, 42, 2))


@pytest.mark.parametrize(("spaces", "system"), [(42, "split-phase 120/240"), (30, "three-phase 208Y/120")])
def test_a_panel_numbered_from_the_bottom_keeps_the_legs_of_its_numbers(spaces, system):
    """A panel mounted upside down keeps its stamped numbers (training page): 1 and 3 are a pair as ever."""
    upright, over = (
        panel(spaces=spaces, system=system, numbering=numbering)
        for numbering in ("odd left, even right", "odd left, even right, from the bottom")
    )
    assert [leg(over, space) for space in range(1, spaces + 1)] == [leg(upright, n) for n in range(1, spaces + 1)]
    assert cells(over)[1][0] == cells(upright)[spaces][0]


def test_odd_spaces_stand_left_row_by_row_from_the_top():
    """Encyclopedia mirror: row = ceil(n / 2)."""
    grid = cells(SPLIT)

    assert all(grid[space] == (-(-space // 2) - 1, 1 - space % 2) for space in range(1, 43))


def test_a_two_pole_breaker_in_one_and_three_has_both_legs_and_one_in_one_and_two_has_not():
    """Training page: 1+3 is a 240 V pair, 1+2 is none."""
    assert set(legs_of(SPLIT, breaker(9, 1, 3))) == {"A", "B"}
    assert set(legs_of(SPLIT, breaker(9, 1, 2))) == {"A"}


def test_a_three_pole_breaker_takes_every_second_space_and_all_three_phases():
    """Encyclopedia mirror: n, n + 2, n + 4."""
    assert legs_of(THREE, breaker(9, 1, 3, 5)) == ("A", "B", "C")


def test_both_halves_of_a_tandem_are_on_one_leg():
    """Inspectors' forum: its circuits share a leg, so they can never be the two legs of a multiwire circuit."""
    tandem = breaker(9, poles=(Pole(space=4, half="A"), Pole(space=4, half="B")))

    assert legs_of(SPLIT, tandem) == ("B", "B")
    assert mark(SPLIT, tandem) == "4A·4B"


def test_the_two_poles_of_a_quad_are_on_both_legs_and_its_halves_in_one_space_on_one():
    """Inspectors' forum: halves of one space share a leg. That a quad's poles lie across two spaces is from memory."""
    outer = breaker(9, poles=(Pole(space=2, half="A"), Pole(space=4, half="B")))
    inner = breaker(8, poles=(Pole(space=2, half="B"), Pole(space=4, half="A")))

    assert set(legs_of(SPLIT, outer)) == set(legs_of(SPLIT, inner)) == {"A", "B"}
    assert mark(SPLIT, outer) == "2A·4B"
    assert mark(SPLIT, inner) == "2B·4A"
