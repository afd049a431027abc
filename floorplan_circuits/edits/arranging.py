"""Arranging boxes that are selected: in one line with the first of them, or evenly between the outermost two."""

from collections.abc import Iterable, Mapping
from math import cos, radians, sin
from typing import Literal, NamedTuple

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point, change

Line = Literal["across", "down"]
"""In a line across the sheet (one y), or down it (one x)."""
ON_WALL = ("wall", "outdoor")
OFF_WALL_MM = 5
"""So far a box may be shifted out of its wall: what comes of rounding."""


class _Placed(NamedTuple):
    box: Box
    at: Point


@edit
def align(home: Home, boxes: Iterable[int], line: Line) -> Edited:
    """Bring boxes into line with the first of them named. Raises `Refused` where one would leave its wall."""
    first, *others = _placed(home, boxes, 2)
    axis = 1 if line == "across" else 0
    moves = {one.box.id: _with_axis(one.at, axis, first.at[axis]) for one in others}
    return Edited(_moved(home, moves), f"Line up {counted(len(others) + 1, 'box', 'boxes')}")


@edit
def distribute(home: Home, boxes: Iterable[int]) -> Edited:
    """Space boxes evenly between the outermost two, along the longer way between them.

    Only that way they are shifted. Raises `Refused` for fewer than three, or where one would leave its wall.
    """
    placed = _placed(home, boxes, 3)
    spans = [max(one.at[axis] for one in placed) - min(one.at[axis] for one in placed) for axis in (0, 1)]
    axis = 0 if spans[0] >= spans[1] else 1
    row = sorted(placed, key=lambda one: (one.at[axis], one.box.id))
    start, step = row[0].at[axis], spans[axis] / (len(row) - 1)
    moves = {one.box.id: _with_axis(one.at, axis, round(start + nth * step)) for nth, one in enumerate(row)}
    return Edited(_moved(home, moves), f"Space out {counted(len(row), 'box', 'boxes')}")


def _placed(home: Home, boxes: Iterable[int], least: int) -> list[_Placed]:
    """Return the boxes that have a place, as they were named. Raises `Refused` for too few or for several levels."""
    named = [home.boxes.get(one) for one in dict.fromkeys(boxes)]
    found = [_Placed(box, box.at) for box in named if box is not None and box.at is not None]
    if len(found) < least:
        raise Refused(f"Choose at least {'two' if least == 2 else 'three'} boxes on the plan first.")
    if len({one.box.level for one in found}) > 1:
        raise Refused("These boxes are on several levels. Choose boxes of one.")
    return found


def _with_axis(at: Point, axis: int, value: int) -> Point:
    return (value, at[1]) if axis == 0 else (at[0], value)


def _moved(home: Home, moves: Mapping[int, Point]) -> Home:
    boxes = home.boxes
    for number, to in moves.items():
        box = boxes[number]
        assert box.at is not None
        if _leaves_wall(box, (to[0] - box.at[0], to[1] - box.at[1])):
            raise Refused(f"{box.mark} would leave its wall. Choose boxes that can slide along their walls.")
        boxes = boxes.put(change(box, at=to)) if to != box.at else boxes
    return change(home, boxes=boxes)


def _leaves_wall(box: Box, by: Point) -> bool:
    """Tell whether a shift takes a box on a wall out of it: it may only slide along."""
    facing = radians(box.angle)
    return box.mount in ON_WALL and abs(by[0] * cos(facing) + by[1] * sin(facing)) > OFF_WALL_MM
