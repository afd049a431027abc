"""The worksheet: every feed with a cell a round, every handle over its column, nothing cut and nothing run over."""

from collections import Counter
from dataclasses import replace
from functools import cache
from io import BytesIO
from itertools import combinations

import pytest
from hypothesis import HealthCheck, given, settings

from floorplan_circuits.drawing.ink import Shape, Text, flat, path_bounds
from floorplan_circuits.drawing.palette import GREY, PAPER
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.files.open import open_home
from floorplan_circuits.find import find, plan_rounds
from floorplan_circuits.findings import RoundsInWords
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.resources import folder
from floorplan_circuits.home.table import Table
from floorplan_circuits.rounds.wording import in_words
from floorplan_circuits.sheets.paper import MARGIN, PAPERS
from floorplan_circuits.sheets.worksheet import worksheet
from floorplan_circuits.sheets.worksheet_grid import CELL_HIGH, CELL_WIDE, lines_of
from floorplan_circuits.surfaces.pdf import pdf_of
from tests.drawing.drawn import bounds_of, box, breaker, device, fed, home, overlap, room, words_in
from tests.homes import homes

MADE = "2026-11-25"
MM = 72 / 25.4
SAMPLES = ("cottage", "flat", "house")
CASES = [(name, paper) for name in SAMPLES for paper in ("letter", "a4")]
HOSTILE = "</script><img src=x onerror=alert(1)> \u202edrawkcab\u2028עברית " + "W" * 60


def told(some: Home, **options) -> RoundsInWords:
    findings = find(some)
    return in_words(plan_rounds(findings, **options), findings)


@cache
def sample(name: str, cap: int | None = None) -> RoundsInWords:
    return told(open_home(folder("sample_homes") / f"{name}.json").home, cap=cap)


@cache
def made(name: str, paper: str = "letter", cap: int | None = None) -> Sheet:
    return worksheet(sample(name, cap), PAPERS[paper], MADE)


def texts(page: Page) -> list[Text]:
    return [mark for mark in flat(page.ink) if isinstance(mark, Text) and mark.words]


def looks(words: RoundsInWords) -> int:
    return sum(len(stop.looks) for stop in words.walk)


def nothing_runs_over(sheet: Sheet) -> None:
    """Check margins, the floor of letter sizes, and that no text touches another."""
    for page in sheet.pages:
        for mark in flat(page.ink):
            left, top, right, bottom = bounds_of(mark)
            assert min(left, top) >= MARGIN - 0.01, mark
            assert right <= page.width - MARGIN + 0.01, mark
            assert bottom <= page.height - MARGIN + 0.01, mark
        boxes = [(text.words, bounds_of(text)) for text in texts(page)]
        assert [(a, b) for (a, one), (b, other) in combinations(boxes, 2) if overlap(one, other)] == []
        assert min(text.size for text in texts(page)) >= 6.8


def cells(page: Page) -> list[tuple[float, float]]:
    """Width and height of what can be written in: the empty rectangles beside the words that are no boxes to tick."""
    found = []
    for mark in flat(page.ink):
        if isinstance(mark, Shape) and mark.fill == PAPER.paper and mark.pen and mark.pen.width == 0.25:
            left, top, right, bottom = path_bounds(mark.path)
            if bottom - top >= 5:
                found.append((right - left, bottom - top))
    return found


# --- the sample homes -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_nothing_runs_into_the_margin_or_over_anything_and_no_letter_is_too_small(name: str, paper: str) -> None:
    nothing_runs_over(made(name, paper))
    assert made(name, paper).shortened == ()


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_every_feed_stands_once_in_the_grid_with_a_cell_a_round(name: str, paper: str) -> None:
    words, sheet = sample(name), made(name, paper)
    said = Counter(word for page in sheet.pages for word in words_in(page.ink))
    wanted = Counter(look.mark for stop in words.walk for look in stop.looks)
    wanted.update(look.mark for one in words.solo for look in one.looks)
    assert {mark: said[mark] for mark in wanted} == dict(wanted)
    rooms = sum(len(stop.looks) > 1 for stop in words.walk)
    assert sum(len(cells(page)) for page in sheet.pages) == (looks(words) + rooms) * len(words.rounds)


@pytest.mark.parametrize(("name", "cap"), [("cottage", None), ("house", None), ("house", 4), ("house", 1)])
def test_every_cell_is_large_enough_for_a_pen(name: str, cap: int | None) -> None:
    for page in made(name, "letter", cap).pages:
        for wide, high in cells(page):
            assert wide >= CELL_WIDE - 0.01
            assert high >= CELL_HIGH - 0.01


