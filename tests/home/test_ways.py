import re
from typing import get_args

import pytest

from floorplan_circuits.home.log import KNOWN_KINDS, Method, TracedBy
from floorplan_circuits.home.resources import read_json
from floorplan_circuits.home.ways import Way, way_named, ways

WAYS = list(ways().values())
LONGEST = 340
"""Letters of a sentence that a narrow form still shows without scrolling far."""
FORBIDDEN = re.compile(r"\b(safe|safely|illegal|guarantee\w*|certain\w*)\b", re.IGNORECASE)


def test_no_two_ways_have_one_name_or_one_label() -> None:
    names = [row["name"] for row in read_json("ways_of_testing.json")["ways"]]
    assert names == list(ways())
    assert len({way.label for way in WAYS}) == len(WAYS)


def test_every_way_that_the_log_can_name_is_told() -> None:
    assert set(get_args(Method)) == {way.name for way in WAYS if "round" in way.recorded_as} - {"helper on the phone"}
    assert set(get_args(TracedBy)) == {way.name for way in WAYS if "traced" in way.recorded_as}
    for kind in ("opened", "tester"):
        assert len([way for way in WAYS if kind in way.recorded_as]) == 1


def test_what_is_only_stated_is_recorded_as_nothing() -> None:
    assert [way.name for way in WAYS if not way.recorded_as] == ["old label"]
    assert {kind for way in WAYS for kind in way.recorded_as} <= set(KNOWN_KINDS)


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.name)
def test_each_says_what_it_shows_what_it_cannot_and_what_to_mind(way: Way) -> None:
    for words in (way.shows, way.cannot, way.caution):
        assert words[0].isupper()
        assert words.endswith(".")
        assert len(words) <= LONGEST
        assert not FORBIDDEN.search(words)


@pytest.mark.parametrize("way", WAYS, ids=lambda way: way.name)
def test_only_a_strong_way_leaves_it_open_that_it_may_prove(way: Way) -> None:
    if way.is_strong:
        assert re.search(r"before and after|throughout", way.caution)
    elif way.name in get_args(Method):
        assert re.search(r"proves nothing|never proves dead", way.cannot)


def test_a_battery_is_taken_out_and_a_non_contact_tester_never_proves_dead() -> None:
    assert "battery out" in ways()["radio plugged in, no battery"].caution
    assert "never proves dead" in ways()["non-contact tester"].cannot
    assert "ghost voltage" in ways()["high-impedance meter"].cannot


def test_a_tracer_takes_two_passes_and_names_the_points_that_need_an_adapter() -> None:
    tracer = ways()["signal tracer"]
    assert "second pass" in tracer.shows
    assert tracer.adapters == ("receptacle without ground", "lamp holder", "bare cable end")


def test_a_receptacle_tester_tells_every_fault_that_can_be_recorded_and_the_ones_that_it_misses() -> None:
    tester = ways()["receptacle tester"]
    for shown in ("correct", "open ground", "open neutral", "open hot or dead", "reversed"):
        assert shown in tester.shows
    for missed in ("swapped", "joined", "two faults at once", "open neutral with something plugged in"):
        assert missed in tester.cannot


def test_a_way_of_a_newer_program_is_no_witness_under_its_own_name() -> None:
    strange = way_named("thermal camera")
    assert (strange.label, strange.is_strong, strange.cannot) == ("thermal camera", False, ways()["not said"].cannot)


def test_only_what_the_mains_itself_works_or_loads_is_strong() -> None:
    """Common practice, no source: a lamp, a radio or a fixture on the mains, a two-lead or low-impedance tester."""
    assert {way.name for way in WAYS if way.is_strong} == {
        "lamp plugged in",
        "radio plugged in, no battery",
        "the fixture itself",
        "two-lead tester",
        "low-impedance meter",
    }
