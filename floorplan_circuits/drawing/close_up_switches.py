"""A switch with the plate off: its letter, its rocker, and what a dimmer or a fan control has beside it."""

from collections.abc import Sequence

from floorplan_circuits.drawing.close_up_bodies import (
    SCREWS,
    TALL,
    Face,
    Look,
    body_marks,
    body_width,
    ends_over,
    list_high,
    listed_plates,
    terminals,
)
from floorplan_circuits.drawing.close_up_facts import Strand
from floorplan_circuits.drawing.ink import Mark, Pen, Shape, Text, circle, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.symbols import DROP, SUBSCRIPT, symbol
from floorplan_circuits.findings import XY

HEAD_HIGH = 12.0


def switch(name: str, strands: Sequence[Strand], middle: XY, room: float, look: Look) -> Face:
    """Draw a switch about its middle."""
    (x, y), u, theme = middle, look.measure.u, look.theme
    inner = max(28.0 * u, list_high(strands, look.measure) + 6 * u)
    high = max(TALL * u, HEAD_HIGH * u + inner + 4 * u)
    wide = body_width(strands, look.measure.body, room, look)
    top = y - high / 2
    rocker = wide * 0.68, high - HEAD_HIGH * u - 4 * u
    rocker_top, pen = top + HEAD_HIGH * u, Pen(0.28, theme.ink)
    marks = [
        *terminals(middle, wide, (-high * SCREWS, high * SCREWS), look),
        *body_marks(middle, wide, high, look),
        Shape(rectangle(x - rocker[0] / 2, rocker_top, *rocker, 1.2 * u), theme.canvas, pen),
        *_rocker_edge(strands, (x, rocker_top + rocker[1] / 2), rocker[0], pen),
        *_letter(name, (x, top + HEAD_HIGH * u / 2 + 0.4 * u), look),
        *_handle(name, x + (wide + rocker[0]) / 4, rocker_top, rocker[1], look),
    ]
    at = (x, rocker_top + (rocker[1] - list_high(strands, look.measure)) / 2)
    marks += listed_plates(strands, at, room - 1, look)
    return Face(tuple(marks), high, ends_over(strands, middle, high, look))


def _rocker_edge(strands: Sequence[Strand], middle: XY, wide: float, pen: Pen) -> list[Mark]:
    """Draw the edge across a rocker's middle, behind its one plate; several, with words between them, leave no room."""
    if len(strands) > 1 or any(one.part for one in strands):
        return []
    (x, y), half = middle, wide / 2
    return [Shape(polyline((x - half, y), (x + half, y)), None, pen)]


def _letter(name: str, middle: XY, look: Look) -> list[Mark]:
    """Write a switch's letter as its symbol has it: S, and what stands below it."""
    letters = next(iter(symbol(name).letters), None)
    words, sub = (letters.words, letters.sub) if letters is not None else ("S", "")
    size = max(9.0, 21.0 * look.measure.u)
    main, small = width(words, size, True), size * SUBSCRIPT
    x = middle[0] - (main + width(sub, small, True)) / 2
    foot = middle[1] + cap_height(size) / 2
    marks: list[Mark] = [Text((x, foot), words, size, True, look.theme.ink)]
    if sub:
        marks.append(Text((x + main, foot + DROP * cap_height(size) * 1.4), sub, small, True, look.theme.ink))
    return marks


def _handle(name: str, x: float, top: float, high: float, look: Look) -> list[Mark]:
    """Draw what a dimmer or a fan control has beside the rocker: a slide in its track, or a few steps."""
    u, theme = look.measure.u, look.theme
    if name == "dimmer":
        track = Shape(polyline((x, top + 2 * u), (x, top + high - 2 * u)), None, Pen(0.28, theme.ink))
        slide = rectangle(x - 0.9 * u, top + high * 0.25, 1.8 * u, 3.2 * u, 0.4 * u)
        return [track, Shape(slide, theme.ink)]
    if name == "fan control":
        spots = ((x, top + high * part, radius * u) for part, radius in ((0.25, 0.9), (0.5, 0.7), (0.75, 0.5)))
        return [Shape(circle(*spot), theme.ink) for spot in spots]
    return []
