"""Photographs from files: read with bounds, turned upright, shrunk, and rid of all that is no picture."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QSize, Qt, qInstallMessageHandler
from PySide6.QtGui import QImage, QImageReader, QPainter

LONGEST_PX = 1600
"""A photo is shrunk to so many pixels along its longer side: enough to read a label in it."""
LARGEST_FILE, MOST_PIXELS = 60 * 2**20, 200_000_000
JPEG_QUALITY = 85
MEDIA = {b"png": "image/png", b"jpeg": "image/jpeg", b"jpg": "image/jpeg"}

DAMAGED = "{} can’t be read: the file is damaged. Copy it from the camera again."
CUT_OFF = "premature end"
"""What the JPEG reader complains of where it makes up the rest of a picture."""


class Photo(NamedTuple):
    """The bytes of a picture as they are kept, their media type, and its pixels across and down."""

    content: bytes
    media: str
    pixels: tuple[int, int]


class NoPhoto(Exception):
    """A file can't be taken as a photo; the message says why and what to do."""


def read_photo(path: Path, longest: int = LONGEST_PX, drawing: bool = False) -> Photo:
    """Return the picture in a PNG or JPEG file, at most `longest` pixels long. Raises `NoPhoto` for any other file.

    It is drawn anew, so that the place and the camera that a file may tell of are not kept. `drawing` as in `photo_of`.
    """
    with _gathered() as complaints:
        image, kept = _read(path, longest)
    if image.isNull() or any(CUT_OFF in one for one in complaints):
        raise NoPhoto(DAMAGED.format(path.name))
    if drawing:
        return photo_of(image, longest, drawing)
    return Photo(_encoded(_plain(image), kept), kept, (image.width(), image.height()))


def photo_of(image: QImage, longest: int = LONGEST_PX, drawing: bool = False) -> Photo:
    """Return an image that is there already as it is kept: shrunk, and as JPEG; a drawing as what takes less room."""
    if max(image.width(), image.height()) > longest:
        keep, smooth = Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
        image = image.scaled(QSize(longest, longest), keep, smooth)
    plain = _plain(image)
    packed = [
        (_encoded(plain, media), media) for media in (("image/png", "image/jpeg") if drawing else ("image/jpeg",))
    ]
    content, media = min(packed, key=lambda one: len(one[0]))
    return Photo(content, media, (image.width(), image.height()))


def _read(path: Path, longest: int) -> tuple[QImage, str]:
    """Return the picture upright and no longer than a photo may be, and what it is kept as."""
    reader = QImageReader(str(path))
    reader.setDecideFormatFromContent(True)
    reader.setAutoTransform(True)
    _refuse_at_once(path, reader)
    size, kept = reader.size(), MEDIA[bytes(reader.format().data())]
    if max(size.width(), size.height()) > longest:
        reader.setScaledSize(
            size.scaled(QSize(longest, longest), Qt.AspectRatioMode.KeepAspectRatio).expandedTo(QSize(1, 1))
        )
        kept = "image/jpeg"
    return reader.read(), kept


@contextmanager
def _gathered() -> Iterator[list[str]]:
    """Gather what the library complains of meanwhile, instead of printing it."""
    complaints: list[str] = []
    before = qInstallMessageHandler(lambda _kind, _context, words: complaints.append(str(words)))
    try:
        yield complaints
    finally:
        qInstallMessageHandler(before)


def _refuse_at_once(path: Path, reader: QImageReader) -> None:
    """Refuse what can be told from the file's size and its first bytes."""
    try:
        large = path.stat().st_size
    except OSError as error:
        raise NoPhoto(f"{path.name} can’t be read: {error.strerror}. Choose another file.") from error
    if large > LARGEST_FILE:
        most = LARGEST_FILE // 2**20
        raise NoPhoto(f"{path.name} has {large / 2**20:.0f} MB; a photo has at most {most}. Choose a smaller one.")
    if bytes(reader.format().data()) not in MEDIA:
        raise NoPhoto(f"{path.name} is no PNG or JPEG picture. Choose one that is.")
    size = reader.size()
    if not size.isValid():
        raise NoPhoto(DAMAGED.format(path.name))
    if size.width() * size.height() > MOST_PIXELS:
        most = MOST_PIXELS // 10**6
        raise NoPhoto(f"{path.name} has over {most} million pixels. Choose a smaller one.")


def _plain(image: QImage) -> QImage:
    """Return the picture alone, on white where it is clear: without words that the file carries beside it."""
    drawn = QImage(image.size(), QImage.Format.Format_RGB32)
    drawn.fill(Qt.GlobalColor.white)
    painter = QPainter(drawn)
    painter.drawImage(0, 0, image)
    painter.end()
    return drawn


def _encoded(image: QImage, media: str) -> bytes:
    data = QByteArray()
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG" if media == "image/png" else "JPG", -1 if media == "image/png" else JPEG_QUALITY)  # type: ignore[call-overload]  # the stubs want bytes, the library text
    return bytes(data.data())
