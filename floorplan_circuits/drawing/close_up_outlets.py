"""The outlets of a receptacle as they look without the plate, and where on them each feed's number stands."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from floorplan_circuits.drawing.close_up_facts import Strand
from floorplan_circuits.drawing.ink import Mark, Pen, Shape, circle, rectangle
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import XY

HALVES = ("upper", "lower")
FOUR = ("upper left", "lower left", "upper right", "lower right")
SINGLE = ("single receptacle", "240 V receptacle")
FACE_WIDE = 14.0
WHOLE_HALF, SPLIT_HALF, TESTED_HALF = 15.5, 20.0, 18.4
"""Height of one half in parts of a gang's measure: with one number between both, with a number each, and with a number
each and buttons between them."""
INSET, BUTTON = 2.0, (5.6, 3.6)


@dataclass(frozen=True, slots=True)
class Outlets:
    """How a receptacle is drawn: one or two bodies, one outlet or halves, and where numbers stand.

    `parts` are the halves that have a number of their own, in the order of the strands; none where one number stands
    for all. `lists`: the numbers stand in a list under a single outlet.
    """

    sort: Literal["halves", "single"]
    bodies: int = 1
    parts: tuple[str, ...] = ()
    buttons: bool = False
    lists: bool = False
    strong: bool = False


def outlets_of(symbol: str, strands: Sequence[Strand]) -> Outlets:
    """Return how a receptacle is drawn for what feeds it."""
    parts = tuple(one.part for one in strands)
    if symbol in SINGLE:
        return Outlets("single", lists=True, strong=symbol != "single receptacle")
    double = symbol == "double duplex receptacle"
    known = FOUR if double else HALVES
    buttons = symbol == "ground-fault receptacle"
    if len(parts) == 1 and (not parts[0] or parts[0] not in known):
        return Outlets("halves", 2 if double else 1, (), buttons, lists=bool(parts[0]))
    if len(set(parts)) == len(parts) and set(parts) <= set(known):
        return Outlets("halves", 2 if double else 1, parts, buttons)
    return Outlets("single", lists=True)


def outlets(
    shape: Outlets, bodies: Sequence[float], span: tuple[float, float], theme: Theme, u: float, blades: bool
) -> tuple[list[Mark], list[XY]]:
    """Draw the outlets of bodies at these middles, from top to foot, and return where the strands' numbers stand."""
    if shape.lists:
        at = span[0] + 13 * u
        return [mark for x in bodies for mark in _round((x, at), theme, u, blades, shape.strong)], []
    y = (span[0] + span[1]) / 2
    half = WHOLE_HALF if not shape.parts else TESTED_HALF if shape.buttons else SPLIT_HALF
    marks, spots = list[Mark](), dict[str, XY]()
    for nth, x in enumerate(bodies):
        side = "" if shape.bodies == 1 else (" left", " right")[nth]
        for name, way in (("upper", -1), ("lower", 1)):
            middle = x, y + way * (24 - INSET - half / 2) * u
            marks += _half(middle, half * u, theme, u, blades)
            spots[name + side] = x, middle[1] + (half / 2 - 4.2) * u
    if shape.buttons:
        marks += _buttons((bodies[0], y + (0.0 if shape.parts else -3.2) * u), theme, u)
    if shape.parts:
        return marks, [spots[part] for part in shape.parts]
    return marks, [(sum(bodies) / len(bodies), y + (2.6 if shape.buttons else 0.0) * u)]


def _half(middle: XY, high: float, theme: Theme, u: float, blades: bool) -> list[Mark]:
    x, y = middle
    outline = rectangle(x - FACE_WIDE * u / 2, y - high / 2, FACE_WIDE * u, high, 4.6 * u)
    marks: list[Mark] = [Shape(outline, theme.canvas, Pen(0.28, theme.ink))]
    return [*marks, *_holes((x, y - high / 2 + 5.0 * u), theme, u, blades)]


def _holes(at: XY, theme: Theme, u: float, blades: bool) -> list[Mark]:
    """Draw what a plug goes into: two flat slots over a round one, or two round holes."""
    x, y = at
    if not blades:
        return [Shape(circle(x + side * 2.6 * u, y + 1.4 * u, 1.1 * u), theme.ink) for side in (-1, 1)]
    long, short = (0.95 * u, 4.6 * u), (0.95 * u, 3.6 * u)
    left = rectangle(x - 2.9 * u - long[0] / 2, y - long[1] / 2, *long)
    right = rectangle(x + 2.9 * u - short[0] / 2, y - short[1] / 2, *short)
    return [Shape(left, theme.ink), Shape(right, theme.ink), Shape(circle(x, y + 4.4 * u, 1.05 * u), theme.ink)]


def _round(middle: XY, theme: Theme, u: float, blades: bool, strong: bool) -> list[Mark]:
    """Draw one round outlet; that of a heavy load has thick slots and fills the body."""
    x, y = middle
    radius = (8.2 if strong else 7.0) * u
    ring = Shape(circle(x, y, radius), theme.canvas, Pen(0.28, theme.ink))
    if not strong:
        return [ring, *_holes((x, y - 1.6 * u), theme, u, blades)]
    if not blades:
        return [ring, *(Shape(circle(x + dx * u, y + dy * u, 1.3 * u), theme.ink) for dx, dy in ((-3.4, 0), (3.4, 0)))]
    spots = ((-3.9, -2.9), (2.5, -2.9))
    slots = [Shape(rectangle(x + dx * u, y + dy * u, 1.4 * u, 5.8 * u), theme.ink) for dx, dy in spots]
    return [ring, *slots, Shape(circle(x, y + 5.0 * u, 1.3 * u), theme.ink)]


def _buttons(middle: XY, theme: Theme, u: float) -> list[Mark]:
    """Draw the test and the reset button of a ground-fault receptacle."""
    (x, y), (wide, high) = middle, (BUTTON[0] * u, BUTTON[1] * u)
    pen = Pen(0.28, theme.ink)
    left = rectangle(x - wide - 0.5 * u, y - high / 2, wide, high, 0.5 * u)
    right = rectangle(x + 0.5 * u, y - high / 2, wide, high, 0.5 * u)
    return [Shape(left, theme.ink, pen), Shape(right, theme.metal, pen)]
