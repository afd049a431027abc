"""Boxes in one corner: the letters of their symbols never lie on one another, and none passes a wall."""

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Bounds, Text, flat
from floorplan_circuits.drawing.overlaps import Segment
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan_apart import STEPS, drawn_apart
from floorplan_circuits.drawing.plan_boxes import DrawnBox, drawn_box
from floorplan_circuits.find import find
from floorplan_circuits.home.boxes import Box
from tests.drawing.drawn import bounds_of, box, device, home
from tests.outside.test_pages_measured import POINTS_A_MM, SHRINK_PT

SCALE = 50.0
CORNER = [Segment((0, 0), (80, 0), 0.5), Segment((0, 0), (0, 80), 0.5)]
LEAST = SHRINK_PT / POINTS_A_MM


def switch(number: int, x: int, y: int, angle: int) -> Box:
    return box(number, (x, y), device(number + 1, kind="switch"), mount="wall", angle=angle)


def drawn(*boxes: Box) -> list[DrawnBox]:
    return drawn_apart(boxes, Frame(find(home(boxes)), 1, SCALE, PAPER), Ground(CORNER))


def letters(one: DrawnBox) -> list[Bounds]:
    return [bounds_of(mark) for whole in one.marks for mark in flat(whole) if isinstance(mark, Text)]


def lie_on_one_another(one: DrawnBox, other: DrawnBox) -> bool:
    """As on paper: more than letters of one word may reach into each other's boxes."""
    return any(
        min(a[2], b[2]) - max(a[0], b[0]) > 2 * LEAST and min(a[3], b[3]) - max(a[1], b[1]) > 2 * LEAST
        for a in letters(one)
        for b in letters(other)
    )


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 250), st.integers(0, 250))
def test_two_switches_in_a_corner_stand_clear_and_in_the_room(along: int, down: int) -> None:
    first, second = drawn(switch(20, along, 0, 90), switch(30, 0, down, 0))
    assert not lie_on_one_another(first, second)
    assert first.at == (along / SCALE, 0.5)
    assert second.at[0] == 0.5
    assert second.at[1] >= 0
    assert abs(second.at[1] - down / SCALE) <= max(STEPS)


def test_without_it_their_letters_would_lie_on_one_another() -> None:
    boxes = switch(20, 200, 0, 90), switch(30, 0, 200, 0)
    frame = Frame(find(home(boxes)), 1, SCALE, PAPER)
    first, second = (drawn_box(one, frame, Ground(CORNER)) for one in boxes)
    assert lie_on_one_another(first, second)
    assert not lie_on_one_another(*drawn(*boxes))


def test_boxes_with_room_stand_where_they_are() -> None:
    assert [one.at for one in drawn(switch(20, 1500, 0, 90), switch(30, 0, 1500, 0))] == [(30.0, 0.5), (0.5, 30.0)]
