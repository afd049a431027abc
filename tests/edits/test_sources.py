"""Sources: added, changed, and never another lost by naming one."""

import pytest

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.panels import add_panel
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.sources import add_source, set_source
from floorplan_circuits.find import find
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.supply.graph import supply_graph
from tests.edits.samples import breaker_at, house, panel_of


def test_a_generator_does_not_make_the_unnamed_supply_go():
    home = house()
    panel = panel_of(home)

    edited = add_source(home, "generator", [panel])

    told = {source.name: (source.into, source.starts) for source in edited.home.sources}
    assert told == {"Generator": ((panel,), "not known"), "Utility": ((panel,), "always")}
    assert edited.says == "Add Generator"
    assert not problems(edited.home)
    says = [one.says for one in find(edited.home).hazards if one.kind == "more than one supply"]
    assert len(says) == 1
    assert "Generator" in says[0]
    assert "Utility" in says[0]


def test_off_the_grid_the_utility_is_taken_out_again():
    home = add_source(house(), "solar", [panel_of(house())], "Roof").home
    utility = next(source.id for source in home.sources if source.kind == "utility")

    home = remove(home, [utility]).home
    assert [source.name for source in home.sources] == ["Roof"]
    assert [source.kind for source in set_source(home, home.sources.ids()[0], starts="by itself").home.sources] == [
        "solar"
    ]


def test_a_panel_that_hangs_on_a_breaker_gets_no_utility_of_its_own():
    home = add_panel(house(), 8, "Garage", fed_by=breaker_at(house(), 1)).home
    garage = home.panels.rows[-1].id

    home = add_source(home, "battery", [garage]).home
    assert [source.kind for source in home.sources] == ["battery"]


def test_a_source_into_a_breaker_makes_it_live_with_the_breaker_off():
    home = house()
    breaker = breaker_at(home, 1)
    home = add_source(home, "solar", [breaker]).home
    source = home.sources.ids()[0]
    assert ("source", source) in supply_graph(home).supplies["circuit", breaker]
    assert any(one.kind == "second source" for one in find(home).hazards)


def test_a_second_panel_without_a_stated_supply_joins_the_same_utility():
    home = add_source(house(), "utility", [panel_of(house())]).home
    home = add_panel(home, 8, "Barn").home
    barn = home.panels.rows[-1].id

    home = add_source(home, "generator", [barn]).home
    utility = next(source for source in home.sources if source.kind == "utility")
    assert utility.into == (panel_of(home), barn)


def test_names_are_told_apart_and_fields_are_set():
    home = add_source(add_source(house(), "battery", []).home, "battery", []).home
    assert [source.name for source in home.sources] == ["Battery", "Battery 2"]
    first = home.sources.ids()[0]

    home = set_source(home, first, disconnect="north wall", starts="by hand", into=[panel_of(home)]).home
    found = home.sources[first]
    assert (found.disconnect, found.starts, found.into) == ("north wall", "by hand", (panel_of(home),))


def test_what_can_not_be_is_refused():
    home = house()
    with pytest.raises(Refused, match="A source is one of"):
        add_source(home, "windmill", [])
    with pytest.raises(Refused, match="not there any more"):
        add_source(home, "solar", [10**6])
    with pytest.raises(Refused, match="not there any more"):
        set_source(home, 10**6, name="x")
