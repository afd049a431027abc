"""How few rounds tell handles apart, against published bounds.

Sperner 1928 (the largest antichain); Dorfman 1943, Renyi 1961 and Katona 1966 (separating systems), all three from
memory; Du and Hwang, 'Combinatorial Group Testing and Its Applications', 2nd ed. 2000 (non-adaptive plans); Brouwer's
table of A(n, d), A(n, 2) = 2 ** (n - 1). The rows were computed from those bounds.
"""

from itertools import combinations

import pytest

from floorplan_circuits.rounds.patterns import off_in, patterns, rounds_needed

HANDLES = (1, 3, 4, 7, 8, 12, 15, 16, 20, 24, 30, 31, 32, 40, 42, 63)
ROWS = {
    "least rounds": (1, 2, 3, 3, 4, 4, 4, 5, 5, 5, 5, 5, 6, 6, 6, 6),
    "one more round": (2, 3, 4, 4, 5, 5, 5, 6, 6, 6, 6, 6, 7, 7, 7, 7),
    "equal weight": (1, 3, 4, 5, 5, 6, 6, 6, 6, 7, 7, 7, 7, 8, 8, 8),
}
LEAST_SUM = (1, 4, 5, 12, 12, 22, 32, 28, 40, 52, 75, 80, 69, 93, 100, 192)


@pytest.mark.parametrize("strength", ROWS)
def test_rounds_are_as_few_as_the_bounds_say(strength) -> None:
    assert tuple(rounds_needed(count, strength) for count in HANDLES) == ROWS[strength]
    for count, rounds in zip(HANDLES, ROWS[strength], strict=True):
        assert all(mask < 2**rounds for mask in patterns([1] * count, strength))


def test_with_least_rounds_handles_are_off_as_seldom_as_can_be() -> None:
    sums = tuple(sum(mask.bit_count() for mask in patterns([1] * count, "least rounds")) for count in HANDLES)
    assert sums == LEAST_SUM


@pytest.mark.parametrize(("strength", "pairs"), [("least rounds", 120), ("one more round", 30), ("equal weight", 0)])
def test_so_many_loops_on_two_of_20_handles_pass_for_one_handle(strength, pairs) -> None:
    """A feed on two handles is dead only where both are off. The figures were reckoned beside the table."""
    some = patterns([1] * 20, strength)
    assert sum(a & b in some for a, b in combinations(some, 2)) == pairs


def test_off_in_counts_each_handle_as_often_as_its_weight() -> None:
    found = patterns([1] * 20)
    assert sum(len(off_in(found, nth)) for nth in range(6)) == 20 * 3
