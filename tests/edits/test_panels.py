"""Panels: set up as they are, told apart by letters, fed by a breaker but never by themselves."""

import pytest

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.panels import (
    OTHER_LETTERS,
    add_main,
    add_panel,
    breakers_of,
    feed_panel,
    set_main,
    set_panel,
)
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from tests.edits.samples import breaker_at, house, level_of, panel_of, typed_in


def test_a_panel_has_one_main_and_no_letters():
    edited = add_panel(new_home(), 20, main_amps=100)
    panel = edited.home.panels[edited.made[0]]

    assert edited.says == "Add Main panel"
    assert (panel.name, panel.prefix, panel.spaces) == ("Main panel", "", 20)
    assert [main.amps for main in panel.mains] == [100]


def test_a_further_panel_gets_its_own_first_letter_if_it_can():
    home = house()

    assert add_panel(home, 8, "Garage").home.panels.rows[-1].prefix == "G"
    twice = add_panel(add_panel(home, 8, "Garage").home, 8, "Guest house").home
    assert twice.panels.rows[-1].prefix == "C"
    assert add_panel(home, 8).home.panels.rows[-1].name == "Panel 2"


@pytest.mark.parametrize("name", ["Attic", "Island", "Outhouse", "Ärker", "2nd", ""])
def test_letters_that_read_as_something_else_are_not_given(name):
    assert add_panel(house(), 8, name).home.panels.rows[-1].prefix == "C"


def test_letters_do_not_run_out_at_the_end_of_the_alphabet():
    home = house()
    for _ in range(len(OTHER_LETTERS) + 3):
        home = add_panel(home, 2).home

    assert [panel.prefix for panel in home.panels][-3:] == ["CC", "CD", "CE"]
    assert problems(home) == ()


def test_no_two_panels_get_one_name():
    home = add_panel(add_panel(house(), 4).home, 4).home
    names = [panel.name for panel in home.panels]

    assert names == ["Main panel", "Panel 2", "Panel 3"]


def test_a_subpanel_is_fed_by_its_breaker():
    home = house()

    after = add_panel(home, 8, "Garage", fed_by=breaker_at(home, 1)).home

    assert after.panels.rows[-1].fed_by[0].breaker == breaker_at(home, 1)
    assert problems(after) == ()


def test_a_panel_says_where_it_is_and_how_it_counts():
    home = house()

    edited = set_panel(home, panel_of(home), name="Hall", numbering="single row", level=level_of(home), at=(0, 900))

    assert edited.says == "Edit Main panel"
    assert edited.home.panels[panel_of(home)].numbering == "single row"


def test_a_panel_does_not_shrink_under_its_breakers():
    home = typed_in(house(), 6, "15")

    assert set_panel(home, panel_of(home), spaces=6).home.panels[panel_of(home)].spaces == 6
    with pytest.raises(Refused, match="A breaker is in space 6"):
        set_panel(home, panel_of(home), spaces=5)


def test_two_panels_never_get_the_same_letters():
    home = add_panel(house(), 8, "Garage").home

    with pytest.raises(Refused, match="Another panel has"):
        set_panel(home, panel_of(home), prefix="G")


def test_a_panel_is_not_fed_by_itself_not_even_through_another():
    home = add_panel(house(), 8, "Garage", fed_by=breaker_at(house(), 1)).home
    garage = home.panels.rows[-1].id
    home = typed_in(home, 2, "30", garage)
    last = breakers_of(home, garage)[0].id

    with pytest.raises(Refused, match="It is fed by itself"):
        feed_panel(home, panel_of(home), last)
    assert feed_panel(home, garage, None).home.panels[garage].fed_by == ()


def test_the_breakers_of_a_panel_are_its_own():
    home = Home()

    assert breakers_of(home, 1) == []
    assert [breaker.as_found for breaker in breakers_of(house(), panel_of(house()))] == ["kitchen plugs"]


def test_mains_are_added_named_and_rated_up_to_six():
    home = house()
    edited = add_main(home, panel_of(home))
    added = edited.made[0]
    home = set_main(edited.home, added, name="Heat", amps=60).home

    assert [(main.name, main.amps) for main in home.panels[panel_of(home)].mains] == [("", None), ("Heat", 60)]
    for _ in range(4):
        home = add_main(home, panel_of(home)).home
    with pytest.raises(Refused, match="at most 6 mains"):
        add_main(home, panel_of(home))
    with pytest.raises(Refused, match="not there any more"):
        set_main(home, 10**6, amps=60)


def test_a_panel_may_be_fed_by_several_breakers_and_keeps_what_was_known_of_each():
    home = typed_in(house(), 2, "60")
    pair = breaker_at(home, 1), breaker_at(home, 2)
    home = add_panel(home, 8, "Garage", fed_by=pair[0]).home
    garage = home.panels.rows[-1].id

    home = feed_panel(home, garage, *pair, pair[1]).home
    assert [one.breaker for one in home.panels[garage].fed_by] == list(pair)
