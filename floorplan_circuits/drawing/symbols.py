"""The symbols of the plan: outlines from the resources, put at a place and an angle with their letters upright."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import pairwise
from types import MappingProxyType
from typing import Any, Literal

from floorplan_circuits.drawing.ink import (
    MM_PER_POINT,
    Bounds,
    Group,
    Mark,
    Path,
    Stamp,
    Text,
    circle,
    polygon,
    polyline,
    turned,
)
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.home.resources import read_json

RADIUS = 1.45
"""mm on paper of the circle most symbols have."""
WEIGHT = 0.28
"""mm on paper of a symbol's lines."""
SUBSCRIPT = 0.62
"""Size of a subscript to its letter; it hangs `DROP` of the letter's size below the baseline."""
DROP = 0.16
AIR = 0.2
"""What letters that stand past a symbol are kept free of all round, in units of its radius."""
FLATTEN = 8
"""Pieces a curve is cut into to measure it: off by less than 0.5 % of its radius."""

Fill = Literal["ink", "ground"]


@dataclass(frozen=True, slots=True)
class Stroke:
    """One path of a symbol in units of its radius: its fill, whether it has a line, how heavy beside the others."""

    path: Path
    fill: Fill | None
    line: bool = True
    weight: float = 1.0


@dataclass(frozen=True, slots=True)
class Letters:
    """Letters of a symbol that stay upright. All in units of the radius; `size` is the size of the letters.

    Their middle stands at `at`, or with `beyond` so far past it, as seen from the origin, that they never touch it.
    """

    words: str
    at: XY
    size: float
    sub: str = ""
    bold: bool = True
    beyond: float | None = None


@dataclass(frozen=True, slots=True)
class Symbol:
    """A symbol. On a wall the origin is the point on the wall and +x stands into the room; else it is the middle."""

    name: str
    mount: Literal["wall", "ceiling"]
    centre: XY
    strokes: tuple[Stroke, ...]
    letters: tuple[Letters, ...] = ()


# --- read from the resources ----------------------------------------------------------------------------------------


def _arc(x: float, y: float, radius: float, start: float, end: float) -> Path:
    """Return an arc, clockwise from `start` to `end` degrees, as curves of at most a quarter turn."""
    pieces = max(1, math.ceil(abs(end - start) / 90))
    step = math.radians((end - start) / pieces)
    handle = 4 / 3 * math.tan(step / 4)
    angles = [math.radians(start) + step * i for i in range(pieces + 1)]
    spots = [(math.cos(angle), math.sin(angle)) for angle in angles]
    path: list[tuple[str, tuple[float, ...]]] = [("M", spots[0])]
    for (ax, ay), (bx, by) in pairwise(spots):
        path.append(("C", (ax - handle * ay, ay + handle * ax, bx + handle * by, by - handle * bx, bx, by)))
    return turned(tuple(path), 0, (x, y), radius)


def _path(row: dict[str, Any]) -> Path:
    if "circle" in row:
        return circle(*row["circle"])
    if "polygon" in row:
        return polygon(*((x, y) for x, y in row["polygon"]))
    if "arc" in row:
        return (*_arc(*row["arc"]), *((("Z", ()),) if row.get("closed") else ()))
    return polyline(*((x, y) for x, y in row["line"]))


def _symbol(row: dict[str, Any]) -> Symbol:
    strokes = (
        Stroke(_path(each), each.get("fill"), each.get("outline", True), each.get("weight", 1.0))
        for each in row["strokes"]
    )
    letters = (Letters(**{**each, "at": tuple(each["at"])}) for each in row.get("letters", ()))
    return Symbol(row["name"], row["mount"], tuple(row["centre"]), tuple(strokes), tuple(letters))


@cache
def every_symbol() -> Mapping[str, Symbol]:
    """Return all symbols by name, in the order of the resources."""
    return MappingProxyType({row["name"]: _symbol(row) for row in read_json("symbols.json")["symbols"]})


def symbol(name: str) -> Symbol:
    """Return the symbol; an unknown name gets the plain one of a blank outlet."""
    known = every_symbol()
    return known.get(name, known["blank outlet"])


def strokes(name: str) -> tuple[Stroke, ...]:
    """Return what a surface draws for a `Stamp`, in order, in units of its radius; letters are marks beside it."""
    return symbol(name).strokes


# --- put at a place -------------------------------------------------------------------------------------------------


def _turn(spot: XY, angle: float) -> XY:
    cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    return spot[0] * cos - spot[1] * sin, spot[0] * sin + spot[1] * cos


def _extent(letters: Letters) -> tuple[float, float, float]:
    """Return the widths of letters and subscript and the height of a capital, in units of the radius."""
    em = letters.size / MM_PER_POINT
    return width(letters.words, em, letters.bold), width(letters.sub, em * SUBSCRIPT, letters.bold), cap_height(em)