@pytest.mark.parametrize("name", SAMPLES)
def test_the_handles_to_turn_stand_over_every_page_of_the_grid_off_larger_than_on(name: str) -> None:
    words = sample(name)
    for page in made(name).pages:
        if not cells(page):
            continue
        over = Counter(mark for turned in words.rounds for mark in (*turned.turn_off, *turned.turn_on))
        said = Counter(text.words for text in texts(page))
        assert {mark: said[mark] >= count for mark, count in over.items()} == dict.fromkeys(over, True)
        offs = {mark for turned in words.rounds for mark in turned.turn_off}
        sizes = {bold: {t.size for t in texts(page) if t.words in offs and t.bold is bold} for bold in (True, False)}
        assert min(sizes[True]) > max(sizes[False])


@pytest.mark.parametrize("name", SAMPLES)
def test_the_plans_code_and_the_caution_stand_on_every_page(name: str) -> None:
    for page in made(name).pages:
        said = words_in(page.ink)
        assert f"Plan {sample(name).code}" in said
        assert "A map can be wrong. Test before you touch." in said


def test_what_to_mind_stands_before_the_first_cell() -> None:
    words, first = sample("house"), made("house").pages[0]
    flowing = " ".join(words_in(first.ink))
    for sentence in (*words.cautions, *words.left_alone, *words.not_watched):
        assert sentence in flowing
    caution = min(text.at[1] for text in texts(first) if "Before the first round" in text.words)
    assert caution < min(text.at[1] for text in texts(first) if text.words == "all on")


def test_each_handle_alone_has_boxes_for_all_that_a_test_needs() -> None:
    words = replace(sample("cottage"), to_try=())
    pages = worksheet(words, PAPERS["letter"], MADE).pages
    said = [word for page in pages for word in words_in(page.ink)]
    assert said.count("Then each alone") == 1
    for word in ("tester proved before", "and after"):
        assert said.count(word) == len(words.solo)
    for word in ("live before", "dead with it off", "live again"):
        assert said.count(word) == len(words.solo) + said.count("off alone, continued")
    boxes = [path_bounds(mark.path) for page in pages for mark in flat(page.ink) if isinstance(mark, Shape)]
    ticks = [one for one in boxes if one[2] - one[0] == pytest.approx(5) and one[3] - one[1] == pytest.approx(5)]
    assert len(ticks) == 2 * len(words.solo) + 3 * sum(len(one.looks) for one in words.solo)


def test_each_handle_alone_begins_below_the_rounds_where_there_is_room() -> None:
    pages = [words_in(page.ink) for page in made("flat").pages]
    assert any("Walk the rooms in this order" in said and "Then each alone" in said for said in pages)


def test_a_handle_of_which_nothing_is_known_yet_has_a_row_to_fill_in_fuses_feeders_and_main_last() -> None:
    some = home(
        (box(30, None, device(31, fed(32))),),
        (breaker(6, 1), breaker(7, 2), breaker(8, 3, device="fuse"), breaker(9, 5, found={"state": "off"})),
    )
    words = told(some)
    assert [one.handle for one in words.to_try] == ["1", "2", "3"]
    assert "out alone" in words.to_try[2].how
    last = worksheet(words, PAPERS["letter"], MADE).pages[-1]
    shown = [text.words for text in texts(last)]
    assert shown.count("on it:") == 3
    assert "To fill in: each alone" in shown
    assert {"tester proved", "live before", "dead with it off", "live again", "proved again"} <= {*shown}
    boxes = [path_bounds(mark.path) for mark in flat(last.ink) if isinstance(mark, Shape)]
    sizes = [(right - left, bottom - top) for left, top, right, bottom in boxes]
    assert sum(size == pytest.approx((5, 5)) for size in sizes) == 5 * len(words.to_try)


def test_grey_paper_loses_no_word() -> None:
    grey = worksheet(sample("house"), PAPERS["letter"], MADE, GREY)
    assert [words_in(page.ink) for page in grey.pages] == [words_in(page.ink) for page in made("house").pages]


