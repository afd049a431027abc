"""Setting aside: with a day and a reason, of the very same thing, until anything newer is known; never silently."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.breakers import tie_handles, untie_handles
from floorplan_circuits.edits.recording import dismiss
from floorplan_circuits.edits.setting_aside import tell_again
from floorplan_circuits.find import find
from floorplan_circuits.findings import Hazard
from floorplan_circuits.home.days import written
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from tests.hazards.dense import dense
from tests.hazards.small import FIVE, NINE, PANEL, SEVEN, box, device, feed, home, only
from tests.supply.wiring import on
from tests.survey.houses import changed, logged, opened, struck, trouble, went

DAY, WHY = "2026-05-01", "the owner knows it"
SHARED = home(box(1001, device(2001, feed(3001, on(FIVE))), device(2002, feed(3002, on(SEVEN)))))
SAID = f"Set aside on {written(DAY)}: {WHY}"


def the_shared(where: Home) -> Hazard:
    (one,) = [hazard for hazard in find(where).hazards if hazard.kind == "shared box"]
    return one


def aside(where: Home, hazard: Hazard) -> Home:
    return dismiss(where, hazard.kind, hazard.about, WHY, date=DAY).home


ASIDE = aside(SHARED, the_shared(SHARED))


def test_it_is_there_all_the_same_with_the_day_and_the_reason() -> None:
    before, after = the_shared(SHARED), the_shared(ASIDE)
    assert after == replace(before, set_aside=SAID)


@pytest.mark.parametrize("missing", [{"date": ""}, {"why": "  "}, {"sure": False}])
def test_without_a_day_or_a_reason_or_where_a_newer_program_wrote_more_it_counts_for_nothing(missing) -> None:
    hazard = the_shared(SHARED)
    entry = {"kind": "dismissed", "hazard": hazard.kind, "about": hazard.about, "date": DAY, "why": WHY}
    assert the_shared(logged(SHARED, entry)).set_aside
    assert not the_shared(logged(SHARED, entry | missing)).set_aside


def test_set_aside_while_tied_it_is_told_anew_once_the_handles_are_not() -> None:
    tied = tie_handles(SHARED, [FIVE, SEVEN], "by the factory").home
    there = aside(tied, the_shared(tied))
    assert the_shared(there).set_aside
    assert not the_shared(untie_handles(there, [FIVE]).home).set_aside
    assert not the_shared(logged(there, trouble(SEVEN, "buzzes"))).set_aside


NEWS = {
    "its box was rewired": changed(1001),
    "anything may have been touched": changed(),
    "work on its panel": changed(panels=(PANEL,)),
    "somebody looked inside": opened(1001, 3001, 3002),
    "its breaker gives trouble": trouble(FIVE, "buzzes"),
}


@pytest.mark.parametrize("news", NEWS)
def test_anything_newer_about_it_tells_it_anew(news) -> None:
    assert not the_shared(logged(ASIDE, NEWS[news])).set_aside
    assert the_shared(aside(logged(SHARED, NEWS[news]), the_shared(SHARED))).set_aside == SAID


@pytest.mark.parametrize("other", [changed(1002), trouble(NINE, "buzzes"), changed(panels=(300,))])
def test_news_of_something_else_does_not(other) -> None:
    assert the_shared(logged(ASIDE, other)).set_aside == SAID


def test_one_circuit_more_makes_it_another_danger() -> None:
    there = ASIDE.boxes[1001]
    third = device(2003, feed(3003, on(NINE)))
    more = change(ASIDE, boxes=ASIDE.boxes.put(change(there, devices=(*there.devices, third))))
    assert not the_shared(more).set_aside


def test_a_new_reading_tells_a_disagreement_anew() -> None:
    live = went("live", FIVE, feed=3001)
    where = logged(home(box(1001, device(2001, feed(3001, on(FIVE))))), live)
    (odd,) = [one for one in find(where).hazards if one.kind == "tests disagree"]
    put = aside(where, odd)
    assert [one.set_aside for one in find(put).hazards] == [SAID]
    assert [one.set_aside for one in find(logged(put, live)).hazards] == [""]


def test_struck_or_taken_back_it_is_told_as_before() -> None:
    hazard = the_shared(SHARED)
    assert the_shared(logged(ASIDE, struck(ASIDE.log[-1].id))) == hazard
    again = tell_again(ASIDE, hazard.kind, hazard.about, date=DAY)
    assert again.says == "Tell again: shared box"
    assert the_shared(again.home) == hazard


def test_a_danger_of_a_panel_is_set_aside_too() -> None:
    resting = only("breaker in trouble", log=[trouble(FIVE, "buzzes")])
    where = aside(home(log=[trouble(FIVE, "buzzes")]), resting)
    assert [one.set_aside for one in find(where).hazards] == [SAID]


@settings(max_examples=60)
@given(st.integers(0, 10**6).map(dense), st.integers(0, 99))
def test_of_any_home_exactly_the_one_is_set_aside_and_told_last(where, at) -> None:
    before = find(where).hazards
    if not before:
        return
    chosen = before[at % len(before)]
    after = find(aside(where, chosen)).hazards
    same = [one for one in before if (one.kind, {*one.about}) == (chosen.kind, {*chosen.about})]
    assert {replace(one, set_aside="") for one in after} == {*before}
    assert [one for one in after if one.set_aside] == [replace(one, set_aside=SAID) for one in same]
    assert [bool(one.set_aside) for one in after] == sorted(bool(one.set_aside) for one in after)
