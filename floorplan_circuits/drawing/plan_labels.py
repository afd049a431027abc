"""Labels of boxes on the plan: their plates, placed so that nothing covers anything and none leaves its room unled."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import chain
from math import dist
from typing import Literal

from floorplan_circuits.drawing.candidates import around_point, from_ceiling, from_wall, searched
from floorplan_circuits.drawing.crowding import SHORT, Crowd, Form, Kept, Try, Wish
from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Bounds, Group, Mark, Pen, Shape, Text, polyline, rectangle
from floorplan_circuits.drawing.layers import Line
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.overlaps import around
from floorplan_circuits.drawing.placement import Candidate, Ground
from floorplan_circuits.drawing.plan_boxes import RADIUS, DrawnBox, subject_of
from floorplan_circuits.drawing.plate_bodies import PLATE_HEIGHT
from floorplan_circuits.drawing.plates import (
    BOX_PLATE_HEIGHT,
    box_plate,
    box_plate_width,
    plate_row,
    row_width,
)
from floorplan_circuits.findings import XY, Subject

MARK_SIZE = 6.8
BLOCK_GAP = 0.45
TOUCHES = 0.05
"""How far in mm from a plate a line that leads to it may end."""
FARTHEST_LED, FARTHEST_OUTSIDE = 20.0, 34.0
"""How far in mm a line may lead to a label, in its own room and outside the building."""

LED_PEN = 0.15
AWAY_PEN, AWAY_CLEAR = 0.3, 0.3
"""mm of a line that leads into another room, and of the bare ground on each side of it: only it tells whose label
stands there, so it must be seen over walls, tints and hatches."""

Stage = Literal["close", "led", "searched", "outside", "anywhere", "searched anywhere", "outside or anywhere"]
FAR: tuple[Stage, ...] = ("searched", "anywhere", "searched anywhere", "outside or anywhere")

ATTEMPTS: dict[str, tuple[tuple[Form, Stage], ...]] = {
    "caution": (
        ("whole", "close"),
        ("whole", "led"),
        ("whole", "searched"),
        ("whole", "outside"),
        ("whole", "anywhere"),
        ("whole", "searched anywhere"),
        ("danger", "close"),
        ("danger", "led"),
        ("danger", "outside or anywhere"),
    ),
    "named": (
        ("whole", "close"),
        ("plates", "close"),
        ("plates", "led"),
        ("tight", "close"),
        ("tight", "led"),
        ("plates", "outside"),
        ("plates", "anywhere"),
        ("mark", "close"),
        ("mark", "led"),
    ),
    "plain": (
        ("plates", "close"),
        ("plates", "led"),
        ("tight", "close"),
        ("tight", "led"),
        ("plates", "outside"),
        ("plates", "anywhere"),
        ("mark", "close"),
        ("mark", "led"),
    ),
    "caution dot": (("whole", "close"), ("whole", "led"), ("whole", "outside"), ("whole", "anywhere")),
    "dot": (("plates", "close"),),
}
"""What is tried, in order, for each sort of box. A shared box keeps its caution plate when all else must go."""


@dataclass(slots=True)
class Labels:
    """What placing the labels gave: marks, the room they take for clicks, and what found no place.

    `listed` are the boxes whose circuits the plan has no room to show: a list beside it must.
    """

    marks: list[Mark] = field(default_factory=list)
    spots: list[tuple[Bounds, Subject]] = field(default_factory=list)
    keys: list[tuple[str, str]] = field(default_factory=list)
    not_placed: list[str] = field(default_factory=list)
    listed: list[int] = field(default_factory=list)

    def add(self, others: "Labels") -> None:
        """Take in labels that were placed by themselves."""
        self.marks += others.marks
        self.spots += others.spots
        self.keys += others.keys
        self.not_placed += others.not_placed
        self.listed += others.listed


def label_boxes(drawn: Iterable[DrawnBox], crowd: Crowd) -> None:
    """Find a place for the label of each box, in the order given; where there is none, others step aside."""
    for one in drawn:
        if one.plates:
            _add(one, "caution" if one.caution else "named" if one.named else "plain", crowd)
    crowd.make_way()


def label_dots(drawn: Iterable[DrawnBox], crowd: Crowd) -> None:
    """Find places for the plates of an overview: only close to their dots, but for shared boxes."""
    for one in drawn:
        _add(one, "caution dot" if one.caution else "dot", crowd)
    crowd.make_way()


def _add(one: DrawnBox, sort: str, crowd: Crowd) -> None:
    crowd.add(Wish(one.box.id, _start_of(one), one.bounds, partial(_tries, one, sort, crowd.ground)))


def _tries(one: DrawnBox, sort: str, ground: Ground) -> Iterator[Try]:
    for form, stage in ATTEMPTS[sort]:
        if form == "tight" and one.row_tight >= one.row_room:
            continue  # it would take as much room as the plates did that found none
        if stage != "outside" or ground.is_near_outside(one.at, FARTHEST_OUTSIDE):
            size = _label_size(one, form)
            yield form, stage in FAR, size, _candidates(one, stage, size)


def stands_of(drawn: Iterable[DrawnBox], crowd: Crowd) -> dict[int, Kept | None]:
    """Return where the label of each box that wants one came to stand, None where it found no place."""
    return {one.box.id: crowd.kept.get(one.box.id) for one in drawn if crowd.wanted(one.box.id)}


def write_labels(drawn: Iterable[DrawnBox], stands: Mapping[int, Kept | None], frame: Frame, labels: Labels) -> None:
    """Draw the labels where they came to stand, and note what the plan has no room to say."""
    for one in drawn:
        if one.box.id in stands:
            _write(one, stands[one.box.id], frame, labels)


def _write(one: DrawnBox, kept: Kept | None, frame: Frame, labels: Labels) -> None:
    if kept is None:
        labels.listed.append(one.box.id)
        labels.not_placed.append(one.box.mark)
        return
    form, placed = _form_shown(one, kept.form), kept.placed
    if form in SHORT:
        labels.listed.append(one.box.id)
    labels.spots.append((placed.bounds, subject_of(one.box)))
    if placed.leader is not None:
        line = polyline(*_to_touch(placed.leader, _blocks(one, form, placed.centre)))
        if placed.away:
            labels.marks.append(Group((Shape(line, None, Pen(AWAY_PEN + 2 * AWAY_CLEAR, frame.theme.paper)),)))
        labels.marks.append(Shape(line, None, Pen(AWAY_PEN if placed.away else LED_PEN, frame.theme.ink)))
    labels.marks.append(Group(tuple(_body(one, form, placed.centre, frame)), subject_of(one.box)))


def _form_shown(one: DrawnBox, form: Form) -> Form:
    """Return what a label shows: plates kept tight give way to the mark while they tell more than there is room for."""
    if form != "tight":
        return form
    return "plates" if row_width(one.plates) <= one.row_tight else "mark"


def _start_of(one: DrawnBox) -> XY:
    """Return a point that is surely in the box's own room."""
    if one.facing is None:
        return one.at
    return one.at[0] + one.facing[0] * 0.6, one.at[1] + one.facing[1] * 0.6


