"""The nearest place for which something holds, against all of them looked at one by one."""

from math import dist

from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.home.boxes import Box, Feed
from floorplan_circuits.home.home import FeedPlace
from floorplan_circuits.shutoff.nearest import LEVEL_AWAY_MM, Nearby, Spot

XS = st.one_of(st.integers(-40_000, 40_000), st.integers(-10_000_000, 10_000_000))
SPOTS = st.tuples(st.sampled_from([1, 2, None]), st.none() | st.tuples(XS, XS))


def place(number: int, level: int | None, at: tuple[int, int] | None) -> FeedPlace:
    box = Box(id=number, mark=f"B{number}", level=level, at=at)
    return FeedPlace(box, None, Feed(id=1000 + number))


@given(SPOTS, st.lists(SPOTS, max_size=25), st.sets(st.integers(1, 25)))
def test_it_is_the_nearest_of_all_and_of_equals_the_first(near: Spot, spots: list[Spot], barred: set[int]) -> None:
    places = [place(at, *spot) for at, spot in enumerate(spots, 1)]
    level, at = near

    def far(one: FeedPlace) -> tuple[float, int]:
        if at is None or one.box.at is None:
            return float("inf"), one.box.id
        return dist(at, one.box.at) + (LEVEL_AWAY_MM if level != one.box.level else 0), one.box.id

    wanted = min((one for one in places if one.box.id not in barred), key=far, default=None)
    found = Nearby(places).nearest(near, lambda one: one.box.id not in barred)
    assert found == (wanted.box.id if wanted is not None else None)
