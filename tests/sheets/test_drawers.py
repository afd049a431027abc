"""All levels on one page: one scale, each under its name, none over another."""

from itertools import combinations

import pytest

from floorplan_circuits.drawing.ink import Group, Text
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.sheets.drawers import Drawer, LevelsDrawer
from floorplan_circuits.sheets.paper import EVERY_PAPER, PAPERS, Rect
from floorplan_circuits.sheets.wall_map import wall_map
from tests.drawing.drawn import MADE, bounds_of, overlap, sample, words_in
from tests.homes import generate


def levels_of(findings: Findings) -> LevelsDrawer:
    return LevelsDrawer([Drawer(findings, level, 1.0, PAPER) for level in findings.home.levels])


@pytest.mark.parametrize("area", [Rect(9, 20, 300, 90), Rect(9, 20, 90, 250), Rect(9, 20, 190, 180)])
def test_levels_stand_apart_and_fit_their_place_at_one_scale(area: Rect) -> None:
    drawn = levels_of(find(generate(5, 60, 3).home)).largest(area)
    assert drawn is not None
    assert drawn.bounds[2] <= area.width
    assert drawn.bounds[3] <= area.height
    names = [mark.words for mark in drawn.ink.marks if isinstance(mark, Text)]
    assert names == ["Level 0", "Level 1", "Level 2"]
    plans = [bounds_of(mark) for mark in drawn.ink.marks if isinstance(mark, Group)]
    assert len(plans) == 3
    assert not any(overlap(one, other) for one, other in combinations(plans, 2))


def test_a_search_for_all_levels_ends_where_it_cannot_win() -> None:
    assert levels_of(find(generate(5, 60, 3).home)).largest(Rect(9, 20, 60, 60), most=60) is None


def test_one_large_sheet_holds_all_levels_and_the_panel() -> None:
    sheet = wall_map(sample("house"), EVERY_PAPER["a2"], MADE, together=True)
    first = words_in(sheet.pages[0].ink)
    assert {"All levels", "Basement", "Ground floor", "Upper floor", "Main panel"} <= set(first)
    assert sum(page.name == "All levels" for page in sheet.pages) == 1
    assert sheet.notes == ()
    assert sheet.not_placed == ()


def test_where_they_could_not_be_read_each_level_has_its_page_and_that_is_said() -> None:
    sheet = wall_map(sample("house"), PAPERS["letter"], MADE, together=True)
    assert [page.name for page in sheet.pages[:3]] == ["Basement", "Ground floor", "Upper floor"]
    assert "could not be read" in sheet.notes[0]