def _candidates(one: DrawnBox, stage: Stage, size: tuple[float, float]) -> Iterator[Candidate]:
    left, top, right, bottom = one.bounds[0]
    middle = (left + right) / 2, (top + bottom) / 2
    reach = max(RADIUS, (right - left) / 2) if one.facing is None and one.marks else one.depth / 2
    if stage == "close":
        return (
            from_ceiling(one.at, reach, size) if one.facing is None else from_wall(one.at, one.facing, one.depth, size)
        )
    if stage == "searched":
        return searched(middle, FARTHEST_LED)
    if stage == "searched anywhere":
        return searched(middle, FARTHEST_LED, "anywhere")
    if stage == "led":
        return around_point(middle, size, reach + 4.0, FARTHEST_LED if one.marks else FARTHEST_LED / 2)
    places = partial(around_point, middle, size, reach + 4.0, FARTHEST_OUTSIDE)
    if stage == "outside or anywhere":
        return chain(places("outside"), places("anywhere"))
    return places(stage)


# --- what a label shows ---------------------------------------------------------------------------------------------


def _label_size(one: DrawnBox, form: Form) -> tuple[float, float]:
    if form == "mark":
        return width(one.box.mark, MARK_SIZE) + 0.4, cap_height(MARK_SIZE) + 0.6
    if form == "danger" and one.found is not None:
        return box_plate_width(one.box.mark, one.found.tied), BOX_PLATE_HEIGHT
    if form == "tight":
        return max(one.row_tight, width(one.box.mark, MARK_SIZE) + 0.4), PLATE_HEIGHT
    wide, high = max(row_width(one.plates), one.row_room), PLATE_HEIGHT
    if form == "plates":
        return wide, high
    if one.caution and one.found is not None:
        return max(wide, box_plate_width(one.box.mark, one.found.tied)), high + BOX_PLATE_HEIGHT + BLOCK_GAP
    return max(wide, width(one.box.mark, MARK_SIZE) + 0.4), high + _mark_height()


