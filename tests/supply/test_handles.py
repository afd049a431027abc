"""Which breakers one hand movement opens together."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.home.power import Tie
from floorplan_circuits.supply.handles import moves_together
from tests.supply.wiring import breaker, panel, wired

FACTORY, MAKESHIFT, UNSURE = "by the factory", "makeshift", "not sure"


def tied(*made, panels=None):
    """Breakers 10, 11 … of one tie, made as told."""
    places = panels or [1] * len(made)
    ties = enumerate(zip(made, places, strict=True))
    breakers = [breaker(10 + at, at + 1, of=of, tie=Tie(group=5, made=how)) for at, (how, of) in ties]
    return moves_together(wired([panel(1), panel(2)], breakers, {}))


def test_a_breaker_without_a_tie_moves_alone():
    assert moves_together(wired([panel()], [breaker(10), breaker(11)], {})) == {10: {10}, 11: {11}}


def test_handles_tied_by_the_factory_move_together():
    assert tied(FACTORY, FACTORY) == {10: {10, 11}, 11: {10, 11}}


@pytest.mark.parametrize("weakest", [MAKESHIFT, UNSURE])
def test_the_weakest_word_on_a_tie_counts_for_all_of_it(weakest):
    assert tied(weakest, weakest) == {10: {10}, 11: {11}}
    assert tied(FACTORY, weakest, FACTORY) == {10: {10}, 11: {11}, 12: {12}}


def test_no_tie_reaches_from_panel_to_panel():
    assert tied(FACTORY, FACTORY, panels=[1, 2]) == {10: {10}, 11: {11}}


def test_ties_of_one_panel_are_told_apart_by_their_groups():
    ties = [Tie(group=group, made=FACTORY) for group in (5, 5, 6, 6)]
    home = wired([panel()], [breaker(10 + at, tie=tie) for at, tie in enumerate(ties)], {})

    assert moves_together(home) == {10: {10, 11}, 11: {10, 11}, 12: {12, 13}, 13: {12, 13}}


@given(st.lists(st.none() | st.tuples(st.integers(1, 3), st.sampled_from([FACTORY, MAKESHIFT])), max_size=8))
def test_moving_together_is_mutual_and_holds_oneself(drawn):
    ties = [None if one is None else Tie(group=one[0], made=one[1]) for one in drawn]
    together = moves_together(wired([panel()], [breaker(10 + at, tie=tie) for at, tie in enumerate(ties)], {}))

    assert all(one in group and all(together[other] == group for other in group) for one, group in together.items())
