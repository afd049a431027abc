"""Two columns: steps run on, pieces stay whole, lists go where there is room, nothing below the foot."""

from floorplan_circuits.drawing.ink import Group, Shape, flat, rectangle
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.sheets.sections import Block, Section
from floorplan_circuits.sheets.shutoff_flow import GOES_ON, LEFT_WIDE, Flow
from tests.drawing.drawn import bounds_of, words_in

TOP, BOTTOM, FIRST = 20.0, 220.0, 40.0


def flow() -> Flow:
    return Flow(215.9, TOP, BOTTOM, FIRST, PAPER)


def bar(height: float) -> Group:
    return Group((Shape(rectangle(0, 0, 10, height), "#000000"),))


def section(title: str, *heights: float) -> Section:
    return Section(title, tuple(Block(bar(height), height) for height in heights), 80.0)


def bars(page: Group) -> list[tuple[float, float, float, float]]:
    return [bounds_of(mark) for mark in flat(page) if isinstance(mark, Shape) and mark.fill == "#000000"]


def test_steps_run_on_over_pages_each_block_whole_and_the_list_says_so() -> None:
    pages = flow()
    pages.running("left", section("Steps", *[30.0] * 11))
    first, second = pages.pages()
    assert len(bars(first)) + len(bars(second)) == 11
    assert {"Steps", GOES_ON} <= set(words_in(first))
    assert "Steps, continued" in words_in(second)
    for page in (first, second):
        assert max(bottom for *_, bottom in bars(page)) <= BOTTOM


def test_a_table_that_goes_on_opens_its_page_with_its_head() -> None:
    head = Block(bar(6.0), 6.0)
    rows = [Block(bar(30.0), 30.0, again=head) for _ in range(11)]
    pages = flow()
    pages.running("left", Section("Steps", tuple(rows), 80.0))
    first, second = ([round(bottom - top) for _, top, _, bottom in bars(page)] for page in pages.pages())
    assert 6 not in first
    assert second[0] == 6
    assert second.count(6) == 1
    assert (first + second).count(30) == 11


def test_a_piece_that_has_no_room_left_goes_to_the_next_page() -> None:
    pages = flow()
    pages.piece("right", bar(120), 120)
    pages.piece("right", bar(100), 100)
    pages.piece("right", bar(50), 50)
    first, second = pages.pages()
    assert [round(bottom - top) for _, top, _, bottom in bars(first)] == [120, 50]
    assert bars(second)[0][1] == TOP


def test_a_list_goes_to_the_emptier_column_whole() -> None:
    pages = flow()
    pages.running("left", section("Steps", 100.0))
    pages.whole(lambda wide: section("Lists", 20.0))
    (first,) = pages.pages()
    assert bars(first)[1][0] > LEFT_WIDE


def test_a_list_that_fits_nowhere_runs_on_from_a_new_page() -> None:
    pages = flow()
    pages.whole(lambda wide: section("Long", *[50.0] * 9))
    assert [len(bars(page)) for page in pages.pages()] == [0, 3, 3, 3]


def test_a_list_without_anything_in_it_takes_no_room() -> None:
    pages = flow()
    pages.whole(lambda wide: section("Nothing"))
    assert pages.pages() == [Group(())]


def test_what_goes_across_stands_below_both_columns_or_on_a_new_page() -> None:
    pages = flow()
    pages.running("left", section("Steps", 50.0))
    pages.across(bar(60), 60)
    pages.across(bar(60), 60)
    first, second = pages.pages()
    assert [top for _, top, _, _ in bars(first)][1] > 50
    assert bars(second)[0][1] == TOP
