"""Walls: as thick as the home says, never under the weights of the sheet; what stands on them does not move."""

from math import dist, hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Shape, Stamp, flat, path_bounds
from floorplan_circuits.drawing.overlaps import Segment, crosses_box
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.plan import plan
from floorplan_circuits.drawing.plan_building import openings, swings
from floorplan_circuits.drawing.plan_walls import INNER, OUTER, wall_depth, wall_segments, walls
from floorplan_circuits.find import find
from floorplan_circuits.home.building import Opening
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from tests.drawing.drawn import bounds_of, box, device, fed, home, labels_of, room, sample

BOXES = (
    box(20, (1000, 0), device(21, fed(22)), angle=90),
    box(23, (4000, 1500), device(24, fed(25)), angle=180),
    box(26, (4000, 2200), device(27, fed(28)), angle=0),
)
ROOMS = (room(30, "Study", 0, 0, 4000, 3000), room(31, "Hall", 4000, 0, 2000, 3000))
DOOR = Opening(id=40, level=1, kind="door", at=(4000, 900), width=800, angle=180, hinge="left", swing="ahead")
WINDOW = Opening(id=41, level=1, kind="window", at=(2500, 0), width=900, angle=90)
WAY = Opening(id=42, level=1, kind="open way", at=(5000, 3000), width=900, angle=90)


def built(wall: int) -> Home:
    return home(BOXES, (), ROOMS, wall=wall, openings=Table([DOOR, WINDOW, WAY]))


def frame(wall: int, scale: float = 50.0) -> Frame:
    return Frame(find(built(wall)), 1, scale, PAPER)


def test_where_nothing_is_said_outer_walls_are_twice_as_thick_as_inner_ones() -> None:
    segments = wall_segments(Frame(sample("cottage"), next(iter(sample("cottage").home.levels)).id, 50.0, PAPER))
    assert {segment.half for segment in segments if segment.outer} == {0.5}
    assert {segment.half for segment in segments if not segment.outer} == {0.25}
    widths = [mark.pen.width for mark in flat(walls(segments, PAPER)) if isinstance(mark, Shape) and mark.pen]
    assert widths == [0.5, 1.0]


@given(st.integers(0, 1000), st.sampled_from([20.0, 50.0, 90.0, 400.0]))
@settings(max_examples=25, deadline=None)
def test_a_stated_thickness_is_to_scale_and_never_thinner_than_the_sheet_asks(wall: int, scale: float) -> None:
    for segment in wall_segments(frame(wall, scale)):
        least = OUTER if segment.outer else INNER
        assert 2 * segment.half == pytest.approx(max(least, wall / scale))


@pytest.mark.parametrize("wall", [0, 60, 120, 400])
def test_things_stand_before_the_face_of_their_wall_and_their_places_stay(wall: int) -> None:
    shown = find(built(wall))
    drawn = plan(shown, 1, 50.0, PAPER)
    boxes = {mark.subject.id: mark for mark in drawn.ink.marks if getattr(mark, "subject", None) and mark.name}  # type: ignore[union-attr]
    for one, normal, outer in ((20, (0, 1), True), (23, (-1, 0), False), (26, (1, 0), False)):
        stamp = next(mark for mark in flat(boxes[one]) if isinstance(mark, Stamp))
        at = shown.home.boxes[one].at
        assert at is not None
        off = stamp.at[0] - at[0] / 50, stamp.at[1] - at[1] / 50
        half = max(OUTER if outer else INNER, wall / 50) / 2
        assert off == pytest.approx((normal[0] * half, normal[1] * half))


@pytest.mark.parametrize("wall", [0, 120, 400])
def test_no_label_reaches_into_the_thickness_of_a_wall(wall: int) -> None:
    shown = find(built(wall))
    segments = wall_segments(Frame(shown, 1, 50.0, PAPER))
    for label in labels_of(plan(shown, 1, 50.0, PAPER)):
        assert not any(crosses_box(segment, bounds_of(label)) for segment in segments)


@pytest.mark.parametrize("wall", [0, 120, 400])
def test_openings_are_cut_through_the_whole_wall(wall: int) -> None:
    shown = frame(wall)
    deep = wall_depth(shown)
    for group in openings(shown).marks:
        cut = next(mark for mark in flat(group) if isinstance(mark, Shape))
        left, top, right, bottom = path_bounds(cut.path)
        assert cut.fill == PAPER.paper
        assert deep < min(right - left, bottom - top) < deep + 0.5


def test_a_door_hangs_in_the_face_of_a_thick_wall_and_sweeps_from_there() -> None:
    left, top, right, bottom = swings(frame(400))[0]
    assert (left, right) == pytest.approx((80 - 4 - 16, 80))
    assert (top, bottom) == pytest.approx((10, 26))


@given(st.integers(3, 9), st.integers(50, 400))
@settings(max_examples=20, deadline=None)
def test_a_closed_ring_of_walls_is_one_run_with_a_corner_at_every_wall(sides: int, across: int) -> None:
    from math import cos, pi, sin

    ring = [(across * cos(2 * pi * one / sides), across * sin(2 * pi * one / sides)) for one in range(sides)]
    segments = [Segment(a, b, 1.2, True) for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)]
    (mark,) = walls(segments[::2] + segments[1::2], PAPER).marks
    assert isinstance(mark, Shape)
    assert [letter for letter, _ in mark.path] == ["M", *["L"] * (sides - 1), "Z"]


def test_every_stretch_of_wall_is_drawn_once_and_in_full() -> None:
    shown = sample("cottage")
    thick = Frame(find(change(shown.home, wall=150)), next(iter(shown.home.levels)).id, 50.0, PAPER)
    segments = wall_segments(thick)
    (mark,) = walls(segments, PAPER).marks
    assert isinstance(mark, Shape)
    drawn, at, first = 0.0, (0.0, 0.0), (0.0, 0.0)
    for letter, numbers in mark.path:
        to = first if letter == "Z" else (numbers[0], numbers[1])
        drawn += 0.0 if letter == "M" else hypot(to[0] - at[0], to[1] - at[1])
        first = to if letter == "M" else first
        at = to
    assert drawn == pytest.approx(sum(dist(wall.a, wall.b) for wall in segments))
