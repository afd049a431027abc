"""Devices as they look with the plate off: switches, receptacles, fixtures and splices, each feed with its plate."""

from collections.abc import Sequence

from floorplan_circuits.drawing.close_up_bodies import (
    EDGE,
    PART_SIZE,
    TALL,
    Face,
    Look,
    body_width,
    ends_over,
    list_high,
    listed_plates,
    screw,
)
from floorplan_circuits.drawing.close_up_facts import Gang, Strand
from floorplan_circuits.drawing.close_up_outlets import outlets_of
from floorplan_circuits.drawing.close_up_receptacles import receptacle
from floorplan_circuits.drawing.close_up_switches import switch
from floorplan_circuits.drawing.ink import Mark, Pen, Shape, Text, polygon, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, fits
from floorplan_circuits.drawing.symbols import bounds, stamp, symbol
from floorplan_circuits.findings import XY
from floorplan_circuits.home.kinds import kind_named

FIXTURE, SYMBOL_BOX = 26.0, 15.0
CAP_WIDE, CAP_HIGH = 6.5, 8.0


def face(gang: Gang, strands: Sequence[Strand], middle: XY, room: float, look: Look) -> Face:
    """Draw a device, or an empty place, about its middle in a column `room` mm wide."""
    if gang.device is None:
        return _empty(middle, room, look)
    kind = kind_named(gang.device.kind)
    if gang.device.kind == "loose cable end":
        return _bare_ends(strands, middle, room, look)
    if kind.holds_cables:
        return _splice(strands, middle, room, look)
    if kind.group == "switch":
        return switch(kind.symbol, strands, middle, room, look)
    if kind.group == "receptacle":
        return receptacle(outlets_of(kind.symbol, strands), strands, middle, room, look)
    return _fixture(kind.symbol, strands, middle, room, look)


def _fixture(name: str, strands: Sequence[Strand], middle: XY, room: float, look: Look) -> Face:
    (x, y), u, theme = middle, look.measure.u, look.theme
    high = (SYMBOL_BOX + 7) * u + list_high(strands, look.measure) + 2 * u
    wide = body_width(strands, FIXTURE * u * 0.86, room - 4 * u, look)
    bar = min(wide + 5 * u, room - 0.4)
    pen = Pen(EDGE, theme.ink, join="round")
    top = y - high / 2
    marks: list[Mark] = [Shape(rectangle(x - bar / 2, y - 2.6 * u, bar, 5.2 * u, 1.2 * u), theme.paper, pen)]
    for side in (-1, 1):
        marks += screw((x + side * (bar / 2 - 1.6 * u), y), 0.8 * u, theme)
    marks += [
        Shape(rectangle(x - wide / 2, top, wide, high, 4.5 * u), theme.paper, pen),
        _fitted_symbol(name, (x, top + (SYMBOL_BOX / 2 + 3) * u), SYMBOL_BOX * u, look),
        *listed_plates(strands, (x, top + (SYMBOL_BOX + 6) * u), room - 1, look),
    ]
    return Face(tuple(marks), high, ends_over(strands, middle, high, look))


def _fitted_symbol(name: str, middle: XY, side: float, look: Look) -> Mark:
    """Draw a symbol as large as it goes in a square, standing as on a wall above it."""
    angle = 90 if symbol(name).mount == "wall" else 0
    left, top, right, bottom = bounds(name, (0.0, 0.0), angle, 1.0, 0.2)
    radius = min(side / (right - left), side / (bottom - top))
    at = middle[0] - (left + right) / 2 * radius, middle[1] - (top + bottom) / 2 * radius
    return stamp(name, at, angle, look.theme.ink, look.theme.paper, radius, max(0.3, 0.16 * radius))


def _splice(strands: Sequence[Strand], middle: XY, room: float, look: Look) -> Face:
    """Draw a screw-on connector that ends the wires, and the plates under it."""
    (x, y), u, theme = middle, look.measure.u, look.theme
    high = CAP_HIGH * u + 1.5 * u + list_high(strands, look.measure)
    top, half, low = y - high / 2, CAP_WIDE * u / 2, CAP_WIDE * u / 3.4
    pen = Pen(0.3, theme.ink, join="round")
    foot = top + CAP_HIGH * u
    cap = polygon((x - half, top), (x + half, top), (x + low, foot), (x - low, foot))
    marks: list[Mark] = [Shape(cap, theme.soft, pen)]
    for part in (-0.45, 0.0, 0.45):
        rib = polyline((x + part * 2 * half * 0.8, top + 1.2 * u), (x + part * 2 * low * 0.8, foot - 1.2 * u))
        marks.append(Shape(rib, None, Pen(0.25, theme.paper)))
    marks += listed_plates(strands, (x, foot + 1.5 * u), room - 1, look)
    ends = tuple(((x, top + 0.5 * u), "over") for _ in strands)
    return Face(tuple(marks), high, ends)


def _bare_ends(strands: Sequence[Strand], middle: XY, room: float, look: Look) -> Face:
    """Draw the bare ends of wires that nothing holds, and the plates under them."""
    (x, y), u = middle, look.measure.u
    high = 5.5 * u + list_high(strands, look.measure)
    top = y - high / 2
    pen = Pen(max(0.35, 0.6 * u), look.theme.ink)
    tips = (polyline((x + side * 1.1 * u, top), (x + side * 2.2 * u, top + 4 * u)) for side in (-1, 1))
    marks: list[Mark] = [Shape(tip, None, pen) for tip in tips]
    marks += listed_plates(strands, (x, top + 5.5 * u), room - 1, look)
    return Face(tuple(marks), high, tuple(((x, top + 0.3 * u), "over") for _ in strands))


def _empty(middle: XY, room: float, look: Look) -> Face:
    """Draw a place that nothing sits in."""
    (x, y), u, theme = middle, look.measure.u, look.theme
    wide, high = look.measure.body, TALL * u
    outline = rectangle(x - wide / 2, y - high / 2, wide, high, 1.0 * u)
    marks: list[Mark] = [Shape(outline, None, Pen(0.3, theme.soft, (1.2, 0.9)))]
    ((word, *_), _) = fits(("nothing here", "empty"), min(wide, room) - 3 * u, PART_SIZE)
    marks.append(Text((x, y + cap_height(PART_SIZE) / 2), word, PART_SIZE, False, theme.soft, "middle"))
    return Face(tuple(marks), high, ())
