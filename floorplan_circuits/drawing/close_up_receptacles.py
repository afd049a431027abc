"""A receptacle with the plate off: one body or two, its outlets, and the wires that link them."""

from collections.abc import Sequence

from floorplan_circuits.drawing.close_up_bodies import (
    SCREWS,
    TALL,
    Face,
    Look,
    body_marks,
    body_width,
    ends_over,
    feed_plate,
    list_high,
    listed_plates,
    terminals,
)
from floorplan_circuits.drawing.close_up_facts import Strand
from floorplan_circuits.drawing.close_up_outlets import Outlets, outlets
from floorplan_circuits.drawing.ink import Mark, Pen, Shape, polyline
from floorplan_circuits.findings import XY


def receptacle(shape: Outlets, strands: Sequence[Strand], middle: XY, room: float, look: Look) -> Face:
    """Draw a receptacle about its middle."""
    (x, y), u = middle, look.measure.u
    listed = list_high(strands, look.measure) if shape.lists else 0.0
    high = max(TALL * u, 26 * u + listed + 3 * u if shape.lists else 0.0)
    wide = look.measure.body if not shape.lists else body_width(strands, look.measure.body, room, look)
    marks: list[Mark] = []
    bodies = [x] if shape.bodies == 1 else [x - look.measure.pitch / 2, x + look.measure.pitch / 2]
    for at in bodies:
        marks += terminals((at, y), wide, (-high * SCREWS, high * SCREWS), look)
        marks += body_marks((at, y), wide, high, look, corner=2.0)
    if shape.bodies == 2 and not shape.lists and not shape.parts:
        marks += _links(bodies, y, wide, high, look)
    drawn, spots = outlets(shape, bodies, (y - high / 2, y + high / 2), look.theme, u, look.blades)
    marks += drawn
    if shape.lists:
        marks += listed_plates(strands, (x, y - high / 2 + 26 * u), room - 1, look)
    else:
        marks += [feed_plate(one, spot, look) for one, spot in zip(strands, spots, strict=True)]
    return Face(tuple(marks), high, _ends(shape, strands, spots, middle, wide, high, look))


def _links(bodies: Sequence[float], y: float, wide: float, high: float, look: Look) -> list[Mark]:
    """Draw the short wires that let one feed supply two bodies."""
    left, right, u = bodies[0] + wide / 2, bodies[1] - wide / 2, look.measure.u
    pen = Pen(max(0.5, 1.0 * u), look.theme.soft)
    return [
        Shape(polyline((left, y + side * high * SCREWS), (right, y + side * high * SCREWS)), None, pen)
        for side in (-1, 1)
    ]


def _ends(
    shape: Outlets, strands: Sequence[Strand], spots: Sequence[XY], middle: XY, wide: float, high: float, look: Look
) -> tuple[tuple[XY, str], ...]:
    """Let the wires of two halves go down the two sides, to the half that each feeds; else to the top or the foot."""
    together = len({one.from_below for one in strands}) == 1
    apart = len(strands) == 2 and strands[0].plate != strands[1].plate
    if shape.bodies == 1 and not shape.lists and together and apart:
        inset = wide / 2 - 0.5 * look.measure.u
        sides = (("left", middle[0] - inset), ("right", middle[0] + inset))
        screws = (middle[1] + (high * SCREWS if spot[1] > middle[1] else -high * SCREWS) for spot in spots)
        return tuple(((x, y), way) for (way, x), y in zip(sides, screws, strict=True))
    if shape.bodies == 2 and not shape.lists:
        over = ends_over(strands, middle, high, look)
        half = look.measure.pitch / 2
        xs = [middle[0] + (half if spot[0] > middle[0] else -half) for spot in spots]
        return tuple(((x, at[1]), way) for (at, way), x in zip(over, xs, strict=True))
    return ends_over(strands, middle, high, look)
