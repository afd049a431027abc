"""Every family against the plain way of finding it, both ways: all are found, and none besides."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings, Hazard
from floorplan_circuits.home.home import Home
from sample_homes.write_samples import SAMPLES
from tests.hazards.brute import everything
from tests.hazards.dense import dense
from tests.homes import generate, homes, solo_rounds, with_log
from tests.supply.wiring import wirings

ABOUT = {
    "two supplies meet": "feed",
    "one yoke on two breakers": "device",
    "one load on untied breakers": "feed",
    "halves of one space taken for two legs": "feed",
    "one leg taken for two": "feed",
    "borrowed neutral": "feed",
    "switches on two circuits": "device",
    "switch on another circuit": "device",
    "more than one supply": "panel",
    "shared neutral, no common handle": "breaker",
    "more hots than legs on one neutral": "breaker",
    "halves of one space on one neutral": "breaker",
    "one leg, one neutral": "breaker",
    "breaker found off": "breaker",
    "handles joined": "breaker",
    "receptacle tester's fault": "device",
    "no ground": "device",
    "receptacle and breaker": "device",
    "conductor and breaker": "breaker",
}
"""Kind of hazard -> what of all that it is about tells one from another."""
ABOUT_A_BOX = (
    "shared box",
    "unknown box",
    "other supply",
    "tests disagree",
    "tested before a change",
    "conductors passing",
    "low voltage beside mains",
    "looks like its neighbour",
    "back to back",
)


def things(hazard: Hazard, found: Findings) -> set[int]:
    home = found.home
    if hazard.kind == "second source":
        feeds = {one for one in hazard.about if one in found.conclusions}
        return feeds or {*hazard.breakers}
    if hazard.kind == "breaker in trouble":
        return {*hazard.breakers} or {*hazard.about}
    of = {
        "feed": found.conclusions.keys(),
        "device": {device.id for box in home.boxes for device in box.devices},
        "panel": {*home.panels.ids()},
        "breaker": {*home.breakers.ids()},
    }
    wanted = ABOUT.get(hazard.kind)
    return {hazard.box or 0} if wanted is None else {one for one in hazard.about if one in of[wanted]}


def told(found: Findings) -> set[tuple[str, int]]:
    return {(hazard.kind, thing) for hazard in found.hazards for thing in things(hazard, found)}


def assert_the_same(home: Home) -> None:
    found = find(home)
    assert told(found) == everything(found)


@settings(max_examples=250)
@given(homes())
def test_of_any_home_every_family_finds_all_there_is_and_nothing_else(home) -> None:
    assert_the_same(home)


@settings(max_examples=60)
@given(wirings())
def test_of_any_wiring_too(home) -> None:
    assert_the_same(home)


@settings(max_examples=250)
@given(st.integers(0, 10**6).map(dense))
def test_where_dangers_are_many_too(home) -> None:
    assert_the_same(home)


def test_no_family_goes_without_its_hazards_in_these_homes() -> None:
    kinds = {kind for seed in range(300) for kind, _ in told(find(dense(seed)))}
    assert kinds == {*ABOUT, *ABOUT_A_BOX, "second source", "breaker in trouble"}


@pytest.mark.parametrize("seed", range(4))
def test_of_plausible_homes_too_tested_or_not(seed) -> None:
    generated = generate(seed, 120)
    assert_the_same(generated.home)
    assert_the_same(with_log(generated.home, solo_rounds(generated, generated.home.breakers.ids())))


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_of_the_samples_too(name) -> None:
    assert_the_same(SAMPLES[name]())
