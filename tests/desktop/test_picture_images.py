"""Stored pictures on the screen: in their place, turned, faded, blended, straightened; none is no picture."""

from io import BytesIO

import pytest
from PIL import Image, ImageDraw
from PySide6.QtGui import QColor, QImage, QPainter

from floorplan_circuits.desktop import picture_images
from floorplan_circuits.desktop.ink_painter import compiled, paint
from floorplan_circuits.desktop.picture_images import image_of
from floorplan_circuits.drawing.ink import Group, PictureMark

PX = 10
SIDE = 200


def packed(image: Image.Image, kind: str = "PNG") -> bytes:
    out = BytesIO()
    image.save(out, kind)
    return out.getvalue()


def quarters() -> bytes:
    """A picture of 80 by 40: its upper left quarter black, all else white."""
    image = Image.new("RGB", (80, 40), "white")
    ImageDraw.Draw(image).rectangle((0, 0, 39, 19), fill="black")
    return packed(image)


def painted(mark: PictureMark, content: bytes, ground: str = "#ffffff") -> QImage:
    image = QImage(SIDE, SIDE, QImage.Format.Format_RGB32)
    image.fill(QColor(ground))
    painter = QPainter(image)
    paint(painter, compiled(Group((mark,)), {mark.picture: content}).ops, PX, 0, 0)
    painter.end()
    return image


def seen(image: QImage, x: float, y: float) -> str:
    return QColor(image.pixel(round(x * PX), round(y * PX))).name()


def test_a_picture_fills_its_rectangle() -> None:
    image = painted(PictureMark("ab", (2, 2, 18, 10)), quarters(), "#00ff00")

    assert (seen(image, 3, 3), seen(image, 9, 5), seen(image, 11, 3), seen(image, 3, 7)) == (
        "#000000",
        "#000000",
        "#ffffff",
        "#ffffff",
    )
    assert seen(image, 3, 11) == "#00ff00"


def test_a_quarter_turn_about_the_corner_is_clockwise() -> None:
    image = painted(PictureMark("ab", (12, 2, 28, 10), angle=90), quarters(), "#00ff00")

    assert seen(image, 11, 3) == "#000000"  # what was right of the corner is now below it
    assert seen(image, 11, 9) == "#000000"
    assert seen(image, 11, 11) == "#ffffff"
    assert seen(image, 7, 3) == "#ffffff"
    assert seen(image, 13, 3) == "#00ff00"


def test_faded_to_two_fifths_black_is_a_light_grey() -> None:
    image = painted(PictureMark("ab", (2, 2, 18, 10), strength=0.4), quarters())

    assert QColor(image.pixel(30, 30)).lightness() == pytest.approx(255 * 0.6, abs=2)


def test_blended_white_leaves_a_tint_as_it_is_and_black_darkens_it() -> None:
    image = painted(PictureMark("ab", (2, 2, 18, 10), blend="darken"), quarters(), "#97b7e9")

    assert (seen(image, 3, 3), seen(image, 11, 3)) == ("#000000", "#97b7e9")


def test_on_a_dark_ground_the_lines_are_light_and_the_ground_stays() -> None:
    image = painted(PictureMark("ab", (2, 2, 18, 10), blend="lighten"), quarters(), "#14181d")

    assert (seen(image, 3, 3), seen(image, 11, 3)) == ("#ffffff", "#14181d")


def test_thin_lines_are_still_there_when_a_large_picture_is_drawn_small() -> None:
    large = Image.new("RGB", (2400, 2400), "white")
    draw = ImageDraw.Draw(large)
    for at in range(7, 2400, 24):
        draw.line((at, 0, at, 2400), fill="black", width=2)
    image = painted(PictureMark("ab", (0, 0, 20, 20)), packed(large))
    row = [QColor(image.pixel(x, 100)).lightness() for x in range(SIDE)]

    assert sum(row) / SIDE == pytest.approx(255 * 22 / 24, abs=4)  # 2 of 24 pixels are black


def test_what_lies_between_four_corners_fills_the_rectangle() -> None:
    corners = ((0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0))
    image = painted(PictureMark("ab", (2, 2, 18, 10), corners=corners), quarters())

    assert {seen(image, x, y) for x in (3, 10, 17) for y in (3, 9)} == {"#000000"}


@pytest.mark.parametrize("content", [b"", b"nothing", quarters()[:60], packed(Image.new("RGB", (4, 4)), "GIF")])
def test_bytes_that_are_no_picture_leave_an_outline(content: bytes) -> None:
    image = painted(PictureMark("ab", (2, 2, 18, 10)), content)

    assert image_of(content) is None
    assert seen(image, 10, 2) != "#ffffff"
    assert seen(image, 10, 6) == "#ffffff"


def test_a_stored_picture_that_says_it_is_huge_is_not_read(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(picture_images, "MOST_PIXELS", 100)
    image_of.cache_clear()

    assert image_of(quarters()) is None
    image_of.cache_clear()
