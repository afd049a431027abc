"""The PDF surface: every mark arrives on the page, text stays text, and equal ink gives equal bytes."""

from base64 import b64decode
from io import BytesIO
from typing import Any

import pypdfium2 as pdfium
import pytest

from floorplan_circuits.drawing.hatching import hatch_dots
from floorplan_circuits.drawing.ink import (
    Group,
    Hatch,
    Mark,
    Pen,
    PictureMark,
    Shape,
    Stamp,
    Text,
    circle,
    polygon,
    rectangle,
)
from floorplan_circuits.drawing.lettering import width
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.surfaces.pdf import pdf_of

MM = 72 / 25.4
INK = "#14181d"
DOT = b64decode("iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==")


def document(*marks: Mark, pictures: dict[str, bytes] | None = None) -> bytes:
    return pdf_of(Sheet("A sheet", (Page(100, 60, Group(marks), "page"),)), pictures)


def read(content: bytes) -> Any:
    import pdfplumber

    return pdfplumber.open(BytesIO(content)).pages[0]


@pytest.fixture(scope="module")
def page() -> Any:
    marks = (
        Shape(rectangle(10, 20, 30, 8), "#cbdcd6", Pen(0.5, INK)),
        Shape(circle(80, 40, 5), "#ffc400"),
        Text((50, 30), "5A", 9.0, True, INK, "middle"),
        Text((90, 10), "end", 9.0, False, INK, "end"),
    )
    return read(document(*marks))


def test_millimetres_become_points_with_the_origin_at_the_top_left(page: Any) -> None:
    (rect,) = page.rects
    assert (rect["x0"], rect["top"]) == pytest.approx((10 * MM, 20 * MM), abs=0.01)
    assert (rect["x1"], rect["bottom"]) == pytest.approx((40 * MM, 28 * MM), abs=0.01)
    assert rect["linewidth"] == pytest.approx(0.5 * MM, abs=0.01)
    assert rect["non_stroking_color"] == pytest.approx((0xCB / 255, 0xDC / 255, 0xD6 / 255), abs=0.002)


def test_text_is_placed_by_its_anchor(page: Any) -> None:
    words = {word["text"]: word for word in page.extract_words()}
    assert (words["5A"]["x0"] + words["5A"]["x1"]) / 2 == pytest.approx(50 * MM, abs=0.1)
    assert words["end"]["x1"] == pytest.approx(90 * MM, abs=0.1)
    assert words["5A"]["x1"] - words["5A"]["x0"] == pytest.approx(width("5A", 9.0, True) * MM, abs=0.1)


def test_a_curve_arrives_as_a_curve(page: Any) -> None:
    (curve,) = page.curves
    assert (curve["x0"], curve["x1"]) == pytest.approx((75 * MM, 85 * MM), abs=0.05)


def test_a_hatch_is_clipped_to_its_path_and_its_lines_have_its_pen() -> None:
    page = read(document(Hatch(rectangle(10, 10, 24, 24), Pen(0.18, "#456d6b"), 0, 2.4)))
    lines = page.lines
    heights = sorted({round(line["top"] / MM / 2.4, 3) for line in lines})
    assert heights == [round(height) for height in heights]
    assert 9 <= len(heights) <= 12


def test_dots_are_small_squares_on_the_grid_of_the_sheet() -> None:
    """As pdfium paints them, 20 pixels a mm: dark round each place of the grid, paper half a millimetre beside it."""
    content = document(Hatch(rectangle(10, 10, 12, 12), Pen(0.32, INK), 0, 2.4, dots=True))
    painted = pdfium.PdfDocument(content)[0].render(scale=20 / MM).to_pil().convert("L")
    places = [(x, y) for x, y in hatch_dots((10, 10, 22, 22), 2.4) if 10.6 < x < 21.4 and 10.6 < y < 21.4]
    assert len(places) >= 16
    for x, y in places:
        for across, down in ((0, 0), (0.1, 0.1), (-0.1, 0.1), (0.1, -0.1)):
            assert painted.getpixel((round((x + across) * 20), round((y + down) * 20))) < 100
        for across, down in ((0.5, 0), (-0.5, 0), (0, 0.5), (0, -0.5)):
            assert painted.getpixel((round((x + across) * 20), round((y + down) * 20))) > 240
    assert painted.getpixel((9 * 20, 12 * 20)) == painted.getpixel((23 * 20, 12 * 20)) == 255


def test_a_symbol_drawn_a_hundred_times_is_stored_once() -> None:
    one = document(Stamp("switch", (10, 10)))
    many = document(*(Stamp("switch", (at, 10 + at / 3), 90.0 * (at % 4)) for at in range(100)))
    assert many.count(b"/Subtype /Form") == one.count(b"/Subtype /Form") == 1


def test_symbols_of_another_size_or_colour_are_forms_of_their_own() -> None:
    stamps = (
        Stamp("switch", (10, 10)),
        Stamp("switch", (20, 10), radius=2.0),
        Stamp("switch", (30, 10), ink="#ffffff"),
    )
    assert document(*stamps).count(b"/Subtype /Form") == 3


def test_a_picture_is_put_in_its_place() -> None:
    page = read(document(PictureMark("ab12", (10, 10, 30, 25)), pictures={"ab12": DOT}))
    (image,) = page.images
    assert (image["x0"], image["top"]) == pytest.approx((10 * MM, 10 * MM), abs=0.01)
    assert (image["x1"], image["bottom"]) == pytest.approx((30 * MM, 25 * MM), abs=0.01)


def test_a_picture_whose_bytes_are_missing_leaves_a_crossed_box() -> None:
    page = read(document(PictureMark("gone", (10, 10, 30, 25))))
    assert page.images == []
    assert page.lines or page.curves or page.rects


def test_a_path_that_crosses_itself_is_filled_even_odd() -> None:
    ring = (*polygon((0, 0), (20, 0), (20, 20), (0, 20)), *polygon((5, 5), (15, 5), (15, 15), (5, 15)))
    assert b"f*" in uncompressed(Shape(ring, INK))


def uncompressed(*marks: Mark) -> bytes:
    from pypdf import PdfReader

    found = PdfReader(BytesIO(document(*marks))).pages[0].get_contents()
    assert found is not None
    return found.get_data()


def test_equal_ink_gives_equal_bytes() -> None:
    marks = (
        Text((50, 30), "5A", 9.0, True),
        Stamp("switch", (10, 10)),
        Hatch(rectangle(0, 0, 9, 9), Pen(1, INK), 45, 3),
    )
    assert document(*marks) == document(*marks)


def test_letters_the_first_typeface_lacks_come_from_the_second() -> None:
    content = document(Text((10, 20), "Θ Ж 5A", 9.0))
    words = " ".join(word["text"] for word in read(content).extract_words())
    assert words == "Θ Ж 5A"


def test_each_page_has_its_own_size() -> None:
    from pypdf import PdfReader

    sheet = Sheet("Two", (Page(100, 60, Group(()), "one"), Page(60, 100, Group(()), "two")))
    sizes = [tuple(map(float, page.mediabox[2:])) for page in PdfReader(BytesIO(pdf_of(sheet))).pages]
    assert sizes[0] == pytest.approx((100 * MM, 60 * MM), abs=0.01)
    assert sizes[1] == pytest.approx((60 * MM, 100 * MM), abs=0.01)


def test_the_document_has_its_title() -> None:
    from pypdf import PdfReader

    metadata = PdfReader(BytesIO(document())).metadata
    assert metadata is not None
    assert metadata.title == "A sheet"
