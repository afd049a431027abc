"""Neighbours: rooms with a stretch of wall between them."""

from floorplan_circuits.geometry.neighbours import neighbouring_rooms
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.table import Table
from tests.geometry.plans import rectangle


def home_of(*outlines, levels=None):
    rooms = [
        Room(id=10 + place, level=(levels or {}).get(place, 1), name=f"R{place}", outline=outline)
        for place, outline in enumerate(outlines)
    ]
    return Home(levels=Table([Level(id=1, name="Ground"), Level(id=2, name="Upper")]), rooms=Table(rooms), next_id=99)


def test_rooms_with_a_wall_between_them_are_neighbours():
    home = home_of(rectangle(0, 0, 4000, 3000), rectangle(4000, 1000, 6000, 5000))

    assert neighbouring_rooms(home) == ((10, 11),)


def test_rooms_that_meet_in_a_corner_are_not():
    assert neighbouring_rooms(home_of(rectangle(0, 0, 4000, 3000), rectangle(4000, 3000, 6000, 5000))) == ()


def test_rooms_apart_or_on_another_level_are_not():
    apart = home_of(rectangle(0, 0, 4000, 3000), rectangle(4100, 0, 6000, 3000))
    above = home_of(rectangle(0, 0, 4000, 3000), rectangle(4000, 0, 6000, 3000), levels={1: 2})

    assert neighbouring_rooms(apart) == neighbouring_rooms(above) == ()


def test_a_home_without_rooms_has_none():
    assert neighbouring_rooms(Home()) == ()
