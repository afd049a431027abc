"""Cables of a close-up: from above or below to a device, straight through, or just seen, in their circuits' colours."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from floorplan_circuits.drawing.close_up_bodies import Look, sized_plate
from floorplan_circuits.drawing.close_up_rows import AIR, Cable, Column
from floorplan_circuits.drawing.ink import Mark, Path, Pen, Shape, polygon, polyline, rectangle
from floorplan_circuits.drawing.palette import strong
from floorplan_circuits.drawing.plan_building import fill
from floorplan_circuits.findings import XY

EDGE = 0.3
DOTTED = (0.9, 0.7)
PLAIN_STRIPES = 4
"""So many circuits of one feed are told apart on its cable; the plate tells all."""


@dataclass(frozen=True, slots=True)
class Laid:
    """A cable in its place: the middle it runs along, and on which tier its plate stands, counted from the box."""

    cable: Cable
    x: float
    width: float
    tier: int = 0


def laid_cables(column: Column, left: float, look: Look, below: bool) -> list[Laid]:
    """Return the cables of a column that enter from one side, beside each other; plates that would touch in tiers."""
    mine = [one for one in column.cables if one.from_below == below]
    wides = [max(look.measure.wide(one.plate), look.measure.cable) + AIR for one in mine]
    whole = sum(wides)
    squeeze = min(1.0, column.width / whole) if whole else 1.0
    spare = (column.width - whole * squeeze) / max(1, len(mine))
    found: list[Laid] = []
    x = left
    for one, wide in zip(mine, wides, strict=True):
        step = wide * squeeze + spare
        found.append(Laid(one, x + step / 2, min(look.measure.cable, step * 0.8)))
        x += step
    return _tiered(found, (left, left + column.width), look)


def _tiered(laid: Sequence[Laid], within: tuple[float, float], look: Look) -> list[Laid]:
    """Put each plate on the lowest tier where it touches none before it."""
    ends: list[float] = []
    found = []
    for one in laid:
        left, right = plate_span(one, within, look)
        tier = next((at for at, end in enumerate(ends) if end + 0.4 <= left), len(ends))
        ends[tier : tier + 1] = [right]
        found.append(Laid(one.cable, one.x, one.width, tier))
    return found


def plate_span(one: Laid, within: tuple[float, float], look: Look) -> tuple[float, float]:
    """Return from where to where a cable's plate reaches, kept inside its column."""
    half = look.measure.wide(one.cable.plate) / 2
    middle = min(max(one.x, within[0] + half), max(within[0] + half, within[1] - half))
    return middle - half, middle + half


def tiers(laid: Iterable[Laid]) -> int:
    """Return how many tiers of plates there are."""
    return max((one.tier + 1 for one in laid), default=0)


# --- drawing --------------------------------------------------------------------------------------------------------


def cable_band(cable: Cable, x: float, wide: float, span: tuple[float, float], look: Look) -> list[Mark]:
    """Draw a straight piece of cable: the tint and hatch of its circuit, side by side where it is on several."""
    theme, (top, bottom) = look.theme, span
    strand = cable.strands[0]
    marks: list[Mark] = [Shape(rectangle(x - wide / 2, top, wide, bottom - top), theme.paper)]
    colours: Sequence[int | None] = strand.colours[:PLAIN_STRIPES]
    if strand.is_unknown:
        marks += fill(rectangle(x - wide / 2, top, wide, bottom - top), None, theme)
    for nth, colour in enumerate(colours):
        if colour is not None:
            stripe = wide / len(colours)
            marks += fill(rectangle(x - wide / 2 + nth * stripe, top, stripe, bottom - top), colour, theme)
    pen = Pen(EDGE, theme.ink, DOTTED if strand.is_unknown else ())
    return [*marks, *(Shape(polyline((side, top), (side, bottom)), None, pen) for side in (x - wide / 2, x + wide / 2))]


def cable_plate(one: Laid, within: tuple[float, float], middle: float, look: Look) -> Mark:
    """Draw the plate of a cable to a device."""
    left, right = plate_span(one, within, look)
    return sized_plate(one.cable.plate, ((left + right) / 2, middle), look, name="cable")


def arrowhead(at: XY, look: Look) -> Mark:
    """Draw the head that says a cable passes on."""
    (x, y), half = at, 1.7 * look.measure.u
    return Shape(polygon((x - half, y - 1.4 * half), (x + half, y - 1.4 * half), (x, y + 1.4 * half)), look.theme.ink)


# --- wires ----------------------------------------------------------------------------------------------------------


def wires(cable: Cable, start: XY, end: XY, way: str, look: Look) -> list[Mark]:
    """Draw two wires from the cut end of a cable to where they end on a device, over its top or beside its body."""
    paths = [_way(start, end, way, side, look.measure.u) for side in (-1, 1)]
    both = zip(paths, _colours(cable, look), strict=True)
    return [mark for path, colour in both for mark in _wire(path, colour, cable, look)]


def _way(start: XY, end: XY, way: str, side: int, u: float) -> Path:
    begin = start[0] + side * 1.5 * u, start[1]
    if way == "over":
        return _over(begin, (end[0] + side * 1.1 * u, end[1]))
    return _beside(begin, end, -1 if way == "left" else 1, side, u)


def _over(start: XY, end: XY) -> Path:
    half = (end[1] - start[1]) * 0.6
    return (("M", start), ("C", (start[0], start[1] + half, end[0], end[1] - half, *end)))


def _beside(start: XY, end: XY, out: int, side: int, u: float) -> Path:
    """Go down the gap beside the body, then in to its screw. The outer wire ends lower, so that they never cross."""
    outer = side * out
    gap, level, turn = end[0] + out * (3.4 + 0.95 * outer) * u, end[1] + 1.3 * outer * u, 2.4 * u
    down = start[1] + min(9.0 * u, (level - start[1]) * 0.4)
    middle = (start[1] + down) / 2
    return (
        ("M", start),
        ("C", (start[0], middle, gap, middle, gap, down)),
        ("L", (gap, level - turn)),
        ("C", (gap, level - turn / 3, gap - out * turn / 3, level, end[0], level)),
    )


def _colours(cable: Cable, look: Look) -> tuple[str, str]:
    places = [one for one in cable.strands[0].colours if one is not None]
    if cable.strands[0].is_unknown or not places:
        return look.theme.soft, look.theme.soft
    return strong(look.theme, places[0]), strong(look.theme, places[-1])


def _wire(path: Path, colour: str, cable: Cable, look: Look) -> list[Mark]:
    thick = max(0.5, 1.0 * look.measure.u)
    if cable.strands[0].is_unknown:
        return [Shape(path, None, Pen(thick, look.theme.ink, (1.1, 1.0), join="round"))]
    casing = Pen(thick + 0.35, look.theme.ink, join="round")
    return [Shape(path, None, casing), Shape(path, None, Pen(thick, colour, join="round"))]


def loose_end(cable: Cable, at: XY, look: Look) -> list[Mark]:
    """Draw the open ends of wires that somebody saw and nobody knows."""
    u = look.measure.u
    x, y = at
    way = -1 if cable.from_below else 1
    marks: list[Mark] = []
    for side in (-1, 1):
        tip = x + side * 2.6 * u, y + way * 9.0 * u
        marks += _wire(_over((x + side * 1.2 * u, y), tip), look.theme.soft, cable, look)
        bare = polyline(tip, (tip[0], tip[1] + way * 1.8 * u))
        marks.append(Shape(bare, None, Pen(max(0.35, 0.6 * u), look.theme.ink)))
    return marks
