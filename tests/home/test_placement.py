from math import cos, dist, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.home.building import Underlay
from floorplan_circuits.home.placement import corners, lean, on_picture, place, placed, size, turned_by

places = st.tuples(st.floats(-30_000, 30_000), st.floats(-30_000, 30_000))
underlays = st.builds(
    Underlay,
    picture=st.just("abcdef01"),
    pixels=st.tuples(st.integers(1, 3000), st.integers(1, 3000)),
    at=st.tuples(st.integers(-20_000, 20_000), st.integers(-20_000, 20_000)),
    width=st.integers(2000, 60_000),
    angle=st.integers(0, 359),
    hundredths=st.integers(0, 99),
)


def test_a_picture_that_is_not_turned_lies_right_and_down_of_its_corner() -> None:
    laid = Underlay(picture="abcdef01", pixels=(400, 300), at=(100, 50), width=8000)

    assert corners(laid) == ((100, 50), (8100, 50), (8100, 6050), (100, 6050))


def test_a_quarter_turn_is_clockwise_as_the_eye_sees_it() -> None:
    laid = Underlay(picture="abcdef01", pixels=(400, 300), width=8000, angle=90)

    assert corners(laid)[1] == (0, 8000)  # what was its upper right corner points down


def test_a_picture_of_unknown_pixels_counts_as_a_square() -> None:
    assert size(Underlay(picture="abcdef01", width=5000)) == (5000, 5000)


@given(underlays, places)
def test_a_place_on_the_picture_and_back_is_where_it_was(laid: Underlay, at: tuple[float, float]) -> None:
    assert place(laid, on_picture(laid, at)) == pytest.approx(at, abs=1e-6)


@settings(max_examples=60)
@given(underlays, places, st.floats(0.2, 5), st.floats(-400, 400))
def test_what_is_held_fixed_stays_within_a_millimetre(
    laid: Underlay, at: tuple[float, float], grow: float, angle: float
) -> None:
    held = on_picture(laid, at)
    after = placed(laid, laid.width * grow, angle, at)
    grown = after.width / laid.width

    assert dist(place(after, (held[0] * grown, held[1] * grown)), at) < 1
    assert (turned_by(after) - angle + 180) % 360 - 180 == pytest.approx(0, abs=0.0051)


@given(places, places)
def test_a_line_turned_back_by_its_lean_is_level_or_upright(a: tuple[float, float], b: tuple[float, float]) -> None:
    found = lean(a, b)
    assert -45 <= found.from_level <= 45
    turn = radians(-found.from_level)
    x, y = b[0] - a[0], b[1] - a[1]
    turned = x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)

    assert min(abs(turned[0]), abs(turned[1])) < 1e-6 * max(1.0, found.length)
