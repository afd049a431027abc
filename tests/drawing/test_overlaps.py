"""Rectangles and lines: whether they meet, checked against shapely."""

from math import hypot

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry import box as square

from floorplan_circuits.drawing.overlaps import (
    CELL,
    Grid,
    Segment,
    around,
    crosses_box,
    distance,
    is_inside,
    joined,
    overlap,
    put_segment,
    segments_cross,
    trimmed,
)

places = st.tuples(st.integers(-60, 60).map(float), st.integers(-60, 60).map(float))
segments = st.builds(Segment, places, places, st.sampled_from([0.0, 0.5]))


@st.composite
def rectangles(draw: st.DrawFn) -> tuple[float, float, float, float]:
    x, y = draw(places)
    return x, y, x + draw(st.integers(1, 40)), y + draw(st.integers(1, 40))


@given(rectangles(), rectangles())
def test_rectangles_overlap_where_they_share_an_area(
    a: tuple[float, float, float, float], b: tuple[float, float, float, float]
) -> None:
    assert overlap(a, b) == overlap(b, a) == (square(*a).intersection(square(*b)).area > 0)


@given(places, places, rectangles())
def test_a_line_crosses_a_box_where_it_runs_inside(
    a: tuple[float, float], b: tuple[float, float], bounds: tuple[float, float, float, float]
) -> None:
    assume(a != b)
    inside = LineString([a, b]).intersection(square(*bounds))
    on_edge = square(*bounds).boundary.intersection(LineString([a, b]))
    runs_inside = inside.length > 1e-9 and not inside.equals(on_edge)
    assert crosses_box(Segment(a, b), bounds) == runs_inside


@given(places, places, places, places)
def test_lines_cross_where_shapely_says_so(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float], d: tuple[float, float]
) -> None:
    assume(a != b and c != d)
    one, other = LineString([a, b]), LineString([c, d])
    assert segments_cross(a, b, c, d) == (one.crosses(other) and not _touches_an_end(one, other))


def _touches_an_end(one: LineString, other: LineString) -> bool:
    ends = [Point(at) for at in (*one.coords, *other.coords)]
    return any(one.distance(end) < 1e-9 and other.distance(end) < 1e-9 for end in ends)


@given(places, segments)
def test_distance_is_to_the_nearest_point_of_the_line(at: tuple[float, float], line: Segment) -> None:
    assert distance(at, line) == pytest.approx(Point(at).distance(LineString([line.a, line.b])), abs=1e-6)


@given(st.floats(-5, 65), st.floats(-5, 65))
def test_a_point_is_inside_a_shape_as_shapely_says(x: float, y: float) -> None:
    corners = [(0, 0), (60, 0), (60, 20), (20, 20), (20, 60), (0, 60)]
    shape = Polygon(corners)
    assume(shape.boundary.distance(Point(x, y)) > 1e-6)
    edges = [Segment(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]
    assert is_inside((x, y), edges) == shape.contains(Point(x, y))


@given(segments, st.floats(0, 1))
def test_the_grid_finds_a_line_near_each_of_its_points(line: Segment, share: float) -> None:
    grid: Grid[Segment] = Grid()
    put_segment(grid, line)
    at = tuple(a + (b - a) * share for a, b in zip(line.a, line.b, strict=True))
    assert line in grid.near(around((at[0], at[1]), (0.2, 0.2)))


def test_a_long_slanting_line_fills_no_more_cells_than_it_passes() -> None:
    grid: Grid[Segment] = Grid()
    put_segment(grid, Segment((0, 0), (400, 400)))
    assert grid.near(around((300, 100), (CELL, CELL))) == []


def test_a_line_is_trimmed_to_where_it_leaves_the_box_it_starts_in() -> None:
    own = (-2.0, -2.0, 2.0, 2.0)
    assert trimmed(((0, 0), (10, 0)), [own]) == ((2, 0), (10, 0))
    assert trimmed(((0, 0), (1, 0), (1, 9)), [own]) == ((1, 2), (1, 9))
    assert trimmed(((0, 0), (1, 1)), [own]) == ()
    assert trimmed(((5, 0), (10, 0)), [own]) == ((5, 0), (10, 0))
    assert hypot(*trimmed(((0, 0), (8, 8)), [own])[0]) == pytest.approx(hypot(2, 2))


def test_rectangles_that_stand_together_are_made_one_and_others_stay_apart() -> None:
    near, far = (0.0, 0.0, 1.0, 1.0), (50.0, 0.0, 51.0, 1.0)
    assert joined([near, far], 3.0) == [near, far]
    assert joined([near, (8.0, 0.0, 9.0, 1.0), (3.0, 0.0, 5.5, 2.0), far], 3.0) == [(0.0, 0.0, 9.0, 2.0), far]
