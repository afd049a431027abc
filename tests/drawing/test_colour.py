"""Colour arithmetic: its own edges; the published values stand in tests/outside."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.colour import (
    Sight,
    ciede2000,
    contrast,
    difference,
    grey,
    lab,
    luminance,
    mix,
    rgb,
    simulate,
    simulated,
    written,
)

channels = st.integers(0, 255)
colours = st.builds(lambda r, g, b: f"#{r:02x}{g:02x}{b:02x}", channels, channels, channels)
sights: tuple[Sight, ...] = ("normal", "protan", "deutan", "tritan")


@given(colours)
def test_a_colour_survives_being_read_and_written(colour: str) -> None:
    assert written(rgb(colour)) == colour


@pytest.mark.parametrize("wrong", ["", "red", "#fff", "ffffff0", "#12345g", "#1234567", "#12 345"])
def test_what_is_no_colour_is_refused(wrong: str) -> None:
    with pytest.raises(ValueError, match=r".+"):
        rgb(wrong)


def test_channels_beyond_the_screen_are_clipped_when_written() -> None:
    assert written((1.2, -0.1, 0.5)) == "#ff0080"


def test_a_mix_runs_from_one_colour_to_the_other() -> None:
    assert mix("#000000", "#ffffff", 0) == "#ffffff"
    assert mix("#000000", "#ffffff", 1) == "#000000"
    assert mix("#000000", "#ffffff", 0.75) == "#404040"


@given(colours)
def test_the_grey_of_a_colour_is_as_light_as_it(colour: str) -> None:
    assert grey(colour)[1:3] == grey(colour)[3:5] == grey(colour)[5:7]
    assert luminance(grey(colour)) == pytest.approx(luminance(colour), abs=0.006)


@given(colours, colours)
def test_contrast_does_not_care_which_comes_first(a: str, b: str) -> None:
    assert contrast(a, b) == contrast(b, a)
    assert 1 <= contrast(a, b) <= 21


@settings(max_examples=60, deadline=None)
@given(colours, colours, st.sampled_from(sights))
def test_difference_is_symmetric_and_none_to_itself(a: str, b: str, sight: Sight) -> None:
    assert difference(a, b, sight) == pytest.approx(difference(b, a, sight), abs=1e-9)
    assert difference(a, a, sight) == 0


@given(colours)
def test_normal_sight_sees_what_is_there(colour: str) -> None:
    assert simulated(rgb(colour), "normal") == rgb(colour)
    assert simulate(colour, "normal") == colour


@given(channels, st.sampled_from(sights))
def test_greys_stay_grey_for_every_sight(level: int, sight: Sight) -> None:
    seen = simulated((level / 255, level / 255, level / 255), sight)
    assert seen == pytest.approx((level / 255,) * 3, abs=1e-3)


def test_black_and_white_stand_at_the_ends_of_lightness() -> None:
    assert lab((0, 0, 0)) == pytest.approx((0, 0, 0), abs=1e-3)
    assert lab((1, 1, 1)) == pytest.approx((100, 0, 0), abs=1e-2)
    assert ciede2000((0, 0, 0), (100, 0, 0)) == pytest.approx(100)


def test_red_and_a_dark_yellow_grow_near_for_a_deutan() -> None:
    assert difference("#c8141e", "#7a6a00", "deutan") < difference("#c8141e", "#7a6a00") / 2
