"""Ink on a Qt painter: compiled once into paths, glyphs and pens, then painted at any zoom."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from types import MappingProxyType

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QGlyphRun, QPainter, QPainterPath, QPen, QRawFont, QTransform

from floorplan_circuits.desktop.picture_images import image_of, paint_picture
from floorplan_circuits.drawing.hatching import dot_rows, hatch_lines
from floorplan_circuits.drawing.ink import (
    MM_PER_POINT,
    Group,
    Hatch,
    Mark,
    Path,
    Pen,
    PictureMark,
    Segment,
    Shape,
    Stamp,
    Text,
    path_bounds,
    trace,
    turned,
)
from floorplan_circuits.drawing.lettering import Face, advances, font_file, runs, width
from floorplan_circuits.drawing.symbols import strokes
from floorplan_circuits.findings import Subject

CAPS = {"butt": Qt.PenCapStyle.FlatCap, "round": Qt.PenCapStyle.RoundCap, "square": Qt.PenCapStyle.SquareCap}
JOINS = {"mitre": Qt.PenJoinStyle.MiterJoin, "round": Qt.PenJoinStyle.RoundJoin}
ANCHORS = {"start": 0.0, "middle": 0.5, "end": 1.0}
LEAST_LINE_PX = 0.6
LONG_PATH, PLACE_MM = 100, 80.0
"""From how many segments on lines are split by where they are, and how large a place is."""
LARGEST_GLYPH_PX = 60.0
"""Glyphs of a font from a file over 64 pixels high Qt leaves out, without a word: those are filled outlines."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A path to fill, line, or both, with what it covers, in mm."""

    path: QPainterPath
    fill: QBrush | None
    pen: Pen | None
    covers: QRectF
    clip: QPainterPath | None = None


@dataclass(frozen=True, slots=True)
class Word:
    """Letters of one typeface at places along a baseline, in mm."""

    face: Face
    glyphs: tuple[int, ...]
    at: tuple[tuple[float, float], ...]
    size: float
    colour: QColor
    covers: QRectF


@dataclass(frozen=True, slots=True)
class Picture:
    """A stored picture in its place, with what it covers, in mm."""

    content: bytes
    mark: PictureMark
    covers: QRectF


Op = Stroke | Word | Picture
NO_PICTURES: Mapping[str, bytes] = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Compiled:
    """Ink ready to paint: everything in order, and the part that is about each subject."""

    ops: tuple[Op, ...]
    about: dict[Subject, tuple[Op, ...]]


def compiled(ink: Group, pictures: Mapping[str, bytes] = NO_PICTURES) -> Compiled:
    """Compile ink, with the bytes of its pictures by their hash. Nothing here depends on the zoom."""
    about: dict[Subject, list[Op]] = {}
    ops = tuple(_ops(ink, about, (), pictures))
    return Compiled(ops, {subject: tuple(found) for subject, found in about.items()})


def paint(painter: QPainter, ops: tuple[Op, ...], mm: float, dx: float, dy: float, shown: QRectF | None = None) -> None:
    """Paint compiled ink at `mm` pixels a millimetre, its origin at (dx, dy) pixels; only what meets `shown` (mm)."""
    painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.TextAntialiasing)
    to_pixels = QTransform(mm, 0, 0, mm, dx, dy)
    for op in ops:
        if shown is not None and not op.covers.intersects(shown):
            continue
        if isinstance(op, Stroke):
            _paint_stroke(painter, op, mm, to_pixels)
        elif isinstance(op, Picture):
            paint_picture(painter, op.content, op.mark, to_pixels)
        else:
            _paint_word(painter, op, mm, dx, dy)


def _paint_stroke(painter: QPainter, op: Stroke, mm: float, to_pixels: QTransform) -> None:
    painter.setTransform(to_pixels)
    if op.clip is not None:
        painter.save()
        painter.setClipPath(op.clip, Qt.ClipOperation.IntersectClip)
    painter.setBrush(op.fill if op.fill is not None else Qt.BrushStyle.NoBrush)
    painter.setPen(_pen(op.pen, mm) if op.pen is not None else Qt.PenStyle.NoPen)
    painter.drawPath(op.path)
    if op.clip is not None:
        painter.restore()
    painter.resetTransform()


def _paint_word(painter: QPainter, op: Word, mm: float, dx: float, dy: float) -> None:
    pixels = op.size * MM_PER_POINT * mm
    font = _raw_font(op.face, round(pixels * 8) / 8)
    places = [QPointF(x * mm + dx, y * mm + dy) for x, y in op.at]
    if pixels * painter.device().devicePixelRatioF() > LARGEST_GLYPH_PX:
        _paint_outlines(painter, font, op, places)
        return
    run = QGlyphRun()
    run.setRawFont(font)
    run.setGlyphIndexes(list(op.glyphs))
    run.setPositions(places)
    painter.setPen(op.colour)
    painter.drawGlyphRun(QPointF(0, 0), run)


def _paint_outlines(painter: QPainter, font: QRawFont, op: Word, places: list[QPointF]) -> None:
    for glyph, place in zip(op.glyphs, places, strict=True):
        painter.fillPath(font.pathForGlyph(glyph).translated(place), op.colour)


@lru_cache(512)
def _pen(pen: Pen, mm: float) -> QPen:
    wide = max(pen.width, LEAST_LINE_PX / mm)
    drawn = QPen(QColor(pen.colour), wide)
    drawn.setCapStyle(CAPS[pen.cap])
    drawn.setJoinStyle(JOINS[pen.join])
    if pen.dash:
        drawn.setDashPattern([length / wide for length in pen.dash])
    return drawn


