"""Pages measured from the PDF by programs that know nothing of ours: qpdf, pdfium, pypdf.

Boxes of letters are pdfium's own, round the ink of each letter. Sizes are those of LOOK's table, floors all of them.
"""

from collections.abc import Iterator
from functools import cache
from io import BytesIO

import pikepdf
import pypdfium2 as pdfium
import pytest
from pypdf import PdfReader
from pypdfium2 import raw
from shapely import STRtree, box

from floorplan_circuits.drawing.ink import Group, Text
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.printing import SHEETS, Wanted, make_sheet
from floorplan_circuits.sheets.paper import PAPERS
from floorplan_circuits.surfaces.pdf import pdf_of
from tests.drawing.drawn import MADE, sample

HOMES = ("cottage", "flat", "house")
POINTS_A_MM = 72 / 25.4  # PDF 32000-1: a unit of user space is 1/72 inch
MARGIN_MM = 8.5
SYMBOL_LETTERS = 4.0
"""pt: letters that are part of a symbol's own drawing."""
LEAST_PT = 6.8
SHRINK_PT = 0.35
"""How far letters of one word may reach into each other's boxes: an f over an i."""
DRAWN = tuple(sheet for sheet in SHEETS if sheet != "photo")
"""No sample home has a photo of its panel: `tests/sheets` checks that sheet on one that has."""
SHEETS_OF_HOMES = [(home, sheet, paper) for home in HOMES for sheet in DRAWN for paper in ("letter", "a3")]


@cache
def made(home: str, sheet: str, paper: str, grey: bool = False) -> Sheet:
    return make_sheet(sample(home), Wanted(sheet, paper, grey), MADE)


@cache
def printed(home: str, sheet: str, paper: str, grey: bool = False) -> bytes:
    return pdf_of(made(home, sheet, paper, grey))


def letters(page: pdfium.PdfPage) -> Iterator[tuple[str, float, tuple[float, float, float, float]]]:
    """Every letter that leaves ink, its size in points, and the box round its ink: left, bottom, right, top."""
    text = page.get_textpage()
    for at in range(text.count_chars()):
        letter = text.get_text_range(at, 1)
        if letter.strip() and not raw.FPDFText_IsGenerated(text, at):
            yield letter, raw.FPDFText_GetFontSize(text, at), text.get_charbox(at)


def collisions(page: pdfium.PdfPage) -> list[str]:
    """Every two letters whose ink lies in one place."""
    found = list(letters(page))
    boxes = [box(left + SHRINK_PT, low + SHRINK_PT, right - SHRINK_PT, top - SHRINK_PT)
             if right - left > 2 * SHRINK_PT and top - low > 2 * SHRINK_PT else box(left, low, left, low)
             for _, _, (left, low, right, top) in found]  # fmt: skip
    ones, others = STRtree(boxes).query(boxes, predicate="overlaps")
    within = STRtree(boxes).query(boxes, predicate="contains_properly")
    pairs = {*zip(ones.tolist(), others.tolist(), strict=True), *zip(*within.tolist(), strict=True)}
    return [f"{found[a][0]} on {found[b][0]} at {found[a][2]}" for a, b in pairs if a < b]


@pytest.mark.parametrize(("home", "sheet", "paper"), SHEETS_OF_HOMES)
def test_qpdf_finds_nothing_wrong(home: str, sheet: str, paper: str) -> None:
    with pikepdf.open(BytesIO(printed(home, sheet, paper))) as document:
        assert list(document.check_pdf_syntax()) == []
        assert str(document.Root.Lang) == "en"
        assert document.Root.ViewerPreferences.DisplayDocTitle


@pytest.mark.parametrize(("home", "sheet", "paper"), SHEETS_OF_HOMES)
def test_no_letter_lies_on_another(home: str, sheet: str, paper: str) -> None:
    document = pdfium.PdfDocument(printed(home, sheet, paper))
    for page in document:
        assert collisions(page) == []


@pytest.mark.parametrize(("home", "sheet", "paper"), SHEETS_OF_HOMES)
def test_letters_are_as_large_as_they_must_be_and_none_in_the_margin(home: str, sheet: str, paper: str) -> None:
    grown = 1.0 if sheet == "directory" else PAPERS[paper].magnify
    for page in pdfium.PdfDocument(printed(home, sheet, paper)):
        wide, high = page.get_size()
        edge = MARGIN_MM * POINTS_A_MM
        for letter, size, (left, low, right, top) in letters(page):
            assert size >= (SYMBOL_LETTERS if letter in "SGFIWPDTJC23" else LEAST_PT) * grown - 0.05, letter
            assert left >= edge
            assert low >= edge
            assert right <= wide - edge
            assert top <= high - edge


@pytest.mark.parametrize("home", HOMES)
@pytest.mark.parametrize("paper", ["letter", "a3"])
def test_numbers_on_the_panel_are_the_largest_and_those_on_the_plan_have_their_size(home: str, paper: str) -> None:
    grown = PAPERS[paper].magnify
    sizes = [round(size / grown, 1) for page in pdfium.PdfDocument(printed(home, "wall-map", paper))
             for letter, size, _ in letters(page) if letter.isdigit()]  # fmt: skip
    assert max(sizes) == 15.0  # 'space number on the panel'; the title alone is larger, and is no number
    assert sizes.count(9.0) > 30  # 'plates (circuit numbers)'


@pytest.mark.parametrize("home", HOMES)
def test_every_page_has_a_bookmark_and_the_document_its_title(home: str) -> None:
    document = PdfReader(BytesIO(printed(home, "wall-map", "letter")))
    names = [entry["/Title"] for entry in document.outline]  # type: ignore[index, call-overload]
    assert names == [page.name for page in made(home, "wall-map", "letter").pages]
    assert [document.get_destination_page_number(one) for one in document.outline] == list(range(len(names)))  # type: ignore[arg-type]
    assert document.metadata is not None
    assert document.metadata.title == f"{sample(home).home.name}: wall map"


@pytest.mark.parametrize("sheet", DRAWN)
def test_equal_input_gives_equal_bytes(sheet: str) -> None:
    again = pdf_of(make_sheet(sample("house"), Wanted(sheet, "letter"), MADE))
    assert again == printed("house", sheet, "letter")


def text_of(home: str, sheet: str, grey: bool) -> list[str]:
    document = pdfium.PdfDocument(printed(home, sheet, "letter", grey))
    return [page.get_textpage().get_text_bounded() for page in document]


@pytest.mark.parametrize("home", HOMES)
@pytest.mark.parametrize("sheet", DRAWN)
def test_colour_and_grey_say_the_same_words(home: str, sheet: str) -> None:
    assert text_of(home, sheet, grey=False) == text_of(home, sheet, grey=True)


def test_a_letter_on_a_letter_would_be_found() -> None:
    def page(second: float) -> pdfium.PdfPage:
        marks = (Text((10, 10), "14", 9.0), Text((second, 10.3), "7", 9.0))
        return pdfium.PdfDocument(pdf_of(Sheet("t", (Page(50.0, 20.0, Group(marks), "t"),))))[0]

    assert collisions(page(10.8)) != []
    assert collisions(page(20.0)) == []
