"""The piece of a plan around boxes: they are on it, ringed and named, and it fits the room it has."""

import pytest

from floorplan_circuits.drawing.ink import Shape, flat
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.plan import DOTS_FROM
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.sheets.plan_around import LEAST_SCALE, PlanAround, plans_around
from floorplan_circuits.sheets.rings import RING
from tests.drawing.drawn import bounds_of, box, device, fed, home, room, sample, words_in

ROOM = (77.0, 60.0)


def around(findings: Findings, *boxes: int, room: tuple[float, float] = ROOM) -> list[PlanAround]:
    return plans_around(findings, boxes, room, PAPER)


def rings(piece: PlanAround) -> int:
    return sum(isinstance(mark, Shape) and mark.pen is not None and mark.pen.width == RING for mark in flat(piece.ink))


@pytest.mark.parametrize("name", ["cottage", "flat", "house"])
def test_every_box_of_the_samples_is_ringed_and_named_on_a_piece_that_fits(name: str) -> None:
    findings = sample(name)
    for one in list(findings.home.boxes)[::5]:
        if one.at is None:
            continue
        (piece,) = around(findings, one.id)
        left, top, right, bottom = bounds_of(piece.ink)
        assert rings(piece) == 1
        assert one.mark in words_in(piece.ink)
        assert right - left <= ROOM[0] + 1
        assert bottom - top <= ROOM[1] + 1
        assert piece.scale < DOTS_FROM


@pytest.mark.parametrize("name", ["cottage", "flat", "house"])
def test_nothing_of_a_narrow_piece_is_drawn_outside_the_place_it_takes(name: str) -> None:
    findings = sample(name)
    for one in list(findings.home.boxes)[::6]:
        for piece in around(findings, one.id, room=(36.5, 48.0)):
            left, top, right, bottom = bounds_of(piece.ink)
            assert min(left, top) >= -1.0
            assert right <= piece.width + 1.0
            assert bottom <= piece.height + 1.0


@pytest.mark.parametrize("at", [(200, 200), (8000, 100), (15_900, 11_900)])
def test_of_a_room_too_large_to_be_read_what_is_next_to_the_box_is_cut_out(at: tuple[int, int]) -> None:
    rooms = (room(30, "Barn", 0, 0, 16_000, 12_000),)
    far = box(23, (16_000 - at[0], 12_000 - at[1]), device(24, fed(25)))
    (piece,) = around(find(home((box(20, at, device(21, fed(22))), far), rooms=rooms)), 20)
    assert piece.scale == LEAST_SCALE
    assert "B20" in words_in(piece.ink)
    assert "B23" not in words_in(piece.ink) or at == (8000, 100)
    assert rings(piece) == 1
    left, top, right, bottom = bounds_of(piece.ink)
    assert right - left <= ROOM[0] + 1
    assert bottom - top <= ROOM[1] + 1


def test_its_room_is_named_and_a_near_one_is_shown_where_it_fits() -> None:
    boxes = (box(20, (800, 800), device(21, fed(22))),)
    rooms = (room(30, "Bath", 0, 0, 2000, 2000), room(31, "Hall", 2000, 0, 2000, 2000))
    (piece,) = around(find(home(boxes, rooms=rooms)), 20)
    assert {"Bath", "Hall"} <= set(words_in(piece.ink))


def test_boxes_far_apart_get_a_piece_each_rather_than_dots() -> None:
    boxes = (box(20, (800, 800), device(21, fed(22))), box(23, (29_000, 800), device(24, fed(25))))
    rooms = (room(30, "Bath", 0, 0, 2000, 2000), room(31, "Barn", 28_000, 0, 2000, 2000))
    pieces = around(find(home(boxes, rooms=rooms)), 20, 23)
    assert [piece.boxes for piece in pieces] == [(20,), (23,)]
    assert all(piece.scale < DOTS_FROM for piece in pieces)


def test_a_box_without_a_place_or_without_anything_built_is_on_no_piece() -> None:
    planned = box(23, (900, 900), device(24, fed(25), planned=True))
    assert around(find(home((box(20, None, device(21, fed(22))), planned))), 20, 23) == []


def test_a_box_without_a_drawing_round_it_is_shown_all_the_same() -> None:
    (piece,) = around(find(home((box(20, (800, 800), device(21, fed(22))),))), 20)
    assert "B20" in words_in(piece.ink)
