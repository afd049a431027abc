"""A row's words: the fullest variant that fits, what must be known before a touch, a square for each feed."""

import pytest

from floorplan_circuits.drawing.ink import Group, Shape, Text, flat
from floorplan_circuits.drawing.lettering import width
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.panel_words import (
    LEAST_SIZE,
    MOST_SQUARES,
    WORDS_SIZE,
    Squares,
    fit_words,
    row_words,
    with_note,
)
from floorplan_circuits.drawing.plates import SQUARE_PITCH, text_height
from floorplan_circuits.find import find
from floorplan_circuits.findings import Line
from floorplan_circuits.home.log import Trouble
from floorplan_circuits.home.power import Breaker
from tests.drawing.drawn import bounds_of, box, breaker, device, fed, home, words_in

VARIANTS = (
    "Living room: receptacles; Hall: smoke alarm, lights",
    "Living room and 1 more: receptacles",
    "Living room + 1",
)
NONE, FIVE = Squares(()), Squares(("proved",) * 5)


@pytest.mark.parametrize("squares", [NONE, FIVE], ids=["no squares", "five squares"])
@pytest.mark.parametrize("room", [22.0, 30.0, 60.0])
@pytest.mark.parametrize("high", [4.2, 5.65, 8.0, 10.9, 14.0])
def test_what_is_fitted_stays_in_its_room(squares: Squares, room: float, high: float) -> None:
    fitted = fit_words(VARIANTS, squares, room, high)
    assert all(width(line, fitted.size) <= room + 1e-6 for line in fitted.lines)
    below = 0.0 if fitted.beside else squares.height
    assert text_height(fitted.size) * len(fitted.lines) + below <= high + 1e-6
    if fitted.beside:
        assert width(fitted.lines[-1], fitted.size) + squares.width <= room
    assert fitted.size in (WORDS_SIZE, LEAST_SIZE)


def test_more_room_gives_a_fuller_wording() -> None:
    said = [" ".join(fit_words(VARIANTS, FIVE, 30.0, high).lines) for high in (5.65, 8.0, 14.0)]
    assert said == [VARIANTS[2], VARIANTS[1], VARIANTS[0]]


def test_words_that_fit_in_no_way_are_cut_and_it_is_told() -> None:
    fitted = fit_words(("Uninterruptible telecommunications",), NONE, 12.0, 5.0)
    assert fitted.cut
    assert fitted.lines[-1].endswith("…")


def drawn(
    one: Breaker, feeds: int = 1, on_screen: bool = False, room: float = 40.0
) -> tuple[list[str], list[Shape], str]:
    devices = tuple(device(100 + 2 * at, fed(101 + 2 * at, one.id)) for at in range(feeds))
    findings = find(home((box(20, (0, 0), *devices),), (one,)))
    marks, cut = row_words(one, findings, (0.0, 0.0, room, 10.9), PAPER, on_screen)
    return words_in(Group(tuple(marks))), [mark for mark in flat(Group(tuple(marks))) if isinstance(mark, Shape)], cut


def test_each_feed_has_a_square() -> None:
    assert len(drawn(breaker(6, 1), feeds=4)[1]) == 4


def test_past_a_dozen_squares_paper_points_to_its_list_and_the_screen_counts() -> None:
    many = MOST_SQUARES + 1
    assert "13 not tested: see the list" in drawn(breaker(6, 1), many)[0]
    assert "0 of 13 tested" in drawn(breaker(6, 1), many, on_screen=True)[0]


def test_too_many_squares_for_a_narrow_row_become_words_too() -> None:
    shown, squares, _ = drawn(breaker(6, 1), feeds=11, room=10 * SQUARE_PITCH)
    assert squares == []
    assert shown


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"found": {"state": "off", "why": "cut cable"}, "wording": "Pump"}, "Pump (found off: cut cable)"),
        ({"found": {"state": "tripped"}, "wording": "Pump"}, "Pump (found tripped)"),
        ({"may_open": {"may": "never"}, "wording": "Freezer"}, "Freezer (never turn off)"),
    ],
)
def test_what_must_be_known_before_a_touch_stands_behind_the_words(fields: dict[str, object], said: str) -> None:
    assert " ".join(drawn(breaker(6, 1, **fields), room=60.0)[0]) == said