# --- read back from the file ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["cottage", "flat"])
def test_another_reader_finds_words_cells_and_code_in_the_pdf(name: str) -> None:
    import pdfplumber

    words, content = sample(name), pdf_of(made(name))
    rooms = sum(len(stop.looks) > 1 for stop in words.walk)
    found, said = 0, Counter[str]()
    with pdfplumber.open(BytesIO(content)) as read:
        for page in read.pages:
            text = page.extract_text()
            assert f"Plan {words.code}" in text
            said.update(word["text"] for word in page.extract_words())
            assert min(letter["size"] for letter in page.chars) >= 6.8 - 0.01
            for rect in page.rects:
                wide, high = rect["width"] / MM, rect["height"] / MM
                white = rect["non_stroking_color"] == pytest.approx((1, 1, 1))
                found += bool(white and rect["fill"] and wide >= 8.99 and high >= 6.99 and wide < 20)
    assert found == (looks(words) + rooms) * len(words.rounds)
    for stop in words.walk:
        for look in stop.looks:
            assert said[look.mark] >= 1


def test_a_screen_reader_meets_the_rounds_in_the_order_of_the_walk() -> None:
    from pypdf import PdfReader

    text = " ".join(page.extract_text() for page in PdfReader(BytesIO(pdf_of(made("cottage")))).pages)
    rooms = [stop.name or "In no room" for stop in sample("cottage").walk]
    below = text.index("Walk the rooms in this order")
    places = [text.index(name, below) for name in rooms]
    assert places == sorted(places)


# --- many rounds, many handles --------------------------------------------------------------------------------------


def test_the_sheet_lies_down_where_that_sets_more_rounds_beside_each_other() -> None:
    assert made("house").pages[0].height > made("house").pages[0].width
    wide = made("house", "letter", 4)
    assert wide.pages[0].width > wide.pages[0].height
    nothing_runs_over(wide)


def test_rounds_past_one_page_have_their_own_pages_with_every_feed_again() -> None:
    words, sheet = sample("house", 1), made("house", "letter", 1)
    nothing_runs_over(sheet)
    marks = Counter(look.mark for stop in words.walk for look in stop.looks)
    marks.update(marks)
    marks.update(look.mark for one in words.solo for look in one.looks)
    said = Counter(word for page in sheet.pages for word in words_in(page.ink))
    assert {mark: said[mark] for mark in marks} == dict(marks)
    rooms = sum(len(stop.looks) > 1 for stop in words.walk)
    assert sum(len(cells(page)) for page in sheet.pages) == (looks(words) + rooms) * len(words.rounds)


def test_handles_past_what_a_column_holds_stand_in_a_list_before_the_grid() -> None:
    panel = change(next(iter(home().panels)), spaces=200)
    breakers = tuple(breaker(100 + space, space) for space in range(1, 201))
    words = told(home((box(30, None, device(31, fed(32))),), breakers, panels=Table([panel])))
    sheet = worksheet(words, PAPERS["letter"], MADE)
    nothing_runs_over(sheet)
    flowing = " ".join(word for page in sheet.pages for word in words_in(page.ink))
    assert "Handles: see the list before" in flowing
    for turned in words.rounds:
        assert not turned.turn_off or f"OFF: {', '.join(turned.turn_off)}" in flowing
        assert not turned.turn_on or f"ON: {', '.join(turned.turn_on)}" in flowing


def test_a_number_is_never_broken_and_lines_hold_what_fits() -> None:
    marks = ("1·3", "15A", "G12·14")
    assert [mark for line in lines_of(marks, 12.0, 9.0, True) for mark in line] == list(marks)
    assert lines_of(marks, 2.0, 9.0, True) == [[mark] for mark in marks]


# --- any home -------------------------------------------------------------------------------------------------------


@settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(homes())
def test_any_home_has_a_worksheet_with_all_its_feeds(wild: Home) -> None:
    words = told(wild)
    sheet = worksheet(words, PAPERS["a4"], MADE)
    nothing_runs_over(sheet)
    rooms = sum(len(stop.looks) > 1 for stop in words.walk)
    assert sum(len(cells(page)) for page in sheet.pages) == (looks(words) + rooms) * len(words.rounds)


def test_names_of_any_length_and_letters_are_set_in_full() -> None:
    boxes = tuple(
        box(
            at, (500 + at, 500), device(at + 1, fed(at + 2, 6), name=HOSTILE), mark=f"{HOSTILE[:70]}{at}", reach=HOSTILE
        )
        for at in range(20, 80, 10)
    )
    wild = home(boxes, (breaker(6, 1),), (room(90, HOSTILE, 0, 0, 4000, 3000),))
    sheet = worksheet(told(wild), PAPERS["letter"], MADE)
    nothing_runs_over(sheet)
    assert "<img" in " ".join(words_in(sheet.pages[0].ink))
