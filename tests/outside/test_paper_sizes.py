"""Paper sizes against ISO 216 (A series, in mm) and ANSI/ASME Y14.1 (A to D, in inches).

Legal (8.5 × 14 in) is in neither: common practice, no source.
"""

import pytest

from floorplan_circuits.sheets.paper import EVERY_PAPER

INCH = 25.4
PUBLISHED = {
    "a4": (297.0, 210.0),  # ISO 216: A4
    "a3": (420.0, 297.0),  # ISO 216: A3
    "letter": (11 * INCH, 8.5 * INCH),  # ANSI/ASME Y14.1: A
    "tabloid": (17 * INCH, 11 * INCH),  # ANSI/ASME Y14.1: B
    "legal": (14 * INCH, 8.5 * INCH),
    "a2": (594.0, 420.0),
    "a1": (841.0, 594.0),
    "ansi-c": (22 * INCH, 17 * INCH),
    "ansi-d": (34 * INCH, 22 * INCH),
}


@pytest.mark.parametrize(("name", "edges"), PUBLISHED.items())
def test_a_size_is_as_published(name: str, edges: tuple[float, float]) -> None:
    paper = EVERY_PAPER[name]
    assert (paper.long, paper.short) == pytest.approx(edges, abs=0.05)


def test_every_size_has_a_source() -> None:
    assert set(EVERY_PAPER) == set(PUBLISHED)


def test_an_a3_is_two_a4_and_every_a_size_has_the_ratio_of_the_root_of_two() -> None:
    # ISO 216: each size is half the one before; sizes are rounded to whole millimetres.
    assert EVERY_PAPER["a3"].short == EVERY_PAPER["a4"].long
    for name in ("a1", "a2", "a3", "a4"):
        assert EVERY_PAPER[name].long / EVERY_PAPER[name].short == pytest.approx(2**0.5, abs=0.005)
