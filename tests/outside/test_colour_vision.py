"""Colour-vision deficiency against its published models.

Protan and deutan: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, 'A physiologically-based model for simulation of
color vision deficiency', IEEE TVCG 15 (2009), severity 1.0. Tritan: H. Brettel, F. Viénot, J. D. Mollon, 'Computerized
simulation of color appearance for dichromats', JOSA A 14 (1997), doi 10.1364/josaa.14.002647; its matrices, folded into
linear sRGB as a public-domain library gives them, are from memory and checked here by what the model must keep.
"""

import warnings

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.colour import (
    BRETTEL_DIVIDE,
    BRETTEL_TRITAN,
    MACHADO,
    Rgb,
    Sight,
    difference,
    lab,
    rgb,
    simulated,
)

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it tells at import that its plotting half is not installed, which we never use
    import colour as colour_science

NAMES: dict[Sight, str] = {"protan": "Protanomaly", "deutan": "Deuteranomaly"}
unit = st.floats(0, 1)


@pytest.mark.parametrize("sight", NAMES)
def test_the_matrices_are_those_colour_science_carries(sight: Sight) -> None:
    independent = colour_science.matrix_cvd_Machado2009(NAMES[sight], 1.0)
    for row, other in zip(MACHADO[sight], independent, strict=True):
        assert row == pytest.approx(tuple(other), abs=1e-6)


@pytest.mark.parametrize("sight", NAMES)
@settings(max_examples=40, deadline=None)
@given(st.tuples(unit, unit, unit))
def test_simulations_agree_with_colour_science(sight: Sight, channels: Rgb) -> None:
    linear = colour_science.models.eotf_sRGB(channels)
    seen = colour_science.matrix_cvd_Machado2009(NAMES[sight], 1.0) @ linear
    independent = [float(part) for part in colour_science.models.eotf_inverse_sRGB(seen)]
    assert simulated(channels, sight) == pytest.approx(independent, abs=1e-6)


@pytest.mark.parametrize(
    ("sight", "answer"), [("protan", (0.4266, 0.3727, -0.0502)), ("deutan", (0.6401, 0.5658, -0.1527))]
)
def test_red_is_seen_as_the_model_says_before_clipping(sight: Sight, answer: Rgb) -> None:
    assert simulated((1, 0, 0), sight) == pytest.approx(answer, abs=1e-4)


@pytest.mark.parametrize("matrix", [*MACHADO.values(), *BRETTEL_TRITAN])
def test_rows_sum_to_one_so_that_greys_stay_grey(matrix: tuple[Rgb, Rgb, Rgb]) -> None:
    assert [sum(row) for row in matrix] == pytest.approx([1, 1, 1], abs=2e-5)


def test_greys_lie_on_the_plane_between_the_two_halves_of_the_tritan_model() -> None:
    assert sum(BRETTEL_DIVIDE) == pytest.approx(0, abs=1e-4)


@settings(max_examples=60, deadline=None)
@given(st.tuples(st.floats(0.05, 0.95), st.floats(0.05, 0.95), st.floats(0.05, 0.95)))
def test_what_a_tritan_sees_is_seen_the_same_again(channels: Rgb) -> None:
    """A dichromat's colours lie on two half planes; what lies there already is left alone (Brettel 1997)."""
    once = simulated(channels, "tritan")
    if min(once) >= 0:
        assert simulated(once, "tritan") == pytest.approx(once, abs=5e-3)


def test_a_tritan_takes_blue_for_green_and_yellow_for_pink_more_than_others_do() -> None:
    """The confusions that give the deficiency its name (common knowledge of the field)."""
    assert difference("#3f8fff", "#00a08a", "tritan") < difference("#3f8fff", "#00a08a") / 2
    assert difference("#ffd83f", "#ffc0cb", "tritan") < difference("#ffd83f", "#ffc0cb") / 2
    assert lab(rgb("#3f8fff"))[2] < -40


@pytest.mark.parametrize("sight", ["normal", "protan", "deutan", "tritan"])
def test_white_and_black_are_seen_by_everybody(sight: Sight) -> None:
    assert simulated((1, 1, 1), sight) == pytest.approx((1, 1, 1), abs=1e-4)
    assert simulated((0, 0, 0), sight) == pytest.approx((0, 0, 0), abs=1e-9)
