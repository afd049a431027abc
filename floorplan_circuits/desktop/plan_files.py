"""Pictures of floors to draw over, from files and from the clipboard: PNG, JPEG or SVG, within bounds, shrunk."""

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from time import monotonic

from PySide6.QtGui import QImage

from floorplan_circuits.desktop.photos import NoPhoto, Photo, photo_of, read_photo
from floorplan_circuits.files.svg_bounds import LARGEST_SVG, BadSvg, check_svg

LONGEST_PX = 2400
"""A plan is shrunk to so many pixels along its longer side: at 24 m, a pixel is a centimetre."""
SECONDS = 10.0
"""How long an SVG drawing may take to be drawn."""
LOOK_EVERY = 0.1
"""How often, in seconds, it is asked whether anybody still waits for a drawing."""
SUFFIXES = frozenset({".png", ".jpg", ".jpeg", ".svg"})
FILTER = "Pictures (*.png *.jpg *.jpeg *.svg)"


class Unwanted(Exception):
    """Nobody waits for this picture any more."""


def never() -> bool:
    """Tell that somebody waits, however long it takes."""
    return False


def is_drawing(path: Path) -> bool:
    """Tell by its name whether a file is a drawing, which takes as long as whoever made it likes."""
    return path.suffix.lower() == ".svg"


def is_picture(path: Path) -> bool:
    """Tell by its name whether a file is meant as a picture, not as a home."""
    return path.suffix.lower() in SUFFIXES


def read_plan(path: Path, unwanted: Callable[[], bool] = never) -> Photo:
    """Return the picture of a floor in a PNG, JPEG or SVG file. Raises `NoPhoto` for any other file.

    A drawing is given up with `Unwanted` soon after `unwanted` tells that nobody waits for it.
    """
    if not is_drawing(path):
        return read_photo(path, LONGEST_PX, drawing=True)
    try:
        with path.open("rb") as file:
            content = file.read(LARGEST_SVG + 1)
    except OSError as error:
        raise NoPhoto(f"{path.name} can’t be read: {error.strerror}. Choose another file.") from error
    try:
        check_svg(content)
    except BadSvg as bad:
        raise NoPhoto(f"{path.name} {bad}. Save it as PNG in the program that made it, and choose that.") from bad
    image = QImage.fromData(_drawn(content, path.name, unwanted))
    if image.isNull():
        raise NoPhoto(f"{path.name} can’t be drawn. Save it as PNG in the program that made it, and choose that.")
    return photo_of(image, LONGEST_PX, drawing=True)


def _drawn(content: bytes, name: str, unwanted: Callable[[], bool]) -> bytes:
    """Return an SVG drawing as PNG, drawn in a process of its own, which is ended whatever comes.

    Raises `NoPhoto` if it takes too long, `Unwanted` once nobody waits.
    """
    command = [sys.executable, "-m", "floorplan_circuits.desktop.svg_drawn_apart", str(LONGEST_PX)]
    pipe = subprocess.PIPE
    try:
        drawing = subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=subprocess.DEVNULL)
    except OSError as error:
        raise NoPhoto(f"{name} can’t be drawn: {error.strerror}. Save it as PNG and choose that.") from error
    until, untold = monotonic() + SECONDS, content
    with drawing:
        try:
            while not unwanted():
                try:
                    drawn, _ = drawing.communicate(untold, timeout=min(LOOK_EVERY, SECONDS))
                    return drawn if drawing.returncode == 0 else b""
                except subprocess.TimeoutExpired:
                    untold = b""  # it is told but once; what it answers is kept until it is all there
                    if monotonic() > until:
                        raise NoPhoto(f"{name} takes too long to draw. Save it as PNG and choose that.") from None
            raise Unwanted
        finally:
            drawing.kill()
