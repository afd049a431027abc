"""The printed pages read back by two programs that know nothing of ours: pypdf and pdfplumber."""

from collections.abc import Iterator
from functools import cache
from io import BytesIO
from typing import Any

import pdfplumber
import pytest
from pypdf import PdfReader

from floorplan_circuits.drawing.palette import GREY, PAPER
from floorplan_circuits.sheets.furniture import CAUTION_TITLE, CAUTIONS
from floorplan_circuits.sheets.paper import PAPERS
from floorplan_circuits.sheets.wall_map import wall_map
from floorplan_circuits.surfaces.pdf import pdf_of
from tests.drawing.drawn import MADE, SAMPLE_HOMES, sample, wall_map_of

POINTS_A_MM = 72 / 25.4  # PDF 32000-1: a unit of user space is 1/72 inch
HOMES_ON_PAPERS = [(home, paper) for home in SAMPLE_HOMES for paper in PAPERS]


@cache
def printed(home: str, paper: str) -> bytes:
    return pdf_of(wall_map_of(home, paper))


@cache
def pages_by_pypdf(home: str, paper: str) -> tuple[str, ...]:
    return tuple(page.extract_text() for page in PdfReader(BytesIO(printed(home, paper))).pages)


def text_by_pypdf(home: str, paper: str) -> str:
    return "\n".join(pages_by_pypdf(home, paper))


@cache
def words_by_pdfplumber(home: str, paper: str) -> tuple[str, ...]:
    with pdfplumber.open(BytesIO(printed(home, paper))) as document:
        pages = [page.extract_words(x_tolerance=1.2, use_text_flow=True) for page in document.pages]
    return tuple(word["text"] for page in pages for word in page)


# --- what is said ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("home", "paper"), HOMES_ON_PAPERS)
def test_every_space_of_the_panel_can_be_found(home: str, paper: str) -> None:
    findings, lines = sample(home), text_by_pypdf(home, paper).split()
    for panel in findings.home.panels:
        halved = {space for space, half in findings.panels[panel.id].taken if _is_halved(findings, panel.id, space)}
        for space in range(1, panel.spaces + 1):
            names = (f"{space}A", f"{space}B") if space in halved else (str(space),)
            assert all(any(name in line for line in lines) for name in names), space


def _is_halved(findings: Any, panel: int, space: int) -> bool:
    taken = findings.panels[panel].taken
    return taken.get((space, "A")) != taken.get((space, "B"))


@pytest.mark.parametrize(("home", "paper"), HOMES_ON_PAPERS)
def test_every_breakers_number_can_be_found_on_the_plan_or_in_its_row(home: str, paper: str) -> None:
    findings, text = sample(home), text_by_pypdf(home, paper)
    fed = {breaker for one in findings.conclusions.values() for breaker in one.breakers}
    assert fed
    for breaker in fed:
        assert findings.marks[breaker] in text


@pytest.mark.parametrize(("home", "paper"), HOMES_ON_PAPERS)
def test_every_rooms_name_and_the_homes_can_be_found(home: str, paper: str) -> None:
    findings, text = sample(home), text_by_pypdf(home, paper)
    flowing = " ".join(text.split())
    assert findings.home.name in flowing
    for room in findings.home.rooms:
        assert all(word in flowing for word in room.name.split()), room.name


@pytest.mark.parametrize(("home", "paper"), HOMES_ON_PAPERS)
def test_every_page_carries_the_whole_caution(home: str, paper: str) -> None:
    for page in pages_by_pypdf(home, paper):
        flowing = " ".join(page.split())
        assert CAUTION_TITLE in flowing
        assert CAUTIONS in flowing


@pytest.mark.parametrize(("home", "paper"), HOMES_ON_PAPERS)
def test_the_mark_of_every_shared_box_can_be_found_on_its_plan_and_in_the_list(home: str, paper: str) -> None:
    findings, words = sample(home), words_by_pdfplumber(home, paper)
    shared = [findings.home.boxes[found.box].mark for found in findings.boxes.values() if found.shared]
    assert shared
    for mark in shared:
        assert sum(mark in word for word in words) >= 2, mark


