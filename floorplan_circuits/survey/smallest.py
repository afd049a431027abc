"""The smallest family of sets that covers everything: of readings that exclude breakers, the fewest that leave none."""

from collections.abc import Sequence
from functools import lru_cache

MOST_STEPS = 2_000
"""Past so many steps the answer is merely small: none of it can be left out, but a smaller family may exist."""


@lru_cache(maxsize=4096)
def smallest_cover(sets: tuple[int, ...], whole: int) -> tuple[int, ...]:
    """Return the places of the fewest `sets` (masks) whose union holds all bits of `whole`; () if even all do not.

    Examples:
        >>> smallest_cover((0b001, 0b011, 0b110), 0b111)
        (0, 2)
        >>> smallest_cover((0b001, 0b010), 0b111)
        ()
    """
    useful = _without_the_needless(sets, whole)
    if _union(useful, sets) & whole != whole:
        return ()
    small = _irredundant(useful, sets, whole)
    search = _Search(sets, useful, whole)
    for size in range(search.least(whole), len(small)):
        found = search.cover(whole, size)
        if found is not None:
            return tuple(sorted(found))
        if search.steps > MOST_STEPS:
            break
    return small


def _without_the_needless(sets: Sequence[int], whole: int) -> list[int]:
    """Return the places of sets that no other one holds: of equal ones the first."""
    kept: list[int] = []
    for at, one in enumerate(sets):
        mine = one & whole
        if mine and not any(mine | (sets[other] & whole) == sets[other] & whole for other in kept):
            kept = [other for other in kept if (sets[other] & whole) | mine != mine]
            kept.append(at)
    return kept


def _union(places: Sequence[int], sets: Sequence[int]) -> int:
    union = 0
    for at in places:
        union |= sets[at]
    return union


class _Search:
    """Tries families of a given size: some set must cover the bit that the fewest sets cover, so it begins there."""

    def __init__(self, sets: Sequence[int], useful: Sequence[int], whole: int) -> None:
        self.sets, self.steps = sets, 0
        self.most_at_once = max(sets[at].bit_count() for at in useful)
        holders = {
            1 << n: [at for at in useful if sets[at] >> n & 1] for n in range(whole.bit_length()) if whole >> n & 1
        }
        self.rarest_first = sorted(holders.items(), key=lambda pair: len(pair[1]))

    def least(self, missing: int) -> int:
        """Return the size below which no family can cover what is missing."""
        return -(-missing.bit_count() // self.most_at_once)

    def cover(self, missing: int, size: int) -> list[int] | None:
        """Return a family of at most this size, or None."""
        if not missing:
            return []
        self.steps += 1
        if self.steps > MOST_STEPS or self.least(missing) > size:
            return None
        for at in next(places for bit, places in self.rarest_first if missing & bit):
            rest = self.cover(missing & ~self.sets[at], size - 1)
            if rest is not None:
                return [at, *rest]
        return None


def _irredundant(useful: Sequence[int], sets: Sequence[int], whole: int) -> tuple[int, ...]:
    """Return a small family of which none can be left out: always the set that covers most of what is missing yet."""
    kept, missing = list[int](), whole
    while missing:
        most = max(useful, key=lambda at: (sets[at] & missing).bit_count())
        kept.append(most)
        missing &= ~sets[most]
    for at in list(kept):
        rest = [other for other in kept if other != at]
        if _union(rest, sets) & whole == whole:
            kept = rest
    return tuple(sorted(kept))
