"""Patterns of off and on: told apart, balanced, and as few rounds as can be."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.rounds.patterns import off_in, patterns, rounds_needed

COUNTS = st.integers(1, 63)


@given(COUNTS)
def test_equal_weight_patterns_are_distinct_of_one_weight_and_none_lies_within_another(count) -> None:
    found = patterns([1] * count)
    assert len(set(found)) == count
    assert len({mask.bit_count() for mask in found}) == 1
    assert not any(a & b in (a, b) for a, b in combinations(found, 2))


@given(COUNTS)
def test_about_as_many_are_off_in_each_round(count) -> None:
    found = patterns([1] * count)
    loads = [len(off_in(found, nth)) for nth in range(rounds_needed(count))]
    assert max(loads) - min(loads) <= 1


@given(COUNTS, st.integers(1, 20))
def test_no_round_has_more_off_than_the_cap(count, cap) -> None:
    found = patterns([1] * count, cap=cap)
    rounds = rounds_needed(count, cap=cap)
    assert max(len(off_in(found, nth)) for nth in range(rounds)) <= cap
    assert len(set(found)) == count
    assert rounds >= rounds_needed(count)


def test_a_cap_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="at least one"):
        patterns([1, 1], cap=0)


@settings(max_examples=60)
@given(st.lists(st.integers(0, 30), min_size=1, max_size=40), st.sampled_from(("least rounds", "one more round")))
def test_with_the_other_strengths_the_busiest_are_off_least(busy, strength) -> None:
    found = patterns(busy, strength)
    assert len(set(found)) == len(busy)
    assert 0 not in found
    for a, b in combinations(range(len(busy)), 2):
        if busy[a] > busy[b]:
            assert found[a].bit_count() <= found[b].bit_count()


@given(COUNTS)
def test_with_one_more_round_any_two_differ_in_two(count) -> None:
    found = patterns([1] * count, "one more round")
    assert all((a ^ b).bit_count() >= 2 for a, b in combinations([0, *found], 2))


@settings(max_examples=40)
@given(st.integers(2, 30), st.data())
def test_any_number_of_false_deads_turns_no_pattern_into_another(count, data) -> None:
    found = patterns([1] * count)
    handle = data.draw(st.integers(0, count - 1))
    false = data.draw(st.integers(0, 2 ** rounds_needed(count) - 1))
    shown = found[handle] | false
    assert shown == found[handle] or shown not in found


def test_no_handles_take_no_round() -> None:
    assert rounds_needed(0) == 0
    assert patterns([]) == ()
