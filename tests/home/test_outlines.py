import math
import time

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LinearRing, Polygon

from floorplan_circuits.home.outlines import Outline, crossing, doubled_area, edges

CORNERS = st.lists(st.tuples(st.integers(0, 6), st.integers(0, 6)), min_size=3, max_size=8).map(tuple)


def circle(corners: int) -> Outline:
    turns = [2 * math.pi * place / corners for place in range(corners)]
    return tuple((round(50_000 * math.cos(turn)), round(50_000 * math.sin(turn))) for turn in turns)


def test_edges_go_round_and_back_to_the_first_corner() -> None:
    assert edges(((0, 0), (1, 0), (1, 1))) == [((0, 0), (1, 0)), ((1, 0), (1, 1)), ((1, 1), (0, 0))]
    assert edges(()) == []


@given(CORNERS)
def test_an_independent_geometry_library_finds_the_same_outlines_simple(outline: Outline) -> None:
    # That library lets two corners in a row stand in one place; a room has each corner once.
    assume(all(a != b for a, b in edges(outline)))
    assume(len(set(outline)) > 2)
    assert (crossing(outline) is None) == LinearRing(outline).is_simple


@given(CORNERS)
def test_an_independent_geometry_library_finds_the_same_area(outline: Outline) -> None:
    assert abs(doubled_area(outline)) == pytest.approx(2 * Polygon(outline).area)


@given(CORNERS, st.integers(0, 7))
def test_where_the_outline_begins_and_which_way_it_goes_makes_no_difference(outline: Outline, start: int) -> None:
    turned = (*outline[start % len(outline) :], *outline[: start % len(outline)])
    assert (crossing(outline) is None) == (crossing(turned) is None) == (crossing(outline[::-1]) is None)
    assert doubled_area(turned) == doubled_area(outline) == -doubled_area(outline[::-1])


def test_the_area_is_positive_clockwise_on_the_sheet() -> None:
    assert doubled_area(((0, 0), (4000, 0), (4000, 3000), (0, 3000))) == 2 * 4000 * 3000


@pytest.mark.parametrize(
    ("outline", "place"),
    [
        (((0, 0), (3000, 3000), (3000, 0), (0, 3000)), (1500, 1500)),
        (((0, 0), (10, 1), (10, 0), (0, 3)), (8, 1)),
        (((0, 0), (4000, 0), (4000, 0), (4000, 3000)), (4000, 0)),
        (((0, 0), (4000, 0), (2000, 0), (2000, 3000)), (4000, 0)),
        (((0, 0), (4000, 0), (4000, 3000), (2000, 0), (0, 3000)), (2000, 0)),
    ],
)
def test_the_place_is_where_it_crosses(outline: Outline, place: tuple[int, int]) -> None:
    assert crossing(outline) == place


def test_a_room_of_a_thousand_corners_is_looked_through_at_once() -> None:
    started = time.perf_counter()
    assert all(crossing(circle(1000)) is None for _ in range(10))
    assert time.perf_counter() - started < 2
