"""Levels: one begun with another's outline, and put in another order."""

import pytest

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.levels import add_level_like, level_below, ranked_levels, shift_level
from floorplan_circuits.edits.rooms import add_level, add_room
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.record import change
from tests.edits.samples import house, level_of

HALL = ((4000, 0), (7000, 0), (7000, 2000), (4000, 2000))


def names(home):
    return [level.name for level in ranked_levels(home)]


def test_a_level_begins_with_the_outline_of_another_and_none_of_its_boxes():
    home = add_room(house(), level_of(house()), HALL, "Hall").home

    edited = add_level_like(home, "First floor", level_of(home))

    (room,) = (room for room in edited.home.rooms if room.level == edited.made[0])
    assert set(room.outline) == {(0, 0), (7000, 0), (7000, 2000), (4000, 2000), (4000, 3000), (0, 3000)}
    assert edited.home.boxes is home.boxes
    assert problems(edited.home) == ()


def test_a_level_without_rooms_gives_no_outline():
    home = add_level(house(), "Attic")

    with pytest.raises(Refused, match="no rooms"):
        add_level_like(home.home, "Loft", home.made[0])


def test_levels_change_places():
    home = add_level(add_level(house(), "First floor").home, "Cellar", -1).home

    down = shift_level(home, home.levels.rows[1].id, up=False)
    assert names(home) == ["Cellar", "Ground floor", "First floor"]
    assert names(down.home) == ["Cellar", "First floor", "Ground floor"]
    assert down.says == "Move First floor down"
    assert shift_level(down.home, home.levels.rows[1].id, up=True).home == home
    with pytest.raises(Refused, match="lowest level already"):
        shift_level(home, home.levels.rows[2].id, up=False)


def test_levels_that_had_one_order_get_two():
    home = add_level(house(), "Mezzanine", 0).home
    home = change(home)

    assert names(shift_level(home, level_of(home), up=True).home) == ["Mezzanine", "Ground floor"]


def test_the_level_below_is_the_next_one_down():
    home = add_level(add_level(house(), "Attic", 5).home, "Cellar", -2).home
    ground, attic, cellar = home.levels.ids()

    assert (level_below(home, attic), level_below(home, ground), level_below(home, cellar)) == (ground, cellar, None)
