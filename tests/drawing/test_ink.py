"""Ink: paths and marks keep their shape when they are moved, scaled and turned."""

from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.drawing.ink import (
    Group,
    Hatch,
    Mark,
    Path,
    Pen,
    PictureMark,
    Shape,
    Stamp,
    Text,
    circle,
    flat,
    moved,
    path_bounds,
    polygon,
    polyline,
    rectangle,
    scaled,
    turned,
)
from floorplan_circuits.findings import Subject

numbers = st.floats(-500, 500)
sizes = st.floats(0.1, 10)
PATH = rectangle(1, 2, 10, 4, 1)
PEN = Pen(0.3, "#14181d", (1.0, 0.5))
MARKS: tuple[Mark, ...] = (
    Shape(PATH, "#ffffff", PEN),
    Text((3, 4), "5A", 9.0, True),
    Stamp("switch", (5, 6), 90),
    Hatch(PATH, PEN, 45, 2.4),
    PictureMark("ab", (0, 0, 4, 3)),
)
GROUP = Group((*MARKS, Group(MARKS, Subject("box", 7), "box")), Subject("level", 1))


def flat_numbers(path: Path) -> list[float]:
    return [value for _, values in path for value in values]


def points(path: Path) -> list[tuple[float, float]]:
    return [pair for _, values in path for pair in zip(values[::2], values[1::2], strict=True)]


@given(numbers, numbers)
def test_moving_there_and_back_changes_nothing(dx: float, dy: float) -> None:
    back = moved(moved(GROUP, dx, dy), -dx, -dy)
    for was, now in zip(flat(GROUP), flat(back), strict=True):
        if isinstance(was, Shape | Hatch):
            assert isinstance(now, Shape | Hatch)
            assert flat_numbers(now.path) == pytest.approx(flat_numbers(was.path), abs=1e-9)
        elif isinstance(was, Text | Stamp):
            assert isinstance(now, Text | Stamp)
            assert now.at == pytest.approx(was.at, abs=1e-9)


@given(numbers, numbers)
def test_moving_moves_the_box_round_a_path_and_keeps_its_size(dx: float, dy: float) -> None:
    (shape, *_) = flat(moved(GROUP, dx, dy))
    assert isinstance(shape, Shape)
    assert path_bounds(shape.path) == pytest.approx((1 + dx, 2 + dy, 11 + dx, 6 + dy), abs=1e-9)


def test_moving_keeps_subjects_and_names() -> None:
    inner = moved(GROUP, 3, 4)
    assert isinstance(inner, Group)
    last = inner.marks[-1]
    assert isinstance(last, Group)
    assert (inner.subject, last.subject, last.name) == (Subject("level", 1), Subject("box", 7), "box")


@given(sizes)
def test_scaling_scales_places_letters_pens_dashes_and_grids_alike(size: float) -> None:
    for was, now in zip(flat(GROUP), flat(scaled(GROUP, size)), strict=True):
        if isinstance(was, Text) and isinstance(now, Text):
            assert (*now.at, now.size) == pytest.approx((was.at[0] * size, was.at[1] * size, was.size * size))
        elif isinstance(was, Stamp) and isinstance(now, Stamp):
            assert (now.radius, now.weight) == pytest.approx((was.radius * size, was.weight * size))
            assert now.angle == was.angle
        elif isinstance(was, Hatch) and isinstance(now, Hatch):
            assert (now.spacing, now.pen.width, *now.pen.dash) == pytest.approx(
                (2.4 * size, 0.3 * size, size, size / 2)
            )
        elif isinstance(was, PictureMark) and isinstance(now, PictureMark):
            assert now.bounds == pytest.approx(tuple(edge * size for edge in was.bounds))
        elif isinstance(was, Shape) and isinstance(now, Shape):
            assert now.pen is not None
            assert flat_numbers(now.path) == pytest.approx([value * size for value in flat_numbers(was.path)])
            assert now.pen.width == pytest.approx(0.3 * size)


@given(st.floats(-720, 720), numbers, numbers, sizes)
def test_turning_keeps_every_distance_but_for_the_size(angle: float, x: float, y: float, size: float) -> None:
    there = points(turned(PATH, angle, (x, y), size))
    for (ax, ay), (bx, by), (cx, cy), (dx, dy) in zip(points(PATH), points(PATH)[1:], there, there[1:], strict=False):
        assert hypot(dx - cx, dy - cy) == pytest.approx(size * hypot(bx - ax, by - ay), abs=1e-6)


def test_a_quarter_turn_is_clockwise_on_the_sheet() -> None:
    assert flat_numbers(turned(polyline((1, 0), (2, 0)), 90)) == pytest.approx([0, 1, 0, 2])


def test_a_circle_is_round_to_a_thousandth() -> None:
    drawn = circle(0, 0, 1)
    ends = [values[-2:] for _, values in drawn if values]
    assert [hypot(*end) for end in ends] == pytest.approx([1.0] * len(ends))
    (x0, y0), curve = ends[0], next(values for letter, values in drawn if letter == "C")
    middle = [
        (a + 3 * b + 3 * c + d) / 8 for a, b, c, d in zip((x0, y0), *(curve[i : i + 2] for i in (0, 2, 4)), strict=True)
    ]
    assert hypot(*middle) == pytest.approx(1.0, abs=1e-3)


def test_corners_never_grow_past_half_the_rectangle() -> None:
    assert path_bounds(rectangle(0, 0, 2, 10, 5)) == pytest.approx((0, 0, 2, 10))
    assert rectangle(0, 0, 2, 3) == polygon((0, 0), (2, 0), (2, 3), (0, 3))


def test_an_empty_path_has_no_box() -> None:
    with pytest.raises(ValueError, match="empty"):
        path_bounds(())


def test_flat_yields_the_marks_in_the_order_they_are_drawn() -> None:
    assert list(flat(GROUP)) == [*MARKS, *MARKS]
