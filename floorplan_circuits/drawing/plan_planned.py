"""What is only planned, drawn apart from what is built: soft ink in a dashed frame, without number or colour.

It is for the screen, where it is worked on. The map beside the panel tells of what is there.
"""

from collections.abc import Iterator
from typing import NamedTuple

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Bounds, Group, Pen, Shape, rectangle
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan_boxes import ON_WALL, RADIUS, gang_spots, subject_of
from floorplan_circuits.drawing.symbols import bounds as symbol_bounds
from floorplan_circuits.drawing.symbols import stamp
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.kinds import kind_named

FRAME_PEN, FRAME_DASH = 0.18, (0.6, 0.5)
FRAME_OUT, CORNER = 0.45, 0.6


class Planned(NamedTuple):
    """What is planned in one box, the room it takes, and the box."""

    ink: Group
    bounds: tuple[Bounds, ...]
    subject: Subject


def planned(frame: Frame, ground: Ground) -> Iterator[Planned]:
    """Yield what is planned on the level, box by box, beside what is built in the same box."""
    home = frame.findings.home
    for box in home.boxes:
        if box.level == frame.level and box.at is not None and any(device.planned for device in box.devices):
            yield _planned(box, frame, ground)


def _planned(box: Box, frame: Frame, ground: Ground) -> Planned:
    theme = frame.theme
    marks: list[Group | Shape] = []
    taken: list[Bounds] = []
    spots = gang_spots(box, frame, ground)
    for device in box.devices:
        if not device.planned:
            continue
        symbol, at = kind_named(device.kind).symbol, spots[device.id]
        angle = box.angle if box.mount in ON_WALL else 0
        left, top, right, bottom = symbol_bounds(symbol, at, angle, RADIUS)
        frame_path = rectangle(
            left - FRAME_OUT, top - FRAME_OUT, right - left + 2 * FRAME_OUT, bottom - top + 2 * FRAME_OUT, CORNER
        )
        marks.append(Shape(frame_path, theme.paper, Pen(FRAME_PEN, theme.soft, FRAME_DASH)))
        marks.append(stamp(symbol, at, angle, theme.soft, theme.paper, radius=RADIUS, weight=0.2))
        taken.append((left - FRAME_OUT, top - FRAME_OUT, right + FRAME_OUT, bottom + FRAME_OUT))
    kinds = ", ".join(device.name or kind_named(device.kind).label for device in box.devices if device.planned)
    return Planned(Group(tuple(marks), subject_of(box), f"{box.mark}, planned: {kinds}"), tuple(taken), subject_of(box))
