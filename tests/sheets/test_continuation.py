"""Further pages: lists go on from column to column without losing a block, panels stand whole."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.ink import Group, Text, flat
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.continuation import Columns, RestOfList, further_pages, title_of
from floorplan_circuits.sheets.panel_column import PanelOnSheet
from floorplan_circuits.sheets.paper import MARGIN
from floorplan_circuits.sheets.sections import Block, Section
from tests.drawing.drawn import bounds_of, home, overlap, words_in

LETTER = (215.9, 279.4)


def listed(heights: list[float], title: str = "Never tested", start: int = 0) -> RestOfList:
    def make(wide: float) -> Section:
        blocks = (Block(Group((Text((0, 2), f"{title} {at}", 8.2),)), high) for at, high in enumerate(heights))
        return Section(title, tuple(blocks), wide)

    return RestOfList(make, start, title)


def panel(spaces: int, name: str = "Garage panel") -> PanelOnSheet:
    one = next(iter(home().panels)).model_copy(update={"spaces": spaces, "name": name})
    findings = find(home(panels=Table([one])))
    return PanelOnSheet(findings, one, PAPER)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.lists(st.floats(3, 60), max_size=40), max_size=4))
def test_no_block_is_lost_doubled_or_out_of_order(lists: list[list[float]]) -> None:
    pieces = [listed(heights, f"List{at}") for at, heights in enumerate(lists)]
    pages, _ = further_pages(pieces, LETTER, PAPER)
    said = [word for page in pages for word in words_in(page) if word.startswith("List") and word[-1].isdigit()]
    blocks = [word for word in said if " " in word]
    assert blocks == [f"List{at} {one}" for at, heights in enumerate(lists) for one in range(len(heights))]


@settings(max_examples=30, deadline=None)
@given(st.lists(st.floats(3, 60), min_size=1, max_size=60))
def test_every_piece_stays_between_head_and_foot(heights: list[float]) -> None:
    columns = Columns(*LETTER, PAPER)
    columns.add([listed(heights)])
    for page in columns.pages:
        for mark in page:
            left, top, right, bottom = bounds_of(mark)
            assert left >= MARGIN - 0.01
            assert right <= LETTER[0] - MARGIN + 0.01
            assert top > 17
            assert bottom <= columns.bottom + 0.01


def test_the_last_pages_columns_end_at_about_one_height_and_no_list_is_parted_for_it() -> None:
    (page,), _ = further_pages([listed([8.0] * 5, f"List{at}") for at in range(4)], LETTER, PAPER)
    words = [mark for mark in flat(page) if isinstance(mark, Text) and mark.words[-1:].isdigit()]
    left, right = ([mark for mark in words if (mark.at[0] > LETTER[0] / 2) == aside] for aside in (False, True))
    assert [mark.words[:5] for mark in left if " " not in mark.words] == ["List0", "List1"]
    assert [mark.words[:5] for mark in right if " " not in mark.words] == ["List2", "List3"]
    assert not any("continued" in word for word in words_in(page))


def test_a_list_starts_where_the_levels_page_left_off() -> None:
    (page,), _ = further_pages([listed([5.0] * 6, start=4)], LETTER, PAPER)
    assert words_in(page) == ["Never tested", "Never tested 4", "Never tested 5"]


def test_a_list_that_goes_on_says_so_on_both_sides() -> None:
    pages, _ = further_pages([listed([30.0] * 9)], LETTER, PAPER)
    said = words_in(pages[0])
    assert "goes on" in said
    assert "Never tested, continued" in said


def test_a_list_does_not_open_at_the_foot_of_a_column() -> None:
    columns = Columns(*LETTER, PAPER)
    columns.add([listed([20.0] * 10, "First")])
    columns.add([listed([9.0] * 10, "Second")])
    said = words_in(Group(tuple(columns.pages[0])))
    assert "Second, continued" not in said


def test_panels_stand_side_by_side_and_whole() -> None:
    pages, _ = further_pages([panel(42), panel(12), panel(20)], LETTER, PAPER)
    for page in pages:
        assert not any(overlap(bounds_of(a), bounds_of(b)) for a, b in combinations(page.marks, 2))
    assert sum(words_in(page).count("Garage panel") for page in pages) == 3
    assert len(pages) == 1


def test_a_panel_of_200_spaces_is_squeezed_into_a_column() -> None:
    pages, _ = further_pages([panel(200)], LETTER, PAPER)
    assert len(pages) == 1
    assert {str(space) for space in range(1, 201)} <= set(words_in(pages[0]))


@pytest.mark.parametrize(
    ("pieces", "title"),
    [
        ([listed([3.0])], "Lists"),
        ([panel(12)], "Garage panel"),
        ([panel(12), panel(20)], "Panels"),
        ([panel(12), listed([3.0])], "Panel and lists"),
        ([panel(12), panel(20), listed([3.0])], "Panels and lists"),
    ],
)
def test_the_pages_are_called_by_what_stands_on_them(pieces: list[PanelOnSheet | RestOfList], title: str) -> None:
    assert title_of(pieces) == title


def test_nothing_left_makes_no_page() -> None:
    assert further_pages([], LETTER, PAPER) == ([], ())
