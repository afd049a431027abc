"""Furniture: heads that fit whatever the names are, dates as people write them, a bar as long as it says."""

from itertools import pairwise

import pytest

from floorplan_circuits.drawing.ink import Shape, Text, flat
from floorplan_circuits.drawing.palette import GREY, PAPER
from floorplan_circuits.sheets.furniture import (
    CAUTION_TITLE,
    FOOT_FIELD,
    PANEL_TITLE_SIZES,
    TITLE_SIZES,
    caution_height,
    fitted_title,
    foot_caution,
    head,
    one_line,
    scale_bar,
    section_head,
    text_lines,
)
from floorplan_circuits.sheets.paper import Rect
from tests.drawing.drawn import bounds_of, overlap, words_in

AREA = Rect(9, 0, 165, 0)
MADE = "Made 14 March 2026 from evidence up to 3 March 2026"


# --- the head -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("title", ["Hall", "Ground floor", "The old servants’ wing behind the courtyard"])
@pytest.mark.parametrize("home", ["", "Flat 6", "The house with the green door at the far end of the lane by the mill"])
def test_nothing_in_the_head_overlaps_whatever_the_names_are(title: str, home: str) -> None:
    drawn, _ = head(AREA, title, "Wall map 1 of 2", home, MADE, PAPER)
    texts = [bounds_of(mark) for mark in flat(drawn) if isinstance(mark, Text) and mark.words]
    for at, one in enumerate(texts):
        assert AREA.x - 0.01 <= one[0]
        assert one[2] <= AREA.right + 0.01
        assert not any(overlap(one, other) for other in texts[at + 1 :])


def test_a_long_title_gets_smaller_letters_before_it_is_cut() -> None:
    assert fitted_title("Ground floor", 100.0) == ("Ground floor", TITLE_SIZES[0], False)
    words, size, cut = fitted_title("Ground floor", 40.0)
    assert (words, cut) == ("Ground floor", False)
    assert size < TITLE_SIZES[0]
    words, size, cut = fitted_title("The old servants’ wing", 30.0, PANEL_TITLE_SIZES)
    assert (size, cut) == (PANEL_TITLE_SIZES[-1], True)
    assert words.endswith("…")


def test_a_cut_name_is_told() -> None:
    long = "The old servants’ wing behind the courtyard and the stables beyond it"
    assert head(AREA, long, "Wall map", "Home", MADE, PAPER)[1] == (long,)
    assert head(AREA, "Hall", "Wall map", "Home", MADE, PAPER)[1] == ()


def test_no_words_make_an_empty_line() -> None:
    assert one_line(("",), 20.0, 9.0) == ("", False)


# --- the caution ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("wide", [198.0, 261.4, 337.6])
@pytest.mark.parametrize("theme", [PAPER, GREY], ids=["paper", "grey"])
def test_the_caution_stays_in_its_box(wide: float, theme: object) -> None:
    chosen = GREY if theme is GREY else PAPER
    area = Rect(9, 180, wide, caution_height(wide))
    drawn = foot_caution(area, chosen)
    left, top, right, bottom = bounds_of(drawn)
    assert (left, right) == pytest.approx((area.x, area.right))
    assert (top, bottom) == pytest.approx((area.y, area.bottom))
    assert words_in(drawn)[0] == CAUTION_TITLE
    texts = [bounds_of(mark) for mark in flat(drawn) if isinstance(mark, Text)]
    assert all(text[0] > area.x + FOOT_FIELD and text[2] < area.right and text[3] < area.bottom - 1 for text in texts)


def test_the_cautions_field_keeps_its_black_edge_on_grey_paper() -> None:
    shapes = [mark for mark in flat(foot_caution(Rect(0, 0, 200, 16), GREY)) if isinstance(mark, Shape)]
    field = shapes[1]
    assert field.fill == "#ffffff"
    assert field.pen is not None
    assert field.pen.width >= 0.35


# --- scale and lines ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("units", "length"), [("metric", 5000.0), ("feet and inches", 15 * 304.8)])
@pytest.mark.parametrize("scale", [50.0, 90.0, 133.0])
def test_the_bar_is_as_long_as_it_says(units: str, length: float, scale: float) -> None:
    bar, ends = scale_bar(10, 20, scale, "metric" if units == "metric" else "feet and inches", PAPER, scale)
    pieces = [bounds_of(mark) for mark in flat(bar) if isinstance(mark, Shape)]
    assert max(right for _, _, right, _ in pieces) - min(left for left, *_ in pieces) == pytest.approx(length / scale)
    assert bounds_of(bar)[2] == pytest.approx(ends)
    assert f"1:{scale:.0f}" in words_in(bar)


def test_a_section_has_a_rule_under_its_title() -> None:
    drawn = section_head(10, 20, 60, "Never tested", PAPER)
    assert words_in(drawn) == ["Never tested"]
    assert bounds_of(drawn)[3] == pytest.approx(24.9)


def test_lines_stand_under_each_other_without_touching() -> None:
    boxes = [bounds_of(mark) for mark in text_lines(("one", "two", "three"), 0, 0, 8.2, PAPER)]
    assert all(above[3] < below[1] for above, below in pairwise(boxes))
