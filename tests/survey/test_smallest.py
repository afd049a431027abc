"""The smallest family that covers everything, against every family tried by brute force."""

from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.survey import smallest
from floorplan_circuits.survey.smallest import smallest_cover

MASKS = st.lists(st.integers(0, 2**7 - 1), max_size=9)
WHOLE = 2**7 - 1


def union(sets: list[int], places) -> int:
    found = 0
    for at in places:
        found |= sets[at]
    return found


def by_brute_force(sets: list[int], whole: int) -> int | None:
    """The size of the smallest family, None if there is none."""
    for size in range(1, len(sets) + 1):
        if any(union(sets, family) & whole == whole for family in combinations(range(len(sets)), size)):
            return size
    return None


@settings(max_examples=400)
@given(MASKS)
def test_it_covers_and_is_as_small_as_any_that_does(sets) -> None:
    found, least = smallest_cover(tuple(sets), WHOLE), by_brute_force(sets, WHOLE)
    if least is None:
        assert found == ()
    else:
        assert union(sets, found) & WHOLE == WHOLE
        assert len(found) == least


@settings(max_examples=200)
@given(MASKS)
def test_where_the_search_gives_up_none_of_the_family_can_be_left_out(sets) -> None:
    most, smallest.MOST_STEPS = smallest.MOST_STEPS, 0
    try:
        found = smallest_cover.__wrapped__(tuple(sets), WHOLE)
    finally:
        smallest.MOST_STEPS = most
    assert (found == ()) == (by_brute_force(sets, WHOLE) is None)
    for at in found:
        assert union(sets, set(found) - {at}) & WHOLE != WHOLE


def test_sixty_solo_readings_are_found_at_once_though_none_can_be_left_out() -> None:
    sets = tuple(1 << at for at in range(60))
    assert smallest_cover(sets, 2**60 - 1) == tuple(range(60))
