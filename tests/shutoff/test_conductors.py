"""What is tested in an open box: nothing that could be live there is left out."""

import pytest
from hypothesis import given, settings

from floorplan_circuits.find import find
from floorplan_circuits.findings import ToTest
from floorplan_circuits.home.boxes import Box, Device, Feed, Supplied
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from floorplan_circuits.shutoff.conductors import ANYTHING_ELSE, FIRST, FURTHER, to_test
from tests.homes import homes
from tests.supply.wiring import UNKNOWN, breaker, on
from tests.survey.houses import FEED, A, B, box_of, house, opened

BOX = box_of(FEED)
ALL = ("hot to ground", "hot to neutral", "neutral to ground", "hot to hot")


def rows(home: Home, box: int = BOX) -> list[tuple[str, tuple[str, ...]]]:
    return [(row.what, row.pairs) for row in to_test(home.boxes[box], find(home))]


def with_box(home: Home, **fields: object) -> Home:
    return change(home, boxes=Table(change(one, **fields) if one.id == BOX else one for one in home.boxes))


def test_both_halves_of_a_receptacle_are_tested_though_one_feed_is_recorded() -> None:
    assert rows(house({FEED: on(A)})) == [
        ("receptacle, upper", FIRST),
        ("receptacle, lower", FIRST),
        (ANYTHING_ELSE, FIRST),
    ]


def test_a_half_of_which_no_feed_is_recorded_is_tested_too() -> None:
    home = house({FEED: on(A)}, feed_fields={"part": "upper"})
    found = to_test(home.boxes[BOX], find(home))
    assert [(row.what, row.feed) for row in found[:2]] == [("receptacle, upper", FEED), ("receptacle, lower", None)]


@pytest.mark.parametrize(
    ("kind", "terminals"),
    [("switch", 2), ("dimmer", 2), ("three-way switch", 3), ("four-way switch", 4)],
)
def test_a_switch_is_tested_at_every_terminal(kind: str, terminals: int) -> None:
    *found, _ = rows(house({FEED: on(A)}, kind=kind))
    assert [pairs for _, pairs in found] == [FIRST, *[FURTHER] * (terminals - 1)]


def test_at_240_volts_each_hot_is_tested_and_one_against_the_other() -> None:
    home = house({FEED: on(A)}, kind="240 V receptacle", breakers=[breaker(A, 2, 4)])
    assert rows(home)[:2] == [
        ("240 V receptacle, hot 1", FIRST),
        ("240 V receptacle, hot 2", ("hot to ground", "hot to neutral", "hot to hot")),
    ]


def test_of_three_hots_each_is_tested_against_another() -> None:
    supplies = [{"kind": "breaker", "breaker": A, "pole": pole} for pole in (0, 1, 2)]
    feed = Supplied.model_validate({"how": "all", "supplies": supplies}, strict=False)
    *found, _ = rows(house({FEED: feed}, kind="fixed appliance", breakers=[breaker(A, 2, 4, 6)]))
    assert [what for what, _ in found] == [f"fixed appliance, hot {nth}" for nth in (1, 2, 3)]
    assert all("hot to hot" in pairs for _, pairs in found)


def test_a_cable_that_passes_is_tested_with_as_many_hots_as_its_breaker_may_give_it() -> None:
    home = house({FEED: on(A)}, breakers=[breaker(A), breaker(B, 2, 4)])
    home = with_box(home, passing=(Feed(id=900, part="to the attic", on=on(B)),))
    passing = [row for row in rows(home) if "passes" in row[0]]
    assert [what for what, _ in passing] == [f"cable that passes, to the attic, hot {nth}" for nth in (1, 2)]


def test_cables_that_somebody_saw_are_tested_whether_known_or_not() -> None:
    home = house({FEED: on(A), 401: on(B)}, opened(BOX, FEED, None, 401))
    assert rows(home)[2:4] == [("cable that nobody knows, seen in it", ALL), ("cable of B401, seen in it", ALL)]


def test_a_box_of_which_nothing_is_recorded_is_tested_all_the_same() -> None:
    home = with_box(house({FEED: UNKNOWN}), devices=())
    assert rows(home) == [(ANYTHING_ELSE, FIRST)]


def test_what_is_only_planned_is_not_tested() -> None:
    planned = Device(id=901, kind="dimmer", planned=True)
    home = house({FEED: on(A)})
    home = with_box(home, devices=(*home.boxes[BOX].devices, planned))
    assert not any("dimmer" in what for what, _ in rows(home))


def feeds_of(box: Box) -> set[int]:
    built = [feed.id for device in box.devices if not device.planned for feed in device.feeds]
    return {*built, *(feed.id for feed in box.passing)}


def test_two_feeds_of_one_name_are_both_tested() -> None:
    home = house({FEED: on(A), 401: on(B)})
    box = home.boxes[box_of(FEED)]
    (first,) = box.feeds()
    halves = tuple(change(first, id=number, part="upper") for number in (5001, 5002))
    device = change(box.devices[0], kind="duplex receptacle", feeds=halves)
    findings = find(change(home, boxes=home.boxes.put(change(box, devices=(device,)))))
    tested = [row.feed for row in to_test(findings.home.boxes[box.id], findings)]
    assert {5001, 5002} <= {*tested}


@settings(max_examples=25)
@given(homes())
def test_every_feed_that_enters_is_tested_to_ground_in_any_home(home: Home) -> None:
    findings = find(home)
    for box in home.boxes:
        found: tuple[ToTest, ...] = to_test(box, findings)
        tested = {row.feed for row in found if "hot to ground" in row.pairs}
        assert feeds_of(box) <= tested
        assert all("hot to ground" in row.pairs and row.what for row in found)
        assert found[-1].what == ANYTHING_ELSE
