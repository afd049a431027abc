"""A short walk: from where one stands past every stop once, ending anywhere."""

from collections.abc import Sequence
from itertools import pairwise

Lengths = Sequence[Sequence[float]]
"""How far it is from each place to each; place 0 is where the walk begins."""
EXACT_STOPS = 10
"""Up to so many stops the shortest walk is found; past that a good one."""


def short_walk(lengths: Lengths) -> tuple[int, ...]:
    """Return the places in walking order, 0 first.

    Examples:
        >>> short_walk([[0, 5, 1], [5, 0, 1], [1, 1, 0]])
        (0, 2, 1)
    """
    count = len(lengths)
    if count <= 1:
        return tuple(range(count))
    if count - 1 <= EXACT_STOPS:
        return _exact(lengths)
    starts = [_nearest_first(lengths, first) for first in range(1, count)]
    best = sorted(starts, key=lambda some: length_of(some, lengths))[:4]
    bettered = [_bettered(walk, lengths) for walk in best]
    shortest = min(bettered, key=lambda some: length_of(some, lengths))
    return tuple(shortest)


def length_of(walk: Sequence[int], lengths: Lengths) -> float:
    """Return how long a walk is."""
    return sum(lengths[a][b] for a, b in pairwise(walk))


def _exact(lengths: Lengths) -> tuple[int, ...]:
    """Return the shortest walk: for each set of stops and its last one the shortest way there (Held and Karp 1962)."""
    stops = range(1, len(lengths))
    best: dict[tuple[int, int], tuple[float, tuple[int, ...]]] = {
        (1 << stop, stop): (lengths[0][stop], (0, stop)) for stop in stops
    }
    for _ in range(len(lengths) - 2):
        longer: dict[tuple[int, int], tuple[float, tuple[int, ...]]] = {}
        for (seen, last), (length, walk) in best.items():
            for stop in stops:
                if seen >> stop & 1:
                    continue
                key, found = (seen | 1 << stop, stop), length + lengths[last][stop]
                if key not in longer or found < longer[key][0]:
                    longer[key] = found, (*walk, stop)
        best = longer
    return min(best.values())[1]


def _nearest_first(lengths: Lengths, first: int) -> list[int]:
    walk, left = [0, first], set(range(1, len(lengths))) - {first}
    while left:
        at = walk[-1]
        nearest = min(left, key=lambda stop: (lengths[at][stop], stop))
        walk.append(nearest)
        left.remove(nearest)
    return walk


def _bettered(walk: Sequence[int], lengths: Lengths) -> list[int]:
    """Return the walk after turning pieces of it round and moving up to three stops, while that shortens it."""
    now, length = list(walk), length_of(walk, lengths)
    while True:
        best, found = now, length
        for other in _neighbours(now):
            other_length = length_of(other, lengths)
            if other_length < found - 1e-9:
                best, found = other, other_length
        if best is now:
            return now
        now, length = best, found


def _neighbours(walk: list[int]) -> list[list[int]]:
    count, found = len(walk), list[list[int]]()
    for a in range(1, count - 1):
        for b in range(a + 1, count):
            found.append([*walk[:a], *reversed(walk[a : b + 1]), *walk[b + 1 :]])
    for size in (1, 2, 3):
        for a in range(1, count - size + 1):
            piece, rest = walk[a : a + size], walk[:a] + walk[a + size :]
            for to in range(1, len(rest) + 1):
                if to != a:
                    found.append([*rest[:to], *piece, *rest[to:]])
                    found.append([*rest[:to], *reversed(piece), *rest[to:]])
    return found
