"""Doors, windows and open ways: in a wall, where they fit, hung as a person would."""

from contextlib import suppress

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.openings import move_opening, put_opening, set_opening, turn_over
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.edits.walls import move_wall
from floorplan_circuits.geometry.wall_spots import is_on_wall
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.record import change
from tests.edits.samples import house, level_of

HALL = ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))


def two_rooms() -> Home:
    return add_room(house(), level_of(house()), HALL, "Hall").home


def put(home: Home, kind: str, at, angle: int, width: int = 0) -> Home:
    return put_opening(home, level_of(home), kind, at, angle, width).home


def test_a_door_opens_the_way_it_faces_against_the_nearer_corner():
    home = two_rooms()

    (door,) = put(home, "door", (4000, 600), 0).openings
    assert (door.at, door.width, door.angle, door.hinge, door.swing) == ((4000, 600), 800, 0, "left", "ahead")

    (door,) = put(home, "door", (4000, 2400), 0).openings
    assert door.hinge == "right"

    (door,) = put(home, "door", (4000, 2400), 180).openings
    assert door.hinge == "left"


def test_a_window_has_no_hinges():
    (window,) = put(house(), "window", (2000, 3000), 90, 1500).openings

    assert (window.hinge, window.swing, window.width) == ("none", "none", 1500)


def test_an_opening_near_a_corner_stands_beside_it():
    (door,) = put(house(), "door", (50, 0), 90).openings

    assert door.at == (400, 0)


def test_widths_follow_what_the_home_is_measured_in():
    home = change(house(), units="feet and inches")

    assert put(home, "door", (2000, 0), 90).openings.rows[0].width == 813


@pytest.mark.parametrize(
    ("kind", "at", "width", "says"),
    [
        ("door", (2000, 1500), 800, "Click a wall"),
        ("door", (2000, 0), 4100, "4.00 m long: type a smaller width"),
        ("door", (2000, 0), 100, "0.20 m to 20.00 m wide"),
        ("hatch", (2000, 0), 800, "is one of"),
        ("door", (2000, 3000), 800, "an opening already"),
    ],
)
def test_where_an_opening_does_not_fit_it_is_refused(kind, at, width, says):
    home = put(house(), "window", (2300, 3000), 90)

    with pytest.raises(Refused, match=says):
        put_opening(home, level_of(home), kind, at, 90, width)


def test_two_rooms_wall_ends_where_the_shorter_one_does():
    home = add_room(house(), level_of(house()), ((4000, 1000), (7000, 1000), (7000, 2000), (4000, 2000)), "Pantry").home

    (way,) = put(home, "open way", (4000, 1100), 0, 900).openings
    assert way.at == (4000, 1450)


def test_a_door_is_turned_over_through_its_four_ways():
    home = put(house(), "door", (2000, 0), 90)
    (first,) = home.openings
    ways = set()
    for _ in range(4):
        home = turn_over(home, first.id).home
        ways.add((home.openings.rows[0].hinge, home.openings.rows[0].swing))

    assert len(ways) == 4
    assert home.openings.rows[0] == first


def test_a_window_that_becomes_a_door_gets_hinges_and_loses_them_again():
    home = put(house(), "window", (2000, 0), 90)
    number = home.openings.ids()[0]

    door = set_opening(home, number, kind="door").home
    assert door.openings[number].hinge == "left"
    assert set_opening(door, number, kind="window").home.openings[number] == home.openings[number]
    with pytest.raises(Refused, match="Only a door"):
        turn_over(home, number)


def test_a_wider_door_moves_off_the_corner_and_one_too_wide_is_refused():
    home = put(house(), "door", (400, 0), 90)
    number = home.openings.ids()[0]

    assert set_opening(home, number, width=1200).home.openings[number].at == (600, 0)
    with pytest.raises(Refused, match="type a smaller width"):
        set_opening(home, number, width=4500)


def test_a_door_moves_to_another_wall():
    home = put(house(), "door", (400, 0), 90)
    number = home.openings.ids()[0]

    moved = move_opening(home, number, (4000, 1500), 180).home.openings[number]
    assert (moved.at, moved.angle) == ((4000, 1500), 180)


kinds = st.sampled_from(["door", "window", "open way"])
steps = st.integers(-30, 70).map(lambda step: step * 100)
puts = st.tuples(kinds, st.tuples(steps, steps), st.integers(0, 359), st.integers(0, 3000))


@settings(max_examples=40)
@given(st.lists(puts, max_size=5), steps)
def test_openings_are_in_walls_apart_and_go_with_them(wanted, far):
    home = two_rooms()
    for kind, at, angle, width in wanted:
        try:
            home = put(home, kind, at, angle, width)
        except Refused:
            continue
    with suppress(Refused):
        home = move_wall(home, level_of(home), (4000, 0), (4000, 3000), (far % 2000 - 1000, 0)).home
    outlines = [room.outline for room in home.rooms]
    assert all(any(is_on_wall(one.at, outline) for outline in outlines) for one in home.openings)
    assert problems(home) == ()
