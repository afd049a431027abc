"""Corners and walls: they move in every room that has them, as far as they are shared."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.rooms import add_level, add_room
from floorplan_circuits.edits.walls import longest_wall, move_corner, move_wall, remove_corner
from floorplan_circuits.geometry.overlaps import overlap_mm2
from floorplan_circuits.geometry.walls import stretches
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.outlines import doubled_area
from tests.edits.samples import SQUARE, house, level_of

HALL = ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))


def two_rooms() -> Home:
    """The house's kitchen, and a hall that shares its right wall."""
    return add_room(house(), level_of(house()), HALL, "Hall").home


def outline(home: Home, name: str):
    return next(room.outline for room in home.rooms if room.name == name)


def test_a_shared_corner_moves_in_both_rooms():
    home = two_rooms()

    edited = move_corner(home, level_of(home), (4000, 3000), (4200, 3300))

    assert edited.says == "Move a corner of Kitchen and Hall"
    assert (4200, 3300) in outline(edited.home, "Kitchen")
    assert (4200, 3300) in outline(edited.home, "Hall")


def test_a_shared_wall_moves_in_both_rooms():
    home = two_rooms()

    after = move_wall(home, level_of(home), (4000, 0), (4000, 3000), (-500, 0)).home

    assert outline(after, "Kitchen") == ((0, 0), (3500, 0), (3500, 3000), (0, 3000))
    assert outline(after, "Hall") == ((3500, 0), (7000, 0), (7000, 3000), (3500, 3000))


def test_a_long_wall_takes_along_the_corners_of_rooms_that_share_a_part_of_it():
    home = two_rooms()
    home = add_room(home, level_of(home), ((0, 3000), (7000, 3000), (7000, 5000), (0, 5000)), "Cellar stairs").home

    after = move_wall(home, level_of(home), (0, 3000), (7000, 3000), (0, 400)).home

    assert outline(after, "Kitchen") == ((0, 0), (4000, 0), (4000, 3400), (0, 3400))
    assert outline(after, "Hall") == ((4000, 0), (7000, 0), (7000, 3400), (4000, 3400))
    assert outline(after, "Cellar stairs")[:2] == ((0, 3400), (7000, 3400))


def test_walls_of_other_levels_stay():
    home = two_rooms()
    upstairs = add_level(home, "First floor")
    home = add_room(upstairs.home, upstairs.made[0], SQUARE, "Bedroom").home

    after = move_wall(home, level_of(home), (0, 0), (0, 3000), (-300, 0)).home

    assert outline(after, "Bedroom") == SQUARE
    with pytest.raises(Refused, match="No room has that corner"):
        move_wall(home, upstairs.made[0], (9000, 0), (9000, 9), (1, 1))


@pytest.mark.parametrize(
    ("to", "says"),
    [((4000, 2990), "cross itself"), ((10**7, 0), "cross itself"), ((-300_000, 0), "over 200 m")],
)
def test_a_corner_goes_nowhere_that_leaves_no_room(to, says):
    home = house()

    with pytest.raises(Refused, match=says):
        move_corner(home, level_of(home), (0, 0), to)


def test_a_corner_that_comes_to_lie_on_another_is_one_corner():
    home = house()

    after = move_corner(home, level_of(home), (4000, 0), (4000, 3000)).home

    assert outline(after, "Kitchen") == ((0, 0), (4000, 3000), (0, 3000))


def test_where_there_is_no_corner_nothing_moves():
    with pytest.raises(Refused, match="No room has that corner"):
        move_corner(house(), level_of(house()), (500, 500), (2, 2))


# --- walls shared in part -------------------------------------------------------------------------------------------


def three_rooms() -> Home:
    """Kitchen and hall side by side, and a long room under both."""
    home = two_rooms()
    return add_room(home, level_of(home), ((0, 3000), (7000, 3000), (7000, 5000), (0, 5000)), "Gallery").home


def test_a_wall_shared_with_a_part_of_a_longer_one_leaves_the_rest_where_it_is():
    home = three_rooms()

    after = move_wall(home, level_of(home), (0, 3000), (4000, 3000), (0, 400)).home

    assert outline(after, "Kitchen") == ((0, 0), (4000, 0), (4000, 3400), (0, 3400))
    assert outline(after, "Hall") == HALL
    assert outline(after, "Gallery") == (
        (0, 3400), (4000, 3400), (4000, 3000), (7000, 3000), (7000, 5000), (0, 5000),
    )  # fmt: skip


