"""Labels of boxes: whole where they fit, then less, and never silently nothing."""

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import pytest

from floorplan_circuits.drawing.arranged import Arrangement
from floorplan_circuits.drawing.crowding import Crowd
from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Group, Shape
from floorplan_circuits.drawing.overlaps import Segment
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan import plan
from floorplan_circuits.drawing.plan_boxes import DrawnBox, drawn_box
from floorplan_circuits.drawing.plan_labels import LED_PEN, Labels, label_boxes, stands_of, write_labels
from floorplan_circuits.drawing.plates import Liveness, Plate
from floorplan_circuits.find import find, what_if
from floorplan_circuits.home.boxes import Box
from tests.drawing.drawn import bounds_of, box, breaker, device, fed, home, sample, words_in

BREAKERS = (breaker(6, 1), breaker(7, 2))
PLAIN = box(20, (0, 0), device(21, fed(22, 6), kind="junction box"), mount="ceiling")
DOUBTFUL = box(20, (0, 0), device(21, fed(22), kind="junction box"), mount="ceiling")
SHARED = box(20, (0, 0), device(21, fed(22, 6), fed(23, 7)), mount="ceiling")


def cell(half: float) -> list[Segment]:
    """Inner walls round the origin, so near that little fits between them, in the middle of a large house."""
    return [*square(half, 0.25, outer=False), *square(120, 0.5, outer=True)]


def square(half: float, thick: float, outer: bool) -> list[Segment]:
    corners = [(-half, -half), (half, -half), (half, half), (-half, half), (-half, -half)]
    return [Segment(a, b, thick, outer) for a, b in pairwise(corners)]


def labelled(
    one: Box,
    half: float,
    neighbours_full: bool = False,
    as_drawn: Callable[[DrawnBox], DrawnBox] = lambda drawn: drawn,
) -> Labels:
    frame = Frame(find(home((one,), BREAKERS)), 1, 50.0, PAPER)
    ground, labels = Ground(cell(half)), Labels()
    for far in ((-200, -200, 200, -half), (-200, half, 200, 200), (-200, -half, -half, half), (half, -half, 200, half)):
        if neighbours_full:
            ground.take(far)
    drawn = as_drawn(drawn_box(one, frame, ground))
    for bounds in drawn.bounds:
        ground.take(bounds)
    crowd = Crowd(ground)
    label_boxes([drawn], crowd)
    write_labels([drawn], stands_of([drawn], crowd), frame, labels)
    return labels


def words(labels: Labels) -> list[str]:
    return [word for mark in labels.marks for word in words_in(mark)]


def test_with_room_each_sort_of_box_says_all() -> None:
    assert words(labelled(PLAIN, 40)) == ["1"]
    assert sorted(words(labelled(DOUBTFUL, 40))) == ["?", "B20"]
    assert words(labelled(SHARED, 40)) == ["1", "2", "2", "B20"]


def test_where_the_mark_finds_no_room_the_plate_still_stands() -> None:
    labels = labelled(DOUBTFUL, 6.2)
    assert words(labels) == ["?"]
    assert labels.listed == []


def test_where_no_plate_finds_room_in_its_own_it_is_led_through_the_wall() -> None:
    labels = labelled(PLAIN, 4.6)
    assert words(labels) == ["1"]
    ground, line = labels.marks[:2]
    assert isinstance(ground, Group)
    (bare,) = ground.marks
    assert isinstance(bare, Shape)
    assert isinstance(line, Shape)
    assert bare.pen is not None
    assert line.pen is not None
    assert (bare.path, bare.pen.colour) == (line.path, PAPER.paper)  # bare ground: seen over the wall it crosses
    assert bare.pen.width > line.pen.width > LED_PEN


def test_where_no_plate_finds_room_the_mark_alone_points_to_the_list() -> None:
    labels = labelled(PLAIN, 4.6, neighbours_full=True)
    assert words(labels) == ["B20"]
    assert (labels.listed, labels.not_placed) == ([20], [])


def test_where_nothing_finds_room_the_box_is_listed_and_reported() -> None:
    labels = labelled(PLAIN, 2.0, neighbours_full=True)
    assert labels.marks == []
    assert (labels.listed, labels.not_placed) == ([20], ["B20"])


def test_a_shared_box_is_never_cut_down_it_is_led_out_instead() -> None:
    labels = labelled(SHARED, 4.6)
    assert words(labels) == ["1", "2", "2", "B20"]
    assert isinstance(labels.marks[0], Shape)  # the line that leads to it


def test_a_shared_box_without_room_for_its_circuits_keeps_its_caution_plate() -> None:
    labels = labelled(SHARED, 7.2, neighbours_full=True)
    assert words(labels) == ["2", "B20"]
    assert (labels.listed, labels.not_placed) == ([20], [])


@pytest.mark.parametrize("one", [PLAIN, DOUBTFUL, SHARED], ids=["plain", "in doubt", "shared"])
def test_the_room_a_label_takes_holds_its_ink(one: Box) -> None:
    labels = labelled(one, 40)
    ((bounds, subject),) = labels.spots
    assert subject.id == 20
    left, top, right, bottom = bounds_of(labels.marks[-1])
    assert bounds[0] - 0.01 <= left
    assert bounds[1] - 0.3 <= top
    assert right <= bounds[2] + 0.01
    assert bottom <= bounds[3] + 0.3


@pytest.mark.parametrize(("liveness", "told"), [("live", ["1"]), ("should be dead", ["B20"])])
def test_a_number_stays_where_its_box_to_tick_would_not_fit_until_it_needs_that(
    liveness: Liveness, told: list[str]
) -> None:
    def while_off(drawn: DrawnBox) -> DrawnBox:
        return replace(drawn, plates=(Plate("1", "proved", liveness=liveness),), row_room=12.0, row_tight=4.0)

    labels = labelled(PLAIN, 6.2, neighbours_full=True, as_drawn=while_off)
    assert words(labels) == told
    assert labels.listed == ([] if told == ["1"] else [20])


def test_a_crowded_room_is_searched_before_the_label_of_a_shared_box_leaves_it() -> None:
    findings, arrangement = sample("house"), Arrangement()
    home_of, level = findings.home, findings.home.levels.ids()[1]
    shared = next(one for one in home_of.boxes if one.mark == "B10")
    plan(findings, level, 137.0, PAPER, what_if=what_if(findings, ()), picked=(shared.id,), arrangement=arrangement)
    assert arrangement._last is not None
    kept = arrangement._last.kept[shared.id]
    assert kept is not None
    assert (kept.form, kept.placed.away) == ("whole", False)
    xs, ys = zip(*home_of.rooms[findings.room_of[shared.id]].outline, strict=True)
    left, top, right, bottom = (edge * 137.0 for edge in kept.placed.bounds)
    assert min(xs) < left < right < max(xs)
    assert min(ys) < top < bottom < max(ys)
