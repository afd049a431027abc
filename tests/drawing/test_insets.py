"""Insets: every edge moved inwards by as much, whichever way round the outline goes."""

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.drawing.insets import inset

L_SHAPE = [(0, 0), (40, 0), (40, 20), (20, 20), (20, 40), (0, 40)]


def test_a_square_keeps_its_shape():
    assert inset([(0, 0), (10, 0), (10, 10), (0, 10)], 2) == [(2, 2), (8, 2), (8, 8), (2, 8)]


@pytest.mark.parametrize("ring", [L_SHAPE, L_SHAPE[::-1]])
def test_an_l_shape_comes_out_as_a_general_library_has_it(ring):
    expected = shapely.Polygon(ring).buffer(-1, join_style="mitre")

    assert shapely.Polygon(inset(ring, 1)).symmetric_difference(expected).area == pytest.approx(0, abs=1e-9)


@given(st.floats(5, 100), st.floats(5, 100), st.floats(0, 2))
def test_a_rectangle_loses_its_rim(wide, high, by):
    inner = shapely.Polygon(inset([(0, 0), (wide, 0), (wide, high), (0, high)], by))

    assert inner.area == pytest.approx((wide - 2 * by) * (high - 2 * by), abs=1e-6)


def test_a_sharp_corner_is_cut_short():
    sharp = inset([(0, 0), (100, 0), (0, 4)], 1)

    assert all(
        shapely.Point(at).distance(shapely.Point(corner)) <= 3.001
        for at, corner in zip(sharp, [(0, 0), (100, 0), (0, 4)], strict=True)
    )


def test_what_is_no_outline_comes_back_as_it_is():
    assert inset([(0, 0), (0, 0), (5, 5)], 1) == [(0, 0), (5, 5)]
