"""The palette: thirty places, four grounds, and dangers that no circuit may look like."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.drawing.colour import Sight, contrast, difference, rgb
from floorplan_circuits.drawing.palette import (
    DARK,
    GREY,
    LIGHT,
    PAPER,
    Theme,
    hatch,
    hue_index,
    hues,
    places,
    strong,
    theme_named,
    tint,
)

SIGHTS: tuple[Sight, ...] = ("normal", "protan", "deutan", "tritan")
THEMES = (LIGHT, DARK, PAPER, GREY)
PLAIN = range(6)
SIGNALS = ("#ffc400", "#f08000", "#c8141e", "#00843d")  # yellow, orange, red, green of signs


def least(colours: list[str], sight: Sight) -> float:
    return min(difference(a, b, sight) for a, b in combinations(colours, 2))


def test_pale_hues_come_before_deep_ones() -> None:
    assert hues() == ("apricot", "mist", "lilac", "rose", "olive", "blue")
    lightness = [contrast(LIGHT.ink, tint(LIGHT, place)) for place in PLAIN]
    assert min(lightness[:3]) > max(lightness[3:])


def test_there_are_thirty_places_plain_first() -> None:
    assert places() == 30
    names = [style.name if (style := hatch(LIGHT, place)) else "plain" for place in range(30)]
    assert names == [name for name in ("plain", "rising", "falling", "level", "upright") for _ in PLAIN]


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_no_two_of_the_thirty_look_alike(theme: Theme) -> None:
    looks = {(tint(theme, place), style and style.name) for place in range(30) for style in [hatch(theme, place)]}
    assert len(looks) == 30


@given(st.integers(0, 200), st.sampled_from(THEMES))
def test_past_the_thirtieth_the_places_repeat(place: int, theme: Theme) -> None:
    assert tint(theme, place) == tint(theme, place + 30)
    assert hatch(theme, place) == hatch(theme, place + 30)
    assert strong(theme, place) == strong(theme, place + 6)
    assert hue_index(place) == place % 6


@pytest.mark.parametrize("theme", [LIGHT, DARK, PAPER], ids=lambda theme: theme.name)
def test_tints_stay_apart_in_every_sight(theme: Theme) -> None:
    tints = [tint(theme, place) for place in PLAIN]
    assert least(tints, "normal") >= (17 if theme is DARK else 18)
    assert min(least(tints, sight) for sight in SIGHTS) >= 10


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=lambda theme: theme.name)
def test_strong_colours_stay_apart_in_every_sight(theme: Theme) -> None:
    lines = [strong(theme, place) for place in PLAIN]
    assert least(lines, "normal") >= 18
    assert min(least(lines, sight) for sight in SIGHTS) >= 10


def test_the_least_distances_are_the_computed_ones() -> None:
    light, dark = [tint(LIGHT, place) for place in PLAIN], [tint(DARK, place) for place in PLAIN]
    deep, line = [strong(LIGHT, place) for place in PLAIN], [strong(DARK, place) for place in PLAIN]
    assert [least(light, sight) for sight in SIGHTS] == pytest.approx([18.6, 10.8, 10.7, 11.1], abs=0.05)
    assert [least(deep, sight) for sight in SIGHTS] == pytest.approx([21.1, 10.3, 10.8, 10.2], abs=0.05)
    assert [least(dark, sight) for sight in SIGHTS] == pytest.approx([17.3, 10.9, 10.2, 10.5], abs=0.05)
    assert [least(line, sight) for sight in SIGHTS] == pytest.approx([28.4, 16.6, 16.8, 17.0], abs=0.05)


@pytest.mark.parametrize("sight", SIGHTS)
def test_a_tint_is_told_from_the_ground_without_one(sight: Sight) -> None:
    assert min(difference(tint(LIGHT, place), PAPER.paper, sight) for place in PLAIN) >= 8.0
    assert min(difference(tint(DARK, place), DARK.canvas, sight) for place in PLAIN) >= 9.2


@pytest.mark.parametrize("signal", SIGNALS)
def test_no_circuit_has_the_colour_of_a_sign(signal: str) -> None:
    assert min(difference(tint(LIGHT, place), signal) for place in PLAIN) >= 18
    assert min(difference(strong(LIGHT, place), signal) for place in PLAIN) >= 16
    assert min(difference(tint(DARK, place), signal) for place in PLAIN) >= 14
    assert min(difference(strong(DARK, place), signal) for place in PLAIN) >= 16


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_words_are_read_on_every_tint_and_ground(theme: Theme) -> None:
    grounds = [theme.paper, theme.canvas, theme.furniture, *(tint(theme, place) for place in PLAIN)]
    assert min(contrast(theme.ink, ground) for ground in grounds) >= 7
    assert min(contrast(theme.soft, ground) for ground in grounds[:3]) >= 7
    assert contrast(theme.caution_ink, theme.caution) >= 11
    assert contrast(theme.stop, theme.canvas) >= 6.5


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_strong_colours_are_seen_on_their_ground(theme: Theme) -> None:
    assert min(contrast(strong(theme, place), theme.canvas) for place in PLAIN) >= 3


def test_strong_colours_are_seen_on_both_grounds() -> None:
    assert min(contrast(strong(LIGHT, place), DARK.canvas) for place in PLAIN) >= 3


@pytest.mark.parametrize(("theme", "low", "high"), [(LIGHT, 1.9, 2.75), (DARK, 2.85, 4.2), (GREY, 2.0, 3.0)])
def test_a_hatch_is_texture_seen_but_quiet(theme: Theme, low: float, high: float) -> None:
    for place in range(6, 30):
        style = hatch(theme, place)
        assert style is not None
        assert low <= contrast(style.pen.colour, tint(theme, place)) <= high
        assert (style.spacing, style.pen.width) == (2.4, 0.18)


def test_grey_paper_has_no_colour_but_what_ink_has() -> None:
    fills = [tint(GREY, place) for place in PLAIN] + [strong(GREY, place) for place in PLAIN]
    assert all(len(set(rgb(fill))) == 1 for fill in fills)
    assert GREY.caution == "#ffffff"
    assert GREY.stop == GREY.ink


def test_caution_is_the_same_yellow_by_day_and_by_night() -> None:
    assert LIGHT.caution == DARK.caution == PAPER.caution == "#ffc400"


def test_a_theme_nobody_made_is_refused() -> None:
    with pytest.raises(KeyError):
        theme_named("sepia")
