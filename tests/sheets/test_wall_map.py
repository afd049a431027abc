"""The wall map: whatever the home, everything known of it is on some page, and nothing runs off or over."""

from itertools import combinations

import pytest
from hypothesis import HealthCheck, given, settings

from floorplan_circuits.drawing.frame import Frame, is_built
from floorplan_circuits.drawing.ink import Hatch, Shape, Text, flat
from floorplan_circuits.drawing.palette import GREY, PAPER
from floorplan_circuits.drawing.plan_boxes import plates_of
from floorplan_circuits.drawing.plan_switching import LEG_DASH
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.legend import GUESSED_WORDS, LEG_WORDS
from floorplan_circuits.sheets.level_page import TOO_LARGE
from floorplan_circuits.sheets.lists import never_tested
from floorplan_circuits.sheets.paper import PAPERS
from floorplan_circuits.sheets.wall_map import wall_map
from floorplan_circuits.surfaces.collect import CollectingSurface
from tests.drawing.drawn import (
    MADE,
    SAMPLE_HOMES,
    bounds_of,
    box,
    breaker,
    device,
    fed,
    home,
    overlap,
    room,
    sample,
    wall_map_of,
    words_in,
)
from tests.homes import generate, homes

BREAKERS = (breaker(6, 1), breaker(7, 2))
CASES = [(name, paper) for name in SAMPLE_HOMES for paper in PAPERS]


def made(findings: Findings, paper: str = "letter") -> Sheet:
    return wall_map(findings, PAPERS[paper], MADE)


def collected(sheet: Sheet) -> CollectingSurface:
    surface = CollectingSurface()
    for page in sheet.pages:
        surface.page(page.width, page.height, page.ink)
    return surface


def words(sheet: Sheet) -> list[str]:
    return [word for page in collected(sheet).pages for word in page.words()]


def texts(page: Page) -> list[Text]:
    return [mark for mark in flat(page.ink) if isinstance(mark, Text) and mark.words]


# --- the sample homes on every paper --------------------------------------------------------------------------------


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_no_text_overlaps_another_on_any_page(name: str, paper: str) -> None:
    for page in wall_map_of(name, paper).pages:
        boxes = [(text.words, bounds_of(text)) for text in texts(page)]
        assert [(a, b) for (a, one), (b, other) in combinations(boxes, 2) if overlap(one, other)] == []


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_nothing_runs_into_the_margin(name: str, paper: str) -> None:
    for page in wall_map_of(name, paper).pages:
        for mark in flat(page.ink):
            if not isinstance(mark, Hatch):
                left, top, right, bottom = bounds_of(mark)
                assert min(left, top) >= 8.9
                assert right <= page.width - 8.9
                assert bottom <= page.height - 8.9


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_nothing_of_the_samples_is_cut_and_every_label_has_its_place(name: str, paper: str) -> None:
    sheet = wall_map_of(name, paper)
    assert (sheet.shortened, sheet.not_placed) == ((), ())
    assert not any(word.endswith("…") for word in words(sheet))


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_the_page_shows_the_plan_the_panel_and_the_key_together(name: str, paper: str) -> None:
    first, *further = wall_map_of(name, paper).pages
    said = words_in(first.ink)
    assert next(iter(sample(name).home.panels)).name in said
    assert {"How to read it", "tested"} <= set(said)
    assert len(further) <= 1


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_letters_are_never_smaller_than_can_be_read(name: str, paper: str) -> None:
    for page in wall_map_of(name, paper).pages:
        for text in texts(page):
            # letters in a symbol and the count in a triangle are part of a drawing
            assert text.size >= (4.0 if len(text.words) <= 3 else 6.7), text.words


@pytest.mark.parametrize(("name", "paper"), CASES)
def test_every_shared_box_and_everything_never_tested_is_listed_on_some_page(name: str, paper: str) -> None:
    findings, said = sample(name), words(wall_map_of(name, paper))
    for found in findings.boxes.values():
        if found.shared:
            assert said.count(findings.home.boxes[found.box].mark) >= 2  # on the plan and in the list
    untested_told(findings, said)


def untested_told(findings: Findings, said: list[str]) -> None:
    """Check that the list of what was never tested is on the pages to its last word, however it is parted."""
    flowing = " ".join(said)
    for level in findings.home.levels:
        section = never_tested(findings, 2000.0, PAPER, frozenset({level.id}))
        for block in section.blocks:
            assert words_in(block.ink)[-1] in flowing


@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_grey_paper_loses_no_word(name: str) -> None:
    colour, grey = wall_map_of(name, "letter"), wall_map(sample(name), PAPERS["letter"], MADE, GREY)
    assert words(colour) == words(grey)


def test_equal_homes_give_equal_sheets() -> None:
    assert made(sample("cottage")) == wall_map_of("cottage", "letter")