@lru_cache(4096)
def _middle(letters: Letters, angle: float) -> XY:
    """Return the middle of upright letters of a symbol turned by `angle`, in units of the radius.

    Letters that stand beyond a point keep their distance at every angle, measured to the ellipse that holds them.
    """
    x, y = _turn(letters.at, angle)
    if letters.beyond is None:
        return x, y
    main, sub, tall = _extent(letters)
    cos, sin = _turn((1.0, 0.0), angle)
    away = letters.beyond + math.hypot((main + sub) / 2 * cos, tall / 2 * sin)
    return x + away * cos, y + away * sin


def _texts(letters: Letters, at: XY, angle: float, radius: float, ink: str) -> list[Text]:
    main, sub, tall = _extent(letters)
    x, y = _middle(letters, angle)
    left, foot = x - (main + sub) / 2, y + tall / 2
    size = letters.size * radius / MM_PER_POINT

    def spot(dx: float, dy: float) -> XY:
        return at[0] + (left + dx) * radius, at[1] + (foot + dy) * radius

    texts = [Text(spot(0, 0), letters.words, size, letters.bold, ink)]
    if letters.sub:
        drop = DROP * letters.size
        texts.append(Text(spot(main, drop), letters.sub, size * SUBSCRIPT, letters.bold, ink))
    return texts


def stamp(
    name: str,
    at: XY,
    angle: float,
    ink: str,
    ground: str | None,
    radius: float = RADIUS,
    weight: float = WEIGHT,
    subject: Subject | None = None,
) -> Group:
    """Return a symbol put on the sheet, turned clockwise by `angle` degrees, with its letters upright."""
    shape = symbol(name)
    marks: list[Mark] = [Stamp(shape.name, at, angle, radius, weight, ink, ground)]
    for letters in shape.letters:
        marks.extend(_texts(letters, at, angle, radius, ink))
    return Group(tuple(marks), subject)


# --- how much room it takes -----------------------------------------------------------------------------------------


def _curve(start: XY, numbers: tuple[float, ...]) -> Iterable[XY]:
    x1, y1, x2, y2, x3, y3 = numbers
    for i in range(1, FLATTEN + 1):
        t, u = i / FLATTEN, 1 - i / FLATTEN
        a, b, c, d = u**3, 3 * u * u * t, 3 * u * t * t, t**3
        yield a * start[0] + b * x1 + c * x2 + d * x3, a * start[1] + b * y1 + c * y2 + d * y3


def _spots(path: Path) -> Iterable[XY]:
    """Yield the points of a path, its curves cut into short lines."""
    here = (0.0, 0.0)
    for letter, numbers in path:
        if letter == "C":
            yield from _curve(here, numbers)
        if numbers:
            here = (numbers[-2], numbers[-1])
            yield here


def _around(spots: Iterable[XY], pad: float) -> Bounds:
    xs, ys = zip(*spots, strict=True)
    return min(xs) - pad, min(ys) - pad, max(xs) + pad, max(ys) + pad


def _letter_bounds(letters: Letters, angle: float) -> Bounds:
    main, sub, tall = _extent(letters)
    x, y = _middle(letters, angle)
    drop = DROP * letters.size if letters.sub else 0.0
    air = AIR if letters.beyond is not None else 0.0
    return x - (main + sub) / 2 - air, y - tall / 2 - air, x + (main + sub) / 2 + air, y + tall / 2 + drop + air


@lru_cache(4096)
def _bounds(name: str, angle: float, pad: float) -> Bounds:
    shape = symbol(name)
    boxes = [
        _around(_spots(turned(stroke.path, angle)), pad * stroke.weight if stroke.line else 0.0)
        for stroke in shape.strokes
    ]
    boxes += [_letter_bounds(letters, angle) for letters in shape.letters]
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return min(lefts), min(tops), max(rights), max(bottoms)


def bounds(name: str, at: XY, angle: float, radius: float = RADIUS, weight: float = WEIGHT) -> Bounds:
    """Return the box in mm that a symbol covers, letters and half its line included, for placing labels round it."""
    left, top, right, bottom = _bounds(name, angle, weight / 2 / radius)
    return at[0] + left * radius, at[1] + top * radius, at[0] + right * radius, at[1] + bottom * radius


def centre(name: str, at: XY, angle: float, radius: float = RADIUS) -> XY:
    """Return the middle of a symbol's body on the sheet, in mm: where a ring round it or a leader to it is centred."""
    x, y = _turn(symbol(name).centre, angle)
    return at[0] + x * radius, at[1] + y * radius
