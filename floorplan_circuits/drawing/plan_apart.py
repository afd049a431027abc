"""Boxes so close that letters of their symbols would lie on one another: the later steps aside along its wall."""

from collections.abc import Iterable, Iterator, Sequence

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Bounds, Text, flat
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.overlaps import overlap
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan_boxes import DrawnBox, drawn_box
from floorplan_circuits.findings import XY
from floorplan_circuits.home.boxes import Box

STEPS = (1.5, -1.5, 3.0, -3.0, 4.5, -4.5)
"""How far in mm a box may stand aside of its place, in the order they are tried: farther off it would mislead."""
OFF_WALL = 0.6


def drawn_apart(boxes: Iterable[Box], frame: Frame, ground: Ground) -> list[DrawnBox]:
    """Draw the boxes in turn, each where it is, or as near as its letters lie on no others and no wall is passed."""
    drawn, taken = list[DrawnBox](), list[Bounds]()
    for box in boxes:
        one = drawn_box(box, frame, ground)
        if _meets(one, taken):
            one = next((moved for moved in _aside(one, frame, ground) if not _meets(moved, taken)), one)
        drawn.append(one)
        taken += _letters(one)
    return drawn


def _aside(one: DrawnBox, frame: Frame, ground: Ground) -> Iterator[DrawnBox]:
    for step in STEPS:
        moved = drawn_box(one.box, frame, ground, step)
        if not ground.wall_between(_before(one), _before(moved)):
            yield moved


def _before(one: DrawnBox) -> XY:
    """Return a point that is surely in the box's own room."""
    if one.facing is None:
        return one.at
    return one.at[0] + one.facing[0] * OFF_WALL, one.at[1] + one.facing[1] * OFF_WALL


def _meets(one: DrawnBox, taken: Sequence[Bounds]) -> bool:
    return any(overlap(letters, other) for letters in _letters(one) for other in taken)


def _letters(one: DrawnBox) -> list[Bounds]:
    """Return the boxes round the letters of its symbols, in mm."""
    return [_around(mark) for whole in one.marks for mark in flat(whole) if isinstance(mark, Text)]


def _around(text: Text) -> Bounds:
    x, y = text.at
    return x, y - cap_height(text.size), x + width(text.words, text.size, text.bold), y
