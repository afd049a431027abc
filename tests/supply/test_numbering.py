"""How a panel counts, and what its breakers are called."""

from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.home.board_rows import rows_of
from floorplan_circuits.home.power import Breaker, Numbering, Pole
from floorplan_circuits.home.record import change
from floorplan_circuits.home.space_names import IN_WAYS, space_name, spaces_called
from floorplan_circuits.supply.legs import heads, leg
from floorplan_circuits.supply.numbering import cells, mark, marks, panel_finding, reading_order
from tests.supply.wiring import breaker, main, panel, wired


def test_odd_spaces_stand_left_and_even_ones_right():
    assert cells(panel(spaces=5)) == {1: (0, 0), 2: (0, 1), 3: (1, 0), 4: (1, 1), 5: (2, 0)}


def test_a_panel_that_hangs_upside_down_counts_its_rows_from_the_bottom():
    upside_down = panel(spaces=5, numbering="odd left, even right, from the bottom")

    assert cells(upside_down) == {1: (2, 0), 2: (2, 1), 3: (1, 0), 4: (1, 1), 5: (0, 0)}


def test_spaces_run_down_one_side_and_then_the_other():
    numbered = panel(spaces=5, numbering="down one side, then the other")

    assert cells(numbered) == {1: (0, 0), 2: (1, 0), 3: (2, 0), 4: (0, 1), 5: (1, 1)}


def test_a_single_row_is_one_column():
    assert cells(panel(spaces=3, numbering="single row")) == {1: (0, 0), 2: (1, 0), 3: (2, 0)}


@given(st.integers(1, 200), st.sampled_from(get_args(Numbering)))
def test_every_space_has_a_cell_of_its_own_in_a_grid_without_an_empty_row(spaces, numbering):
    grid = cells(panel(spaces=spaces, numbering=numbering))

    assert list(grid) == list(range(1, spaces + 1))
    assert len(set(grid.values())) == spaces
    assert {row for row, _ in grid.values()} == set(range(1 + max(row for row, _ in grid.values())))


@pytest.mark.parametrize(
    ("poles", "prefix", "expected"),
    [
        ([(5, None)], "", "5"),
        ([(15, "A")], "", "15A"),
        ([(2, None), (4, None)], "", "2·4"),
        ([(4, None), (2, None)], "", "2·4"),
        ([(1, None), (3, None), (5, None)], "", "1·3·5"),
        ([(16, "B"), (16, "A")], "", "16A·16B"),
        ([(3, None)], "G", "G3"),
        ([(2, None), (4, None)], "G", "G2·4"),
    ],
)
def test_a_breaker_is_called_after_its_spaces(poles, prefix, expected):
    taken = tuple(Pole(space=space, half=half) for space, half in poles)

    assert mark(panel(prefix=prefix), breaker(7, poles=taken)) == expected


def test_a_breaker_whose_panel_is_gone_is_called_after_its_spaces_alone():
    assert mark(None, breaker(7, 3)) == "3"


def test_mains_are_named_and_counted_only_where_a_panel_has_several():
    home = wired(
        [panel(1, mains=(main(5),)), panel(2, prefix="G", mains=(main(6), main(7)))], [breaker(9, 4, of=2)], {}
    )

    assert marks(home) == {9: "G4", 5: "main", 6: "G main 1", 7: "G main 2"}


def test_breakers_are_read_panel_by_panel_and_down_the_spaces():
    halves = [breaker(number, poles=(Pole(space=2, half=half),)) for number, half in ((11, "B"), (12, "A"))]
    breakers = [breaker(10, 1, of=2), *halves, breaker(13, 1), breaker(14, 3, 5), breaker(15, 4), breaker(16, 1, of=9)]
    home = wired([panel(1), panel(2)], breakers, {})

    assert reading_order(home) == (13, 12, 11, 14, 15, 10, 16)


def test_the_panel_as_a_grid_tells_who_stands_where_and_on_which_leg():
    breakers = [breaker(10, 1, 3), breaker(11, poles=(Pole(space=2, half="B"),)), breaker(12, 1, of=2), breaker(13, 9)]
    known = panel(spaces=4, system="split-phase 120/240")
    found = panel_finding(wired([known, panel(2)], breakers, {}), known)

    assert (found.panel, found.columns, found.rows) == (1, 2, 2)
    assert found.cells == cells(known)
    assert found.taken == {(1, "A"): 10, (1, "B"): 10, (3, "A"): 10, (3, "B"): 10, (2, "B"): 11}
    assert found.legs == {1: "A", 2: "A", 3: "B", 4: "B"}


def test_a_panel_of_unknown_system_has_the_legs_of_its_homes():
    plain = panel(spaces=2)

    assert panel_finding(wired([plain], [], {}), plain).legs == {1: "", 2: ""}
    assert panel_finding(wired([plain], [], {}, system="split-phase 120/240"), plain).legs == {1: "A", 2: "A"}


