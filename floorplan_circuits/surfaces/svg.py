"""The SVG surface: one page of ink as one file. Text stays text, in typefaces that the file carries with it."""

from base64 import b64encode
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from xml.sax.saxutils import escape, quoteattr

from floorplan_circuits.drawing.hatching import hatch_dots, hatch_lines
from floorplan_circuits.drawing.ink import (
    MM_PER_POINT,
    Group,
    Hatch,
    Ink,
    Mark,
    Path,
    Pen,
    PictureMark,
    Shape,
    Stamp,
    Step,
    Text,
    path_bounds,
    polyline,
    rectangle,
    trace,
)
from floorplan_circuits.drawing.lettering import Face, font_file, runs, width
from floorplan_circuits.drawing.sheet import Page
from floorplan_circuits.drawing.symbols import strokes
from floorplan_circuits.surfaces.stored_pictures import prepared

FAMILIES: dict[Face, str] = {"regular": "Plan", "bold": "Plan Bold", "fallback": "Plan Fallback"}
JOINS = {"mitre": "miter", "round": "round"}
ANCHORS = {"start": 0.0, "middle": 0.5, "end": 1.0}
LANGUAGE = "en"
Pictures = Mapping[str, bytes]


def svg_of(page: Page, title: str, pictures: Pictures | None = None) -> bytes:
    """Return one page as an SVG document in UTF-8, a user unit a millimetre. Equal ink gives equal bytes."""
    writer = _Writer(pictures or {})
    body = "\n".join(writer.lines(page.ink))
    wide, high = _number(page.width), _number(page.height)
    document = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" lang="{LANGUAGE}" '
        f'xml:lang="{LANGUAGE}" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}">',
        f"<title>{escape(title)}</title>",
        f"<style>{''.join(_font_face(face) for face in FAMILIES if face in writer.faces)}"
        "text{font-kerning:none;font-variant-ligatures:none;white-space:pre}</style>",
        f"<defs>{''.join(writer.defs)}</defs>",
        f'<rect width="{wide}" height="{high}" fill="#ffffff"/>',
        body,
        "</svg>\n",
    ]
    return "\n".join(document).encode("utf-8")


@cache
def _font_face(face: Face) -> str:
    """Return the rule that carries a typeface in the document."""
    data = b64encode(font_file(face).read_bytes()).decode("ascii")
    return f'@font-face{{font-family:"{FAMILIES[face]}";src:url(data:font/ttf;base64,{data})}}'


