"""Rooms near a box: the box's own first, and no wall or box of a room that is left out."""

from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.building import Room
from floorplan_circuits.sheets.rooms_around import extent, holds, nearest_first, only
from tests.drawing.drawn import box, device, fed, home, room

ROOMS = (
    room(30, "Far", 9000, 0, 3000, 3000),
    room(31, "Next", 3000, 0, 3000, 3000),
    room(32, "Here", 0, 0, 3000, 3000),
)
BOXES = (box(20, (1500, 1500), device(21, fed(22))), box(23, (10_000, 1500), device(24, fed(25))))


def drawn() -> Findings:
    return find(home(BOXES, rooms=ROOMS))


def names(rooms: list[Room]) -> list[str]:
    return [one.name for one in rooms]


def test_the_boxs_own_room_comes_first_then_the_nearest() -> None:
    findings = drawn()
    wanted = [findings.home.boxes[20]]
    near = nearest_first(findings, 1, wanted)
    assert names(near) == ["Here", "Next", "Far"]
    assert [holds(one, wanted, findings) for one in near] == [True, False, False]


def test_only_the_rooms_that_are_kept_have_walls_boxes_and_floors() -> None:
    findings = drawn()
    kept = only(findings, 1, [findings.home.rooms[32]], [findings.home.boxes[20]])
    assert names(list(kept.home.rooms)) == ["Here"]
    assert kept.home.boxes.ids() == (20,)
    assert {zone.room for zone in kept.zones} == {32}
    assert kept.walls
    for wall in kept.walls:
        for x, y in (wall.a, wall.b):
            assert 0 <= x <= 3000
            assert 0 <= y <= 3000


def test_a_wall_that_goes_on_past_other_rooms_is_cut_where_the_room_ends() -> None:
    findings = drawn()
    kept = only(findings, 1, [findings.home.rooms[31]], [])
    lengths = sum(abs(wall.a[0] - wall.b[0]) + abs(wall.a[1] - wall.b[1]) for wall in kept.walls)
    assert lengths == 12_000


def test_the_extent_takes_in_boxes_outside_the_rooms() -> None:
    findings = drawn()
    assert extent([findings.home.rooms[32]], [findings.home.boxes[23]]) == (0, 0, 10_000, 3000)
