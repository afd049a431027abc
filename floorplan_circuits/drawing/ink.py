"""Ink: the closed set of frozen marks that every picture is made of and every surface can put down.

Everything is in paper millimetres, x right, y down; letters are sized in points (1/72 inch). A colour is '#rrggbb'.
"""

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from operator import add
from typing import Literal

from floorplan_circuits.findings import XY, Subject

MM_PER_POINT = 25.4 / 72

Segment = tuple[str, tuple[float, ...]]
"""('M', (x, y)), ('L', (x, y)), ('C', (x1, y1, x2, y2, x, y)) or ('Z', ())."""
Path = tuple[Segment, ...]
Bounds = tuple[float, float, float, float]
"""Left, top, right, bottom."""


@dataclass(frozen=True, slots=True)
class Pen:
    """A line: width in mm, colour, dashes in mm (on, off, …)."""

    width: float
    colour: str
    dash: tuple[float, ...] = ()
    cap: Literal["butt", "round", "square"] = "butt"
    join: Literal["mitre", "round"] = "mitre"


@dataclass(frozen=True, slots=True)
class Shape:
    """A path, filled (even-odd), lined, or both."""

    path: Path
    fill: str | None = None
    pen: Pen | None = None


@dataclass(frozen=True, slots=True)
class Text:
    """Words on a baseline. `anchor` tells which end stands at `at`."""

    at: XY
    words: str
    size: float
    bold: bool = False
    colour: str = "#14181d"
    anchor: Literal["start", "middle", "end"] = "start"


@dataclass(frozen=True, slots=True)
class Stamp:
    """A symbol from the resources: drawn in units of `radius` mm, turned by `angle` degrees clockwise on the sheet."""

    symbol: str
    at: XY
    angle: float = 0.0
    radius: float = 1.45
    weight: float = 0.28
    ink: str = "#14181d"
    ground: str | None = "#ffffff"


@dataclass(frozen=True, slots=True)
class Hatch:
    """Parallel lines clipped to a path, on one grid for the whole sheet; or dots, for what nobody knows.

    `angle` is as the eye reads it: 0 level, 45 rising to the right, 90 upright.
    """

    path: Path
    pen: Pen
    angle: float
    spacing: float
    dots: bool = False


@dataclass(frozen=True, slots=True)
class PictureMark:
    """A stored picture, by its hash, filling a rectangle that is then turned clockwise about its top left corner.

    `strength` is how much of it is left, from 0 to 1. `blend` tells how it meets what lies under it: its lines darken
    that, or, on a dark ground, lighten it; its white leaves it as it is. `corners` are four places of the picture in
    pixels, from the top left clockwise: what lies between them, as seen aslant, fills the rectangle straight.
    """

    picture: str
    bounds: Bounds
    angle: float = 0.0
    strength: float = 1.0
    blend: Literal["plain", "darken", "lighten"] = "plain"
    corners: tuple[XY, XY, XY, XY] | None = None


@dataclass(frozen=True, slots=True)
class Group:
    """Marks that belong together, about one subject if any. `name` is what a screen reader says."""

    marks: "tuple[Mark, ...]"
    subject: Subject | None = None
    name: str = ""


Mark = Shape | Text | Stamp | Hatch | PictureMark | Group
Ink = Group
"""A picture: the outermost group."""


# --- building paths -------------------------------------------------------------------------------------------------

KAPPA = 0.5522847498
"""Handle length of the cubic curve that comes nearest to a quarter circle of radius 1."""


def polyline(*points: XY) -> Path:
    """Return an open line through the points."""
    first, *rest = points
    return (("M", first), *(("L", point) for point in rest))


def polygon(*points: XY) -> Path:
    """Return a closed outline through the points."""
    return (*polyline(*points), ("Z", ()))


Step = Callable[..., object]


def trace(path: Path, *, move: Step, line: Step, curve: Step, close: Step) -> None:
    """Follow a path with a surface's own calls: each takes the numbers of its letter."""
    steps = {"M": move, "L": line, "C": curve, "Z": close}
    for letter, numbers in path:
        steps[letter](*numbers)


