"""The mains over the face: each with its number and rating, none wider than the panel."""

import pytest

from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find
from floorplan_circuits.home.power import Main, Panel
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.mains_band import ROW, mains_band, mains_height
from tests.drawing.drawn import bounds_of, home, words_in


def panel_with(*mains: Main) -> Panel:
    return Panel(id=5, name="Main panel", spaces=12, mains=mains)


def test_a_panel_without_a_main_has_no_band() -> None:
    panel = panel_with()
    ink, cut = mains_band(find(home(panels=Table([panel]))), panel, 90.0, PAPER)
    assert (ink.marks, cut, mains_height(panel)) == ((), (), 0)


@pytest.mark.parametrize("wide", [60.0, 90.0, 108.0])
def test_every_main_has_its_number_and_rating_and_says_what_stays_live(wide: float) -> None:
    panel = panel_with(Main(id=7, amps=100), Main(id=8, name="Barn side", amps=60), Main(id=9))
    ink, cut = mains_band(find(home(panels=Table([panel]))), panel, wide, PAPER)
    said = words_in(ink)
    assert next(one for one in said if one.startswith("Main")) == "Main 1"
    assert {"100 A", "60 A", "Main 3"} <= set(said)
    assert sum("live" in one for one in said) == 3
    left, top, right, bottom = bounds_of(ink)
    assert (left, top, right, bottom) == pytest.approx((0, 0, wide, 3 * ROW))
    assert cut == () or wide == 60.0