def test_a_room_beside_one_that_gets_deeper_keeps_its_own_wall():
    home = two_rooms()

    after = move_wall(home, level_of(home), (0, 0), (4000, 0), (0, -600)).home

    assert outline(after, "Kitchen")[:2] == ((0, -600), (4000, -600))
    assert outline(after, "Hall") == HALL


def test_a_corner_pulled_off_a_wall_that_passes_it_bends_that_wall_too():
    home = three_rooms()

    after = move_corner(home, level_of(home), (4000, 3000), (4200, 3500)).home

    assert all((4200, 3500) in room.outline for room in after.rooms)
    assert total(after) == total(home)


def test_a_corner_moved_along_a_wall_that_passes_it_leaves_that_wall_straight():
    home = three_rooms()

    after = move_corner(home, level_of(home), (4000, 3000), (4500, 3000)).home

    assert outline(after, "Gallery") == outline(home, "Gallery")


def test_a_corner_is_put_on_a_bare_wall_and_taken_out_again():
    home = two_rooms()

    bent = move_corner(home, level_of(home), (4000, 1500), (4300, 1500)).home
    assert all((4300, 1500) in room.outline for room in bent.rooms)

    straight = remove_corner(bent, level_of(bent), (4300, 1500))
    assert straight.says == "Take a corner out of Kitchen and Hall"
    assert straight.home.rooms == home.rooms


def test_the_last_corners_of_a_room_stay():
    home = add_room(house(), level_of(house()), ((0, 6000), (900, 6000), (0, 7000)), "Nook").home

    with pytest.raises(Refused, match="three corners"):
        remove_corner(home, level_of(home), (0, 6000))


def test_walls_in_one_line_are_one_wall_for_who_selected_both_rooms():
    walls = [((3000, 0), (0, 0)), ((3000, 0), (5000, 0)), ((6000, 0), (7000, 0)), ((3000, 0), (3000, 9))]

    assert longest_wall((3000, 0), (0, 0), walls) == ((0, 0), (5000, 0))
    assert longest_wall((3000, 0), (3000, 9), walls) == ((3000, 0), (3000, 9))


def total(home: Home) -> int:
    """Twice the floor of all rooms in mm2."""
    return sum(abs(doubled_area(room.outline)) for room in home.rooms)


def grid_of_rooms() -> Home:
    """Three by two rooms, all 3 m square."""
    home = house()
    home = home.changed(rooms=(), boxes=())
    for column in range(3):
        for row in range(2):
            x, y = column * 3000, row * 3000
            home = add_room(home, level_of(home), ((x, y), (x + 3000, y), (x + 3000, y + 3000), (x, y + 3000))).home
    return home


GRID = grid_of_rooms()
steps = st.integers(-20, 20).map(lambda step: step * 100)


@settings(max_examples=60)
@given(st.lists(st.tuples(st.integers(0, 10**6), steps), max_size=6))
def test_inner_walls_move_and_not_a_millimetre_of_floor_is_lost_or_had_twice(moves):
    home = GRID
    for which, far in moves:
        walls = [wall for wall, outer in stretches([one.outline for one in home.rooms]) if not outer]
        ax, ay, bx, by = walls[which % len(walls)]
        try:
            moved = move_wall(home, level_of(home), (ax, ay), (bx, by), (far, 0) if ax == bx else (0, far)).home
        except Refused:
            continue
        if total(moved) == total(GRID):  # a wall moved past another, or out of the house, is the hand's own doing
            home = moved
    rooms = [one.outline for one in home.rooms]
    assert sum(overlap_mm2(a, b) for a in rooms for b in rooms if a is not b) == 0
    assert problems(home) == ()


corners = st.sampled_from(sorted({*SQUARE, *HALL}))


@settings(max_examples=60)
@given(st.lists(st.tuples(corners, corners, st.tuples(steps, steps)), max_size=4))
def test_whatever_is_moved_the_home_is_sound(moves):
    home = three_rooms()
    for a, b, by in moves:
        try:
            home = move_wall(home, level_of(home), a, b, by).home
        except Refused:
            continue
    assert problems(home) == ()
