"""A short walk: from where one stands past every stop once, ending anywhere."""

from collections.abc import Sequence
from itertools import pairwise

Lengths = Sequence[Sequence[float]]
"""How far it is from each place to each; place 0 is where the walk begins."""
EXACT_STOPS = 10
"""Up to so many stops the shortest walk is found; past that a good one."""
STARTS = 6
LONG = 60
"""Past so many stops one start is tried and single stops are moved: nobody walks that in one go."""
MOST_WORK = 200_000
LEAST_GAIN = 1e-9


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
    nearest = sorted(range(1, count), key=lambda stop: lengths[0][stop])[: STARTS if count <= LONG else 1]
    walks = [_bettered(_nearest_first(lengths, first), lengths) for first in nearest]
    shortest = min(walks, key=lambda some: length_of(some, lengths))
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


def _bettered(walk: list[int], lengths: Lengths) -> list[int]:
    """Return the walk after turning pieces of it round and moving up to three stops, while that shortens it.

    A very long walk is bettered once only: it is good enough by then, and a person waits for it.
    """
    passes = max(1, MOST_WORK // len(walk) ** 2)
    for _ in range(passes):
        turned, moved = _turn_pieces(walk, lengths), _move_pieces(walk, lengths)
        if not (turned or moved):
            break
    return walk


def _turn_pieces(walk: list[int], lengths: Lengths) -> bool:
    """Turn each piece round where that shortens the walk; tell whether any was."""
    count, any_turned = len(walk), False
    for a in range(1, count - 1):
        for b in range(a + 1, count):
            before, first, last = walk[a - 1], walk[a], walk[b]
            gain = lengths[before][first] - lengths[before][last]
            if b + 1 < count:
                gain += lengths[last][walk[b + 1]] - lengths[first][walk[b + 1]]
            if gain > LEAST_GAIN:
                walk[a : b + 1] = walk[a : b + 1][::-1]
                any_turned = True
    return any_turned


def _move_pieces(walk: list[int], lengths: Lengths) -> bool:
    """Move each piece of up to three stops, either way round, to where that shortens the walk most."""
    any_moved = False
    for size in (1, 2, 3) if len(walk) <= LONG else (1,):
        for a in range(1, len(walk) - size + 1):
            piece, rest = walk[a : a + size], walk[:a] + walk[a + size :]
            taken = lengths[walk[a - 1]][piece[0]]
            if a + size < len(walk):
                after = walk[a + size]
                taken += lengths[piece[-1]][after] - lengths[walk[a - 1]][after]
            best = min(
                (_cost(rest, at, one, lengths), at, one)
                for at in range(1, len(rest) + 1)
                for one in (piece, piece[::-1])
            )
            if best[0] < taken - LEAST_GAIN:
                walk[:] = [*rest[: best[1]], *best[2], *rest[best[1] :]]
                any_moved = True
    return any_moved


def _cost(rest: Sequence[int], at: int, piece: Sequence[int], lengths: Lengths) -> float:
    """Return how much longer the walk gets with a piece put in before place `at`."""
    cost = lengths[rest[at - 1]][piece[0]]
    if at < len(rest):
        cost += lengths[piece[-1]][rest[at]] - lengths[rest[at - 1]][rest[at]]
    return cost
