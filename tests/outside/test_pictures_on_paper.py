"""Pictures in a PDF as another program draws them (pdfium): turned, faded, blended, and made straight."""

from io import BytesIO

import pytest
from PIL import Image, ImageDraw

from floorplan_circuits.drawing.ink import Group, Mark, PictureMark, Shape, rectangle
from floorplan_circuits.drawing.sheet import Page, Sheet
from floorplan_circuits.surfaces import stored_pictures
from floorplan_circuits.surfaces.pdf import pdf_of
from floorplan_circuits.surfaces.stored_pictures import prepared

PX_PER_MM = 4


def picture() -> bytes:
    """A picture of 80 by 40: its upper left quarter black, all else white."""
    image = Image.new("RGB", (80, 40), "white")
    ImageDraw.Draw(image).rectangle((0, 0, 39, 19), fill="black")
    packed = BytesIO()
    image.save(packed, "PNG")
    return packed.getvalue()


def printed(*marks: Mark) -> Image.Image:
    import pypdfium2

    content = pdf_of(Sheet("A sheet", (Page(60, 40, Group(marks), "page"),)), {"ab": picture()})
    return pypdfium2.PdfDocument(content)[0].render(scale=PX_PER_MM * 25.4 / 72).to_pil().convert("RGB")


def seen(image: Image.Image, x: float, y: float) -> tuple[int, ...]:
    return image.getpixel((round(x * PX_PER_MM), round(y * PX_PER_MM)))  # type: ignore[return-value]  # RGB has three


def test_a_quarter_turn_about_the_corner_is_clockwise() -> None:
    image = printed(PictureMark("ab", (30, 5, 54, 17), angle=90))

    assert seen(image, 28, 7) == (0, 0, 0)
    assert seen(image, 28, 20) == (255, 255, 255)
    assert seen(image, 20, 7) == (255, 255, 255)


def test_blended_white_leaves_a_tint_and_black_fades_into_it() -> None:
    tint = Shape(rectangle(0, 0, 60, 40), "#97b7e9")
    image = printed(tint, PictureMark("ab", (5, 5, 29, 17), strength=0.4, blend="darken"))

    assert seen(image, 25, 7) == (0x97, 0xB7, 0xE9)
    assert seen(image, 10, 7) == pytest.approx((0x97 * 0.6, 0xB7 * 0.6, 0xE9 * 0.6), abs=2)
    assert seen(image, 50, 30) == (0x97, 0xB7, 0xE9)  # the fading ends with the picture


def test_what_lies_between_four_corners_fills_the_rectangle() -> None:
    image = printed(PictureMark("ab", (5, 5, 29, 17), corners=((0, 0), (40, 0), (40, 20), (0, 20))))

    assert max(seen(image, 27, 15)) < 12  # JPEG keeps black to a few hundredths
    assert seen(image, 40, 15) == (255, 255, 255)


@pytest.mark.parametrize("content", [b"", b"\x89PNG\r\n\x1a\n", picture()[:70], b"GIF89a" + bytes(40)])
def test_bytes_that_are_no_picture_are_none(content: bytes) -> None:
    assert prepared(content, PictureMark("ab", (0, 0, 1, 1))) is None


def test_a_picture_that_says_it_is_huge_is_not_unpacked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(stored_pictures, "MOST_PIXELS", 100)
    assert prepared(picture(), PictureMark("ab", (0, 0, 1, 1))) is None
