"""A plan in words: every feed once, handles in the panel's order, what is turned leads from each round to the next."""

import pytest
from hypothesis import given, settings

from floorplan_circuits.find import find, plan_rounds
from floorplan_circuits.findings import RoundsInWords
from floorplan_circuits.home.home import Home
from floorplan_circuits.rounds.answers import plan_code
from floorplan_circuits.rounds.scope import IN_USE, PLUG_IN
from floorplan_circuits.rounds.wording import in_words
from sample_homes.write_samples import SAMPLES
from tests.drawing.drawn import box, breaker, device, fed, home, room, sample
from tests.homes import homes


def told(some: Home, **options) -> RoundsInWords:
    findings = find(some)
    return in_words(plan_rounds(findings, **options), findings)


@pytest.mark.parametrize("sample", SAMPLES)
def test_each_feed_stands_on_the_walk_once_at_its_place_in_the_plan(sample) -> None:
    findings = find(SAMPLES[sample]())
    plan = plan_rounds(findings)
    words = in_words(plan, findings)
    looks = [look for stop in words.walk for look in stop.looks]
    assert sorted(look.place for look in looks) == list(range(len(plan.feeds)))
    for look in looks:
        assert findings.home.boxes[findings.conclusions[plan.feeds[look.place]].box].mark == look.mark
    assert words.code == plan_code(plan)


@settings(max_examples=8)
@given(homes())
def test_turning_what_is_told_leads_through_the_rounds_and_back_to_all_on(some) -> None:
    findings = find(some)
    plan = plan_rounds(findings)
    words = in_words(plan, findings)
    off: set[str] = set()
    for turned in words.rounds:
        assert not off & {*turned.turn_off}
        assert {*turned.turn_on} <= off
        off = off - {*turned.turn_on} | {*turned.turn_off}
        assert off == {*turned.off}
    assert not off
    assert len(words.rounds) == len(plan.rounds) + 2


def test_handles_are_told_in_the_order_of_the_panel() -> None:
    breakers = tuple(breaker(20 - space, space) for space in (1, 2, 3, 4, 5, 6))
    words = told(home((box(30, None, device(31, fed(32))),), breakers), cap=6)
    assert words.rounds[1].turn_off == tuple(sorted(words.rounds[1].turn_off, key=int))
    assert len(words.rounds[1].turn_off) > 1


def test_a_look_says_what_it_is_where_and_what_to_do_there() -> None:
    boxes = (
        box(30, (500, 500), device(31, fed(32)), reach="behind the piano"),
        box(40, (600, 500), device(41, fed(42), slot=2, name="porch"), gangs=2),
        box(50, None, device(51, fed(52), kind="freezer", name="Chest freezer")),
    )
    words = told(home(boxes, (breaker(6, 1),), (room(60, "Hall", 0, 0, 4000, 3000),)))
    hall, nowhere = words.walk
    assert (hall.name, hall.level) == ("Hall", "Ground floor")
    assert [(look.mark, look.what) for look in hall.looks] == [
        ("B30", "receptacle"),
        ("B40", "porch (receptacle), gang 2 of 2"),
    ]
    assert hall.looks[0].mind == ("behind the piano", "plug in a lamp or a radio without a battery")
    assert nowhere.name == ""
    assert nowhere.looks[0].what == "Chest freezer"


def test_what_shows_nothing_and_what_is_left_alone_is_told_in_sentences() -> None:
    boxes = (
        box(30, None, device(31, fed(32))),
        box(40, None, device(41, fed(42), kind="junction box")),
        box(50, None, device(51, fed(52), kind="junction box")),
    )
    found = breaker(7, 2, found={"state": "off", "why": "nobody knows"})
    words = told(home(boxes, (breaker(6, 1), found)), leave_on=(6,))
    assert [sentence.partition(":")[0] for sentence in words.not_watched] == ["B40, B50"]
    assert words.left_alone == (
        "Leave 1 as it is: is to stay on.",
        "Leave 2 as it is: was found off (nobody knows).",
    )


def test_what_has_one_plug_and_minds_is_left_plugged_in() -> None:
    boxes = (
        box(30, None, device(31, fed(32), kind="single receptacle", name="sump pump", critical="keeps it dry")),
        box(40, None, device(41, fed(42), kind="single receptacle", name="washer")),
        box(50, None, device(51, fed(52), name="refrigerator", critical="the food in it")),
    )
    (nowhere,) = told(home(boxes, (breaker(6, 1),))).walk
    minds = {look.mark: look.mind for look in nowhere.looks}
    assert minds == {"B30": (IN_USE,), "B40": (PLUG_IN,), "B50": (PLUG_IN,)}
    assert "plug in" not in IN_USE


def test_a_main_that_is_never_off_for_a_test_is_not_said_to_be_tested_by_itself() -> None:
    findings = sample("house")
    said = in_words(plan_rounds(findings), findings).left_alone
    (apart,) = [words for words in said if words.startswith("Kept on, tested by themselves")]
    (never,) = [words for words in said if words.startswith("Never off for a test")]
    assert never.endswith(": main.")
    assert "main" not in apart
    assert "38·40" in apart
