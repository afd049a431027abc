"""The PDF surface: ink on pages of a file, text as searchable text in embedded typefaces, symbols as forms."""

from collections.abc import Mapping
from functools import cache
from io import BytesIO

from reportlab import rl_config
from reportlab.lib.colors import Color, HexColor
from reportlab.lib.utils import ImageReader
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from floorplan_circuits.drawing.hatching import dot_rows, hatch_lines
from floorplan_circuits.drawing.ink import (
    Group,
    Hatch,
    Ink,
    Mark,
    Path,
    Pen,
    PictureMark,
    Shape,
    Stamp,
    Text,
    path_bounds,
    polyline,
    rectangle,
)
from floorplan_circuits.drawing.lettering import Face, font_file, runs, width
from floorplan_circuits.drawing.sheet import Sheet
from floorplan_circuits.drawing.symbols import strokes
from floorplan_circuits.surfaces.stored_pictures import prepared

POINTS_PER_MM = 72 / 25.4
FONT_NAMES: dict[Face, str] = {"regular": "FloorplanRegular", "bold": "FloorplanBold", "fallback": "FloorplanFallback"}
LANGUAGE = "en"
rl_config.useA85 = 0
"""Streams as they are: wrapped in letters each would be a quarter larger, and take longer."""
CAPS = {"butt": 0, "round": 1, "square": 2}
JOINS = {"mitre": 0, "round": 1}
OPERATORS = {"M": "m", "L": "l", "C": "c", "Z": "h"}
"""What PDF calls the steps of a path (PDF 32000-1, table 59)."""
DIGITS = 3
"""Digits after the point of a place in a path: a thousandth of a mm, far finer than any printer."""


@cache
def _font(face: Face) -> str:
    """Register a typeface with the PDF library once, and return its name there."""
    pdfmetrics.registerFont(TTFont(FONT_NAMES[face], str(font_file(face))))
    return FONT_NAMES[face]


BLENDS = {"darken": "Multiply", "lighten": "Screen"}
"""Their names in PDF (ISO 32000-1, table 136)."""


@cache
def _colour(colour: str) -> Color:
    return HexColor(colour)


