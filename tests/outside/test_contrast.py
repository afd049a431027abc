"""Contrast against WCAG 2.2 (W3C), its definitions of relative luminance and contrast ratio."""

import pytest

from floorplan_circuits.drawing.colour import contrast, luminance

# Worked out from the formula by an independent library; 4.54 for #767676 is often published.
ON_WHITE = {
    "#000000": 21.0,
    "#767676": 4.5422,  # the lightest grey that passes success criterion 1.4.3, 4.5 : 1
    "#777777": 4.4781,
    "#949494": 3.0335,  # the lightest grey that passes success criterion 1.4.11, 3 : 1
    "#959595": 2.9953,
    "#ff0000": 3.9985,
    "#00ff00": 1.3722,
    "#0000ff": 8.5925,
    "#ffffff": 1.0,
}


@pytest.mark.parametrize(("colour", "ratio"), ON_WHITE.items())
def test_ratios_on_white_follow_the_formula_of_wcag(colour: str, ratio: float) -> None:
    assert contrast(colour, "#ffffff") == pytest.approx(ratio, abs=1e-4)


def test_luminance_runs_from_black_to_white_by_the_published_weights() -> None:
    weights = [luminance(colour) for colour in ("#000000", "#ff0000", "#00ff00", "#0000ff", "#ffffff")]
    assert weights == pytest.approx([0, 0.2126, 0.7152, 0.0722, 1])
