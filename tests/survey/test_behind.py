"""What hangs behind what: seen by pressing the test button and resetting, never assumed."""

import pytest

from floorplan_circuits.home.home import Home
from floorplan_circuits.survey.behind import seen_behind
from tests.supply.wiring import UNKNOWN, behind, on
from tests.survey.houses import FEED, A, B, box_of, case, changed, evidence_of, found, house, known, went

DEVICE = 401
FEEDS = {FEED: UNKNOWN, DEVICE: on(A)}


def behind_in(*entries, feeds=None) -> tuple[int, ...]:
    home: Home = house(feeds or FEEDS, *entries)
    return seen_behind(case(home), evidence_of(home))


PRESSED = went("dead", pressed=[DEVICE])


def test_dead_while_the_button_is_pressed_and_live_after_the_reset_hangs_behind() -> None:
    assert behind_in(went(), PRESSED, went()) == (DEVICE,)
    assert behind_in(went("live", B), went("dead", B, pressed=[DEVICE]), went("live", B)) == (DEVICE,)


@pytest.mark.parametrize(
    "entries",
    [
        (PRESSED, went()),
        (went(), PRESSED),
        (went(), went("unclear", pressed=[DEVICE]), went()),
        (went(), PRESSED, went("live", B)),
        (went(), went("dead", pressed=[DEVICE, 402]), went()),
        (went(), PRESSED, went(method="lamp plugged in")),
        (went(), PRESSED, went(date="2026-03-15")),
        (went(method="non-contact tester"), PRESSED, went(method="non-contact tester")),
        (went(), PRESSED, went(), changed(box_of(FEED))),
        (went(), PRESSED, went(), went(pressed=[DEVICE])),
    ],
)
def test_a_part_missing_or_a_live_that_denies_it_shows_nothing(entries) -> None:
    assert behind_in(*entries) == ()


def test_neighbours_on_one_breaker_are_not_taken_to_hang_behind() -> None:
    assert behind_in(feeds={FEED: on(A), DEVICE: on(A)}) == ()


def test_live_while_the_device_it_is_said_to_hang_behind_is_tripped_denies_the_map() -> None:
    home = house({FEED: behind(DEVICE), DEVICE: on(A)}, went(), went("live", pressed=[DEVICE]))
    one = known(home)
    assert (one.standing, one.says) == (
        "contradicted",
        "found live while the device it is said to hang behind was tripped",
    )
    (said,) = found(home).disagreements
    assert "with all on, a test button pressed" in said.says


def test_the_device_itself_is_not_denied_by_its_own_line_side() -> None:
    home = house({FEED: behind(DEVICE), DEVICE: on(A)}, went(feed=DEVICE), went(feed=DEVICE, pressed=[DEVICE]))
    assert known(home, DEVICE).standing == "claimed"
