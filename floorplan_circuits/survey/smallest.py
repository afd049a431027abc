"""The smallest family of sets that covers everything: of readings that exclude breakers, the fewest that leave none."""

from collections.abc import Sequence

MOST_STEPS = 20_000
"""Past so many steps the answer is merely small: none of it can be left out, but a smaller family may exist."""


def smallest_cover(sets: Sequence[int], whole: int) -> tuple[int, ...]:
    """Return the places of the fewest `sets` (masks) whose union holds all bits of `whole`; () if even all do not.

    Among families of one size it is the one found first, earlier sets before later ones.

    Examples:
        >>> smallest_cover([0b001, 0b011, 0b110], 0b111)
        (0, 2)
        >>> smallest_cover([0b001, 0b010], 0b111)
        ()
    """
    useful = _without_the_needless(sets, whole)
    if _union(useful, sets) & whole != whole:
        return ()
    search = _Search(sets, useful)
    for size in range(1, len(useful) + 1):
        found = search.cover(whole, size)
        if found is not None:
            return tuple(sorted(found))
        if search.steps > MOST_STEPS:
            break
    return _irredundant(useful, sets, whole)


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

    def __init__(self, sets: Sequence[int], useful: Sequence[int]) -> None:
        self.sets, self.useful, self.steps = sets, useful, 0

    def cover(self, missing: int, size: int) -> list[int] | None:
        if not missing:
            return []
        self.steps += 1
        if size == 0 or self.steps > MOST_STEPS or self._most_at_once(missing) * size < missing.bit_count():
            return None
        for at in self._fewest(missing):
            rest = self.cover(missing & ~self.sets[at], size - 1)
            if rest is not None:
                return [at, *rest]
        return None

    def _most_at_once(self, missing: int) -> int:
        return max((self.sets[at] & missing).bit_count() for at in self.useful)

    def _fewest(self, missing: int) -> list[int]:
        best: list[int] = []
        bit = 1
        while bit <= missing:
            if missing & bit:
                holders = [at for at in self.useful if self.sets[at] & bit]
                if not best or len(holders) < len(best):
                    best = holders
            bit <<= 1
        return best


def _irredundant(useful: Sequence[int], sets: Sequence[int], whole: int) -> tuple[int, ...]:
    """Return a family of which none can be left out: drop one after another while the rest still covers."""
    kept = list(useful)
    for at in list(kept):
        rest = [other for other in kept if other != at]
        if _union(rest, sets) & whole == whole:
            kept = rest
    return tuple(sorted(kept))
