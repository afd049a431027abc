"""A short walk past every stop: exact up to ten, near it beyond."""

from itertools import permutations
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.rounds.walk import length_of, short_walk


def lengths(seed: int, count: int) -> list[list[float]]:
    rng = Random(seed)
    spots = [(rng.uniform(0, 100), rng.uniform(0, 100)) for _ in range(count)]
    return [[((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 for b in spots] for a in spots]


@settings(max_examples=60)
@given(st.integers(0, 10_000), st.integers(1, 7))
def test_it_is_as_short_as_any_order(seed, count) -> None:
    table = lengths(seed, count)
    found = short_walk(table)
    assert sorted(found) == list(range(count))
    assert found[0] == 0
    least = min(length_of((0, *rest), table) for rest in permutations(range(1, count)))
    assert length_of(found, table) <= least + 1e-6


@settings(max_examples=15)
@given(st.integers(0, 10_000), st.integers(12, 30))
def test_a_long_walk_sees_every_stop_once(seed, count) -> None:
    found = short_walk(lengths(seed, count))
    assert found[0] == 0
    assert sorted(found) == list(range(count))


def test_nowhere_to_go() -> None:
    assert short_walk([]) == ()
    assert short_walk([[0]]) == (0,)
