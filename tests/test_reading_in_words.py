"""What a reading means once it is recorded: tested only where all parts were seen, else what is missing."""

from typing import Any

import pytest

from floorplan_circuits.edits.boxes import put_device, split_halves
from floorplan_circuits.edits.breakers import set_breaker, tie_handles
from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.edits.recording import record_round, single_test, strike
from floorplan_circuits.edits.switching import let_work, say_by_hand
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.find import find
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Found
from floorplan_circuits.reading_in_words import NO_HAND, NOT_LIVE, what_is_missing, what_it_means
from tests.edits.samples import box_of, breaker_at, device_of, feeds_in, house, level_of, typed_in

DAY = "2026-03-14"
HOME = set_breaker(typed_in(house(), 2, "15 hall"), breaker_at(house(), 1), opens="hot").home
FIRST, SECOND = breaker_at(HOME, 1), breaker_at(HOME, 2)
(FEED,) = feeds_in(HOME, "B1")
WHOLE: dict[str, Any] = {
    "method": "two-lead tester",
    "live_before": True,
    "live_again": True,
    "tester_before": True,
    "tester_after": True,
    "date": DAY,
}


def means(edited: Edited, feed: int = FEED) -> str:
    return what_it_means(find(edited.home), feed, edited.made)


def test_a_whole_test_reads_tested_and_on_which_breaker():
    home = split_halves(HOME, device_of(HOME, "B1")).home
    upper, _ = feeds_in(home, "B1")

    assert means(single_test(home, FIRST, upper, "dead", **WHOLE), upper) == "B1 upper: tested 14 March 2026, on 1."


def test_a_proof_that_leans_on_what_was_found_off_says_so():
    home = set_breaker(HOME, SECOND, found=Found(state="off")).home

    assert (
        means(single_test(home, FIRST, FEED, "dead", **WHOLE)) == "B1: tested 14 March 2026, on 1, while 2 stays off."
    )


@pytest.mark.parametrize(
    ("lacking", "says"),
    [
        ({"live_before": False}, "not seen live just before, with all as usual"),
        ({"live_again": False}, "not seen live again"),
        ({"tester_before": False}, "the tester not proved before"),
        ({"tester_after": False}, "the tester not proved after"),
        ({"tester_before": False, "tester_after": False}, "the tester not proved before and after"),
        ({"date": ""}, "no date"),
        ({"method": "non-contact tester"}, "non-contact tester can’t prove it here"),
        (
            {"live_before": False, "tester_after": False},
            "not seen live just before, with all as usual, the tester not proved after",
        ),
    ],
)
def test_what_is_missing_is_named_and_nothing_else(lacking, says):
    edited = single_test(HOME, FIRST, FEED, "dead", **WHOLE | lacking)

    assert means(edited) == f"B1: one ‘dead’ is not proof: {says}. Treat as live."


def test_a_lamp_whose_switch_nobody_said_a_hand_works_says_what_to_say():
    home = put_device(HOME, level_of(HOME), (2000, 1500), 90, "ceiling light").home
    home = let_work(home, [device_of(home, "B3")], [box_of(home, "B4")]).home
    (lamp,) = feeds_in(home, "B4")
    whole = WHOLE | {"method": "the fixture itself"}
    said = say_by_hand(home, home.controls.rows[0].id).home

    assert NO_HAND in means(single_test(home, FIRST, lamp, "dead", **whole), lamp)
    assert means(single_test(said, FIRST, lamp, "dead", **whole), lamp) == "B4: tested 14 March 2026, on 1."


def test_a_breaker_that_may_open_the_neutral_too_wants_each_hot_shown():
    home = set_breaker(HOME, FIRST, opens="not known").home

    assert means(single_test(home, FIRST, FEED, "dead", **WHOLE)) == (
        "B1: one ‘dead’ is not proof: not each hot shown, and nobody said that the breaker opens the hot alone. "
        "Treat as live."
    )
    assert means(single_test(home, FIRST, FEED, "dead", **WHOLE, each_hot=True)) == "B1: tested 14 March 2026, on 1."


def test_a_part_that_was_seen_in_a_round_of_its_own_counts():
    usual = {"method": "two-lead tester", "tester_before": True, "tester_after": True, "date": DAY}
    home = record_round(HOME, [], [(FEED, "live")], **usual).home

    edited = single_test(home, FIRST, FEED, "dead", **WHOLE | {"live_before": False})

    assert means(edited) == "B1: tested 14 March 2026, on 1."


