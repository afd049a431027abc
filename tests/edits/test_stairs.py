"""Stairs tie two levels."""

import pytest

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.rooms import add_level
from floorplan_circuits.edits.stairs import put_stair, set_stair
from tests.edits.samples import house, level_of


def test_stairs_lead_to_the_next_level_up():
    home = add_level(add_level(house(), "Attic", 2).home, "First floor", 1).home

    (stair,) = put_stair(home, level_of(home), (500, 500), 450, 2600).home.stairs

    assert home.levels[stair.head].name == "First floor"
    assert (stair.angle, stair.run, stair.width) == (90, 2600, 900)


def test_stairs_that_led_nowhere_lead_to_the_level_that_is_added():
    home = put_stair(house(), level_of(house()), (500, 500), 0).home
    assert home.stairs.rows[0].head is None

    cellar = add_level(home, "Cellar", -1).home
    assert cellar.stairs.rows[0].head is None

    upper = add_level(cellar, "First floor")
    assert upper.home.stairs.rows[0].head == upper.made[0]


def test_a_flight_of_no_size_or_to_its_own_level_is_refused():
    home = put_stair(house(), level_of(house()), (500, 500), 0).home
    number = home.stairs.ids()[0]

    with pytest.raises(Refused, match=r"0\.5 to 15 m"):
        put_stair(home, level_of(home), (0, 0), 0, 100)
    with pytest.raises(Refused, match=r"0\.4 to 5 m"):
        set_stair(home, number, width=100)
    with pytest.raises(Refused, match="another level"):
        set_stair(home, number, head=level_of(home))
