"""Plates: the ink tells how we know, the words tell which circuit."""

from itertools import combinations
from typing import get_args

import pytest

from floorplan_circuits.drawing.ink import Group, Mark, Shape, Text, flat
from floorplan_circuits.drawing.palette import GREY, PAPER
from floorplan_circuits.drawing.plate_bodies import PLATE_HEIGHT
from floorplan_circuits.drawing.plates import (
    EVIDENCE_ORDER,
    PLATE_GAP,
    SQUARE,
    Plate,
    box_plate,
    box_plate_width,
    count_of,
    plate,
    plate_of,
    plate_row,
    row_width,
    square,
)
from floorplan_circuits.findings import BoxFinding, Conclusion, Standing
from tests.drawing.drawn import bounds_of, words_in

STANDINGS: tuple[Standing, ...] = get_args(Standing)
SHARED = BoxFinding(1, None, "", "", breakers=(7, 8), shared=True)


def shapes(mark: Mark) -> list[Shape]:
    return [inner for inner in flat(mark) if isinstance(inner, Shape)]


def text(mark: Mark) -> Text:
    (found,) = [inner for inner in flat(mark) if isinstance(inner, Text)]
    return found


def conclusion(standing: Standing, *breakers: int, others: tuple[str, ...] = ()) -> Conclusion:
    return Conclusion(feed=1, box=1, device=None, standing=standing, breakers=breakers, others=others)


# --- one plate ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("one", "other"), list(combinations(STANDINGS, 2)))
@pytest.mark.parametrize("theme", [PAPER, GREY], ids=["paper", "grey"])
def test_no_two_standings_have_the_same_ink(one: Standing, other: Standing, theme: object) -> None:
    chosen = GREY if theme is GREY else PAPER
    assert plate(Plate("9", one), (0, 0), chosen) != plate(Plate("9", other), (0, 0), chosen)


@pytest.mark.parametrize(("one", "other"), list(combinations(STANDINGS, 2)))
def test_no_two_standings_have_the_same_square(one: Standing, other: Standing) -> None:
    assert square(one, 0, 0, GREY) != square(other, 0, 0, GREY)


def test_a_tested_number_is_reversed_out_of_solid_ink() -> None:
    drawn = plate(Plate("9", "proved"), (0, 0), PAPER)
    (body,) = shapes(drawn)
    assert (body.fill, text(drawn).colour) == (PAPER.ink, PAPER.paper)


def test_a_claimed_number_is_regular_in_a_dashed_edge_all_others_are_bold() -> None:
    claimed = plate(Plate("9", "claimed"), (0, 0), PAPER)
    (body,) = shapes(claimed)
    assert body.pen is not None
    assert body.pen.dash
    assert not text(claimed).bold
    assert all(text(plate(Plate("9", one), (0, 0), PAPER)).bold for one in STANDINGS if one != "claimed")


def test_an_unknown_feed_is_a_question_mark_and_has_no_square() -> None:
    assert plate_of(conclusion("unknown"), {}).words == "?"
    assert square("unknown", 0, 0, PAPER) == ()


def test_a_contradicted_plate_is_told_by_its_shape_where_grey_paper_has_no_yellow() -> None:
    (body,) = shapes(plate(Plate("9", "contradicted"), (0, 0), GREY))
    assert body.pen is not None
    assert body.pen.width >= 0.35
    assert len(body.path) > 8  # a zigzag


def test_several_breakers_and_elsewhere_stand_on_one_plate() -> None:
    assert plate_of(conclusion("claimed", 7, 8), {7: "7", 8: "2·4"}).words == "7+2·4"
    assert plate_of(conclusion("claimed", 7, others=("a neighbour",)), {7: "7"}).words == "7+else"


@pytest.mark.parametrize("words", ["9", "15A", "2·4", "9+21+19"])
@pytest.mark.parametrize("standing", STANDINGS)
@pytest.mark.parametrize("passing", [False, True])
def test_a_plate_is_as_wide_as_it_says(words: str, standing: Standing, passing: bool) -> None:
    shown = Plate(words, standing, passing)
    left, top, right, bottom = bounds_of(plate(shown, (20, 10), PAPER))
    assert right - left <= shown.width + 1e-6
    assert right - left >= shown.body - 1e-6
    assert bottom - top == pytest.approx(PLATE_HEIGHT)
    assert (left + right) / 2 == pytest.approx(20)


def test_a_cable_that_passes_stands_between_two_strokes() -> None:
    passing = shapes(plate(Plate("9", "traced", passing=True), (0, 0), PAPER))
    assert len(passing) == len(shapes(plate(Plate("9", "traced"), (0, 0), PAPER))) + 2


# --- rows and boxes -------------------------------------------------------------------------------------------------


def test_a_row_is_as_wide_as_its_plates_and_gaps() -> None:
    plates = [Plate("5", "proved"), Plate("15A", "claimed"), Plate("?", "unknown")]
    left, _, right, _ = bounds_of(plate_row(plates, (0, 0), PAPER))
    assert row_width(plates) == pytest.approx(sum(one.width for one in plates) + 2 * PLATE_GAP)
    assert right - left == pytest.approx(row_width(plates))
    assert row_width([]) == 0


@pytest.mark.parametrize(
    ("found", "shown"),
    [
        (BoxFinding(1, None, "", "", breakers=(7, 8)), "2"),
        (BoxFinding(1, None, "", "", breakers=(7, 8), unknown=2), "2+"),
        (BoxFinding(1, None, "", "", breakers=(7,), others=("a neighbour",)), "2"),
        (BoxFinding(1, None, "", "", breakers=(7,), unknown=1), "?"),
        (BoxFinding(1, None, "", ""), "?"),
    ],
)
def test_the_triangle_counts_what_is_known_and_owns_up_to_the_rest(found: BoxFinding, shown: str) -> None:
    assert count_of(found) == shown


def test_a_box_plate_shows_count_and_mark_with_a_heavy_edge() -> None:
    drawn = box_plate("B14", SHARED, (0, 0), PAPER)
    edge = shapes(drawn)[0]
    assert words_in(drawn) == ["2", "B14"]
    assert edge.fill == PAPER.caution
    assert edge.pen is not None
    assert edge.pen.width >= 0.35
    assert drawn.name == "box B14"


def test_on_grey_paper_a_box_plate_keeps_its_black_edge_and_triangle() -> None:
    body, triangle, *_ = shapes(box_plate("B14", SHARED, (0, 0), GREY))
    assert body.fill == GREY.caution == "#ffffff"
    assert body.pen is not None
    assert (body.pen.colour, triangle.fill) == (GREY.caution_ink, GREY.caution_ink)


def test_tied_handles_add_a_bar_and_take_nothing_away() -> None:
    tied = BoxFinding(1, None, "", "", breakers=(7, 8), shared=True, tied=True)
    assert words_in(box_plate("B14", tied, (0, 0), PAPER)) == ["2", "B14"]
    assert (
        len(shapes(box_plate("B14", tied, (0, 0), PAPER))) == len(shapes(box_plate("B14", SHARED, (0, 0), PAPER))) + 3
    )
    assert box_plate_width("B14", True) > box_plate_width("B14")


def test_squares_are_all_of_one_size() -> None:
    for standing in EVIDENCE_ORDER:
        if standing not in ("unknown", "contradicted"):
            left, top, right, bottom = bounds_of(Group(square(standing, 0, 0, PAPER)))
            assert max(right - left, bottom - top) <= SQUARE


def test_the_order_of_evidence_holds_every_standing_once() -> None:
    assert sorted(EVIDENCE_ORDER) == sorted(STANDINGS)