def rectangle(x: float, y: float, width: float, height: float, corner: float = 0.0) -> Path:
    """Return a rectangle from its top left corner, its corners rounded by `corner`."""
    right, bottom = x + width, y + height
    c = min(corner, width / 2, height / 2)
    if c <= 0:
        return polygon((x, y), (right, y), (right, bottom), (x, bottom))
    k = c * (1 - KAPPA)
    return (
        ("M", (x + c, y)),
        ("L", (right - c, y)),
        ("C", (right - k, y, right, y + k, right, y + c)),
        ("L", (right, bottom - c)),
        ("C", (right, bottom - k, right - k, bottom, right - c, bottom)),
        ("L", (x + c, bottom)),
        ("C", (x + k, bottom, x, bottom - k, x, bottom - c)),
        ("L", (x, y + c)),
        ("C", (x, y + k, x + k, y, x + c, y)),
        ("Z", ()),
    )


def circle(x: float, y: float, radius: float) -> Path:
    """Return a circle as four curves."""
    return rectangle(x - radius, y - radius, 2 * radius, 2 * radius, radius)


def turned(path: Path, angle: float, at: XY = (0.0, 0.0), size: float = 1.0) -> Path:
    """Return the path scaled by `size`, turned clockwise by `angle` degrees, then moved to `at`."""
    cos, sin = math.cos(math.radians(angle)) * size, math.sin(math.radians(angle)) * size

    def place(numbers: tuple[float, ...]) -> tuple[float, ...]:
        pairs = zip(numbers[::2], numbers[1::2], strict=True)
        return tuple(value for x, y in pairs for value in (at[0] + x * cos - y * sin, at[1] + x * sin + y * cos))

    return tuple((letter, place(numbers)) for letter, numbers in path)


def moved(mark: Mark, dx: float, dy: float) -> Mark:
    """Return the mark moved by (dx, dy) mm."""
    if isinstance(mark, Group):
        return replace(mark, marks=tuple(moved(inner, dx, dy) for inner in mark.marks))
    if isinstance(mark, Shape | Hatch):
        return replace(mark, path=_shifted(mark.path, dx, dy))
    if isinstance(mark, PictureMark):
        left, top, right, bottom = mark.bounds
        return replace(mark, bounds=(left + dx, top + dy, right + dx, bottom + dy))
    return replace(mark, at=(mark.at[0] + dx, mark.at[1] + dy))


def _shifted(path: Path, dx: float, dy: float) -> Path:
    """Move a path: most of what is put on a sheet is only moved, and turning by nothing takes twice as long."""
    steps = (dx, dy) * 3
    return tuple((letter, tuple(map(add, numbers, steps))) for letter, numbers in path)


def scaled(mark: Mark, size: float) -> Mark:
    """Return the mark with everything `size` times as large: places, letters, pens."""
    if isinstance(mark, Group):
        return replace(mark, marks=tuple(scaled(inner, size) for inner in mark.marks))
    if isinstance(mark, Shape):
        return Shape(turned(mark.path, 0, size=size), mark.fill, _thicker(mark.pen, size) if mark.pen else None)
    if isinstance(mark, Hatch):
        pen = _thicker(mark.pen, size)
        return replace(mark, path=turned(mark.path, 0, size=size), pen=pen, spacing=mark.spacing * size)
    if isinstance(mark, PictureMark):
        left, top, right, bottom = mark.bounds
        return replace(mark, bounds=(left * size, top * size, right * size, bottom * size))
    at = (mark.at[0] * size, mark.at[1] * size)
    if isinstance(mark, Text):
        return replace(mark, at=at, size=mark.size * size)
    return replace(mark, at=at, radius=mark.radius * size, weight=mark.weight * size)


def _thicker(pen: Pen, size: float) -> Pen:
    return replace(pen, width=pen.width * size, dash=tuple(length * size for length in pen.dash))


def path_bounds(path: Path) -> Bounds:
    """Return the box round a path's points and handles. Raises ValueError on an empty path."""
    numbers = [number for _, values in path for number in values]
    xs, ys = numbers[::2], numbers[1::2]
    return min(xs), min(ys), max(xs), max(ys)


def flat(mark: Mark) -> Iterator[Mark]:
    """Yield the marks inside all groups, in the order they are drawn."""
    if isinstance(mark, Group):
        for inner in mark.marks:
            yield from flat(inner)
    else:
        yield mark