def test_a_single_row_of_one_space_is_a_grid_of_one():
    found = panel_finding(wired([], [], {}), panel(spaces=1, numbering="single row"))

    assert (found.columns, found.rows, found.taken) == (1, 1, {})


# --- British boards of three phases ---------------------------------------------------------------------------------


def test_ways_of_three_phases_stand_as_on_a_british_board() -> None:
    board = panel(spaces=12, numbering="ways of three, odd left, even right", system="three-phase 400Y/230")
    assert [space_name(board, space) for space in (1, 2, 3, 4, 12)] == ["1L1", "1L2", "1L3", "2L1", "4L3"]
    assert {space_name(board, space): cell for space, cell in cells(board).items() if space in (1, 3, 4, 7, 10)} == {
        "1L1": (0, 0), "1L3": (2, 0), "2L1": (0, 1), "3L1": (3, 0), "4L1": (3, 1),
    }  # fmt: skip
    down = change(board, numbering="ways of three, down one side, then the other")
    assert [cells(down)[space] for space in (4, 7, 10)] == [(3, 0), (0, 1), (3, 1)]
    for one in (board, down):
        assert [leg(one, space) for space in range(1, 13)] == ["A", "B", "C"] * 4


@given(st.integers(1, 60), st.sampled_from(IN_WAYS))
def test_each_space_of_a_board_in_ways_has_a_cell_and_a_name_of_its_own(spaces, numbering) -> None:
    board = panel(spaces=spaces, numbering=numbering)
    assert len(set(cells(board).values())) == spaces
    assert len({space_name(board, space) for space in range(1, spaces + 1)}) == spaces
    assert all(spaces_called(board, space_name(board, space)) == [space] for space in range(1, spaces + 1))


def test_a_breaker_of_three_poles_tells_its_way_once() -> None:
    board = panel(spaces=12, numbering="ways of three, odd left, even right", prefix="D")
    three = Breaker(id=9, panel=1, poles=(Pole(space=4), Pole(space=5), Pole(space=6)))
    assert mark(board, three) == "D2L1·L2·L3"


# --- boards of several rows -----------------------------------------------------------------------------------------


@st.composite
def boards(draw):
    """A board of rows, whose rows may say fewer or more ways than it has."""
    rows = tuple(draw(st.lists(st.integers(1, 18), max_size=5)))
    return panel(spaces=draw(st.integers(1, 60)), numbering="row by row", rows=rows)


def test_a_board_of_rows_keeps_what_stands_left_and_right_above_and_below() -> None:
    board = panel(spaces=9, numbering="row by row", rows=(5, 4))
    assert heads(board) == {0: "Row 1", 4: "Row 2"}
    assert cells(board) == {
        1: (1, 0), 2: (2, 0), 3: (3, 0), 4: (1, 1), 5: (2, 1), 6: (5, 0), 7: (6, 0), 8: (5, 1), 9: (6, 1),
    }  # fmt: skip


def test_a_board_whose_rows_nobody_told_is_one_row() -> None:
    board = panel(spaces=3, numbering="row by row")
    assert (cells(board), heads(board)) == ({1: (0, 0), 2: (1, 0), 3: (2, 0)}, {})


def test_side_by_side_each_way_of_a_three_phase_board_is_on_the_next_leg() -> None:
    board = panel(spaces=7, numbering="row by row", rows=(4, 3), system="three-phase 400Y/230")
    assert [leg(board, space) for space in range(1, 8)] == ["A", "B", "C", "A", "B", "C", "A"]


@given(boards())
@settings(max_examples=60)
def test_every_way_of_a_board_stands_once_below_the_head_of_its_row(board) -> None:
    grid, starts = cells(board), heads(board)
    assert list(grid) == list(range(1, board.spaces + 1))
    assert len(set(grid.values())) == board.spaces
    assert starts.keys().isdisjoint(row for row, _ in grid.values())
    used = {row for row, _ in grid.values()} | starts.keys()
    assert used == set(range(len(used)))
    for row, spaces in enumerate(rows_of(board), 1):
        above = [head for head in starts if head < grid[spaces[0]][0]]
        assert not starts or starts[max(above)] == f"Row {row}"
        assert [space for space in spaces if grid[space][1] == 0] == list(spaces)[: -(-len(spaces) // 2)] or not starts


@given(boards(), st.permutations(["1", "2", "3", "7", "C1", "C2", "12", "L1", "40"]))
@settings(max_examples=40)
def test_spaces_are_found_by_the_numbers_their_householder_gave_them(board, own) -> None:
    board = change(board, called=tuple(own))
    names = [space_name(board, space) for space in range(1, board.spaces + 1)]
    for space, name in enumerate(names, 1):
        if names.count(name) == 1:
            assert spaces_called(board, name) == [space]
    assert names[: len(own)] == own[: board.spaces]
