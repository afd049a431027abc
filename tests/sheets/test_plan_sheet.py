"""The plan alone: a page a level, with its scale."""

import pytest

from floorplan_circuits.find import find
from floorplan_circuits.home.home import Home
from floorplan_circuits.sheets.paper import PAPERS
from floorplan_circuits.sheets.plan_sheet import plan_sheet
from tests.drawing.drawn import MADE, sample, words_in


@pytest.mark.parametrize("name", ["cottage", "flat", "house"])
def test_every_level_has_its_plan_at_a_scale_that_is_told(name: str) -> None:
    findings = sample(name)
    sheet = plan_sheet(findings, PAPERS["letter"], MADE)
    assert len(sheet.pages) == len(findings.home.levels)
    for page in sheet.pages:
        said = words_in(page.ink)
        assert any(word.startswith("1:") for word in said)
        assert "This map can be wrong. Test before you touch." in said
    drawn = {part for page in sheet.pages for word in words_in(page.ink) for part in word.split()}
    for room in findings.home.rooms:  # a name may stand in two lines
        assert {*room.name.split()} <= drawn, room.name


def test_an_empty_home_has_no_plan() -> None:
    assert plan_sheet(find(Home()), PAPERS["letter"], MADE).pages == ()


def test_what_switches_work_is_on_the_plan_when_asked_for_with_words_for_it() -> None:
    made = [plan_sheet(sample("cottage"), PAPERS["letter"], MADE, switching=shown) for shown in (False, True)]

    said = [[word for page in sheet.pages for word in words_in(page.ink)] for sheet in made]
    assert [any("Dashed curves" in word for word in words) for words in said] == [False, True]
