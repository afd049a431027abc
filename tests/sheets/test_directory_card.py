"""The card for the panel's door: its size as typed, every space on it, nothing over its edge."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.drawing.ink import Text, flat
from floorplan_circuits.drawing.panel_words import LEAST_SIZE
from floorplan_circuits.find import find
from floorplan_circuits.home.log import Trouble
from floorplan_circuits.home.power import Main, Panel
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.directory_card import BY_HAND, CAPTION, NoSuchSize, directory_card, typed_size
from floorplan_circuits.sheets.paper import EVERY_PAPER, PAPERS
from tests.drawing.drawn import MADE, bounds_of, box, breaker, device, fed, home, overlap, sample, words_in

SAMPLES = ("cottage", "flat", "house")
SIZES = [(120.0, 200.0), (90.0, 120.0), (180.0, 90.0), (60.0, 60.0)]


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("size", SIZES)
def test_all_of_a_card_lies_between_its_ticks_and_no_word_over_another(name: str, size: tuple[float, float]) -> None:
    for page in directory_card(sample(name), PAPERS["a4"], MADE, size=size).pages:
        left, top = (page.width - size[0]) / 2, (page.height - size[1]) / 2
        texts = [(mark, bounds_of(mark)) for mark in flat(page.ink) if isinstance(mark, Text) and mark.words]
        for _, (x, y, right, bottom) in texts:
            assert x >= left
            assert y >= top
            assert right <= left + size[0]
            assert bottom <= top + size[1]
        for at, (one, bounds) in enumerate(texts):
            assert not any(overlap(bounds, other) for _, other in texts[at + 1 :]), one.words


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("size", SIZES)
def test_every_space_stands_on_a_card_in_letters_that_can_be_read(name: str, size: tuple[float, float]) -> None:
    findings = sample(name)
    sheet = directory_card(findings, PAPERS["a4"], MADE, size=size)
    texts = [mark for page in sheet.pages for mark in flat(page.ink) if isinstance(mark, Text)]
    said = {mark.words for mark in texts}
    for panel in findings.home.panels:
        for space in range(1, panel.spaces + 1):
            name_of = f"{panel.prefix}{space}"
            assert name_of in said or {f"{name_of}A", f"{name_of}B"} <= said
    assert min(mark.size for mark in texts) >= min(CAPTION, LEAST_SIZE)


def test_a_card_with_more_rows_than_room_goes_on_the_next() -> None:
    sheet = directory_card(sample("house"), PAPERS["letter"], MADE, size=(90.0, 60.0))
    titles = [word for page in sheet.pages for word in words_in(page.ink) if word.startswith("Main panel")]
    assert titles[0].startswith("Main panel 1 of ")
    assert len(titles) > 1


def test_one_panel_alone_can_be_asked_for() -> None:
    findings = sample("house")
    garage = next(panel for panel in findings.home.panels if panel.prefix == "G")
    (page,) = directory_card(findings, PAPERS["letter"], MADE, panel=garage).pages
    assert page.name == "Garage panel"


def test_a_full_square_stands_only_where_all_that_is_recorded_was_tested() -> None:
    boxes = (box(20, (0, 0), device(21, fed(22, 6))), box(30, (900, 0), device(31, fed(32))))
    panels = Table([Panel(id=5, name="Main panel", spaces=2)])
    findings = find(home(boxes, (breaker(6, 1),), panels=panels))
    (page,) = directory_card(findings, PAPERS["letter"], MADE).pages
    assert "A hollow one: not all." in " ".join(words_in(page.ink))
    assert findings.conclusions[22].standing == "claimed"


def test_a_card_larger_than_its_paper_is_refused_with_what_to_do() -> None:
    with pytest.raises(NoSuchSize, match="Choose a larger paper"):
        directory_card(sample("cottage"), PAPERS["letter"], MADE, size=(300.0, 300.0))
    assert directory_card(sample("cottage"), EVERY_PAPER["a2"], MADE, size=(300.0, 300.0)).pages


@pytest.mark.parametrize(
    ("typed", "size"),
    [("120x200", (120, 200)), ("120 × 200 mm", (120, 200)), ("4.5x7.5in", (114.3, 190.5)), ("100X90.5", (100, 90.5))],
)
def test_a_size_is_read_as_people_type_it(typed: str, size: tuple[float, float]) -> None:
    assert typed_size(typed) == pytest.approx(size)


@pytest.mark.parametrize("typed", ["", "120", "axb", "120x", "-5x80", "20x200", "120x2000", "1e3x90", "120x200cm"])
def test_what_is_no_size_is_refused_with_what_to_type(typed: str) -> None:
    with pytest.raises(NoSuchSize, match=r"mm|millimetres"):
        typed_size(typed)


@given(st.text(max_size=20))
def test_any_words_are_a_size_or_refused(typed: str) -> None:
    try:
        wide, high = typed_size(typed)
    except NoSuchSize:
        return
    assert wide > 0
    assert high > 0


def test_the_card_of_a_panel_says_where_its_power_comes_from() -> None:
    sheet = directory_card(sample("house"), PAPERS["letter"], MADE)
    garage = next(page for page in sheet.pages if page.name == "Garage panel")
    words = " ".join(mark.words for mark in flat(garage.ink) if isinstance(mark, Text))
    assert "Fed by 38·40 in Main panel" in words


def test_the_card_tells_that_a_breaker_is_in_trouble() -> None:
    hot = Trouble(id=90, kind="trouble", handle=6, what="runs hot")
    card = directory_card(find(home((), (breaker(6, 1),), log=(hot,))), PAPERS["letter"], MADE)
    assert "uns hot: keep off" in " ".join(words_in(card.pages[0].ink))


def test_a_card_without_a_main_says_what_of_it_stays_live() -> None:
    main, garage = directory_card(sample("house"), PAPERS["letter"], MADE).pages
    assert "Wires above the main stay live with it off." in " ".join(words_in(main.ink))
    said = " ".join(words_in(garage.ink))
    assert "above the main" not in said
    assert "The wires that feed it stay live with every breaker off." in said


def test_a_small_panel_leaves_lines_to_write_on_and_a_full_one_none() -> None:
    cards = [directory_card(sample(name), PAPERS["letter"], MADE) for name in ("cottage", "house")]
    small, full = (words_in(card.pages[0].ink) for card in cards)
    assert BY_HAND in small
    assert BY_HAND not in full


@pytest.mark.parametrize("size", SIZES)
def test_the_card_of_a_board_tells_its_rows_and_its_householders_numbers(size: tuple[float, float]) -> None:
    breakers = tuple(breaker(100 + space, space, label="ring") for space in (1, 2, 5, 9))
    one = home(breakers=breakers)
    panel = next(iter(one.panels))
    own = tuple(str(number) for number in (*range(1, 6), *range(11, 15)))
    board = change(panel, numbering="row by row", rows=(5, 4), spaces=9, called=own, system="single-phase 230")
    board = change(board, mains=(Main(id=99),))
    sheet = directory_card(find(change(one, panels=one.panels.put(board))), PAPERS["a4"], MADE, size=size)
    texts = [mark for page in sheet.pages for mark in flat(page.ink) if isinstance(mark, Text) and mark.words]
    said = {mark.words for mark in texts}
    assert {*own, "Row 1, left half", "Row 2, right half"} <= said
    assert any("above the main switch" in words for words in said)
    for page in sheet.pages:
        shown = [bounds_of(mark) for mark in flat(page.ink) if isinstance(mark, Text) and mark.words]
        assert not any(overlap(a, b) for at, a in enumerate(shown) for b in shown[at + 1 :])


@pytest.mark.parametrize("name", SAMPLES)
def test_on_a_narrow_card_words_are_smaller_or_fewer_before_one_is_broken(name: str) -> None:
    findings = sample(name)
    narrow = directory_card(findings, PAPERS["letter"], MADE, size=(63.0, 152.0))
    known = {word for line in findings.lines.values() for words in line.variants for word in words.split()}
    broken = [words for page in narrow.pages for words in words_in(page.ink) if words.endswith("-")]
    assert not [words for words in broken if words.split()[-1] not in known]
