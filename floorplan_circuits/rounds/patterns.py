"""Patterns of off and on: one for each handle, so that what a feed shows in all rounds tells which handle it is on.

*equal weight*   each handle is off equally often, so that no pattern lies within another: any number of false 'dead'
                 shows (Sperner 1928: at most C(r, r // 2) such patterns in r rounds)
*least rounds*   any two patterns differ, none is all on: r rounds tell 2^r - 1 handles
*one more round* the same with an even number of offs: any one false reading shows

A pattern is a mask: bit n is set where the handle is off in round n.
"""

from collections.abc import Iterable, Sequence
from itertools import combinations
from math import ceil, comb
from typing import Literal

Strength = Literal["equal weight", "least rounds", "one more round"]
Patterns = tuple[int, ...]


def rounds_needed(handles: int, strength: Strength = "equal weight", cap: int | None = None) -> int:
    """Return how many rounds tell so many handles apart; `cap` is the most that may be off at once.

    Examples:
        >>> [rounds_needed(20, strength) for strength in ("equal weight", "least rounds", "one more round")]
        [6, 5, 6]
        >>> rounds_needed(20, cap=5)
        8
    """
    return len_and_weight(handles, strength, cap)[0]


def len_and_weight(handles: int, strength: Strength, cap: int | None = None) -> tuple[int, int]:
    """Return the least number of rounds and, for equal weight, in how many of them each handle is off."""
    if handles == 0:
        return 0, 0
    if strength == "least rounds" and cap is None:
        return handles.bit_length(), 0
    if strength == "one more round" and cap is None:
        return handles.bit_length() + 1, 0
    rounds = 1
    while True:
        for weight in _weights(rounds):
            if comb(rounds, weight) >= handles and (cap is None or ceil(handles * weight / rounds) <= cap):
                return rounds, weight
        rounds += 1


def _weights(rounds: int) -> Iterable[int]:
    """Return the weights to try: about half first, then lighter ones, which a cap may need."""
    return range(max(1, rounds // 2), 0, -1)


def patterns(busy: Sequence[int], strength: Strength = "equal weight", cap: int | None = None) -> Patterns:
    """Return a pattern for each handle. `busy` tells how much hangs on each: the busiest are off least.

    Raises `ValueError` for a cap below 1. With a cap all handles are off equally often, in more rounds.
    """
    if cap is not None and cap < 1:
        raise ValueError("at least one handle must be off in a round")
    rounds, weight = len_and_weight(len(busy), strength, cap)
    if weight:
        return _balanced(len(busy), rounds, weight)
    even = strength == "one more round"
    lightest = sorted((mask for mask in range(1, 2**rounds) if not even or mask.bit_count() % 2 == 0), key=_light)
    chosen = lightest[: len(busy)]
    found = [0] * len(busy)
    for mask, handle in zip(chosen, sorted(range(len(busy)), key=lambda at: (-busy[at], at)), strict=True):
        found[handle] = mask
    return tuple(found)


def _light(mask: int) -> tuple[int, int]:
    return mask.bit_count(), mask


def off_in(some: Sequence[int], nth: int) -> tuple[int, ...]:
    """Return the places of the handles that are off in the n-th round, counted from 0."""
    return tuple(at for at, mask in enumerate(some) if mask >> nth & 1)


# --- equal weight, about as many off in each round --------------------------------------------------------------------


def _balanced(count: int, rounds: int, weight: int) -> Patterns:
    """Return `count` masks of this weight, chosen so that about as many handles are off in each round.

    Greedily at first, then a mask is exchanged for one not taken while that brings the rounds nearer to each other.
    """
    bits = {sum(1 << n for n in some): some for some in combinations(range(rounds), weight)}
    taken, load, free = list[int](), [0] * rounds, set(bits)
    for _ in range(count):
        # of masks that weigh the same, the one whose rounds are idlest keeps the squares of the loads least
        best = min(free, key=lambda mask: (sum(load[n] for n in bits[mask]), max(load[n] for n in bits[mask]), mask))
        taken.append(best)
        free.discard(best)
        _add(load, best, 1)
    while max(load) - min(load) > 1:
        exchange = _exchange(taken, free, load)
        if exchange is None:
            break
        out, into = exchange
        taken[taken.index(out)] = into
        free.discard(into)
        free.add(out)
        _add(load, out, -1)
        _add(load, into, 1)
    return tuple(taken)


def _add(load: list[int], mask: int, by: int) -> None:
    for n in range(len(load)):
        load[n] += by * (mask >> n & 1)


def _exchange(taken: Sequence[int], free: Iterable[int], load: Sequence[int]) -> tuple[int, int] | None:
    """Return a mask off in the busiest round and one that is not, but for one in the idlest; None if there is none."""
    high, low = load.index(max(load)), load.index(min(load))
    spare = set(free)
    for mask in taken:
        if mask >> high & 1 and not mask >> low & 1:
            other = mask & ~(1 << high) | 1 << low
            if other in spare:
                return mask, other
    return None