@dataclass(slots=True)
class _Writer:
    """Writes marks as elements; symbols and clips are defined once and used by name."""

    pictures: Pictures
    defs: list[str] = field(default_factory=list)
    faces: set[Face] = field(default_factory=set)
    _symbols: dict[Stamp, str] = field(default_factory=dict)
    _clips: int = 0

    def lines(self, mark: Mark) -> Iterator[str]:
        """Yield the elements of a mark in the order they are drawn."""
        if isinstance(mark, Group):
            yield from self._group(mark)
        elif isinstance(mark, Shape):
            yield _path(mark.path, mark.fill, mark.pen)
        elif isinstance(mark, Text):
            yield from self._text(mark)
        elif isinstance(mark, Stamp):
            place = f"translate({_number(mark.at[0])} {_number(mark.at[1])}) rotate({_number(mark.angle)})"
            yield f'<use xlink:href="#{self._symbol(mark)}" transform="{place}"/>'
        elif isinstance(mark, Hatch):
            yield from self._hatch(mark)
        else:
            yield from self._picture(mark)

    def _group(self, mark: Ink) -> Iterator[str]:
        """Write a group; one with a name says it to whoever reads the picture aloud."""
        if mark.name:
            yield f'<g role="img" aria-label={quoteattr(mark.name)}><title>{escape(mark.name)}</title>'
        for inner in mark.marks:
            yield from self.lines(inner)
        if mark.name:
            yield "</g>"

    def _text(self, mark: Text) -> Iterator[str]:
        """Write words run by run, each at its own place: the same as on every other surface."""
        x = mark.at[0] - width(mark.words, mark.size, mark.bold) * ANCHORS[mark.anchor]
        for run in runs(mark.words, mark.bold):
            self.faces.add(run.face)
            yield (
                f'<text x="{_number(x)}" y="{_number(mark.at[1])}" fill="{mark.colour}" '
                f'font-family="{FAMILIES[run.face]}" font-size="{_number(mark.size * MM_PER_POINT)}">'
                f"{escape(run.words)}</text>"
            )
            x += width(run.words, mark.size, mark.bold)

    def _symbol(self, stamp: Stamp) -> str:
        """Return the name of a symbol of this size and colour, defined once."""
        plain = Stamp(stamp.symbol, (0.0, 0.0), 0.0, stamp.radius, stamp.weight, stamp.ink, stamp.ground)
        if plain not in self._symbols:
            name = f"symbol{len(self._symbols)}"
            self._symbols[plain] = name
            parts = []
            for stroke in strokes(stamp.symbol):
                pen = Pen(stamp.weight * stroke.weight / stamp.radius, stamp.ink, cap="round", join="round")
                fill = {"ink": stamp.ink, "ground": stamp.ground, None: None}[stroke.fill]
                parts.append(_path(stroke.path, fill, pen if stroke.line else None))
            self.defs.append(f'<g id="{name}"><g transform="scale({_number(stamp.radius)})">{"".join(parts)}</g></g>')
        return self._symbols[plain]

    def _hatch(self, mark: Hatch) -> Iterator[str]:
        name = f"clip{self._clips}"
        self._clips += 1
        self.defs.append(f'<clipPath id="{name}"><path d="{_steps(mark.path)}" clip-rule="evenodd"/></clipPath>')
        bounds = path_bounds(mark.path)
        if mark.dots:
            half = mark.pen.width / 2
            squares = (rectangle(x - half, y - half, 2 * half, 2 * half) for x, y in hatch_dots(bounds, mark.spacing))
            drawn = _path(tuple(step for square in squares for step in square), mark.pen.colour, None)
        else:
            lines = (polyline(a, b) for a, b in hatch_lines(bounds, mark.angle, mark.spacing))
            drawn = _path(tuple(step for line in lines for step in line), None, mark.pen)
        yield f'<g clip-path="url(#{name})">{drawn}</g>'

    def _picture(self, mark: PictureMark) -> Iterator[str]:
        left, top, right, bottom = mark.bounds
        content = self.pictures.get(mark.picture)
        content = prepared(content, mark) if content is not None else None
        if content is None:  # its bytes are not there: a crossed rectangle stands for it
            crossed = (*rectangle(left, top, right - left, bottom - top), *polyline((left, top), (right, bottom)))
            yield _path((*crossed, *polyline((right, top), (left, bottom))), None, Pen(0.3, "#14181d"))
            return
        media = "image/png" if content.startswith(b"\x89PNG") else "image/jpeg"
        yield (
            f'<image x="{_number(left)}" y="{_number(top)}" width="{_number(right - left)}" '
            f'height="{_number(bottom - top)}" preserveAspectRatio="none" {_looks(mark)}'
            f'xlink:href="data:{media};base64,{b64encode(content).decode("ascii")}"/>'
        )


BLENDS = {"darken": "multiply", "lighten": "screen"}
"""Their names in CSS (Compositing and Blending Level 1)."""


def _looks(mark: PictureMark) -> str:
    """Return how a picture is turned, faded and blended, as attributes; none for one that is put down plain."""
    left, top, *_ = mark.bounds
    looks = []
    if mark.angle:
        looks.append(f'transform="rotate({_number(mark.angle)} {_number(left)} {_number(top)})" ')
    if mark.strength < 1:
        looks.append(f'opacity="{_number(mark.strength)}" ')
    if mark.blend != "plain":
        looks.append(f'style="mix-blend-mode:{BLENDS[mark.blend]}" ')
    return "".join(looks)


def _path(path: Path, fill: str | None, pen: Pen | None) -> str:
    if not path:
        return ""
    looks = [f'fill="{fill}" fill-rule="evenodd"' if fill is not None else 'fill="none"']
    if pen is not None:
        looks.append(f'stroke="{pen.colour}" stroke-width="{_number(pen.width)}"')
        looks += [f'stroke-dasharray="{" ".join(map(_number, pen.dash))}"'] if pen.dash else []
        looks += [f'stroke-linecap="{pen.cap}"'] if pen.cap != "butt" else []
        looks += [f'stroke-linejoin="{JOINS[pen.join]}"'] if pen.join != "mitre" else []
    return f'<path d="{_steps(path)}" {" ".join(looks)}/>'


def _steps(path: Path) -> str:
    steps: list[str] = []

    def step(letter: str) -> Step:
        return lambda *numbers: steps.append(letter + " ".join(map(_number, numbers)))

    trace(path, move=step("M"), line=step("L"), curve=step("C"), close=step("Z"))
    return "".join(steps)


def _number(value: float) -> str:
    """Return a number to the thousandth of a millimetre without zeros at its end."""
    return f"{value:.3f}".rstrip("0").rstrip(".") if value % 1 else str(int(value))
