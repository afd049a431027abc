"""What the trade calls a panel, its spaces and its breakers by the system they are on."""

from typing import get_args

import pytest

from floorplan_circuits.edits.breakers import add_breaker, set_breaker
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.panels import add_panel
from floorplan_circuits.edits.typed import read_typed
from floorplan_circuits.find import find
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import System
from floorplan_circuits.home.record import change
from floorplan_circuits.home.trade_words import BRITISH, NORTH_AMERICAN, device_word, words_of


@pytest.mark.parametrize("system", get_args(System))
def test_a_consumer_unit_has_ways_and_a_main_switch_and_a_panel_has_spaces_and_a_main(system):
    home = add_panel(Home(), 8, system=system).home
    panel = home.panels.rows[0]
    assert words_of(home, panel) == (BRITISH if "230" in system and "Y/120" not in system else NORTH_AMERICAN)
    assert panel.name == words_of(home, panel).panel
    assert find(home).marks[panel.mains[0].id] == words_of(home, panel).main


def test_the_homes_system_tells_where_the_panels_is_not_known():
    home = change(add_panel(Home(), 8).home, system="single-phase 230")
    assert words_of(home, home.panels.rows[0]) == BRITISH
    assert words_of(home, None) == BRITISH
    home = add_panel(home, 8, system="split-phase 120/240").home
    assert words_of(home, home.panels.rows[1]) == NORTH_AMERICAN


def test_what_stands_in_a_way_is_an_mcb_an_rcd_or_an_rcbo_and_a_line_names_what_an_rcd_feeds():
    home = add_panel(Home(), 8, numbering="single row", system="single-phase 230").home
    panel = home.panels.rows[0].id
    for space, words in ((1, "63/2 RCD"), (3, "32 ring"), (4, "6 lights"), (5, "32 cooker")):
        home = add_breaker(home, panel, space, read_typed(words)).home
    rcd, ring, lights, cooker = home.breakers.ids()
    for one in (ring, lights):
        home = set_breaker(home, one, behind=rcd).home
    for one in (rcd, cooker):
        home = set_breaker(home, one, protects=("residual current",)).home
    called = [device_word(home, home.breakers[one]) for one in (rcd, ring, cooker)]
    assert called == ["RCD", "MCB", "RCBO"]
    assert find(home).lines[rcd].variants == ("RCD: feeds MCBs 3 and 4",)
    with pytest.raises(Refused, match="Way 3 is taken"):
        add_breaker(home, panel, 3, read_typed("6 x"))
    american = change(home, panels=home.panels.put(change(home.panels[panel], system="not known")))
    assert [device_word(american, american.breakers[one]) for one in (rcd, ring, cooker)] == ["breaker"] * 3
    assert find(american, find(home)) == find(american)
    assert find(american).lines[rcd].variants == ("Feeds breakers 3 and 4",)
