"""The camera: places go to pixels and back, and zooming holds what is under the pointer."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.desktop.camera import FARTHEST, NEAREST, PX_PER_MM, Camera

places = st.tuples(st.floats(-50_000, 50_000), st.floats(-50_000, 50_000))
cameras = st.builds(Camera, st.floats(NEAREST, FARTHEST), places, st.floats(200, 4000), st.floats(200, 3000))
pixels = st.tuples(st.floats(0, 2000), st.floats(0, 1500))


@given(cameras, places)
def test_a_house_place_goes_to_pixels_and_back(camera, house):
    assert camera.to_house(camera.to_pixels(house)) == pytest.approx(house, abs=1e-6 * FARTHEST)


@given(cameras, pixels, st.floats(0.1, 10))
def test_what_is_under_the_pointer_stays_there_while_zooming(camera, at, factor):
    held = camera.to_house(at)

    assert camera.zoomed(factor, at).to_pixels(held) == pytest.approx(at, abs=1e-3)


@given(cameras, st.floats(0.001, 1000))
def test_zooming_stops_at_its_ends(camera, factor):
    assert NEAREST <= camera.zoomed(factor).scale <= FARTHEST


@given(cameras, pixels, st.floats(-500, 500), st.floats(-500, 500))
def test_panning_moves_the_picture_by_as_many_pixels(camera, at, dx, dy):
    house = camera.to_house(at)

    assert camera.panned(dx, dy).to_pixels(house) == pytest.approx((at[0] + dx, at[1] + dy), abs=1e-3)


@given(cameras, st.floats(10, 400), st.floats(10, 400), st.floats(20, 200))
def test_seeing_shows_all_of_the_bounds(camera, wide, high, made):
    seen = camera.seeing((5.0, 7.0, 5.0 + wide, 7.0 + high), made, 26)
    left, top = seen.to_pixels((5.0 * made, 7.0 * made))
    right, bottom = seen.to_pixels(((5.0 + wide) * made, (7.0 + high) * made))

    assert NEAREST <= seen.scale <= FARTHEST
    if seen.scale not in (NEAREST, FARTHEST):
        assert left >= 25.9
        assert top >= 25.9
        assert right <= camera.width - 25.9
        assert bottom <= camera.height - 25.9


def test_a_paper_millimetre_is_drawn_at_96_pixels_an_inch():
    camera = Camera(scale=50, centre=(0, 0), width=100, height=100)

    assert camera.to_pixels((50, 0))[0] - 50 == pytest.approx(96 / 25.4)
    assert pytest.approx(3.7795, abs=1e-4) == PX_PER_MM
