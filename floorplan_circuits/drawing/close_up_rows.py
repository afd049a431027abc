"""How the gangs and cables of a close-up stand side by side: how large they are, and in how many rows."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from floorplan_circuits.drawing.close_up_facts import Contents, Gang, Lane, Strand, gangs_wide
from floorplan_circuits.drawing.lettering import fits
from floorplan_circuits.drawing.plate_bodies import PLATE_HEIGHT
from floorplan_circuits.drawing.plates import PLATE_PADDING, PLATE_SIZE, Plate

LARGEST, LEAST_PITCH = 30.0, 16.0
"""How wide a gang is drawn, in mm: never more, and less only where even one alone would not fit."""
STEP = 0.5
MOST_PLATE = 20.0
"""The widest plate in mm; longer numbers are shortened there, and the list tells them in full."""
LEAST_PLATE = 0.78
"""The least size of a plate's letters to their usual: 7 points."""
SIDE = 3.0
AIR = 1.4
"""mm between plates beside each other."""


@dataclass(frozen=True)
class Measure:
    """How large one gang is drawn, and all that follows from it, in mm."""

    pitch: float

    @cached_property
    def u(self) -> float:
        """One millimetre of a gang at its largest."""
        return self.pitch / LARGEST

    @cached_property
    def plate(self) -> float:
        """How many times as large as on the plan the plates are."""
        return max(LEAST_PLATE, 1.6 * self.u)

    @cached_property
    def plate_high(self) -> float:
        """Height of a plate."""
        return PLATE_HEIGHT * self.plate

    @cached_property
    def body(self) -> float:
        """Width of a device's body, its strap left out."""
        return 18.6 * self.u

    @cached_property
    def cable(self) -> float:
        """Width of a cable."""
        return 6.4 * self.u

    def wide(self, one: Plate) -> float:
        """Return how wide a plate is drawn."""
        return one.width * self.plate


@dataclass(frozen=True)
class Cable:
    """One cable: the strands in it, all of one circuit and known alike."""

    strands: tuple[Strand, ...]

    @property
    def plate(self) -> Plate:
        """What all of them are on."""
        return self.strands[0].plate

    @property
    def from_below(self) -> bool:
        """Whether it was seen to enter at the bottom."""
        return self.strands[0].from_below


@dataclass(frozen=True)
class Column:
    """A gang, or a cable without a device, with the cables drawn in it and its width in mm."""

    thing: Gang | Lane
    cables: tuple[Cable, ...]
    width: float


Rows = tuple[tuple[Column, ...], ...]


def in_rows(contents: Contents, room: float) -> tuple[Measure, Rows]:
    """Return how large the gangs are drawn, and the columns in rows no wider than `room` mm."""
    things = _in_order(contents)
    best: tuple[Measure, Rows] | None = None
    for count in range(1, max(1, len(things)) + 1):
        measure, rows = _largest(things, count, room)
        if best is None or measure.pitch > best[0].pitch:
            best = measure, rows
        if measure.pitch >= LEAST_PITCH:
            break
    assert best is not None
    return best


def _in_order(contents: Contents) -> list[Gang | Lane]:
    """Return the gangs with passing cables spread between them, and other cables at the right."""
    things: list[Gang | Lane] = list(contents.gangs)
    passing = [lane for lane in contents.lanes if lane.passes]
    count = len(things)
    for nth, lane in reversed([*enumerate(passing)]):
        things.insert(max(min(1, count), (nth + 1) * count // (len(passing) + 1)), lane)
    return [*things, *(lane for lane in contents.lanes if not lane.passes)]


def _largest(things: Sequence[Gang | Lane], count: int, room: float) -> tuple[Measure, Rows]:
    """Return the largest measure at which the things fit into so many rows; the least there is if none does."""
    pitch = LARGEST
    while pitch >= LEAST_PITCH:
        measure = Measure(pitch)
        rows = _packed([_column(one, measure, room) for one in things], count, room)
        if rows is not None:
            return measure, rows
        pitch -= STEP
    measure = Measure(min(LEAST_PITCH - STEP, room - 2 * SIDE))
    columns = [_column(one, measure, room) for one in things]
    return measure, _packed(columns, len(things), room) or tuple((one,) for one in columns)


def _packed(columns: Sequence[Column], count: int, room: float) -> Rows | None:
    """Return the columns in at most `count` rows of about the same width, or None if they don't fit."""
    inner = room - 2 * SIDE
    fair = sum(one.width for one in columns) / count
    rows: list[list[Column]] = [[]]
    for one in columns:
        wide = sum(other.width for other in rows[-1])
        full = wide + one.width > inner + 1e-6
        enough = wide + one.width / 2 > fair and len(rows) < count
        if rows[-1] and (full or enough):
            rows.append([])
        rows[-1].append(one)
    fit = len(rows) <= count and all(sum(one.width for one in row) <= inner + 1e-6 for row in rows)
    return tuple(map(tuple, rows)) if fit else None


# --- one column -----------------------------------------------------------------------------------------------------


def _column(thing: Gang | Lane, measure: Measure, room: float) -> Column:
    most = room - 2 * SIDE
    strands = thing.strands if isinstance(thing, Gang) else (thing.strand,)
    cables = tuple(_cables([shortened(one, measure, most - AIR) for one in strands]))
    if isinstance(thing, Lane):
        return Column(thing, cables, max(9.0 * measure.u, measure.wide(cables[0].plate) + AIR))
    least = measure.pitch * (1 if thing.device is None else gangs_wide(thing.device))
    sides = [[one for one in cables if one.from_below == below] for below in (False, True)]
    beside = max(sum(max(measure.wide(one.plate), measure.cable) + AIR for one in side) for side in sides)
    return Column(thing, cables, min(most, max(least, beside)))


def _cables(strands: Iterable[Strand]) -> Iterable[Cable]:
    """Put strands of one circuit that are known alike into one cable; each of which nobody knows has its own."""
    found: dict[object, list[Strand]] = {}
    for nth, one in enumerate(strands):
        found.setdefault(nth if one.is_unknown else (one.plate, one.from_below, one.volts), []).append(one)
    return (Cable(tuple(mine)) for mine in found.values())


def shortened(strand: Strand, measure: Measure, room: float) -> Strand:
    """Return the strand with the words on its plate cut to what a plate may hold, ending in '…'."""
    most = min(MOST_PLATE, room) / measure.plate - PLATE_PADDING
    most -= strand.plate.width - strand.plate.body
    bold = strand.plate.standing != "claimed"
    ((words, *_), cut) = fits((strand.plate.words,), most, PLATE_SIZE, bold)
    return replace(strand, plate=replace(strand.plate, words=words)) if cut else strand
