"""Pictures as a file of paper takes them: bounded, made straight where they were taken aslant, light for dark."""

from io import BytesIO

from PIL import Image, ImageOps, UnidentifiedImageError

from floorplan_circuits.drawing.ink import PictureMark
from floorplan_circuits.home.aslant import aslant

MOST_PIXELS = 40_000_000
"""A stored picture has under six million; a file from elsewhere may say it has a billion."""
LONGEST_PX, JPEG_QUALITY = 1600, 88


def prepared(content: bytes, mark: PictureMark) -> bytes | None:
    """Return the bytes of a picture as a mark shows it, None where they are no picture that can be shown.

    Bytes that need nothing done come back as they are, so that a photo is not packed twice.
    """
    try:
        with Image.open(BytesIO(content), formats=("PNG", "JPEG")) as opened:
            if opened.width * opened.height > MOST_PIXELS:
                return None
            opened.load()
            if mark.corners is None and mark.blend != "lighten":
                return content
            return _packed(_drawn(opened.convert("RGB"), mark))
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError, ZeroDivisionError, Image.DecompressionBombError):
        return None  # what Pillow raises for a picture that is none, or cut short; and corners on one line


def _drawn(picture: Image.Image, mark: PictureMark) -> Image.Image:
    if mark.blend == "lighten":
        picture = ImageOps.invert(picture)
    if mark.corners is None:
        return picture
    left, top, right, bottom = mark.bounds
    longest = max(right - left, bottom - top)
    wide, high = (max(1, round(LONGEST_PX * side / longest)) for side in (right - left, bottom - top))
    seen = aslant(mark.corners).of_rectangle(0, 0, 1, 1, wide, high)
    numbers = (seen.a, seen.b, seen.c, seen.d, seen.e, seen.f, seen.g, seen.h)
    smooth, white = Image.Resampling.BICUBIC, (255, 255, 255)
    return picture.transform((wide, high), Image.Transform.PERSPECTIVE, numbers, smooth, fillcolor=white)


def _packed(picture: Image.Image) -> bytes:
    packed = BytesIO()
    picture.save(packed, "JPEG", quality=JPEG_QUALITY)
    return packed.getvalue()
