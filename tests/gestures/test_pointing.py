"""Pointing to a breaker: what a tracer or the eye shows is recorded as that, never as dead or live."""

import pytest

from floorplan_circuits.edits.breakers import set_breaker
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.find import find
from floorplan_circuits.gestures.finding_out import (
    READS,
    SetUp,
    all_choices,
    headline,
    recorded,
    taken,
    with_breaker,
    with_way,
)
from floorplan_circuits.gestures.pointing import NO_ADAPTER, PASSES, adapters
from floorplan_circuits.home.log import Traced
from floorplan_circuits.home.power import Permission
from floorplan_circuits.reading_in_words import what_it_means
from tests.edits.samples import breaker_at, feeds_in, house, typed_in

DAY = "2026-03-14"
HOME = typed_in(house(), 2, "15 hall")
FIRST = breaker_at(HOME, 1)
(FEED,) = feeds_in(HOME, "B1")
TRACER = with_way(SetUp(who="owner"), "signal tracer")


def traces(edited):
    return [
        (one.way, one.passes, one.adapter, one.feed, one.handle) for one in edited.home.log if isinstance(one, Traced)
    ]


def test_each_way_that_points_can_be_chosen_and_has_answers_of_its_own():
    assert [way.name for way in all_choices()][-len(PASSES) :] == list(PASSES)
    assert TRACER.answers == ("one pass", "two passes")
    assert with_way(TRACER, "two-lead tester").answers == READS


def test_nothing_is_turned_off_for_it_so_that_any_breaker_can_be_pointed_to():
    home = set_breaker(HOME, FIRST, may_open=Permission(may="never")).home

    assert headline(with_breaker(TRACER, home, FIRST), home) == "It points to 1"
    with pytest.raises(Refused):
        with_breaker(with_way(SetUp(), "two-lead tester"), home, FIRST)


def test_what_is_pointed_to_is_not_off_when_another_way_is_taken():
    pointed_to = with_breaker(TRACER, HOME, FIRST)

    assert with_way(pointed_to, "two-lead tester").breaker is None
    assert with_way(with_breaker(SetUp(way="two-lead tester"), HOME, FIRST), "signal tracer").breaker is None
    assert with_way(pointed_to, "followed by eye").breaker == FIRST
    assert "followed from" in taken(pointed_to, HOME)


@pytest.mark.parametrize(("says", "standing"), [("two passes", "traced"), ("one pass", "unknown")])
def test_only_two_passes_point_and_none_proves(says, standing):
    edited = recorded(with_breaker(TRACER, HOME, FIRST), HOME, FEED, says, DAY)
    findings = find(edited.home)

    assert findings.conclusions[FEED].standing == standing
    assert traces(edited) == [("signal tracer", PASSES["signal tracer"][says], "", FEED, FIRST)]
    means = what_it_means(findings, FEED, edited.made)
    assert ("proves nothing" if standing == "traced" else "Make the second, too") in means
    assert means.endswith("Treat as live.")


def test_the_adapter_is_written_down_and_not_carried_to_another_way():
    adapter = adapters("signal tracer")[1]
    now = SetUp(FIRST, "signal tracer", adapter=adapter)

    assert traces(recorded(now, HOME, FEED, "two passes", DAY))[0][2] == adapter
    assert with_way(now, "followed by eye").adapter == NO_ADAPTER
    assert adapters("followed by eye") == ()


def test_a_device_without_a_breaker_named_is_refused():
    with pytest.raises(Refused, match="Click the breaker"):
        recorded(TRACER, HOME, FEED, "two passes", DAY)
