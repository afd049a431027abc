"""The housing of an open box: plain metal, or yellow with a heavy edge where more than one circuit enters."""

from dataclasses import dataclass
from typing import Literal

from floorplan_circuits.drawing.close_up_bodies import Look
from floorplan_circuits.drawing.ink import Bounds, Mark, Path, Pen, Shape, circle, polygon, polyline, rectangle

Form = Literal["square", "eight-sided", "none"]
CORNER = 3.0
RIM = 1.7
"""How wide the yellow rim is, in parts of a gang's measure."""


@dataclass(frozen=True, slots=True)
class Housing:
    """How a box is built, and whether it goes on in the row before and after."""

    form: Form = "square"
    shared: bool = False
    outdoor: bool = False
    from_before: bool = False
    goes_on: bool = False


def inside(housing: Housing, area: Bounds, look: Look) -> list[Mark]:
    """Draw what lies behind everything in the box: its back, and outdoors the gasket round it."""
    if housing.form == "none":
        return []
    marks: list[Mark] = []
    if housing.outdoor:
        marks += _gasket(area, look)
    return [*marks, Shape(_outline(housing, area, look), look.theme.metal)]


def rim(housing: Housing, area: Bounds, look: Look) -> list[Mark]:
    """Draw the edge of the box over the cables that enter it; open, with a dashed end, where it goes on elsewhere."""
    if housing.form == "none":
        return []
    theme, u = look.theme, look.measure.u
    edge = _edge(housing, area, look)
    marks: list[Mark] = []
    if housing.shared:
        wide = max(1.0, RIM * u)
        marks.append(Shape(edge, None, Pen(wide + 0.9, theme.caution_ink, join="round")))
        marks.append(Shape(edge, None, Pen(wide, theme.caution, join="round")))
    else:
        marks.append(Shape(edge, None, Pen(0.6, theme.ink, join="round")))
    left, top, right, bottom = area
    cuts = [x for x, is_cut in ((left, housing.from_before), (right, housing.goes_on)) if is_cut]
    dashed = Pen(0.35, theme.soft, (1.0, 0.8))
    return [*marks, *(Shape(polyline((x, top), (x, bottom)), None, dashed) for x in cuts)]


def _outline(housing: Housing, area: Bounds, look: Look) -> Path:
    left, top, right, bottom = area
    if housing.form == "eight-sided":
        cut = _cut(area)
        upper = (left, top + cut), (left + cut, top), (right - cut, top), (right, top + cut)
        lower = (right, bottom - cut), (right - cut, bottom), (left + cut, bottom), (left, bottom - cut)
        return polygon(*upper, *lower)
    return rectangle(left, top, right - left, bottom - top, CORNER * look.measure.u)


def _cut(area: Bounds) -> float:
    """Return how much of each corner an eight-sided box lacks."""
    return 0.27 * min(area[2] - area[0], area[3] - area[1])


def _edge(housing: Housing, area: Bounds, look: Look) -> Path:
    """Return the outline, or the part of it that is not open to another row."""
    if not (housing.from_before or housing.goes_on):
        return _outline(housing, area, look)
    left, top, right, bottom = area
    upper, lower = polyline((left, top), (right, top)), polyline((left, bottom), (right, bottom))
    if housing.from_before and housing.goes_on:
        return (*upper, *lower)
    if housing.goes_on:
        return polyline((right, top), (left, top), (left, bottom), (right, bottom))
    return polyline((left, top), (right, top), (right, bottom), (left, bottom))


def _gasket(area: Bounds, look: Look) -> list[Mark]:
    """Draw the rubber and the cover's screws round a box outdoors."""
    (left, top, right, bottom), u, theme = area, look.measure.u, look.theme
    grow = 2.4 * u
    wide, high = right - left + 2 * grow, bottom - top + 2 * grow
    pen = Pen(0.3, theme.ink)
    marks: list[Mark] = [Shape(rectangle(left - grow, top - grow, wide, high, CORNER * u + grow), theme.paper, pen)]
    for x in (left + 0.6 * u, right - 0.6 * u):
        for y in (top - 0.1 * u, bottom + 0.1 * u):
            marks.append(Shape(circle(x, y, 1.5 * u), theme.metal, pen))
    return marks
