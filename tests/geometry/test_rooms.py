"""Which room a box belongs to, and where a room's name may stand."""

from math import cos, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point

from floorplan_circuits.geometry.outlines import polygon
from floorplan_circuits.geometry.rooms import FACING, PROBE_MM, label_places, pole, room_of_boxes, room_shapes
from floorplan_circuits.home.record import change
from tests.geometry.plans import L_SHAPE, U_SHAPE, outlines, plan, rectangle

WEST, EAST = rectangle(0, 0, 4000, 3000), rectangle(4000, 0, 4000, 3000)
FACES_EAST, FACES_SOUTH, FACES_WEST, FACES_NORTH = 0, 90, 180, 270


def room_of(box, rooms=(WEST, EAST)):
    return room_of_boxes(plan(list(rooms), [box]))[101]


@pytest.mark.parametrize(("angle", "room"), [(FACES_WEST, 11), (FACES_EAST, 12)])
def test_a_box_on_a_shared_wall_belongs_to_the_side_it_faces(angle, room):
    assert room_of({"at": (4000, 1500), "angle": angle}) == room


@pytest.mark.parametrize("astray", [-57, -20, 0, 20, 57])
def test_a_box_drawn_on_either_face_of_its_wall_still_belongs_to_the_side_it_faces(astray):
    assert room_of({"at": (4000 + astray, 1500), "angle": FACES_EAST}) == 12


def test_a_box_on_the_outside_belongs_to_no_room():
    assert room_of({"at": (0, 1500), "angle": FACES_WEST, "mount": "outdoor"}) is None
    assert room_of({"at": (20, 1500), "angle": FACES_WEST, "mount": "outdoor"}) is None
    assert room_of({"at": (0, 1500), "angle": FACES_WEST}) is None


def test_a_wall_box_that_stands_inside_a_room_but_faces_out_belongs_to_that_room():
    assert room_of({"at": (20, 1500), "angle": FACES_WEST}) == 11


@pytest.mark.parametrize("mount", ["ceiling", "floor", "hidden", "loose cable end"])
def test_a_box_on_no_wall_belongs_where_it_is_whichever_way_it_is_turned(mount):
    assert room_of({"at": (3990, 1500), "angle": FACES_EAST, "mount": mount}) == 11


def test_of_rooms_that_overlap_the_smallest_has_the_box():
    cupboard = rectangle(1000, 1000, 800, 600)

    assert room_of({"at": (1400, 1300), "mount": "ceiling"}, (WEST, cupboard)) == 12
    assert room_of({"at": (1400, 1300), "mount": "ceiling"}, (cupboard, WEST)) == 11


def test_of_equal_rooms_the_first_has_the_box():
    assert room_of({"at": (4000, 1500), "mount": "ceiling"}) == 11
    assert room_of({"at": (4000, 1500), "mount": "ceiling"}, (EAST, WEST)) == 11


def test_a_box_without_a_place_or_a_room_round_it_belongs_to_none():
    home = plan([WEST], [{"at": None}, {"at": (9000, 9000)}, {"at": (10, 10), "level": None}])

    assert room_of_boxes(home) == {101: None, 102: None, 103: None}
    assert room_of_boxes(plan([])) == {}
    assert room_of_boxes(plan([], [{"at": (1, 1)}])) == {101: None}


def test_a_box_of_another_level_is_in_no_room_of_this_one():
    assert room_of({"at": (1000, 1000), "level": 2, "mount": "ceiling"}) is None


def test_a_room_without_a_floor_has_no_boxes():
    assert room_of({"at": (0, 0), "mount": "ceiling"}, (((0, 0), (1, 1)), WEST)) == 12


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_all_boxes_at_once_get_the_room_that_a_search_one_by_one_finds(data):
    rooms = data.draw(st.lists(outlines(), max_size=5))
    corners = [corner for room in rooms for corner in room] or [(0, 0)]
    near = st.tuples(st.sampled_from(corners), st.integers(-3000, 3000), st.integers(-3000, 3000))
    spots = data.draw(st.lists(near.map(lambda drawn: (drawn[0][0] + drawn[1], drawn[0][1] + drawn[2])), max_size=8))
    mounts = st.sampled_from(["wall", "outdoor", "ceiling", "hidden"])
    boxes = [{"at": at, "angle": data.draw(st.integers(0, 359)), "mount": data.draw(mounts)} for at in spots]
    home = plan(rooms, boxes)

    assert room_of_boxes(home) == {box.id: one_by_one(home, box) for box in home.boxes}


def one_by_one(home, box):
    (x, y), turned = box.at, radians(box.angle)
    ahead = Point(x + PROBE_MM * cos(turned), y + PROBE_MM * sin(turned)) if box.mount in FACING else Point(x, y)
    by_size = sorted(home.rooms, key=lambda room: polygon(room.outline).area)
    found = [room.id for room in by_size if polygon(room.outline).intersects(ahead)]
    if not found and box.mount == "wall":
        found = [room.id for room in by_size if polygon(room.outline).contains(Point(x, y))]
    return found[0] if found else None


# --- shapes ---------------------------------------------------------------------------------------------------------


def test_the_area_of_a_room_is_in_square_millimetres():
    shape = room_shapes(plan([L_SHAPE]))[11]

    assert (shape.room, shape.area) == (11, 7_000_000)


def test_the_name_of_a_rectangular_room_stands_in_its_very_middle():
    assert room_shapes(plan([rectangle(0, 0, 8000, 4000)]))[11].label_at[0] == (4000, 2000)


def test_the_name_of_an_l_shaped_room_stands_in_its_widest_corner():
    (x, y), *_ = room_shapes(plan([L_SHAPE]))[11].label_at

    assert x == pytest.approx(585.8, abs=8)
    assert y == pytest.approx(585.8, abs=8)


def test_a_room_without_a_floor_has_no_place_for_its_name():
    shape = room_shapes(plan([((0, 0), (1, 1))]))[11]

    assert (shape.area, shape.label_at) == (0.0, ())


def test_an_empty_floor_has_no_pole():
    with pytest.raises(ValueError, match="no middle"):
        pole(polygon(()))


def test_shapes_change_with_the_outline_only():
    home = plan([L_SHAPE, U_SHAPE])
    renamed = change(home, rooms=home.rooms.put(change(home.rooms[11], name="Studio")))

    assert room_shapes(renamed) == room_shapes(home)


@settings(max_examples=60, deadline=None)
@given(outlines())
def test_every_place_for_a_name_lies_inside_the_room(outline):
    floor = polygon(outline)
    places = label_places(floor)

    assert len(places) == len(set(places)) >= 7
    assert all(floor.contains(Point(place)) for place in places)


@settings(max_examples=60, deadline=None)
@given(outlines())
def test_no_corner_of_the_room_is_nearer_to_the_pole_than_its_free_width(outline):
    (x, y), free = pole(polygon(outline))

    assert polygon(outline).boundary.distance(Point(x, y)) == pytest.approx(free, abs=0.01)


@pytest.mark.parametrize(("angle", "room"), [(FACES_WEST, 11), (FACES_EAST, 12), (FACES_SOUTH, 11)])
def test_a_loose_cable_end_that_comes_out_of_a_wall_belongs_to_the_side_it_faces(angle, room):
    assert room_of({"at": (4000, 1500), "angle": angle, "mount": "loose cable end"}) == room


def test_a_loose_cable_end_in_an_outer_wall_that_faces_out_belongs_to_the_room_it_touches():
    assert room_of({"at": (0, 1500), "angle": FACES_WEST, "mount": "loose cable end"}) == 11
