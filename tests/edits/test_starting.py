"""Starting from nothing."""

import pytest

from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.find import find
from floorplan_circuits.home.integrity import problems


@pytest.mark.parametrize("units", ["metric", "feet and inches"])
def test_a_new_home_is_sound_and_has_one_level_to_draw_on(units):
    home = new_home("House by the ford", units)

    assert problems(home) == ()
    assert (home.name, home.units) == ("House by the ford", units)
    assert [(level.name, level.order) for level in home.levels] == [("Ground floor", 0)]
    assert find(home).hazards == ()