def test_the_head_says_when_it_was_made_and_from_what() -> None:
    said = words(wall_map_of("cottage", "letter"))
    assert any(word.startswith("Made 14 March 2026 from evidence up to") for word in said)
    assert "Made 14 March 2026, nothing tested" in words(made(find(home((box(20, (0, 0)),)))))


# --- any home -------------------------------------------------------------------------------------------------------


def told(findings: Findings, sheet: Sheet) -> None:
    """Check that every box that is built is on some page with all its circuits."""
    said = words(sheet)
    flowing = " ".join(said)
    for one in findings.home.boxes:
        if not is_built(one):
            continue
        found = findings.boxes[one.id]
        if found.shared or one.at is None or one.level is None:
            assert one.mark in said or f" {one.mark} " in f" {flowing} "
        if TOO_LARGE not in flowing:
            for plate in plates_of(one, Frame(findings, one.level or 0, 1.0, PAPER)):
                assert plate.words in said, (one.mark, plate.words)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(homes())
def test_any_home_prints_and_every_box_is_told(wild: Home) -> None:
    findings = find(wild)
    sheet = made(findings)
    has_content = any(is_built(one) for one in wild.boxes) or bool(wild.rooms) or bool(wild.panels)
    if has_content:
        assert sheet.pages
    told(findings, sheet)


@pytest.mark.parametrize(("seed", "devices", "levels"), [(1, 250, 1), (2, 120, 2), (7, 200, 3)])
def test_large_homes_are_told_in_full(seed: int, devices: int, levels: int) -> None:
    findings = find(generate(seed, devices, levels).home)
    sheet = made(findings)
    told(findings, sheet)
    untested_told(findings, words(sheet))
    assert [page.name for page in sheet.pages[:levels]] == [f"Level {order}" for order in range(levels)]
    for page in sheet.pages:
        boxes = [(text.words, bounds_of(text)) for text in texts(page) if len(text.words) > 3]
        assert [(a, b) for (a, one), (b, other) in combinations(boxes, 2) if overlap(one, other)] == []


def test_a_crowded_level_gets_a_page_of_its_own_and_the_panel_the_next() -> None:
    sheet = made(find(generate(1, 250).home))
    first, second, *_ = sheet.pages
    assert "Panel 1" not in words_in(first.ink)
    assert "Panel 1" in words_in(second.ink)
    assert any(word.startswith("On a further page:") for word in words_in(first.ink))


def test_boxes_whose_circuits_find_no_room_are_told_with_them_on_a_further_page() -> None:
    crowd = tuple(
        box(100 + 3 * at, (300 + 10 * at, 300), device(101 + 3 * at, fed(102 + 3 * at, 6)), mount="ceiling")
        for at in range(90)
    )
    sheet = made(find(home(crowd, BREAKERS, (room(30, "Store", 0, 0, 2200, 600),))))
    further = [word for page in sheet.pages[1:] for word in words_in(page.ink)]
    listed = [further[at + 1] for at, word in enumerate(further) if word.startswith("B") and word[1:].isdigit()]
    assert "No room on the plan" in further
    assert len(listed) > 20
    assert set(listed) == {"1"}
    assert "some circuits" in " ".join(words_in(sheet.pages[0].ink))


# --- empty and odd homes --------------------------------------------------------------------------------------------


def test_an_empty_home_has_no_pages() -> None:
    assert made(find(Home())).pages == ()


def test_a_panel_alone_has_a_page() -> None:
    (page,) = made(find(home())).pages
    assert page.name == "Main panel"
    assert words_in(page.ink).count("blank") == 12


def test_a_home_without_a_panel_has_its_plan_and_lists() -> None:
    boxes = (box(20, (500, 500), device(21, fed(22))),)
    sheet = made(find(home(boxes, rooms=(room(30, "Hall", 0, 0, 4000, 3000),), panels=Table())))
    (page,) = sheet.pages
    assert {"Hall", "More than one circuit", "Never tested", "How to read it"} <= set(words_in(page.ink))


def test_boxes_without_a_drawing_are_listed() -> None:
    boxes = (box(20, None, device(21, fed(22, 6))), box(23, None, device(24, fed(25, 7)), level=None))
    sheet = made(find(home(boxes, BREAKERS)))
    said = words(sheet)
    assert [page.name for page in sheet.pages] == ["Panel and lists"]
    assert "Not placed yet" in said
    assert {"B20", "B23"} <= set(said)


def test_boxes_on_no_level_stand_on_the_first_levels_page() -> None:
    boxes = (box(20, (500, 500), device(21, fed(22, 6))), box(23, None, device(24, fed(25, 6), fed(26, 7)), level=None))
    sheet = made(find(home(boxes, BREAKERS, (room(30, "Hall", 0, 0, 4000, 3000),))))
    first = words_in(sheet.pages[0].ink)
    assert "Not placed yet" in first
    assert first.count("B23") == 2  # not placed, and shared