class PdfSurface:
    """A PDF document in the making. Equal ink gives equal bytes."""

    def __init__(self, title: str, pictures: Mapping[str, bytes] | None = None) -> None:
        self._out = BytesIO()
        self._canvas = Canvas(self._out, invariant=1, pageCompression=1, lang=LANGUAGE)
        self._canvas.setTitle(title)
        self._canvas.setCreator("Floorplan Circuits")
        self._canvas.setAuthor("")
        self._canvas.setSubject("Which breaker feeds what")
        self._canvas.setViewerPreference("DisplayDocTitle", "true")
        self._pictures = pictures or {}
        self._forms: dict[Stamp, str] = {}

    def page(self, width: float, height: float, ink: Ink, name: str = "") -> None:
        """Put down one page of this size in mm; ink has its origin at the top left, y down. `name` bookmarks it."""
        canvas = self._canvas
        canvas.setPageSize((width * POINTS_PER_MM, height * POINTS_PER_MM))
        if name:
            key = f"page{canvas.getPageNumber()}"
            canvas.bookmarkPage(key)
            canvas.addOutlineEntry(name, key)
        for stamp in dict.fromkeys(_form_of(mark) for mark in _stamps(ink)):
            self._form(stamp)
        canvas.saveState()
        canvas.transform(POINTS_PER_MM, 0, 0, -POINTS_PER_MM, 0, height * POINTS_PER_MM)
        self._put(ink)
        canvas.restoreState()
        canvas.showPage()

    def finish(self) -> bytes:
        """Return the document."""
        self._canvas.save()
        return self._out.getvalue()

    # --- marks ------------------------------------------------------------------------------------------------------

    def _put(self, mark: Mark) -> None:
        if isinstance(mark, Group):
            for inner in mark.marks:
                self._put(inner)
        elif isinstance(mark, Shape):
            self._shape(mark)
        elif isinstance(mark, Text):
            self._text(mark)
        elif isinstance(mark, Stamp):
            self._stamp(mark)
        elif isinstance(mark, Hatch):
            self._hatch(mark)
        else:
            self._picture(mark)

    def _shape(self, mark: Shape) -> None:
        if mark.fill is not None:
            self._canvas.setFillColor(_colour(mark.fill))
        if mark.pen is not None:
            self._pen(mark.pen)
        path = self._path(mark.path)
        self._canvas.drawPath(path, stroke=int(mark.pen is not None), fill=int(mark.fill is not None), fillMode=0)

    def _pen(self, pen: Pen) -> None:
        canvas = self._canvas
        canvas.setStrokeColor(_colour(pen.colour))
        canvas.setLineWidth(pen.width)
        canvas.setLineCap(CAPS[pen.cap])
        canvas.setLineJoin(JOINS[pen.join])
        canvas.setDash(*((list(pen.dash), 0) if pen.dash else ([], 0)))

    def _path(self, path: Path) -> PDFPathObject:
        return PDFPathObject([_step(letter, numbers) for letter, numbers in path])

    def _text(self, mark: Text) -> None:
        canvas = self._canvas
        x = (
            mark.at[0]
            - width(mark.words, mark.size, mark.bold) * {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor]
        )
        canvas.setFillColor(_colour(mark.colour))
        canvas.saveState()
        canvas.transform(1 / POINTS_PER_MM, 0, 0, -1 / POINTS_PER_MM, x, mark.at[1])
        along = 0.0
        for run in runs(mark.words, mark.bold):
            canvas.setFont(_font(run.face), mark.size)
            canvas.drawString(along, 0, run.words)
            along += width(run.words, mark.size, mark.bold) * POINTS_PER_MM
        canvas.restoreState()

    def _hatch(self, mark: Hatch) -> None:
        canvas, bounds = self._canvas, path_bounds(mark.path)
        canvas.saveState()
        canvas.clipPath(self._path(mark.path), stroke=0, fill=0, fillMode=0)
        self._pen(mark.pen)
        if mark.dots:  # a row of dots is one line, dashed: each dot by itself would be most of the file
            dot = mark.pen.width
            canvas.setDash([dot, mark.spacing - dot], 0)
            canvas.lines([
                (first * mark.spacing - dot / 2, y, last * mark.spacing + dot / 2, y)
                for y, first, last in dot_rows(bounds, mark.spacing)
            ])  # fmt: skip
        else:
            canvas.lines([(*a, *b) for a, b in hatch_lines(bounds, mark.angle, mark.spacing)])
        canvas.restoreState()

    def _picture(self, mark: PictureMark) -> None:
        left, top, right, bottom = mark.bounds
        canvas = self._canvas
        content = self._pictures.get(mark.picture)
        content = prepared(content, mark) if content is not None else None
        if content is None:
            self._shape(Shape(_crossed(mark), None, Pen(0.3, "#14181d")))
            return
        canvas.saveState()
        canvas.translate(left, top)
        canvas.rotate(mark.angle)
        if mark.strength < 1:
            canvas.setFillAlpha(mark.strength)
        if mark.blend != "plain":
            canvas.setBlendMode(BLENDS[mark.blend])
        canvas.transform(1, 0, 0, -1, 0, bottom - top)
        canvas.drawImage(ImageReader(BytesIO(content)), 0, 0, right - left, bottom - top, mask="auto")
        canvas.restoreState()

    # --- symbols ----------------------------------------------------------------------------------------------------

    def _stamp(self, mark: Stamp) -> None:
        canvas = self._canvas
        canvas.saveState()
        canvas.translate(*mark.at)
        canvas.rotate(mark.angle)
        canvas.doForm(self._form(_form_of(mark)))
        canvas.restoreState()

    def _form(self, stamp: Stamp) -> str:
        """Return the name of the form for a symbol of this size and colour, made once a document."""
        if stamp not in self._forms:
            name = f"symbol{len(self._forms)}"
            self._forms[stamp] = name
            reach = 8 * stamp.radius
            self._canvas.beginForm(name, -reach, -reach, reach, reach)
            self._canvas.scale(stamp.radius, stamp.radius)
            for stroke in strokes(stamp.symbol):
                pen = Pen(stamp.weight * stroke.weight / stamp.radius, stamp.ink, cap="round", join="round")
                colour = {"ink": stamp.ink, "ground": stamp.ground, None: None}[stroke.fill]
                self._shape(Shape(stroke.path, colour, pen if stroke.line else None))
            self._canvas.endForm()
        return self._forms[stamp]


def _step(letter: str, numbers: tuple[float, ...]) -> str:
    """Return one step of a path as PDF writes it: the library's own way takes several times as long."""
    return " ".join((*(f"{round(number, DIGITS):.9g}" for number in numbers), OPERATORS[letter]))


def _stamps(mark: Mark) -> list[Stamp]:
    if isinstance(mark, Group):
        return [stamp for inner in mark.marks for stamp in _stamps(inner)]
    return [mark] if isinstance(mark, Stamp) else []


def _form_of(stamp: Stamp) -> Stamp:
    return Stamp(stamp.symbol, (0.0, 0.0), 0.0, stamp.radius, stamp.weight, stamp.ink, stamp.ground)


def _crossed(mark: PictureMark) -> Path:
    """Return the outline that stands for a picture whose bytes are not there: a crossed rectangle."""
    left, top, right, bottom = mark.bounds
    outline = rectangle(left, top, right - left, bottom - top)
    return (*outline, *polyline((left, top), (right, bottom)), *polyline((right, top), (left, bottom)))


def pdf_of(sheet: Sheet, pictures: Mapping[str, bytes] | None = None) -> bytes:
    """Return a whole sheet as one PDF document."""
    surface = PdfSurface(sheet.title, pictures)
    for page in sheet.pages:
        surface.page(page.width, page.height, page.ink, page.name)
    return surface.finish()
