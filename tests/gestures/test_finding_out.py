"""Finding out: what is ticked is recorded and nothing else, and no tick outlives what it was said of."""

from dataclasses import replace

import pytest

from floorplan_circuits.edits.boxes import add_passing, join_box, set_device, split_halves
from floorplan_circuits.edits.breakers import set_breaker
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.recording import record_trouble
from floorplan_circuits.find import find
from floorplan_circuits.gestures.finding_out import (
    CHOOSE_A_WAY,
    SetUp,
    also_recorded,
    back_on,
    choices,
    headline,
    readable,
    recorded,
    slip_struck,
    taken,
    with_breaker,
    with_way,
)
from floorplan_circuits.home.days import written
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Round
from floorplan_circuits.home.power import Found, Permission
from floorplan_circuits.log_in_words import box_history
from tests.edits.samples import box_of, breaker_at, device_of, feeds_in, house, typed_in

DAY = "2026-03-14"
HOME = typed_in(house(), 2, "15 hall")
FIRST, SECOND = breaker_at(HOME, 1), breaker_at(HOME, 2)
(FEED,) = feeds_in(HOME, "B1")
ALL = SetUp(FIRST, "two-lead tester", True, True, True, True, True, "owner", "Kim")


def rounds(home: Home) -> list[tuple[tuple[int, ...], str]]:
    return [(one.off, one.readings[0].says) for one in home.log if isinstance(one, Round)]


def test_a_device_can_be_read_by_any_way_that_says_live_or_dead():
    names = [way.name for way in choices()]

    assert names[0] == "lamp plugged in"
    assert {"non-contact tester", "not said"} < set(names)
    assert not {"signal tracer", "opened", "old label", "helper on the phone"} & set(names)


def test_a_breaker_is_off_until_it_is_said_to_be_back_on():
    now = with_breaker(SetUp(), HOME, FIRST)

    assert headline(now, HOME) == "1 is off"
    assert headline(with_breaker(now, HOME, SECOND), HOME) == "2 is off"
    assert headline(back_on(now), HOME) == "All as usual"
    assert headline(replace(now, breaker=999_999), HOME) == "All as usual"


def test_a_second_click_on_the_breaker_that_is_off_changes_nothing():
    assert with_breaker(ALL, HOME, FIRST) is ALL
    assert back_on(SetUp()) == SetUp()


@pytest.mark.parametrize(
    ("home", "says"),
    [
        (set_breaker(HOME, FIRST, found=Found(state="off", why="old pump")).home, "found off"),
        (set_breaker(HOME, FIRST, may_open=Permission(may="never")).home, "must never be turned off"),
        (record_trouble(HOME, FIRST, "runs hot", date="").home, "runs hot"),
    ],
)
def test_a_breaker_that_nobody_should_turn_off_is_refused(home, says):
    with pytest.raises(Refused, match=says):
        with_breaker(SetUp(), home, FIRST)


def test_one_that_takes_somebody_s_word_says_whose():
    home = set_breaker(HOME, FIRST, may_open=Permission(may="ask", whose="the tenant", why="aquarium")).home

    assert taken(with_breaker(SetUp(), home, FIRST), home).endswith("Ask the tenant: aquarium.")
    assert "Ask" not in taken(with_breaker(SetUp(), HOME, FIRST), HOME)
    assert taken(SetUp(), HOME).startswith("All is as usual, you say.")


def test_no_tick_outlives_what_it_was_said_of():
    assert back_on(ALL) == replace(ALL, breaker=None, live_before=False, live_again=False, tester_after=False)
    other_breaker, other_way = with_breaker(ALL, HOME, SECOND), with_way(ALL, "lamp plugged in")

    assert other_breaker == replace(ALL, breaker=SECOND, live_before=False, live_again=False, tester_after=False)
    assert other_way == SetUp(FIRST, "lamp plugged in", who="owner", helper="Kim")
    assert with_way(ALL, "two-lead tester") is ALL


def test_dead_records_all_that_was_ticked():
    edited = recorded(ALL, HOME, FEED, "dead", DAY)

    assert rounds(edited.home) == [((), "live"), ((FIRST,), "dead"), ((), "live")]
    assert find(edited.home).conclusions[FEED].standing == "proved"
    assert {(entry.who, entry.date) for entry in edited.home.log} == {("owner", DAY)}
    assert also_recorded(ALL) == (
        "‘Dead’ also records: live before, live again, tester proved before and after, each hot shown."
    )


@pytest.mark.parametrize("says", ["live", "unclear"])
def test_what_was_ticked_of_dead_devices_is_not_said_of_others(says):
    assert rounds(recorded(ALL, HOME, FEED, says, DAY).home) == [((FIRST,), says)]


def test_without_ticks_only_the_reading_itself_is_recorded():
    bare = SetUp(FIRST, "lamp plugged in")

    edited = recorded(bare, HOME, FEED, "dead", DAY)

    (entry,) = edited.home.log
    assert isinstance(entry, Round)
    assert (entry.off, entry.tester.before, entry.readings[0].each_hot, entry.helper) == ((FIRST,), False, False, "")
    assert also_recorded(bare) == ""


def test_with_no_breaker_off_the_reading_is_of_all_as_usual():
    assert rounds(recorded(replace(ALL, breaker=None), HOME, FEED, "live", DAY).home) == [((), "live")]
    assert also_recorded(SetUp(None, "lamp plugged in", True, True)) == ""


def test_nothing_is_recorded_before_anybody_says_how_it_is_tested():
    with pytest.raises(Refused, match=CHOOSE_A_WAY):
        recorded(SetUp(FIRST), HOME, FEED, "dead", DAY)


def test_a_click_reads_one_device_or_all_that_enters_and_nothing_planned():
    home = split_halves(HOME, device_of(HOME, "B1")).home
    home = join_box(add_passing(home, box_of(home, "B1")).home, box_of(home, "B1"), "switch").home
    box = home.boxes[box_of(home, "B1")]
    receptacle, switch = (device.id for device in box.devices)
    planned = set_device(home, switch, planned=True).home

    assert len(readable(box, None, home)) == 4
    assert [place.feed.part for place in readable(box, receptacle, home)] == ["upper", "lower"]
    assert len(readable(box, switch, home)) == 1
    assert readable(box, switch, planned) == ()
    assert len(readable(box, None, planned)) == 3


def test_a_slip_strikes_all_that_one_click_recorded():
    edited = recorded(ALL, HOME, FEED, "dead", DAY)

    struck = slip_struck(edited.home, edited.made, DAY, "owner").home

    assert find(struck).conclusions[FEED].standing == "unknown"
    why = {one.struck for one in box_history(struck, box_of(HOME, "B1"))}
    assert why == {f"Struck, {written(DAY)}, owner: a slip of the hand"}
    for nothing in (edited.made, ()):
        with pytest.raises(Refused, match=r"struck already|Nothing was recorded"):
            slip_struck(struck, nothing, DAY, "")
