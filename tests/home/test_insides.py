"""Rooms between the inner faces of their walls."""

from itertools import pairwise

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.home.insides import inside_area, inside_lengths

ELL = ((0, 0), (6120, 0), (6120, 3120), (3120, 3120), (3120, 5120), (0, 5120))


def test_a_corner_that_juts_in_leaves_its_walls_as_long_as_their_middle_lines_or_longer():
    assert inside_lengths(ELL, 120) == (6000, 3000, 3000, 2000, 3000, 5000)


def test_walls_of_no_thickness_change_nothing():
    assert inside_lengths(ELL, 0) == (6120, 3120, 3000, 2000, 3120, 5120)


corners = st.integers(2000, 9000)


@given(corners, corners, corners, st.integers(0, 400), st.booleans())
def test_the_floor_inside_is_what_an_independent_library_finds(wide, deep, skew, wall, backwards):
    """Against shapely's own inward offset with mitred corners."""
    outline = ((0, 0), (wide, 0), (wide + skew // 4, deep), (0, deep + skew // 3))
    outline = outline[::-1] if backwards else outline
    inner = shapely.buffer(shapely.Polygon(outline), -wall / 2, join_style="mitre", mitre_limit=100)

    assert inside_area(outline, wall) == pytest.approx(inner.area, rel=1e-9)
    around = shapely.get_coordinates(inner.exterior)
    sides = [float(((a - b) ** 2).sum() ** 0.5) for a, b in pairwise(around)]
    assert sorted(inside_lengths(outline, wall)) == pytest.approx(sorted(sides), abs=0.51)
