"""The overview of a level: devices as dots, names of rooms, and the plates of what is in danger or in doubt."""

from collections.abc import Sequence

from floorplan_circuits.drawing.crowding import Crowd
from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Mark, Pen, Shape, rectangle
from floorplan_circuits.drawing.overlaps import around
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan_boxes import DOUBTFUL, ON_WALL, dot_box, subject_of
from floorplan_circuits.drawing.plan_building import facing
from floorplan_circuits.drawing.plan_labels import Labels, label_dots, write_labels
from floorplan_circuits.drawing.plan_stairs import stair_words
from floorplan_circuits.drawing.plan_walls import wall_depth
from floorplan_circuits.drawing.room_names import name_rooms_of_overview
from floorplan_circuits.findings import XY
from floorplan_circuits.home.boxes import Box

DOT = 1.05
HIT = 3.2
"""Side in mm of the square that a click on a dot may miss by."""
MOST_PLATES = 300
"""More plates of doubtful boxes than this would hide the level: their hollow dots still tell them."""
PLATES_TO = 320.0
"""The scale (house mm a paper mm) from which even plates would hide the level."""


def dots(frame: Frame, ground: Ground, labels: Labels) -> list[Mark]:
    """Draw every device as a dot, hollow where something is unknown or in doubt; then names and plates round them."""
    boxes = frame.boxes()
    places = [_place(box, frame) for box in boxes]
    for box, at in zip(boxes, places, strict=True):
        ground.take(around(at, (DOT, DOT)))
        labels.spots.append((around(at, (HIT, HIT)), subject_of(box)))
    told_of = {box.id for box in boxes if frame.shows(box)}
    shared = {found.box for found in frame.findings.boxes.values() if found.shared} & told_of
    doubtful = (_doubtful(frame) & told_of) - shared
    dead = (_dead(frame) & told_of) - shared - doubtful
    special, drawn = shared | doubtful | dead, list(zip(boxes, places, strict=True))
    marks = [
        _squares([at for box, at in drawn if box.id not in special], DOT, frame.theme.ink, None),
        _squares([at for box, at in drawn if box.id in doubtful], DOT, frame.theme.paper, Pen(0.25, frame.theme.ink)),
        _squares([at for box, at in drawn if box.id in dead], DOT, frame.theme.paper, Pen(0.2, frame.theme.faint)),
        _squares(
            [at for box, at in drawn if box.id in shared],
            1.5 * DOT,
            frame.theme.caution,
            Pen(0.35, frame.theme.caution_ink),
        ),
    ]
    crowd = Crowd(ground)
    urgent = [dot_box(box, at, DOT, frame) for box, at in drawn if box.id in shared and frame.scale < PLATES_TO]
    label_dots(urgent, crowd)
    name_rooms_of_overview(frame.rooms(), frame, ground, labels)
    told = doubtful if frame.scale < PLATES_TO and len(doubtful) <= MOST_PLATES else set()
    unsure = [dot_box(box, at, DOT, frame) for box, at in drawn if box.id in told]
    label_dots(unsure, crowd)
    write_labels((*urgent, *unsure), crowd, frame, labels)
    return [*(mark for mark in marks if mark is not None), *stair_words(frame, ground)]


def _place(box: Box, frame: Frame) -> XY:
    """Return where a dot stands: before its wall, on whose dark line it would not be seen."""
    x, y = frame.mm(box.at or (0, 0))
    if box.mount not in ON_WALL:
        return x, y
    way, off = facing(box.angle), (wall_depth(frame) + DOT) / 2
    return x + way[0] * off, y + way[1] * off


def _doubtful(frame: Frame) -> set[int]:
    """Return the boxes with something unknown or in doubt, and those in which nothing is recorded."""
    found = {one.box for one in frame.findings.conclusions.values() if one.standing in DOUBTFUL}
    return found | {box.id for box in frame.boxes() if not box.feeds()}


def _dead(frame: Frame) -> set[int]:
    """Return the boxes that should be dead while handles are off: their dots go faint."""
    states = frame.what_if.boxes.values() if frame.what_if is not None else ()
    return {one.box for one in states if one.state == "should be dead"}


def _squares(places: Sequence[XY], side: float, fill: str, pen: Pen | None) -> Mark | None:
    path = tuple(part for x, y in places for part in rectangle(x - side / 2, y - side / 2, side, side))
    return Shape(path, fill, pen) if path else None