def _mark_height() -> float:
    return cap_height(MARK_SIZE) + 0.7


def _blocks(one: DrawnBox, form: Form, centre: XY) -> tuple[Bounds, ...]:
    """Return where the blocks of a label stand: the row of its circuits first, then what goes with it."""
    x, y = centre
    row = row_width(one.plates), PLATE_HEIGHT
    if form == "plates":
        return (around(centre, row),)
    if form != "whole":
        return (around(centre, _label_size(one, form)),)
    if one.caution and one.found is not None:
        plate = box_plate_width(one.box.mark, one.found.tied), BOX_PLATE_HEIGHT
        inward_up = one.facing is not None and one.facing[1] < 0
        half = (PLATE_HEIGHT + BOX_PLATE_HEIGHT + BLOCK_GAP) / 2
        sign = 1 if inward_up else -1  # the row of circuits stands next to the box, the caution plate beyond it
        beyond = y - sign * (half - BOX_PLATE_HEIGHT / 2)
        return around((x, y + sign * (half - PLATE_HEIGHT / 2)), row), around((x, beyond), plate)
    mark = width(one.box.mark, MARK_SIZE) + 0.4, _mark_height()
    return around((x, y - _mark_height() / 2), row), around((x, y + PLATE_HEIGHT / 2), mark)


def _to_touch(leader: Line, blocks: Sequence[Bounds]) -> Line:
    """Return the leader, led on to the nearest block where it ends beside a narrower one."""
    if not leader:
        return leader
    x, y = leader[-1]
    ends = [(max(left, min(right, x)), max(top, min(bottom, y))) for left, top, right, bottom in blocks]
    nearest = min(ends, key=lambda end: dist(end, (x, y)))
    return leader if dist(nearest, (x, y)) < TOUCHES else (*leader, nearest)


def _body(one: DrawnBox, form: Form, centre: XY, frame: Frame) -> list[Mark]:
    x, y = centre
    if form == "mark":
        return _mark(one, (x, y + cap_height(MARK_SIZE) / 2), frame)
    if form == "danger" and one.found is not None:
        return [box_plate(one.box.mark, one.found, centre, frame.theme)]
    blocks = _blocks(one, form, centre)
    row = plate_row(one.plates, _middle(blocks[0]), frame.theme)
    if form == "plates":
        return [row]
    if one.caution and one.found is not None:
        return [row, box_plate(one.box.mark, one.found, _middle(blocks[1]), frame.theme)]
    return [*_mark(one, (x, blocks[1][3] - 0.1), frame), row]


def _middle(bounds: Bounds) -> XY:
    return (bounds[0] + bounds[2]) / 2, (bounds[1] + bounds[3]) / 2


def _mark(one: DrawnBox, at: XY, frame: Frame) -> list[Mark]:
    """Draw a box's mark on a ground of its own: hatches and dots would eat its small letters."""
    wide, high = width(one.box.mark, MARK_SIZE) + 0.4, cap_height(MARK_SIZE) + 0.5
    ground = rectangle(at[0] - wide / 2, at[1] + 0.25 - high, wide, high, 0.3)
    return [Shape(ground, frame.theme.paper), Text(at, one.box.mark, MARK_SIZE, False, frame.theme.ink, "middle")]
