"""CIEDE2000 against its published test data.

Source: G. Sharma, W. Wu, E. N. Dalal, 'The CIEDE2000 color-difference formula: implementation notes, supplementary
test data, and mathematical observations', Color Research and Application 30 (2005), doi 10.1002/col.20070, the table
of 34 pairs (kL = kC = kH = 1). Pair 14 is from memory of that table; it jumps with the mean hue.
"""

import warnings

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.colour import Lab, ciede2000, lab, rgb

with warnings.catch_warnings():
    warnings.simplefilter("ignore")  # it tells at import that its plotting half is not installed, which we never use
    import colour as colour_science

PAIRS = """
50 2.6772 -79.7751 | 50 0 -82.7485 | 2.0425
50 3.1571 -77.2803 | 50 0 -82.7485 | 2.8615
50 2.8361 -74.0200 | 50 0 -82.7485 | 3.4412
50 -1.3802 -84.2814 | 50 0 -82.7485 | 1.0000
50 -1.1848 -84.8006 | 50 0 -82.7485 | 1.0000
50 -0.9009 -85.5211 | 50 0 -82.7485 | 1.0000
50 0 0 | 50 -1 2 | 2.3669
50 -1 2 | 50 0 0 | 2.3669
50 2.49 -0.001 | 50 -2.49 0.0009 | 7.1792
50 2.49 -0.001 | 50 -2.49 0.0010 | 7.1792
50 2.49 -0.001 | 50 -2.49 0.0011 | 7.2195
50 2.49 -0.001 | 50 -2.49 0.0012 | 7.2195
50 -0.001 2.49 | 50 0.0009 -2.49 | 4.8045
50 -0.001 2.49 | 50 0.0010 -2.49 | 4.8045
50 -0.001 2.49 | 50 0.0011 -2.49 | 4.7461
50 2.5 0 | 50 0 -2.5 | 4.3065
50 2.5 0 | 73 25 -18 | 27.1492
50 2.5 0 | 61 -5 29 | 22.8977
50 2.5 0 | 56 -27 -3 | 31.9030
50 2.5 0 | 58 24 15 | 19.4535
50 2.5 0 | 50 3.1736 0.5854 | 1.0000
50 2.5 0 | 50 3.2972 0 | 1.0000
50 2.5 0 | 50 1.8634 0.5757 | 1.0000
50 2.5 0 | 50 3.2592 0.3350 | 1.0000
60.2574 -34.0099 36.2677 | 60.4626 -34.1751 39.4387 | 1.2644
63.0109 -31.0961 -5.8663 | 62.8187 -29.7946 -4.0864 | 1.2630
61.2901 3.7196 -5.3901 | 61.4292 2.2480 -4.9620 | 1.8731
35.0831 -44.1164 3.7933 | 35.0232 -40.0716 1.5901 | 1.8645
22.7233 20.0904 -46.6940 | 23.0331 14.9730 -42.5619 | 2.0373
36.4612 47.8580 18.3852 | 36.2715 50.5065 21.2231 | 1.4146
90.8027 -2.0831 1.4410 | 91.1528 -1.6435 0.0447 | 1.4441
90.9257 -0.5406 -0.9208 | 88.6381 -0.8985 -0.7239 | 1.5381
6.7747 -0.2908 -2.4247 | 5.8714 -0.0985 -2.2286 | 0.6377
2.0776 0.0795 -1.1350 | 0.9033 -0.0636 -0.5514 | 0.9082
"""


def read(line: str) -> tuple[Lab, Lab, float]:
    one, two, answer = ([float(number) for number in part.split()] for part in line.split("|"))
    return (one[0], one[1], one[2]), (two[0], two[1], two[2]), answer[0]


ROWS = [read(line) for line in PAIRS.strip().splitlines()]


def test_the_table_has_its_34_pairs() -> None:
    assert len(ROWS) == 34


@pytest.mark.parametrize(("one", "two", "answer"), ROWS, ids=range(1, 35))
def test_the_published_pairs_come_out_within_a_ten_thousandth(one: Lab, two: Lab, answer: float) -> None:
    assert ciede2000(one, two) == pytest.approx(answer, abs=1e-4)
    assert ciede2000(two, one) == pytest.approx(answer, abs=1e-4)


lightness = st.floats(0, 100)
opponent = st.floats(-110, 110)
labs = st.tuples(lightness, opponent, opponent)


@settings(max_examples=80, deadline=None)
@given(labs, labs)
def test_our_formula_agrees_with_colour_science_and_is_symmetric(one: Lab, two: Lab) -> None:
    independent = float(colour_science.delta_E(one, two, method="CIE 2000"))
    ours = ciede2000(one, two)
    assert ours == pytest.approx(ciede2000(two, one), abs=1e-9)
    assert ours == pytest.approx(independent, abs=1e-4)


@pytest.mark.parametrize(
    ("colour", "answer"),
    [
        ("#ff0000", (53.24, 80.09, 67.20)),
        ("#00ff00", (87.73, -86.18, 83.18)),
        ("#0000ff", (32.30, 79.19, -107.86)),
    ],
)
def test_the_primaries_have_their_lab_values(colour: str, answer: Lab) -> None:
    """Common values of sRGB in CIE L*a*b*, D65, 2° observer (IEC 61966-2-1); read off an independent library."""
    assert lab(rgb(colour)) == pytest.approx(answer, abs=0.01)
