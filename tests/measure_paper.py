"""A sheet's marks drawn by reportlab alone, a symbol as one form for all its stamps: a yardstick of `tests.measure`.

Nothing here is cached, rounded or joined: it is what somebody writes who has the marks and the library's manual.
"""

from io import BytesIO

from reportlab.lib.colors import HexColor
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from floorplan_circuits.drawing.hatching import hatch_dots, hatch_lines
from floorplan_circuits.drawing.ink import Hatch, Path, Pen, Shape, Stamp, Text, flat, path_bounds
from floorplan_circuits.drawing.lettering import font_file
from floorplan_circuits.drawing.sheet import Sheet
from floorplan_circuits.drawing.symbols import strokes

MM = 72 / 25.4
Look = tuple[str, float, float, str, str | None]
CAPS, JOINS = {"butt": 0, "round": 1, "square": 2}, {"mitre": 0, "round": 1}


def drawn(sheet: Sheet) -> bytes:
    """Return the sheet as a PDF."""
    for name, face in (("BareRegular", "regular"), ("BareBold", "bold")):
        pdfmetrics.registerFont(TTFont(name, str(font_file(face))))  # type: ignore[arg-type]
    out, forms = BytesIO(), dict[Look, str]()
    canvas = Canvas(out, invariant=1, pageCompression=1)
    for page in sheet.pages:
        canvas.setPageSize((page.width * MM, page.height * MM))
        for mark in flat(page.ink):
            if isinstance(mark, Stamp):
                _form(canvas, mark, forms)
        canvas.transform(MM, 0, 0, -MM, 0, page.height * MM)
        for mark in flat(page.ink):
            if isinstance(mark, Shape):
                _shape(canvas, mark.path, mark.fill, mark.pen)
            elif isinstance(mark, Text):
                _text(canvas, mark)
            elif isinstance(mark, Stamp):
                canvas.saveState()
                canvas.translate(*mark.at)
                canvas.rotate(mark.angle)
                canvas.doForm(forms[_look(mark)])
                canvas.restoreState()
            elif isinstance(mark, Hatch):
                _hatch(canvas, mark)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def _look(mark: Stamp) -> Look:
    return mark.symbol, mark.radius, mark.weight, mark.ink, mark.ground


def _form(canvas: Canvas, mark: Stamp, forms: dict[Look, str]) -> None:
    look = _look(mark)
    if look in forms:
        return
    forms[look] = f"form{len(forms)}"
    canvas.beginForm(forms[look], *(side * 8 * mark.radius for side in (-1, -1, 1, 1)))
    canvas.scale(mark.radius, mark.radius)
    for stroke in strokes(mark.symbol):
        pen = Pen(mark.weight * stroke.weight / mark.radius, mark.ink, cap="round", join="round")
        fill = {"ink": mark.ink, "ground": mark.ground, None: None}[stroke.fill]
        _shape(canvas, stroke.path, fill, pen if stroke.line else None)
    canvas.endForm()


def _shape(canvas: Canvas, path: Path, fill: str | None, pen: Pen | None) -> None:
    if fill is not None:
        canvas.setFillColor(HexColor(fill))
    if pen is not None:
        _pen(canvas, pen)
    canvas.drawPath(_path(canvas, path), stroke=int(pen is not None), fill=int(fill is not None), fillMode=0)


def _pen(canvas: Canvas, pen: Pen) -> None:
    canvas.setStrokeColor(HexColor(pen.colour))
    canvas.setLineWidth(pen.width)
    canvas.setLineCap(CAPS[pen.cap])
    canvas.setLineJoin(JOINS[pen.join])
    canvas.setDash(list(pen.dash), 0)


def _path(canvas: Canvas, path: Path) -> object:
    made = canvas.beginPath()
    calls = {"M": made.moveTo, "L": made.lineTo, "C": made.curveTo, "Z": made.close}
    for letter, numbers in path:
        calls[letter](*numbers)
    return made


def _text(canvas: Canvas, mark: Text) -> None:
    canvas.saveState()
    canvas.transform(1 / MM, 0, 0, -1 / MM, *mark.at)
    canvas.setFillColor(HexColor(mark.colour))
    canvas.setFont("BareBold" if mark.bold else "BareRegular", mark.size)
    put = {"start": canvas.drawString, "middle": canvas.drawCentredString, "end": canvas.drawRightString}
    put[mark.anchor](0, 0, mark.words)
    canvas.restoreState()


def _hatch(canvas: Canvas, mark: Hatch) -> None:
    bounds, pen = path_bounds(mark.path), mark.pen
    canvas.saveState()
    canvas.clipPath(_path(canvas, mark.path), stroke=0, fill=0, fillMode=0)
    _pen(canvas, pen)
    if mark.dots:
        canvas.setFillColor(HexColor(pen.colour))
        for x, y in hatch_dots(bounds, mark.spacing):
            canvas.rect(x - pen.width / 2, y - pen.width / 2, pen.width, pen.width, stroke=0, fill=1)
    else:
        canvas.lines([(*a, *b) for a, b in hatch_lines(bounds, mark.angle, mark.spacing)])
    canvas.restoreState()
