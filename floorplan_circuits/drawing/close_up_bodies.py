"""What the devices of a close-up have in common: the body on its strap, screws, and each feed's plate."""

from collections.abc import Sequence
from dataclasses import dataclass

from floorplan_circuits.drawing.close_up_facts import Strand
from floorplan_circuits.drawing.close_up_rows import Measure
from floorplan_circuits.drawing.ink import Group, Mark, Pen, Shape, Text, circle, moved, polyline, rectangle
from floorplan_circuits.drawing.ink import scaled as scaled_ink
from floorplan_circuits.drawing.lettering import fits
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plates import Plate, plate, text_height
from floorplan_circuits.findings import XY, Subject

PART_SIZE = 7.2
LIST_GAP = 1.0
EDGE = 0.35
EAR_WIDE, EAR_HIGH = 6.4, 4.6
TALL = 48.0
"""Height of a usual body in parts of a gang's measure."""
SCREWS = 0.25
"""How far above and below its middle the screws at the sides of a body are, in parts of its height."""


@dataclass(frozen=True, slots=True)
class Face:
    """A device drawn about its middle: its marks, how high it is, and where the wires of each strand end on it.

    An end is a place and the way to it: 'over' the top (or the foot, for a cable from below), or down the gap at the
    'left' or 'right' of the body.
    """

    marks: tuple[Mark, ...]
    high: float
    ends: tuple[tuple[XY, str], ...]


@dataclass(frozen=True, slots=True)
class Look:
    """What every face is drawn with: `blades`: receptacles have flat slots, as in North America, else round holes."""

    theme: Theme
    measure: Measure
    blades: bool = True


# --- plates on a face -----------------------------------------------------------------------------------------------


def sized_plate(shown: Plate, centre: XY, look: Look, subject: Subject | None = None, name: str = "") -> Group:
    """Draw a plate as large as the gangs allow."""
    drawn = scaled_ink(plate(shown, (0.0, 0.0), look.theme), look.measure.plate)
    return Group((moved(drawn, *centre),), subject, name)


def feed_plate(strand: Strand, centre: XY, look: Look) -> Group:
    """Draw the plate of a feed; it is about the feed, or for one that nobody recorded about nothing."""
    subject = Subject("feed", strand.feed) if strand.feed is not None else None
    return sized_plate(strand.plate, centre, look, subject, "feed")


def list_high(strands: Sequence[Strand], measure: Measure) -> float:
    """Return the height of plates under each other, each with the name of its part over it."""
    named = sum(bool(one.part) for one in strands)
    return len(strands) * (measure.plate_high + LIST_GAP) - LIST_GAP + named * text_height(PART_SIZE)


def listed_plates(strands: Sequence[Strand], at: XY, room: float, look: Look) -> list[Mark]:
    """Draw plates under each other from a place at the top of their middle."""
    x, y = at
    marks: list[Mark] = []
    for one in strands:
        if one.part:
            marks.append(_part_name(one.part, (x, y + text_height(PART_SIZE) - 0.9), room, look.theme))
            y += text_height(PART_SIZE)
        marks.append(feed_plate(one, (x, y + look.measure.plate_high / 2), look))
        y += look.measure.plate_high + LIST_GAP
    return marks


def _part_name(words: str, at: XY, room: float, theme: Theme) -> Text:
    ((line, *_), _) = fits((words,), room, PART_SIZE)
    return Text(at, line, PART_SIZE, False, theme.ink, "middle")


# --- the strap and the body -----------------------------------------------------------------------------------------


def body_marks(middle: XY, wide: float, high: float, look: Look, corner: float = 1.0) -> list[Mark]:
    """Draw a yoke: its ears above and below with a screw in each, and the body over them."""
    (x, y), u = middle, look.measure.u
    pen = Pen(EDGE, look.theme.ink, join="round")
    ear, tall = EAR_WIDE * u, high + 2 * EAR_HIGH * u
    marks: list[Mark] = [Shape(rectangle(x - ear / 2, y - tall / 2, ear, tall, 1.2 * u), look.theme.paper, pen)]
    for side in (-1, 1):
        marks += screw((x, y + side * (tall / 2 - EAR_HIGH * u / 2)), 0.95 * u, look.theme)
    marks.append(Shape(rectangle(x - wide / 2, y - high / 2, wide, high, corner * u), look.theme.paper, pen))
    return marks


def screw(at: XY, radius: float, theme: Theme) -> list[Mark]:
    """Draw the head of a screw."""
    (x, y), reach = at, radius * 0.6
    slot = polyline((x - reach, y + reach), (x + reach, y - reach))
    return [Shape(circle(x, y, radius), theme.paper, Pen(0.22, theme.ink)), Shape(slot, None, Pen(0.22, theme.ink))]


def terminals(middle: XY, wide: float, offsets: Sequence[float], look: Look) -> list[Mark]:
    """Draw the screws at both sides of a body, half hidden by it."""
    pen = Pen(0.22, look.theme.ink)
    radius = 1.1 * look.measure.u
    places = [(middle[0] + side * wide / 2, middle[1] + offset) for offset in offsets for side in (-1, 1)]
    return [Shape(circle(x, y, radius), look.theme.metal, pen) for x, y in places]


def body_width(strands: Sequence[Strand], least: float, room: float, look: Look) -> float:
    """Return how wide a body is drawn, so that it holds its plates and stays in its column."""
    widest = max((look.measure.wide(one.plate) for one in strands), default=0.0)
    return min(max(least, widest + 1.6), room - 0.6)


def ends_over(strands: Sequence[Strand], middle: XY, high: float, look: Look) -> tuple[tuple[XY, str], ...]:
    """Return ends at the top of a body, or at its foot for what comes from below, spread about its middle."""
    step = min(4.4 * look.measure.u, look.measure.body / max(1, len(strands)))
    inside = high / 2 - 0.8 * look.measure.u
    xs = (middle[0] + (nth - (len(strands) - 1) / 2) * step for nth in range(len(strands)))
    ys = (middle[1] + (inside if one.from_below else -inside) for one in strands)
    return tuple((at, "over") for at in zip(xs, ys, strict=True))