def test_a_note_is_shortened_before_the_householders_own_words() -> None:
    found = {"state": "off", "why": "the well pump was taken out and its cable still runs to the garden"}
    shown, _, cut = drawn(breaker(6, 1, found=found, wording="Old well pump"), room=27.0)
    assert " ".join(shown) == "Old well pump (found off)"
    assert cut == ""


def test_that_a_breaker_is_in_trouble_stands_in_every_wording_first_of_all_notes() -> None:
    line = Line(6, ("Workshop: receptacles", "Workshop"), own=True)
    asked = with_note(line, breaker(6, 1, may_open={"may": "ask", "whose": "Kim"}), "runs hot")
    assert asked[0] == "Workshop: receptacles (runs hot: keep off; ask Kim first)"
    assert asked[-1] == "Runs hot: keep off"
    assert all("uns hot: keep off" in words for words in asked)


def test_the_row_of_a_breaker_in_trouble_tells_it() -> None:
    hot = Trouble(id=90, kind="trouble", handle=6, what="runs hot")
    findings = find(home((), (breaker(6, 1, wording="Workshop"),), log=(hot,)))
    marks, _ = row_words(findings.home.breakers[6], findings, (0, 0, 60, 8), PAPER, False)
    assert " ".join(mark.words for mark in marks if isinstance(mark, Text)) == "Workshop (runs hot: keep off)"


@pytest.mark.parametrize("on_screen", [False, True], ids=["on paper", "on screen"])
@pytest.mark.parametrize("high", [4.0, 5.65, 7.6, 10.9])
@pytest.mark.parametrize("feeds", [1, 6, 10, 12, 13, 30])
def test_nothing_of_a_row_runs_past_its_room(feeds: int, high: float, on_screen: bool) -> None:
    devices = tuple(device(100 + 2 * at, fed(101 + 2 * at, 6)) for at in range(feeds))
    findings = find(home((box(20, (0, 0), *devices),), (breaker(6, 1),)))
    marks, _ = row_words(breaker(6, 1), findings, (0.0, 0.0, 27.0, high), PAPER, on_screen)
    assert all(bounds_of(mark)[2] <= 27.0 + 0.7 for mark in flat(Group(tuple(marks))))


def test_of_a_label_too_long_for_its_row_the_beginning_is_read_and_that_it_goes_on() -> None:
    """'Unknown' alone would hide that there is a label: it is all that there is to go by."""
    long = "all the lights upstairs and also the dining room and hall"
    known = find(home((), (breaker(6, 1, as_found=long),)))
    marks, cut = row_words(known.home.breakers[6], known, (0, 0, 26, 9), PAPER, on_screen=True)
    words = " ".join(word for mark in marks for word in words_in(mark))
    assert words.startswith("Unknown: “all the")
    assert words.endswith("…")
    assert long in cut


def test_of_a_breaker_whose_loads_are_known_the_shorter_wording_stands_uncut() -> None:
    one = box(20, (0, 0), device(21, fed(22, 6), name="washer"))
    known = find(home((one,), (breaker(6, 1, as_found="washer and all of the laundry"),)))
    marks, cut = row_words(known.home.breakers[6], known, (0, 0, 26, 9), PAPER, on_screen=True)
    assert cut == ""
    assert "…" not in " ".join(word for mark in marks for word in words_in(mark))


def test_what_must_be_known_before_a_touch_is_not_cut_for_a_long_label() -> None:
    found = {"state": "off", "why": "nobody knows"}
    known = find(home((), (breaker(6, 1, as_found="all the lights upstairs and the hall", found=found),)))
    marks, _ = row_words(known.home.breakers[6], known, (0, 0, 26, 5), PAPER, on_screen=True)
    assert "found off" in " ".join(word for mark in marks for word in words_in(mark)).lower()
