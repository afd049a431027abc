"""The picture of an open box: its gangs in order, every cable that enters, and what passes through."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from floorplan_circuits.drawing.close_up_bodies import EAR_HIGH, Look, feed_plate
from floorplan_circuits.drawing.close_up_cables import arrowhead, cable_band, cable_plate, loose_end, wires
from floorplan_circuits.drawing.close_up_facts import Contents, Gang, Lane
from floorplan_circuits.drawing.close_up_housing import Form, Housing, inside, rim
from floorplan_circuits.drawing.close_up_layout import (
    FOOT_SIZE,
    PAD,
    Row,
    foot_line,
    laid_out,
    passes,
    plate_middle,
    spread,
)
from floorplan_circuits.drawing.close_up_rows import SIDE, in_rows
from floorplan_circuits.drawing.ink import Group, Mark, Shape, Text, rectangle
from floorplan_circuits.drawing.lettering import cap_height, fits, width
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.kinds import kind_named

NUMBER_SIZE = 7.4
FOOT_GAP, MOST_FOOT = 1.2, 40.0
"""mm between a passing cable and its words, and for how many of them a picture is made wider."""
ROW_GAP, CORNER = 5.0, 2.0
VERY_WIDE = 1e6
INSIDE = 1.5
"""How far a cable reaches into the box, in mm."""
IN_ROUND_BOXES = ("light", "appliance", "alarm", "other")
"""Groups of devices whose boxes in the ceiling are eight-sided."""


@dataclass(frozen=True, slots=True)
class Picture:
    """The drawn box in mm from its own top left corner, and which words had to be cut."""

    ink: Group
    width: float
    height: float
    shortened: tuple[str, ...] = ()


def natural_width(contents: Contents) -> float:
    """Return how wide the picture is where nothing has to be made smaller, in mm."""
    measure, (columns,) = in_rows(contents, VERY_WIDE)
    row = spread(columns, VERY_WIDE, measure)
    inner = sum(one.width for one in row)
    needed, x = inner + 2 * SIDE, -inner / 2
    for one in row:
        if isinstance(one.thing, Lane) and one.thing.passes:
            words = min(width(_said_at_foot(one.thing)[0], FOOT_SIZE), MOST_FOOT)
            needed = max(needed, 2 * (x + one.width / 2 + measure.cable / 2 + FOOT_GAP + words))
        x += one.width
    return needed + 2 * PAD


def picture(contents: Contents, wide: float, theme: Theme, blades: bool) -> Picture:
    """Draw a box in a picture of this width; `blades` tells what its receptacles look like."""
    measure, rows = in_rows(contents, wide - 2 * PAD)
    look, built = Look(theme, measure, blades), _built(contents)
    rows = tuple(spread(columns, wide, measure) for columns in rows)
    left = (wide - max(sum(one.width for one in columns) for columns in rows)) / 2
    marks, cut, y = list[Mark](), list[str](), PAD
    for nth, columns in enumerate(rows):
        housing = replace(built, from_before=nth > 0, goes_on=nth < len(rows) - 1)
        row = laid_out(columns, left, y, look)
        marks += _drawn(row, housing, look, len(contents.gangs) > 1)
        marks += _foot_words(row, wide, look, cut)
        y = row.bottom + ROW_GAP
    high = y - ROW_GAP + PAD
    card = Shape(rectangle(0, 0, wide, high, CORNER), theme.canvas)
    ink = Group((card, *marks), Subject("box", contents.box.id), "picture")
    return Picture(ink, wide, high, tuple(cut))


def _built(contents: Contents) -> Housing:
    """Return how the box is built: eight-sided for one fixture in the ceiling, and nothing round a loose cable end."""
    box, found = contents.box, contents.found
    devices = [gang.device for gang in contents.gangs if gang.device is not None]
    form: Form = "square"
    if box.mount == "loose cable end":
        form = "none"
    elif box.mount == "ceiling" and len(devices) == 1 and box.gangs == 1:
        form = "eight-sided" if kind_named(devices[0].kind).group in IN_ROUND_BOXES else "square"
    return Housing(form, found is not None and found.shared, box.mount == "outdoor")


# --- drawing --------------------------------------------------------------------------------------------------------


def _drawn(row: Row, housing: Housing, look: Look, numbered: bool) -> Iterator[Mark]:
    """Draw a row from the back to the front: the box, its cables, its edge, wires and devices, the plates on cables."""
    yield from inside(housing, row.box, look)
    for nth in range(len(row.columns)):
        yield from _bands(nth, row, look)
    yield from rim(housing, row.box, look)
    for nth in range(len(row.columns)):
        yield from _in_box(nth, row, look, numbered)
    for nth, laid in row.cables():
        column, left = row.columns[nth], row.lefts[nth]
        middle = plate_middle(laid, row, look)
        if isinstance(column.thing, Lane):  # nothing else in the picture stands for its feed
            yield feed_plate(laid.cable.strands[0], (laid.x, middle), look)
        else:
            yield cable_plate(laid, (left, left + column.width), middle, look)


def _bands(nth: int, row: Row, look: Look) -> Iterator[Mark]:
    """Draw the cables of a column outside the box, or right through it."""
    column = row.columns[nth]
    if passes(column):
        x = row.lefts[nth] + column.width / 2
        yield from cable_band(column.cables[0], x, look.measure.cable, (row.top, foot_line(column, row)), look)
        yield arrowhead((x, (row.box[1] + row.box[3]) / 2), look)
        return
    for laid in row.above[nth]:
        yield from cable_band(laid.cable, laid.x, laid.width, (row.top, row.box[1] + INSIDE), look)
    for laid in row.below[nth]:
        yield from cable_band(laid.cable, laid.x, laid.width, (row.box[3] - INSIDE, row.foot), look)


def _in_box(nth: int, row: Row, look: Look, numbered: bool) -> Iterator[Mark]:
    """Draw what stands in the box: wires, then the device with its number; or the open ends of a cable."""
    thing, drawn = row.columns[nth].thing, row.faces[nth]
    laid = [(one, (one.x, row.box[1] + INSIDE)) for one in row.above[nth]]
    laid += [(one, (one.x, row.box[3] - INSIDE)) for one in row.below[nth]]
    if isinstance(thing, Lane) or drawn is None:
        if not passes(row.columns[nth]):
            yield Group(tuple(mark for one, at in laid for mark in loose_end(one.cable, at, look)))
        return
    order = [strand.feed for strand in thing.strands]
    marks: list[Mark] = []
    for one, at in laid:
        end, way = drawn.ends[order.index(one.cable.strands[0].feed)]
        marks += wires(one.cable, at, end, way, look)
    marks += drawn.marks
    if numbered:
        marks.append(_gang_number(thing, nth, row, look))
    yield Group(tuple(marks), Subject("device", thing.device.id) if thing.device is not None else None)


def _gang_number(gang: Gang, nth: int, row: Row, look: Look) -> Mark:
    """Write the number of a gang under the left half of its device, beside the lower ear."""
    drawn = row.faces[nth]
    half = drawn.high / 2 if drawn is not None else 0.0
    foot = row.middle + half + EAR_HIGH * look.measure.u / 2 + cap_height(NUMBER_SIZE) / 2
    x = row.lefts[nth] + row.columns[nth].width / 2 - look.measure.body * 0.33
    return Text((x, foot + 0.3), str(gang.slot), NUMBER_SIZE, True, look.theme.soft, "middle")


# --- what passes ----------------------------------------------------------------------------------------------------


def _said_at_foot(lane: Lane) -> tuple[str, ...]:
    """Return what stands at the foot of a passing cable, the fullest first."""
    plainly = ("passes through", "passes")
    return (f"passes through: {lane.words}", *plainly) if lane.words else plainly


def _foot_words(row: Row, wide: float, look: Look, cut: list[str]) -> Iterator[Mark]:
    """Write beside the foot of each passing cable where it goes, as far as anybody said."""
    for column, left in zip(row.columns, row.lefts, strict=True):
        if not isinstance(column.thing, Lane) or not column.thing.passes:
            continue
        x = left + column.width / 2 + look.measure.cable / 2 + FOOT_GAP
        variants = _said_at_foot(column.thing)
        ((words, *_), _) = fits(variants, wide - PAD - x, FOOT_SIZE)
        if column.thing.words and words != variants[0]:
            cut.append(variants[0])
        yield Text((x, foot_line(column, row) - 0.8), words, FOOT_SIZE, False, look.theme.ink)
