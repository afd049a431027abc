"""Whose neutral it is."""

import pytest

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.neutrals import set_neutral, share_neutral
from floorplan_circuits.edits.panels import set_panel
from floorplan_circuits.find import find
from tests.edits.samples import breaker_at, house, panel_of, typed_in


def test_breakers_that_share_a_neutral_are_a_danger_until_one_handle_moves_them():
    home = typed_in(house(), 3, "20")
    home = set_panel(home, panel_of(home), system="split-phase 120/240").home
    pair = [breaker_at(home, 1), breaker_at(home, 3)]

    edited = share_neutral(home, pair)

    groups = {pole.neutral for one in pair for pole in edited.home.breakers[one].poles}
    assert len(groups) == 1
    assert edited.says == "2 breakers share a neutral"
    assert any(one.kind == "shared neutral, no common handle" for one in find(edited.home).hazards)
    apart = set_neutral(edited.home, pair[0], "own").home
    assert apart.breakers[pair[0]].poles[0].neutral == "own"


def test_one_breaker_shares_with_nobody():
    home = house()
    with pytest.raises(Refused, match="two or more breakers"):
        share_neutral(home, [breaker_at(home, 1)])
    with pytest.raises(Refused, match="not there any more"):
        set_neutral(home, 10**6, "own")