def test_a_reading_that_adds_nothing_is_told_with_the_day_of_the_test_that_counts():
    home = single_test(HOME, FIRST, FEED, "dead", **WHOLE).home

    later = single_test(home, FIRST, FEED, "dead", method="two-lead tester", date="2026-06-01")

    assert means(later) == "B1: tested 14 March 2026, on 1."


def test_live_with_a_breaker_off_tells_that_it_is_not_all_that_feeds_it():
    edited = single_test(HOME, FIRST, FEED, "live", **WHOLE | {"live_before": False, "live_again": False})

    assert means(edited) == "B1: live with 1 off, so 1 is not all that feeds it. Treat as live."


def test_live_by_a_weak_way_rules_nothing_out():
    edited = single_test(HOME, FIRST, FEED, "live", method="non-contact tester", date=DAY)

    assert means(edited) == "B1: non-contact tester rules no breaker out. Treat as live."


def test_what_denies_the_map_is_treated_as_live_whatever_is_off():
    home = tie(HOME, [FEED], FIRST).home

    said = means(single_test(home, FIRST, FEED, "live", method="two-lead tester", date=DAY))

    assert said.startswith("B1: found live with its breaker off")
    assert said.endswith("Treat it as live whatever is off.")


@pytest.mark.parametrize(
    ("says", "off", "meant"),
    [
        ("live", False, "live with all as usual. Turn a breaker off, and look again."),
        ("dead", False, "dead with all as usual, so that no breaker can be found by it. Treat as live."),
        ("unclear", False, "unclear tells nothing. Treat as live."),
        ("unclear", True, "unclear tells nothing. Treat as live."),
    ],
)
def test_a_reading_that_tells_little_says_so(says, off, meant):
    off_now = [FIRST] if off else []
    edited = record_round(
        HOME, off_now, [(FEED, says)], method="two-lead tester", tester_before=True, tester_after=True, date=DAY
    )

    assert means(edited) == f"B1: {meant}"


def test_what_is_struck_or_gone_means_nothing():
    edited = single_test(HOME, FIRST, FEED, "unclear", method="two-lead tester", date=DAY)
    struck: Home = strike(edited.home, edited.made[0], "a slip", date="").home

    assert what_it_means(find(struck), FEED, edited.made) == ""
    assert what_it_means(find(edited.home), 999_999, edited.made) == ""


@pytest.mark.parametrize("made", ["makeshift", "not sure"])
def test_a_handle_that_may_have_moved_another_says_so(made):
    home = tie_handles(HOME, [FIRST, SECOND], made).home
    says = means(single_test(home, FIRST, FEED, "dead", **WHOLE))
    assert says.startswith("B1: one ‘dead’ is not proof: its handle may have moved another along")


def test_a_lamp_whatever_is_ticked_shows_no_hot_beside_its_own():
    home = set_breaker(HOME, FIRST, opens="not known").home
    lamp = WHOLE | {"method": "lamp plugged in", "each_hot": True}
    assert "not each hot shown" in means(single_test(home, FIRST, FEED, "dead", **lamp))


def test_what_was_tried_alone_says_what_is_missing_until_it_is_tested():
    unsaid = set_breaker(HOME, FIRST, opens="not known").home
    tried = single_test(unsaid, FIRST, FEED, "dead", **WHOLE).home
    tested = set_breaker(tried, FIRST, opens="hot").home

    assert what_is_missing(find(HOME), FEED) == ""
    assert what_is_missing(find(tried), FEED) == (
        "not each hot shown, and nobody said that the breaker opens the hot alone"
    )
    assert what_is_missing(find(tested), FEED) == ""


def test_what_was_not_live_with_all_on_when_last_looked_at_says_that_first():
    usual = {"method": "two-lead tester", "tester_before": True, "tester_after": True, "date": DAY}
    tried = single_test(HOME, FIRST, FEED, "dead", **WHOLE | {"live_again": False}).home
    dead = record_round(tried, [], [(FEED, "dead")], **usual).home

    assert what_is_missing(find(dead), FEED).startswith(NOT_LIVE)
