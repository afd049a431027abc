"""Pictures of floors to draw over, from files and from the clipboard: PNG, JPEG or SVG, within bounds, shrunk."""

import subprocess
import sys
from pathlib import Path

from PySide6.QtGui import QImage

from floorplan_circuits.desktop.photos import NoPhoto, Photo, photo_of, read_photo
from floorplan_circuits.files.svg_bounds import LARGEST_SVG, BadSvg, check_svg

LONGEST_PX = 2400
"""A plan is shrunk to so many pixels along its longer side: at 24 m, a pixel is a centimetre."""
SECONDS = 10.0
"""How long an SVG drawing may take to be drawn."""
SUFFIXES = frozenset({".png", ".jpg", ".jpeg", ".svg"})
FILTER = "Pictures (*.png *.jpg *.jpeg *.svg)"


def is_picture(path: Path) -> bool:
    """Tell by its name whether a file is meant as a picture, not as a home."""
    return path.suffix.lower() in SUFFIXES


def read_plan(path: Path) -> Photo:
    """Return the picture of a floor in a PNG, JPEG or SVG file. Raises `NoPhoto` for any other file."""
    if path.suffix.lower() != ".svg":
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
    image = QImage.fromData(_drawn(content, path.name))
    if image.isNull():
        raise NoPhoto(f"{path.name} can’t be drawn. Save it as PNG in the program that made it, and choose that.")
    return photo_of(image, LONGEST_PX, drawing=True)


def _drawn(content: bytes, name: str) -> bytes:
    """Return an SVG drawing as PNG, drawn in a process of its own. Raises `NoPhoto` if that takes too long."""
    command = [sys.executable, "-m", "floorplan_circuits.desktop.svg_drawn_apart", str(LONGEST_PX)]
    try:
        done = subprocess.run(command, input=content, capture_output=True, timeout=SECONDS, check=False)
    except subprocess.TimeoutExpired:
        raise NoPhoto(f"{name} takes too long to draw. Save it as PNG and choose that.") from None
    except OSError as error:
        raise NoPhoto(f"{name} can’t be drawn: {error.strerror}. Save it as PNG and choose that.") from error
    return done.stdout if done.returncode == 0 else b""
