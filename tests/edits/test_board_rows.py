"""A board of several rows: what is typed of them, own numbers, and where breakers fit."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.board_rows import call_spaces, numbers_typed, numbers_written, rows_typed, set_board_rows
from floorplan_circuits.edits.breakers import add_breaker
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.panels import add_panel, set_panel
from floorplan_circuits.edits.spaces import next_free
from floorplan_circuits.edits.typed import read_typed
from floorplan_circuits.exchange.schedule import schedule_csv, take_schedule
from floorplan_circuits.exchange.taking import RowsRefused
from floorplan_circuits.find import find
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems


def board(rows="4 3", called=""):
    home = add_panel(Home(), 10, numbering="row by row", system="single-phase 230").home
    panel = home.panels.rows[0].id
    return call_spaces(set_board_rows(home, panel, rows).home, panel, called).home


def put(home, space, words):
    return add_breaker(home, home.panels.rows[0].id, space, read_typed(words)).home


def test_the_rows_say_how_many_ways_there_are():
    home = board("12, 12 8")
    assert (home.panels.rows[0].rows, home.panels.rows[0].spaces) == ((12, 12, 8), 32)
    assert set_board_rows(home, home.panels.rows[0].id, "").home.panels.rows[0].rows == ()


@pytest.mark.parametrize("words", ["0", "12 x", "201", "100 101", "-3", "²", " ".join(["1"] * 21)])
def test_what_is_no_list_of_rows_is_refused(words):
    with pytest.raises(Refused):
        rows_typed(words)


@pytest.mark.parametrize(
    ("words", "says"), [("B1-B4", "number of a box"), ("x y", "no number"), ("1-200 3", "at most")]
)
def test_own_numbers_that_cannot_be_are_refused(words, says):
    with pytest.raises(Refused, match=says):
        numbers_typed(words)


def test_two_spaces_are_never_called_alike():
    with pytest.raises(Refused, match="called 3"):
        board(called="3")
    home = board(called="11-14 21-23")
    again = add_panel(home, 4, "Garage").home
    garage = again.panels.rows[1]
    assert garage.prefix == "G"
    with pytest.raises(Refused, match="called G2"):
        call_spaces(again, again.panels.rows[0].id, "G2")


def test_a_wide_breaker_stays_in_its_row_and_typing_goes_along_the_row():
    home = put(board(), 2, "63/2 RCD")
    panel = home.panels.rows[0]
    assert [pole.space for pole in home.breakers.rows[0].poles] == [2, 3]
    assert [next_free(home, panel, space) for space in (1, 4, 6, 7)] == [4, 5, 7, None]
    with pytest.raises(Refused, match="the row ends at way 4"):
        put(home, 4, "40/2 shower")
    with pytest.raises(Refused, match="no halves"):
        put(home, 5, "15/t a / b")


def test_own_numbers_stand_in_marks_and_in_the_schedule_and_come_back():
    empty = board(called="11-14 C1-C3")
    home = put(put(empty, 3, "32/2 ring"), 5, "6 lights")
    assert sorted(find(home).marks.values()) == ["13·14", "C1", "main switch"]
    back = take_schedule(empty, schedule_csv(find(home))).home
    assert [one.poles for one in back.breakers] == [one.poles for one in home.breakers]
    with pytest.raises(RowsRefused, match="no space 3"):
        take_schedule(empty, b"Breaker,Amps\n3,20\n")


def test_a_board_with_fewer_ways_than_breakers_take_is_refused():
    home = put(board(), 7, "6 lights")
    with pytest.raises(Refused, match="before the panel gets fewer"):
        set_board_rows(home, home.panels.rows[0].id, "4")
    kept = set_panel(home, home.panels.rows[0].id, numbering="single row").home
    assert not problems(kept)


@given(st.lists(st.from_regex(r"([AC-HJ-NP-Z]{0,2}[0-9]{1,3})?", fullmatch=True), max_size=30))
@settings(max_examples=80)
def test_own_numbers_read_back_as_they_were(called):
    assert numbers_typed(numbers_written(called)) == tuple(called)


@given(st.lists(st.integers(1, 40), max_size=6), st.lists(st.integers(1, 9), min_size=1, max_size=4))
@settings(max_examples=40)
def test_whatever_is_typed_into_a_board_is_sound_and_stays_in_one_row(spaces, rows):
    home = board(" ".join(map(str, rows)))
    for space in spaces:
        try:
            home = put(home, space, "32/2 x" if space % 2 else "6 x")
        except Refused:
            continue
    assert not problems(home)
