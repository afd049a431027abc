"""Hatches: lines and dots cover what they are asked to, and lie on one grid for the whole sheet."""

from math import cos, hypot, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.drawing.hatching import hatch_dots, hatch_lines
from floorplan_circuits.drawing.ink import Bounds

angles = st.sampled_from([0.0, 45.0, 90.0, 135.0, 17.0])
spacings = st.floats(0.8, 6.0)


@st.composite
def rectangles(draw: st.DrawFn) -> Bounds:
    left, top = draw(st.floats(-200, 200)), draw(st.floats(-200, 200))
    return left, top, left + draw(st.floats(1, 60)), top + draw(st.floats(1, 60))


def offset(line: tuple[tuple[float, float], tuple[float, float]], angle: float) -> float:
    """How far the line is from the sheet's corner, across the hatch."""
    (x, y), _ = line
    return x * sin(radians(angle)) + y * cos(radians(angle))


@given(rectangles(), angles, spacings)
def test_every_line_lies_at_a_whole_multiple_of_the_spacing(bounds: Bounds, angle: float, spacing: float) -> None:
    for line in hatch_lines(bounds, angle, spacing):
        steps = offset(line, angle) / spacing
        assert steps == pytest.approx(round(steps), abs=1e-6)


@given(rectangles(), angles, spacings, st.floats(0, 1), st.floats(0, 1))
def test_no_point_is_farther_from_a_line_than_half_the_spacing(
    bounds: Bounds, angle: float, spacing: float, across: float, down: float
) -> None:
    x, y = bounds[0] + (bounds[2] - bounds[0]) * across, bounds[1] + (bounds[3] - bounds[1]) * down
    here = x * sin(radians(angle)) + y * cos(radians(angle))
    offsets = [offset(line, angle) for line in hatch_lines(bounds, angle, spacing)]
    assert min(abs(here - one) for one in offsets) <= spacing / 2 + 1e-6


@given(rectangles(), angles, spacings)
def test_lines_reach_past_the_rectangle(bounds: Bounds, angle: float, spacing: float) -> None:
    along = cos(radians(angle)), -sin(radians(angle))
    reach = [x * along[0] + y * along[1] for x in (bounds[0], bounds[2]) for y in (bounds[1], bounds[3])]
    for a, b in hatch_lines(bounds, angle, spacing):
        ends = sorted(x * along[0] + y * along[1] for x, y in (a, b))
        assert ends[0] <= min(reach) + 1e-6
        assert ends[1] >= max(reach) - 1e-6


def test_45_degrees_rise_to_the_right() -> None:
    (ax, ay), (bx, by) = next(hatch_lines((0, 0, 10, 10), 45, 2.4))
    assert (bx - ax) * (by - ay) < 0


@given(rectangles(), spacings)
def test_dots_lie_on_one_grid_with_every_second_row_shifted(bounds: Bounds, spacing: float) -> None:
    for x, y in hatch_dots(bounds, spacing):
        row = round(y / spacing)
        assert y == pytest.approx(row * spacing)
        column = x / spacing - (0.5 if row % 2 else 0.0)
        assert column == pytest.approx(round(column), abs=1e-6)


@given(rectangles(), st.floats(0.8, 3.0), st.floats(0, 1), st.floats(0, 1))
def test_a_dot_is_near_every_inner_point(bounds: Bounds, spacing: float, across: float, down: float) -> None:
    wide, high = bounds[2] - bounds[0], bounds[3] - bounds[1]
    if min(wide, high) > 2 * spacing:
        x = bounds[0] + spacing + (wide - 2 * spacing) * across
        y = bounds[1] + spacing + (high - 2 * spacing) * down
        assert min(hypot(x - dx, y - dy) for dx, dy in hatch_dots(bounds, spacing)) <= spacing
