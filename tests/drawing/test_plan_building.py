"""The building: floors take their circuits' colours, walls their weight, doors swing to the side they are told."""

import pytest

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Group, Hatch, Shape, flat, path_bounds, rectangle
from floorplan_circuits.drawing.overlaps import Segment
from floorplan_circuits.drawing.palette import PAPER, hues, tint
from floorplan_circuits.drawing.plan_building import (
    facing,
    fill,
    floors,
    openings,
    swings,
    zone_edges,
)
from floorplan_circuits.drawing.shown_zones import shown_floor
from floorplan_circuits.find import find
from floorplan_circuits.home.building import Opening
from floorplan_circuits.home.table import Table
from tests.drawing.drawn import bounds_of, box, breaker, device, fed, home, room

ROOM = room(30, "Study", 0, 0, 4000, 3000)
SPLIT = (
    box(20, (0, 1500), device(21, fed(22, 6)), angle=0),
    box(23, (4000, 1500), device(24, fed(25, 7)), angle=180),
)
BREAKERS = (breaker(6, 1), breaker(7, 2))


def frame(**fields: object) -> Frame:
    return Frame(find(home(rooms=(ROOM,), **fields)), 1, 50.0, PAPER)  # type: ignore[arg-type]


def floor_of(shown: Frame) -> Group:
    return floors(shown, shown_floor(shown))


def edges(shown: Frame) -> list[Segment]:
    return zone_edges(shown, shown_floor(shown))


def door(hinge: str, swing: str, angle: int = 90) -> Opening:
    return Opening.model_validate(
        {"id": 40, "level": 1, "kind": "door", "at": (2000, 0), "width": 800, "angle": angle, "hinge": hinge,
         "swing": swing}
    )  # fmt: skip


# --- floors ---------------------------------------------------------------------------------------------------------


def test_a_room_on_two_circuits_is_divided_by_a_dashed_edge() -> None:
    divided = frame(boxes=SPLIT, breakers=BREAKERS)
    assert edges(divided)
    dashed = [mark for mark in flat(floor_of(divided)) if isinstance(mark, Shape) and mark.pen and mark.pen.dash]
    assert len(dashed) == 1
    assert path_bounds(dashed[0].path) == pytest.approx((0, 0, 80, 60))


def test_a_room_on_one_circuit_has_no_edge_inside() -> None:
    assert edges(frame(boxes=SPLIT[:1], breakers=BREAKERS)) == []


def test_an_edge_of_two_zones_is_drawn_once() -> None:
    found = edges(frame(boxes=SPLIT, breakers=BREAKERS))
    assert len({frozenset((edge.a, edge.b)) for edge in found}) == len(found)


def test_a_floor_that_nobody_knows_is_dotted_without_tint() -> None:
    (mark,) = fill(rectangle(0, 0, 5, 5), None, PAPER)
    assert isinstance(mark, Hatch)
    assert mark.dots


def test_a_hatch_joins_from_the_seventh_circuit_on() -> None:
    plain, hatched = fill(rectangle(0, 0, 5, 5), 0, PAPER), fill(rectangle(0, 0, 5, 5), len(hues()), PAPER)
    assert [type(mark) for mark in plain] == [Shape]
    assert [type(mark) for mark in hatched] == [Shape, Hatch]
    shape = plain[0]
    assert isinstance(shape, Shape)
    assert shape.fill == tint(PAPER, 0)


# --- walls and openings ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("hinge", "swing", "hinge_x", "side"),
    [("left", "ahead", 48, 1), ("right", "ahead", 32, 1), ("left", "behind", 48, -1), ("right", "behind", 32, -1)],
)
def test_a_door_hangs_and_swings_as_seen_by_who_looks_where_it_faces(
    hinge: str, swing: str, hinge_x: float, side: int
) -> None:
    found = frame(openings=Table([door(hinge, swing)]))
    shapes = [mark for mark in flat(openings(found)) if isinstance(mark, Shape)]
    leaf = path_bounds(shapes[1].path)
    assert (leaf[0] + leaf[2]) / 2 == pytest.approx(hinge_x)
    ((left, top, right, bottom),) = swings(found)
    assert (left, right) == pytest.approx((32, 48))
    assert (top, bottom) == pytest.approx((0, 16) if side > 0 else (-16, 0))


def test_a_door_that_does_not_swing_sweeps_nothing() -> None:
    assert swings(frame(openings=Table([door("none", "none")]))) == []


@pytest.mark.parametrize("kind", ["door", "window", "open way"])
def test_an_opening_cuts_its_wall_in_the_paper_colour(kind: str) -> None:
    opening = door("left", "ahead").model_copy(update={"kind": kind})
    cut = next(mark for mark in flat(openings(frame(openings=Table([opening])))) if isinstance(mark, Shape))
    left, top, right, bottom = path_bounds(cut.path)
    assert cut.fill == PAPER.paper
    assert (right - left, bottom - top) == pytest.approx((16, 1.2))


# --- which way things look --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("angle", "way"), [(0, (1, 0)), (90, (0, 1)), (180, (-1, 0)), (270, (0, -1))])
def test_a_thing_looks_along_its_angle_clockwise_from_the_right(angle: int, way: tuple[int, int]) -> None:
    assert facing(angle) == way


def test_the_floor_of_every_room_is_as_large_as_the_room() -> None:
    drawn = floor_of(frame(boxes=SPLIT, breakers=BREAKERS))
    assert bounds_of(drawn) == pytest.approx((0, 0, 80, 60))