@lru_cache(256)
def _raw_font(face: Face, pixels: float) -> QRawFont:
    return QRawFont(str(font_file(face)), pixels, QFont.HintingPreference.PreferNoHinting)


# --- compiling ------------------------------------------------------------------------------------------------------


def _ops(
    mark: Mark, about: dict[Subject, list[Op]], subjects: tuple[Subject, ...], pictures: Mapping[str, bytes]
) -> Iterator[Op]:
    if isinstance(mark, Group):
        inside = (*subjects, mark.subject) if mark.subject is not None else subjects
        for inner in mark.marks:
            yield from _ops(inner, about, inside, pictures)
        return
    for op in _compile(mark, pictures):
        for subject in subjects:
            about.setdefault(subject, []).append(op)
        yield op


def _compile(mark: Mark, pictures: Mapping[str, bytes]) -> Iterator[Op]:
    if isinstance(mark, Shape):
        parts = (mark.path,) if mark.fill is not None or len(mark.path) < LONG_PATH else _by_place(mark.path)
        yield from (_stroke(part, mark.fill, mark.pen) for part in parts)
    elif isinstance(mark, Text):
        yield from _words(mark)
    elif isinstance(mark, Stamp):
        yield from _stamp(mark)
    elif isinstance(mark, Hatch):
        yield _hatch(mark)
    elif isinstance(mark, PictureMark):
        yield _picture(mark, pictures.get(mark.picture))


def _picture(mark: PictureMark, content: bytes | None) -> Op:
    """Return a picture in its place; an outline where its bytes are not there or are none."""
    left, top, right, bottom = mark.bounds
    outline = QPainterPath()
    outline.addRect(QRectF(0, 0, right - left, bottom - top))
    outline = QTransform().translate(left, top).rotate(mark.angle).map(outline)
    if content is None or image_of(content) is None or outline.boundingRect().isEmpty():
        return Stroke(outline, None, Pen(0.3, "#8a8f96"), outline.boundingRect())
    return Picture(content, mark, outline.boundingRect())


def _qt_path(path: Path) -> QPainterPath:
    drawn = QPainterPath()
    drawn.setFillRule(Qt.FillRule.OddEvenFill)
    trace(path, move=drawn.moveTo, line=drawn.lineTo, curve=drawn.cubicTo, close=drawn.closeSubpath)
    return drawn


def _by_place(path: Path) -> Iterator[Path]:
    """Split lines all over a level by where each begins, so that only those in view need be painted."""
    found: dict[tuple[int, int], list[Segment]] = {}
    cell: list[Segment] = []
    for segment in path:
        letter, numbers = segment
        if letter == "M":
            cell = found.setdefault((int(numbers[0] // PLACE_MM), int(numbers[1] // PLACE_MM)), [])
        cell.append(segment)
    return map(tuple, found.values())


def _stroke(path: Path, fill: str | None, pen: Pen | None) -> Stroke:
    drawn = _qt_path(path)
    grow = pen.width if pen is not None else 0.0
    covers = drawn.boundingRect().adjusted(-grow - 0.01, -grow - 0.01, grow + 0.01, grow + 0.01)
    return Stroke(drawn, QBrush(QColor(fill)) if fill else None, pen, covers)


def _words(mark: Text) -> Iterator[Word]:
    x = mark.at[0] - width(mark.words, mark.size, mark.bold) * ANCHORS[mark.anchor]
    high = mark.size * MM_PER_POINT
    for run in runs(mark.words, mark.bold):
        steps = advances(run.words, mark.size, mark.bold)
        places, along = [], x
        for step in steps:
            places.append((along, mark.at[1]))
            along += step
        covers = QRectF(x, mark.at[1] - high, along - x, 1.4 * high)
        yield Word(run.face, _glyphs(run.face, run.words), tuple(places), mark.size, QColor(mark.colour), covers)
        x = along


@cache
def _glyphs(face: Face, words: str) -> tuple[int, ...]:
    return tuple(_raw_font(face, 16.0).glyphIndexesForString(words))


def _stamp(mark: Stamp) -> Iterator[Stroke]:
    for path, covers, fill, pen in _symbol(mark.symbol, mark.angle, mark.radius, mark.weight, mark.ink, mark.ground):
        yield Stroke(path.translated(*mark.at), fill, pen, covers.translated(*mark.at))


@lru_cache(1024)
def _symbol(
    name: str, angle: float, radius: float, weight: float, ink: str, ground: str | None
) -> tuple[tuple[QPainterPath, QRectF, QBrush | None, Pen | None], ...]:
    """Return a symbol's strokes about the origin: a plan stamps the same few many times."""
    found = []
    for stroke in strokes(name):
        path = turned(stroke.path, angle, size=radius)
        pen = Pen(weight * stroke.weight, ink, cap="round", join="round") if stroke.line else None
        drawn = _stroke(path, {"ink": ink, "ground": ground, None: None}[stroke.fill], pen)
        found.append((drawn.path, drawn.covers, drawn.fill, pen))
    return tuple(found)


def _hatch(mark: Hatch) -> Stroke:
    clip, lines = _qt_path(mark.path), QPainterPath()
    bounds = path_bounds(mark.path)
    pen = mark.pen
    if mark.dots:  # a row of dots is one dashed line: far fewer things to keep than squares
        wide = mark.pen.width
        pen = replace(mark.pen, dash=(wide, mark.spacing - wide))
        for y, first, last in dot_rows(bounds, mark.spacing):
            lines.moveTo(first * mark.spacing - wide / 2, y)
            lines.lineTo(last * mark.spacing + wide / 2, y)
    else:
        for a, b in hatch_lines(bounds, mark.angle, mark.spacing):
            lines.moveTo(*a)
            lines.lineTo(*b)
    return Stroke(lines, None, pen, clip.boundingRect(), clip)
