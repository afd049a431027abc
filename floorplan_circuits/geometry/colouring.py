"""Colours of circuits: places in a palette of six hues by five textures, so that circuits that meet stay apart.

A place counts from 0: its hue is `place % 6`, its texture `place // 6` (0 plain, 1 to 4 hatches). Lower hues are taken
first, so the palette lists its pale ones before its deep ones.
"""

from collections import Counter
from collections.abc import Container, Iterable, Mapping

HUES = 6
TEXTURES = 5
PLACES = HUES * TEXTURES
WEAK, MIDDLING, STRONG = 1, 2, 3
"""Strength of a meeting: in neighbouring rooms; in one room; at a zone edge or in a box."""

Clash = tuple[int, int, int]
NO_CLASH: Clash = (0, 0, 0)


def colours(order: Iterable[int], meets: Mapping[tuple[int, int], int], seldom: Container[int] = ()) -> dict[int, int]:
    """Return a palette place for each of `order`, taken greedily in that order.

    `meets` tells how strongly two of them meet (3, 2 or 1), whichever way round. Of the places that none has which it
    meets and which was placed before it (of all, where there is none such), each gets the one whose hue clashes least
    with theirs, any strong meeting counting before all weaker; then one used least so far (all thirty before any
    repeats), whose hatch clashes least, since grey paper shows little else; then plain before hatched, and the hue
    used least, so that a small home gets all six. So no later one alters an earlier. Those in `seldom`, which hardly
    ever colour a floor, leave the plain places to the others.

    Examples:
        >>> colours([1, 2, 3], {})
        {1: 0, 2: 1, 3: 2}
        >>> colours([], {})
        {}
    """
    neighbours = _neighbours(meets)
    placed: dict[int, int] = {}
    used, hues_used = Counter[int](), Counter[int]()
    for one in dict.fromkeys(order):
        met = [(placed[other], strength) for other, strength in neighbours.get(one, ()) if other in placed]
        place = _best(met, used, hues_used, one in seldom)
        placed[one] = place
        used[place] += 1
        hues_used[place % HUES] += 1
    return placed


def _neighbours(meets: Mapping[tuple[int, int], int]) -> dict[int, list[tuple[int, int]]]:
    """Return for each whom it meets and how strongly; the stronger where both ways round are given."""
    strongest: dict[tuple[int, int], int] = {}
    for (a, b), strength in meets.items():
        if a != b:
            pair = min(a, b), max(a, b)
            strongest[pair] = max(strength, strongest.get(pair, 0))
    found: dict[int, list[tuple[int, int]]] = {}
    for (a, b), strength in strongest.items():
        found.setdefault(a, []).append((b, strength))
        found.setdefault(b, []).append((a, strength))
    return found


def _best(met: list[tuple[int, int]], used: Counter[int], hues_used: Counter[int], is_seldom: bool) -> int:
    by_hue = _clashes((place % HUES, strength) for place, strength in met)
    by_place = _clashes(met)
    by_hatch = _clashes((place // HUES, strength) for place, strength in met if place >= HUES)
    return min(
        [place for place in range(PLACES) if place not in by_place] or range(PLACES),
        key=lambda place: (
            by_hue.get(place % HUES, NO_CLASH),
            by_place.get(place, NO_CLASH),
            is_seldom and place < HUES,
            used[place],
            by_hatch.get(place // HUES, NO_CLASH),
            place // HUES,
            hues_used[place % HUES],
            place,
        ),
    )


def _clashes(met: Iterable[tuple[int, int]]) -> dict[int, Clash]:
    """Return how many strong, middling and weak meetings each hue (or place) would clash in."""
    found: dict[int, Clash] = {}
    for what, strength in met:
        strong, middling, weak = found.get(what, NO_CLASH)
        found[what] = strong + (strength == STRONG), middling + (strength == MIDDLING), weak + (strength == WEAK)
    return found
