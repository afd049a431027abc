"""A level's page: the plan as large as it goes, at a scale that is told truly."""

from functools import cache

import pytest

from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.sheets.drawers import SCALES, Drawer
from floorplan_circuits.sheets.level_page import LevelPage, Lists, level_page
from floorplan_circuits.sheets.panel_column import PanelOnSheet
from floorplan_circuits.sheets.paper import PAPERS, Rect
from tests.drawing.drawn import SAMPLE_HOMES, sample, words_in


@cache
def page(name: str, paper: str) -> LevelPage:
    findings = sample(name)
    level, panel = next(iter(findings.home.levels)), next(iter(findings.home.panels))
    lists = Lists(findings, PAPER, frozenset({None, level.id}))
    drawer = Drawer(findings, level, PAPERS[paper].magnify, PAPER)
    return level_page(drawer, lists, PanelOnSheet(findings, panel, PAPER), PAPERS[paper])


@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_the_plan_is_the_largest_that_fits_its_place(name: str) -> None:
    findings = sample(name)
    drawer = Drawer(findings, next(iter(findings.home.levels)), 1.0, PAPER)
    area = Rect(9, 20, 166, 118)
    drawn = drawer.largest(area)
    assert drawn is not None
    left, top, right, bottom = drawn.bounds
    assert right - left <= area.width
    assert bottom - top <= area.height
    larger = drawer.drawn(SCALES[SCALES.index(drawn.scale) - 1])
    assert larger.bounds[2] - larger.bounds[0] > area.width or larger.bounds[3] - larger.bounds[1] > area.height


def test_a_search_ends_where_it_cannot_win() -> None:
    findings = sample("cottage")
    drawer = Drawer(findings, next(iter(findings.home.levels)), 1.0, PAPER)
    assert drawer.largest(Rect(9, 20, 60, 60), most=75) is None


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_the_sample_homes_are_drawn_at_100_or_larger(name: str, paper: str) -> None:
    said = words_in(page(name, paper).ink)
    (scale,) = [int(word[2:]) for word in said if word.startswith("1:") and word[2:].isdigit()]
    assert scale in SCALES
    assert scale <= 100  # a whole page at 1 : 100 is better than a larger plan whose lists are on a second


@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_what_stands_elsewhere_is_said_on_the_page(name: str) -> None:
    made = page(name, "letter")
    said = " ".join(words_in(made.ink))
    gone = [kind for kind in made.layout.lost() if not made.layout.shown(kind)]
    assert ("On a further page:" in said) == bool(gone or made.plan.listed)


def test_lists_are_about_their_scope() -> None:
    findings = sample("cottage")
    assert Lists(findings, PAPER, frozenset({None}), is_first=False).kinds() == ("shared", "read", "tested")
    assert Lists(findings, PAPER, frozenset({None})).kinds() == ("shared", "before", "read", "tested")
    assert Lists(findings, PAPER, None).kinds() == ("shared", "before", "read", "tested")


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", SAMPLE_HOMES)
def test_the_boxes_with_more_than_one_circuit_are_listed_beside_the_plan(name: str, paper: str) -> None:
    layout = page(name, paper).layout
    assert layout.shown("shared") == sum(found.shared for found in sample(name).boxes.values())
