"""Snapping: to corners, crossings, edges, right angles and lines, never further than the reach, never back again."""

from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.geometry.snapping import GRID_MM, Snapped, edges, foot, snap

SQUARE = ((0, 0), (4000, 0), (4000, 3000), (0, 3000))
SLANTED = ((6000, 0), (9000, 4000), (5000, 4000))
REACH = 100
RANK = ("corner", "crossing", "edge", "square", "in line", "")


@pytest.mark.parametrize(
    ("at", "goes"),
    [
        ((60, -70), Snapped((0, 0), "corner")),
        ((90, -90), Snapped((100, 0), "edge")),  # in line with the corner both ways, but out of its reach
        ((1234, 60), Snapped((1250, 0), "edge")),
        ((3960, 1510), Snapped((4000, 1500), "edge")),
        ((4040, 5960), Snapped((4000, 5950), "in line")),
        ((1234, 5000), Snapped((1250, 5000), "")),
        ((4030, 5020), Snapped((4000, 5000), "in line")),
        ((-800, 2950), Snapped((-800, 3000), "in line")),
        ((2000, 1520), Snapped((2000, 1500), "")),
    ],
)
def test_the_strongest_in_reach_draws_a_point(at, goes):
    assert snap(at, [SQUARE], REACH) == goes


def test_an_edge_is_met_where_a_line_crosses_it():
    assert snap((8270, 2950), [SQUARE, SLANTED], REACH) == Snapped((8250, 3000), "crossing")


def test_lines_through_the_corners_drawn_so_far_count_too():
    drawn = [(10_000, 10_000), (13_040, 10_000), (13_040, 12_000)]

    assert snap((10_080, 12_030), [SQUARE], REACH, drawn) == Snapped((10_000, 12_000), "crossing")
    assert snap((13_100, 14_010), [], REACH, drawn) == Snapped((13_040, 14_000), "in line")


def test_a_wall_goes_on_square_to_the_one_before():
    wall = ((0, 0), (3000, 4000))

    to, why = snap((-1020, 6980), [], REACH, [], wall)

    assert why == "square"
    assert abs((to[0] - 3000) * 3000 + (to[1] - 4000) * 4000) <= 5000  # square to the millimetre over 5 m
    assert snap((12, 988), [], REACH, [], ((0, 0), (0, 500))) == Snapped((0, 1000), "")


def test_where_there_is_nothing_it_is_the_grid():
    assert snap((12.0, 38.0), [], REACH) == Snapped((0, 50), "")


def test_an_edge_between_steps_of_the_grid_ends_at_its_corner():
    short = ((10, 10), (1018, 10), (1018, 1018), (10, 1018))

    assert snap((1016, 13), [short], 2) == Snapped((1018, 10), "edge")
    assert snap((8, 500), [short], 5) == Snapped((10, 500), "edge")


@pytest.mark.parametrize("at", [(0, 0), (4000, 3000), (1250, 0), (4000, 650)])
def test_what_is_at_a_corner_or_on_an_edge_stays(at):
    assert snap(at, [SQUARE], REACH).at == at


# --- properties -----------------------------------------------------------------------------------------------------

places = st.tuples(*[st.floats(-1000, 10_000)] * 2)
points = st.tuples(*[st.integers(-1000, 10_000)] * 2)
outlines = st.lists(st.sampled_from((SQUARE, SLANTED, ((0, 0), (0, 0)), ((7, 7),), ())), max_size=3)
reaches = st.floats(1, 400)
walls = st.one_of(st.none(), st.tuples(points, points))


@given(places, outlines, reaches, st.lists(points, max_size=3), walls)
def test_no_point_goes_further_than_the_reach_and_the_grid(at, around, reach, lines, wall):
    to, why = snap(at, around, reach, lines, wall)
    far = hypot(to[0] - at[0], to[1] - at[1])
    half_a_step, rounding = GRID_MM / 2, 1.0

    if why in ("corner", "square", "crossing"):
        assert far <= reach + rounding
    elif why in ("edge", "in line"):
        assert far <= hypot(reach, half_a_step) + rounding
    else:
        assert far <= hypot(half_a_step, half_a_step)
        assert (to[0] % GRID_MM, to[1] % GRID_MM) == (0, 0)


@given(places, outlines, st.integers(2, 400), st.lists(points, max_size=3))
def test_a_point_once_snapped_gives_way_only_to_what_is_stronger(at, around, reach, lines):
    """It can't stay in every case: within one reach of an edge and then of its corner is within two of the corner."""
    once = snap(at, around, reach, lines)
    again = snap(once.at, around, reach, lines)

    assert again.at == once.at or RANK.index(again.why) < RANK.index(once.why)


@given(st.sampled_from((*SQUARE, *SLANTED)), st.tuples(*[st.floats(-60, 60)] * 2))
def test_corners_draw_from_all_round(corner, off):
    assert snap((corner[0] + off[0], corner[1] + off[1]), [SQUARE, SLANTED], REACH) == Snapped(corner, "corner")


# --- feet -----------------------------------------------------------------------------------------------------------


def test_the_edges_of_outlines_close_them():
    assert edges([SLANTED, ()]) == [
        ((6000, 0), (9000, 4000)),
        ((9000, 4000), (5000, 4000)),
        ((5000, 4000), (6000, 0)),
    ]


def test_the_foot_is_the_nearest_place_of_an_edge():
    assert foot((1000, 500), (0, 0), (4000, 0)) == (1000, 0)
    assert foot((-5, 500), (0, 0), (4000, 0)) == (0, 0)
    assert foot((4005, 500), (0, 0), (4000, 0)) == (4000, 0)
    assert foot((3, 4), (1, 1), (1, 1)) == (1, 1)
