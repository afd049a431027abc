"""The frame: house millimetres become paper millimetres, and only what is built is on the map."""

from floorplan_circuits.drawing.frame import Frame, is_built
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find
from tests.drawing.drawn import box, device, fed, home, room


def test_a_place_is_divided_by_the_scale() -> None:
    assert Frame(find(home()), 1, 50.0, PAPER).mm((1000, -250)) == (20.0, -5.0)


def test_only_the_levels_own_rooms_and_placed_boxes_are_drawn() -> None:
    placed, lost = box(20, (100, 100), device(21, fed(22))), box(23, None, device(24, fed(25)))
    elsewhere = box(26, (100, 100), device(27, fed(28)), level=None)
    frame = Frame(find(home((placed, lost, elsewhere), rooms=(room(30, "Hall", 0, 0, 3000, 2000),))), 1, 50.0, PAPER)
    assert [one.id for one in frame.boxes()] == [20]
    assert [one.name for one in frame.rooms()] == ["Hall"]


def test_a_box_that_is_only_planned_is_not_on_the_map() -> None:
    planned = device(21, fed(22), planned=True)
    assert not is_built(box(20, (0, 0), planned))
    assert is_built(box(20, (0, 0), planned, device(23, fed(24))))
    assert is_built(box(20, (0, 0), planned, passing=(fed(25),)))
    assert is_built(box(20, (0, 0)))
