"""What stands on a wall goes with it."""

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.boxes import put_device
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.edits.walls import move_corner, move_wall
from floorplan_circuits.geometry.wall_spots import faces_into, is_on_wall
from floorplan_circuits.home.building import Opening
from floorplan_circuits.home.home import Home
from tests.edits.samples import box_of, house, level_of, with_row

HALL = ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))


def place(home: Home, mark: str):
    box = home.boxes[box_of(home, mark)]
    return box.at, box.angle


def test_boxes_go_with_their_wall():
    home = house()

    after = move_wall(home, level_of(home), (0, 0), (4000, 0), (0, -600)).home

    assert [place(after, mark) for mark in ("B1", "B2", "B3")] == [((x, -600), 90) for x in (1000, 2000, 3000)]


def test_boxes_stay_where_their_wall_only_gets_longer():
    home = house()

    after = move_wall(home, level_of(home), (4000, 0), (4000, 3000), (800, 0)).home

    assert after.boxes is home.boxes


def test_boxes_come_along_where_their_wall_gets_too_short():
    home = house()

    after = move_wall(home, level_of(home), (4000, 0), (4000, 3000), (-1500, 0)).home

    assert place(after, "B2") == ((2000, 0), 90)
    assert place(after, "B3") == ((2440, 0), 90)  # 60 mm clear of the corner at 2500


def test_boxes_turn_with_their_wall():
    home = house()

    after = move_corner(home, level_of(home), (4000, 0), (4000, 1000)).home

    at, angle = place(after, "B2")
    assert angle == 104  # atan(1000 / 4000) is 14 degrees
    assert is_on_wall(at, after.rooms.rows[0].outline)


def test_ceiling_boxes_stay():
    home = put_device(house(), level_of(house()), (2000, 20), 90, "ceiling light").home

    after = move_wall(home, level_of(home), (0, 0), (4000, 0), (0, -600)).home

    assert place(after, "B4") == ((2000, 20), 90)


def test_a_box_that_faces_a_room_which_stays_stays_with_it():
    home = add_room(house(), level_of(house()), ((4000, 500), (7000, 500), (7000, 2500), (4000, 2500)), "Hall").home
    home = put_device(home, level_of(home), (4000, 1500), 180, "switch").home
    home = put_device(home, level_of(home), (4000, 1600), 0, "switch").home

    after = move_wall(home, level_of(home), (7000, 500), (7000, 2500), (300, 0)).home
    assert after.boxes is home.boxes

    after = move_corner(home, level_of(home), (4000, 3000), (4500, 3000)).home
    assert place(after, "B5") == ((4000, 1600), 0)
    assert place(after, "B4") != ((4000, 1500), 180)


def test_doors_go_with_their_wall():
    home = add_room(house(), level_of(house()), HALL, "Hall").home
    door = Opening(id=home.next_id, level=level_of(home), kind="door", at=(4000, 1500), width=800, angle=0)
    home = with_row(home, "openings", door)

    after = move_wall(home, level_of(home), (4000, 0), (4000, 3000), (-500, 0)).home

    assert after.openings.rows[0].at == (3500, 1500)


def test_a_room_that_is_turned_inside_out_keeps_its_boxes_facing_in():
    home = house()

    after = move_wall(home, level_of(home), (0, 0), (4000, 0), (0, 6000)).home

    assert place(after, "B1") == ((1000, 6000), 270)


walls = st.tuples(st.integers(0, 3), st.integers(-30, 30).map(lambda step: step * 150))
places = st.sampled_from([((1700, 3000), 270), ((0, 1500), 0), ((4000, 900), 180), ((2500, 0), 90)])


@settings(max_examples=60)
@given(st.lists(walls, max_size=8), places)
def test_wherever_walls_go_their_boxes_are_on_them_and_face_into_the_room(moves, where):
    home = put_device(house(), level_of(house()), *where, "switch").home
    for which, far in moves:
        outline = home.rooms.rows[0].outline
        a, b = outline[which], outline[(which + 1) % 4]
        try:
            home = move_wall(home, level_of(home), a, b, (far, 0) if a[0] == b[0] else (0, far)).home
        except Refused:
            continue
    (room,) = home.rooms
    assert all(is_on_wall(box.at, room.outline) for box in home.boxes)
    assert all(faces_into(box.at, box.angle, [room.outline]) for box in home.boxes)
