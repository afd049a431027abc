"""Stored pictures as images to paint: read with bounds, made straight, halved until they are near the size shown."""

from functools import lru_cache
from math import log2

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QImage, QImageReader, QPainter, QPolygonF, QTransform

from floorplan_circuits.drawing.ink import PictureMark
from floorplan_circuits.findings import XY

MOST_PIXELS = 40_000_000
"""A stored picture has under six million; a file from elsewhere may say it has a billion."""
LONGEST_PX = 1600
"""How long a picture that was made straight is along its longer side."""
Corners = tuple[XY, XY, XY, XY]


@lru_cache(6)
def image_of(content: bytes) -> QImage | None:
    """Return the picture in these bytes, None where there is none that can be shown."""
    data = QByteArray(content)
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    reader.setDecideFormatFromContent(True)
    size = reader.size()
    if bytes(reader.format().data()) not in (b"png", b"jpeg"):
        return None
    if not size.isValid() or size.width() * size.height() > MOST_PIXELS:
        return None
    image = reader.read()
    return None if image.isNull() else image.convertToFormat(QImage.Format.Format_RGB32)


@lru_cache(6)
def looked_at(content: bytes, inverted: bool, corners: Corners | None, shape: float) -> QImage | None:
    """Return the picture light for dark if `inverted`; with `corners` what lies between them, `shape` times as wide."""
    image = image_of(content)
    if image is None:
        return None
    if corners is not None:
        image = straightened(image, corners, shape)
    if image is not None and inverted:
        image = image.copy()
        image.invertPixels()
    return image


def straightened(image: QImage, corners: Corners, shape: float) -> QImage | None:
    """Return what lies between four corners of a picture as a rectangle; None for corners that can't be one."""
    wide, high = (LONGEST_PX, LONGEST_PX / shape) if shape >= 1 else (LONGEST_PX * shape, LONGEST_PX)
    straight = QImage(QSize(round(wide), round(high)), QImage.Format.Format_RGB32)
    straight.fill(Qt.GlobalColor.white)
    rectangle = ((0, 0), (straight.width(), 0), (straight.width(), straight.height()), (0, straight.height()))
    found = QTransform.quadToQuad(_polygon(corners), _polygon(rectangle))
    if not isinstance(found, QTransform):  # corners on one line: Qt has no transform for them
        return None
    painter = QPainter(straight)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.setTransform(found)
    painter.drawImage(0, 0, image)
    painter.end()
    return straight


def _polygon(corners: Corners) -> QPolygonF:
    return QPolygonF([QPointF(*corner) for corner in corners])


@lru_cache(8)
def halved(content: bytes, inverted: bool, corners: Corners | None, shape: float, times: int) -> QImage | None:
    """Return the picture at half its size, so many times: drawn small in one step its thin lines would be lost."""
    image = looked_at(content, inverted, corners, shape)
    if image is None or times == 0:
        return image
    smaller = QSize(max(1, image.width() >> times), max(1, image.height() >> times))
    keep, smooth = Qt.AspectRatioMode.IgnoreAspectRatio, Qt.TransformationMode.SmoothTransformation
    return image.scaled(smaller, keep, smooth)


BLENDS = {
    "plain": QPainter.CompositionMode.CompositionMode_SourceOver,
    "darken": QPainter.CompositionMode.CompositionMode_Multiply,
    "lighten": QPainter.CompositionMode.CompositionMode_Screen,
}


def paint_picture(painter: QPainter, content: bytes, mark: PictureMark, to_pixels: QTransform) -> None:
    """Paint a stored picture as its mark says; `to_pixels` brings the mark's mm to the painter's pixels."""
    left, top, right, bottom = mark.bounds
    looks = content, mark.blend == "lighten", mark.corners, (right - left) / (bottom - top)
    whole = looked_at(*looks)
    if whole is None:
        return
    shown = (right - left) * to_pixels.m11() * painter.device().devicePixelRatioF()
    image = halved(*looks, max(0, int(log2(whole.width() / max(shown, 1.0)))))
    assert image is not None
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.setTransform(to_pixels)
    painter.translate(left, top)
    painter.rotate(mark.angle)
    painter.setOpacity(mark.strength)
    painter.setCompositionMode(BLENDS[mark.blend])
    painter.drawImage(QRectF(0, 0, right - left, bottom - top), image)
    painter.restore()
