"""The list of dangers on paper: every danger once, under its room."""

import pytest
from hypothesis import HealthCheck, given, settings

from floorplan_circuits.drawing.ink import Text, flat
from floorplan_circuits.drawing.phrases import capital
from floorplan_circuits.find import find
from floorplan_circuits.home.home import Home
from floorplan_circuits.sheets.hazard_sheet import NONE, hazard_sheet
from floorplan_circuits.sheets.paper import PAPERS
from tests.drawing.drawn import MADE, bounds_of, box, home, overlap, sample, words_in
from tests.homes import homes

SAMPLES = ("cottage", "flat", "house")


def flowing(sheet_of: Home | str) -> str:
    findings = sample(sheet_of) if isinstance(sheet_of, str) else find(sheet_of)
    sheet = hazard_sheet(findings, PAPERS["letter"], MADE)
    return " ".join(word for page in sheet.pages for word in words_in(page.ink))


@pytest.mark.parametrize("name", SAMPLES)
def test_every_danger_is_told_with_its_box_and_what_to_do(name: str) -> None:
    findings, said = sample(name), flowing(name)
    shown = [hazard for hazard in findings.hazards if hazard.listed]
    assert shown
    for hazard in shown:
        assert capital(hazard.says.removeprefix(f"{hazard.room_name}: ")) in said
        assert hazard.room_name in said
        assert hazard.do in said
        if hazard.box is not None:
            assert findings.home.boxes[hazard.box].mark in said
        assert said.count(hazard.why) == 1


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("paper", ["letter", "a3"])
def test_no_word_stands_over_another_or_in_the_margin(name: str, paper: str) -> None:
    for page in hazard_sheet(sample(name), PAPERS[paper], MADE).pages:
        texts = [(mark.words, bounds_of(mark)) for mark in flat(page.ink) if isinstance(mark, Text) and mark.words]
        for at, (words, bounds) in enumerate(texts):
            assert bounds[0] >= 8.9
            assert bounds[2] <= page.width - 8.9
            assert not any(overlap(bounds, other) for _, other in texts[at + 1 :]), words


def test_a_small_homes_dangers_stand_on_one_page() -> None:
    assert all(len(hazard_sheet(sample(name), PAPERS["letter"], MADE).pages) == 1 for name in ("cottage", "flat"))


def test_a_home_without_a_danger_is_never_told_to_be_without_danger() -> None:
    said = flowing(home(()))
    assert NONE in said
    assert "safe" not in said.lower()


def test_boxes_that_nobody_looked_into_are_told() -> None:
    assert "More may enter than the map shows in B20" in flowing(home((box(20, (0, 0)),)))


def test_an_empty_home_has_no_list() -> None:
    assert hazard_sheet(find(Home()), PAPERS["letter"], MADE).pages == ()


@settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(homes())
def test_any_home_has_its_dangers_on_paper(wild: Home) -> None:
    findings = find(wild)
    said = " ".join(
        word for page in hazard_sheet(findings, PAPERS["letter"], MADE).pages for word in words_in(page.ink)
    )
    for hazard in findings.hazards:
        if hazard.box is not None and hazard.listed:
            assert findings.home.boxes[hazard.box].mark in said


@pytest.mark.parametrize("name", SAMPLES)
def test_common_practice_is_not_told_as_a_source_that_is_none(name: str) -> None:
    said = flowing(name)
    assert "Common practice" in said
    assert "Source: Common practice" not in said
    assert "Common practice, no source" not in said


def test_what_has_no_published_rule_says_so() -> None:
    assert "Common practice; no published rule that we know of." in flowing("house")
