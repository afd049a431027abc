"""Labels on the plan: the plates of boxes and the names of rooms, placed so that nothing covers anything."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from string import ascii_lowercase

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Bounds, Group, Mark, Pen, Shape, Text, polyline
from floorplan_circuits.drawing.lettering import cap_height, width, wrap
from floorplan_circuits.drawing.placement import Candidate, Ground, from_ceiling, from_wall, place
from floorplan_circuits.drawing.plan_boxes import RADIUS, DrawnBox, subject_of
from floorplan_circuits.drawing.plates import (
    BOX_PLATE_HEIGHT,
    PLATE_HEIGHT,
    box_plate,
    box_plate_width,
    plate_row,
    row_width,
)
from floorplan_circuits.findings import XY, RoomShape, Subject
from floorplan_circuits.home.building import Room

NAME_SIZES = (9.0, 8.0)
MARK_SIZE = 6.8
BLOCK_GAP = 0.45


@dataclass(slots=True)
class Labels:
    """What placing the labels gave: marks, the room they take for clicks, and what found no place."""

    marks: list[Mark] = field(default_factory=list)
    spots: list[tuple[Bounds, Subject]] = field(default_factory=list)
    keys: list[tuple[str, str]] = field(default_factory=list)
    not_placed: list[str] = field(default_factory=list)


# --- plates of boxes ------------------------------------------------------------------------------------------------


def label_boxes(drawn: Iterable[DrawnBox], frame: Frame, ground: Ground, labels: Labels) -> None:
    """Place the label of each box, in the order given."""
    for one in drawn:
        if one.plates:
            _label_box(one, frame, ground, labels)


def _label_box(one: DrawnBox, frame: Frame, ground: Ground, labels: Labels) -> None:
    size = _label_size(one)
    found = place(ground, _start_of(one), size, _candidates(one, size), one.bounds)
    if found is None:
        labels.not_placed.append(one.box.mark)
        return
    ground.take(found.bounds)
    labels.spots.append((found.bounds, subject_of(one.box)))
    if found.leader is not None:
        labels.marks.append(Shape(polyline(*found.leader), None, Pen(0.15, frame.theme.ink)))
    labels.marks.append(Group(tuple(_label(one, found.centre, frame)), subject_of(one.box)))


def _start_of(one: DrawnBox) -> XY:
    if one.facing is None:
        return one.at
    return one.at[0] + one.facing[0] * 0.6, one.at[1] + one.facing[1] * 0.6


def _label_size(one: DrawnBox) -> tuple[float, float]:
    wide, high = row_width(one.plates), PLATE_HEIGHT
    if one.caution and one.found is not None:
        return max(wide, box_plate_width(one.box.mark, one.found.tied)), high + BOX_PLATE_HEIGHT + BLOCK_GAP
    if one.named:
        return max(wide, width(one.box.mark, MARK_SIZE)), high + _mark_height()
    return wide, high


def _mark_height() -> float:
    return cap_height(MARK_SIZE) + 0.7


def _candidates(one: DrawnBox, size: tuple[float, float]) -> Iterable[Candidate]:
    if one.facing is not None:
        return from_wall(one.at, one.facing, one.depth, size)
    left, _, right, _ = one.bounds[0]
    return from_ceiling(one.at, max(RADIUS, (right - left) / 2), size)


def _label(one: DrawnBox, centre: XY, frame: Frame) -> list[Mark]:
    x, y = centre
    if one.caution and one.found is not None:
        inward_up = one.facing is not None and one.facing[1] < 0
        half = (PLATE_HEIGHT + BOX_PLATE_HEIGHT + BLOCK_GAP) / 2
        sign = 1 if inward_up else -1  # the row of circuits stands next to the box, the caution plate beyond it
        row_y, plate_y = y + sign * (half - PLATE_HEIGHT / 2), y - sign * (half - BOX_PLATE_HEIGHT / 2)
        return [
            plate_row(one.plates, (x, row_y), frame.theme),
            box_plate(one.box.mark, one.found, (x, plate_y), frame.theme),
        ]
    if one.named:
        row_y = y - _mark_height() / 2
        baseline = row_y + PLATE_HEIGHT / 2 + _mark_height() - 0.1
        name = Text((x, baseline), one.box.mark, MARK_SIZE, False, frame.theme.ink, "middle")
        return [plate_row(one.plates, (x, row_y), frame.theme), name]
    return [plate_row(one.plates, centre, frame.theme)]


# --- names of rooms -------------------------------------------------------------------------------------------------


def name_rooms(rooms: Sequence[Room], frame: Frame, ground: Ground, labels: Labels) -> None:
    """Place the rooms' names, the largest room first; where none fits, a key number, told beside the plan."""
    by_size = sorted(
        rooms, key=lambda room: -frame.findings.rooms[room.id].area if room.id in frame.findings.rooms else 0
    )
    for room in by_size:
        shape = frame.findings.rooms.get(room.id)
        if room.name and shape is not None:
            _name_room(room, shape, frame, ground, labels)


def _name_room(room: Room, shape: RoomShape, frame: Frame, ground: Ground, labels: Labels) -> None:
    middle = frame.mm(shape.label_at[0])
    for size in NAME_SIZES:
        for lines in _ways_to_write(room.name, size):
            if _try_name(lines, size, shape, frame, ground, labels, Subject("room", room.id)):
                return
    key = ascii_lowercase[len(labels.keys) % 26]  # a letter: a number would read as a circuit
    labels.keys.append((key, room.name))
    if not _try_name((key,), NAME_SIZES[0], shape, frame, ground, labels, Subject("room", room.id)):
        labels.not_placed.append(f"{room.name} (near {middle[0]:.0f}, {middle[1]:.0f} mm)")


def _ways_to_write(name: str, size: float) -> list[tuple[str, ...]]:
    """Return the name on one line, and in two or more that break between words only."""
    words = name.split()
    if len(words) < 2:
        return [(name,)]
    longest = max(width(word, size, True) for word in words)
    return [(name,), wrap(name, max(longest, width(name, size, True) * 0.55), size, True)]


def _try_name(
    lines: tuple[str, ...],
    size: float,
    shape: RoomShape,
    frame: Frame,
    ground: Ground,
    labels: Labels,
    subject: Subject,
) -> bool:
    pitch = size * 0.3528 * 1.16
    block = max(width(line, size, True) for line in lines) + 0.6, pitch * len(lines)
    middle = frame.mm(shape.label_at[0])
    found = place(ground, middle, block, _name_places(shape, frame, block))
    if found is None:
        return False
    x, y = found.centre
    first = y - block[1] / 2 + (pitch + cap_height(size)) / 2
    words = (
        Text((x, first + at * pitch), line, size, True, frame.theme.ink, "middle") for at, line in enumerate(lines)
    )
    ground.take(found.bounds)
    labels.spots.append((found.bounds, subject))
    labels.marks.append(Group(tuple(words), subject))
    return True


def _name_places(shape: RoomShape, frame: Frame, block: tuple[float, float]) -> Iterable[Candidate]:
    places = [frame.mm(at) for at in shape.label_at]
    yield from (Candidate(at) for at in places)
    for step in (1.0, 1.8, 2.6, 3.4, 4.4):
        for dx, dy in ((0, 1), (0, -1), (1, 0), (-1, 0), (1, 1), (-1, -1), (1, -1), (-1, 1)):
            x, y = places[0]
            yield Candidate((x + dx * step * block[0] / 3, y + dy * step * block[1] * 0.8))