def test_a_level_where_nothing_has_a_place_gets_no_page_but_its_boxes_are_told() -> None:
    levels = Table([Level(id=1, name="Ground floor"), Level(id=2, name="Attic", order=1)])
    boxes = (box(20, (500, 500), device(21, fed(22, 6))), box(23, None, device(24, fed(25, 7)), level=2))
    sheet = made(find(home(boxes, BREAKERS, (room(30, "Hall", 0, 0, 4000, 3000),), levels=levels)))
    assert [page.name for page in sheet.pages] == ["Ground floor"]
    assert "B23" in words(sheet)


def test_levels_are_printed_from_the_lowest_up() -> None:
    levels = Table([Level(id=1, name="Upper", order=1), Level(id=2, name="Cellar", order=-1)])
    rooms = (room(30, "Bedroom", 0, 0, 4000, 3000), room(31, "Store", 0, 0, 4000, 3000, level=2))
    sheet = made(find(home(rooms=rooms, levels=levels)))
    assert [page.name for page in sheet.pages] == ["Cellar", "Upper"]
    assert "Wall map 1 of 2" in words_in(sheet.pages[0].ink)


def test_every_further_panel_stands_on_a_further_page() -> None:
    one = next(iter(home().panels))
    panels = Table([one, change(one, id=6, name="Garage panel"), change(one, id=7, name="Barn panel")])
    sheet = made(find(home(rooms=(room(30, "Hall", 0, 0, 4000, 3000),), panels=panels)))
    assert [page.name for page in sheet.pages] == ["Ground floor", "Panels"]
    assert {"Garage panel", "Barn panel"} <= set(words_in(sheet.pages[1].ink))
    assert "Garage panel" not in words_in(sheet.pages[0].ink)


def test_a_planned_device_is_on_no_page() -> None:
    boxes = (box(20, (500, 500), device(21, fed(22, 6), kind="dimmer", planned=True)),)
    said = words(made(find(home(boxes, BREAKERS, (room(30, "Hall", 0, 0, 4000, 3000),)))))
    assert not any("dimmer" in word for word in said)


def test_a_name_too_long_for_the_head_is_reported() -> None:
    name = "The house with the green door at the far end of the lane beside the mill pond and the orchard wall"
    sheet = made(find(change(home((box(20, (500, 500)),)), name=name)))
    assert name in sheet.shortened
    assert sheet.title == f"{name}: wall map"


def test_large_paper_is_the_same_page_magnified() -> None:
    sheet = wall_map_of("flat", "a3")
    titles = [text.size for text in texts(sheet.pages[0]) if text.words == "Third floor"]
    assert titles[0] == pytest.approx(20 * 1.33)


# --- what switches work -----------------------------------------------------------------------------------------------


def test_curves_from_switches_are_on_the_map_when_asked_for_and_its_key_tells_of_them() -> None:
    made = [wall_map(sample("cottage"), PAPERS["letter"], MADE, switching=shown) for shown in (False, True)]

    curves = [sum(_is_curve(mark) for page in sheet.pages for mark in flat(page.ink)) for sheet in made]
    told = [LEG_WORDS in words(sheet) for sheet in made]

    assert curves[0] == 0
    assert curves[1] > len([group for group in sample("cottage").home.controls if group.feeds])  # and one in the key
    assert told == [False, True]


def test_a_home_without_switching_has_no_row_for_it_in_the_key() -> None:
    bare = find(home(rooms=(room(30, "Den", 0, 0, 4000, 3000),), boxes=(box(20, (1000, 0), device(21, fed(22))),)))
    assert LEG_WORDS not in words(wall_map(bare, PAPERS["letter"], MADE, switching=True))


def _is_curve(mark: object) -> bool:
    return isinstance(mark, Shape) and mark.pen is not None and mark.pen.dash == LEG_DASH


# --- places that are guesses ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("placed", ["seen", "guessed"])
def test_the_key_tells_of_guessed_places_only_where_there_is_one(placed: str) -> None:
    study = room(30, "Study", 0, 0, 4000, 3000)
    shown = find(home(rooms=(study,), boxes=(box(20, (1000, 0), device(21, fed(22)), placed=placed),)))
    assert (GUESSED_WORDS in words(made(shown))) == (placed == "guessed")


def test_a_page_without_the_panel_says_on_which_page_it_is() -> None:
    pages = {page.name: words_in(page.ink) for page in wall_map(sample("house"), PAPERS["letter"], MADE).pages}
    without = [name for name, said in pages.items() if "Main panel" not in said and "floor" in name]
    assert without  # the ground floor: beside a panel of forty spaces it is too wide for letter
    for name in without:
        assert any("The panel is on the page “Basement”." in word for word in pages[name])
