"""Lines and outlines cut by a rectangle, against shapely."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Polygon, box

from floorplan_circuits.sheets.clipping import clipped_line, clipped_ring

WINDOW = (10.0, 20.0, 60.0, 50.0)
places = st.tuples(st.integers(-20, 90), st.integers(-20, 90))


@given(places, places)
def test_a_line_keeps_what_is_inside(a: tuple[int, int], b: tuple[int, int]) -> None:
    found = clipped_line(a, b, WINDOW)
    length = LineString((a, b)).intersection(box(*WINDOW)).length if a != b else 0.0
    if found is None:
        assert length == pytest.approx(0.0, abs=1e-6)
    else:
        assert LineString(found).length == pytest.approx(length, abs=1e-6)


@given(st.lists(places, min_size=3, max_size=9, unique=True))
def test_an_outline_keeps_the_area_inside(ring: list[tuple[int, int]]) -> None:
    shape = Polygon(ring)
    assume(shape.is_valid and shape.area > 1)
    inside = clipped_ring(ring, WINDOW)
    area = shape.intersection(box(*WINDOW)).area
    if not inside:
        assert area == pytest.approx(0.0, abs=1e-6)
        return
    doubled = sum(inside[at - 1][0] * y - x * inside[at - 1][1] for at, (x, y) in enumerate(inside))
    assert abs(doubled) / 2 == pytest.approx(area, abs=1e-6)
    left, top, right, bottom = WINDOW
    assert all(left <= x <= right and top <= y <= bottom for x, y in inside)