@pytest.mark.parametrize("home", SAMPLE_HOMES)
def test_both_readers_find_the_same_letters(home: str) -> None:
    by_one = sorted("".join(text_by_pypdf(home, "a4").split()))
    by_other = sorted("".join(words_by_pdfplumber(home, "a4")))
    assert by_one == by_other


@pytest.mark.parametrize("home", SAMPLE_HOMES)
def test_nothing_is_called_safe(home: str) -> None:
    assert "safe" not in text_by_pypdf(home, "letter").lower()


# --- how it is made -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("home", "paper"), HOMES_ON_PAPERS)
def test_every_page_is_as_large_as_its_paper(home: str, paper: str) -> None:
    edges = {PAPERS[paper].long * POINTS_A_MM, PAPERS[paper].short * POINTS_A_MM}
    for page in PdfReader(BytesIO(printed(home, paper))).pages:
        wide, high = float(page.mediabox.width), float(page.mediabox.height)
        assert sorted((wide, high)) == pytest.approx(sorted(edges), abs=0.5)


@pytest.mark.parametrize(("home", "paper"), HOMES_ON_PAPERS)
def test_nothing_is_printed_in_the_margin(home: str, paper: str) -> None:
    with pdfplumber.open(BytesIO(printed(home, paper))) as document:
        for page in document.pages:
            margin = 8.5 * POINTS_A_MM
            for letter in page.chars:
                assert letter["x0"] >= margin
                assert letter["x1"] <= page.width - margin
                assert letter["top"] >= margin - 6  # the em box of a title reaches above its letters
                assert letter["bottom"] <= page.height - margin + 6


def fonts(content: bytes) -> Iterator[Any]:
    for page in PdfReader(BytesIO(content)).pages:
        for font in page["/Resources"]["/Font"].values():  # type: ignore[index]
            yield font.get_object()


@pytest.mark.parametrize("home", SAMPLE_HOMES)
def test_every_typeface_that_draws_a_letter_is_embedded(home: str) -> None:
    with pdfplumber.open(BytesIO(printed(home, "letter"))) as document:
        used = {letter["fontname"] for page in document.pages for letter in page.chars}
    found = {str(font["/BaseFont"]).lstrip("/"): font for font in fonts(printed(home, "letter"))}
    assert used
    for name in used:
        assert "/FontFile2" in found[name]["/FontDescriptor"].get_object()
        assert "/ToUnicode" in found[name]


@pytest.mark.parametrize("home", SAMPLE_HOMES)
def test_equal_homes_give_equal_bytes(home: str) -> None:
    again = pdf_of(wall_map(sample(home), PAPERS["a4"], MADE))
    assert again == printed(home, "a4")


def test_no_date_of_printing_is_in_the_file() -> None:
    metadata = PdfReader(BytesIO(printed("flat", "a4"))).metadata
    assert metadata is not None
    assert metadata.creation_date is None or metadata.creation_date.year == 2000  # the library's fixed day


@pytest.mark.parametrize("home", SAMPLE_HOMES)
def test_grey_paper_gets_no_colour_at_all(home: str) -> None:
    content = pdf_of(wall_map(sample(home), PAPERS["a4"], MADE, GREY))
    with pdfplumber.open(BytesIO(content)) as document:
        marks = [mark for page in document.pages for mark in (*page.rects, *page.curves, *page.lines, *page.chars)]
    used = {mark[key] for mark in marks for key in ("non_stroking_color", "stroking_color")}
    colours = {colour for colour in used if colour and len(colour) == 3}
    assert len(colours) > 5
    for colour in colours:
        assert max(colour) - min(colour) < 0.004, colour


@pytest.mark.parametrize("home", SAMPLE_HOMES)
def test_on_colour_paper_cautions_are_yellow_and_nothing_else_is(home: str) -> None:
    with pdfplumber.open(BytesIO(printed(home, "a4"))) as document:
        marks = [mark for page in document.pages for mark in (*page.rects, *page.curves)]
    yellow = tuple(int(PAPER.caution[at : at + 2], 16) / 255 for at in (1, 3, 5))
    found = [mark for mark in marks if mark["fill"] and mark["non_stroking_color"] == pytest.approx(yellow, abs=0.002)]
    assert len(found) > 5
