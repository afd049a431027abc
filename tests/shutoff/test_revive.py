"""It went dead: what to look at, nearest first, and when to stop."""

import pytest

from floorplan_circuits.find import find, revive
from floorplan_circuits.shutoff.revive import NOBODY_KNOWS, ON_PURPOSE, STOP
from tests.supply.wiring import UNKNOWN, behind, breaker, on, panel
from tests.survey.houses import FEED, PANEL, A, B, box_of, house, trouble, went


def steps(home, box: int | None = None) -> tuple[str, ...]:
    return revive(find(home), box or box_of(FEED)).steps[1:]


def test_first_somebody_is_asked_and_at_the_end_one_stops() -> None:
    found = revive(find(house({FEED: on(A)})), box_of(FEED))
    assert found.steps[0] == ON_PURPOSE
    assert found.stop == STOP


def test_the_breaker_and_what_else_is_on_it_are_named() -> None:
    home = house({FEED: on(A), 401: on(A), 402: on(B)})
    found = revive(find(home), box_of(FEED))
    assert found.steps[1:] == (
        "Look at breaker 1 in Panel 1: if it stands between on and off, turn it fully off, then on, once.",
    )
    assert found.also_on == (box_of(401),)


def test_the_ground_fault_device_that_it_hangs_behind_comes_first() -> None:
    home = house({FEED: behind(401), 401: on(A)}, kind="ground-fault receptacle")
    assert steps(home)[0] == "Press reset on the ground-fault receptacle B401: the map says it hangs behind it."
    seen = went(), went("dead", pressed=[401]), went()
    pressed = house({FEED: on(A), 401: on(A)}, *seen, kind="ground-fault receptacle")
    assert steps(pressed)[0].endswith("it was seen to hang behind it.")


def test_its_own_reset_button_is_told() -> None:
    assert "It has a reset button of its own: press that first." in steps(
        house({FEED: on(A)}, kind="ground-fault receptacle")
    )


def test_what_nobody_knows_says_so() -> None:
    assert steps(house({FEED: UNKNOWN})) == (NOBODY_KNOWS,)


@pytest.mark.parametrize(
    ("home", "words"),
    [
        (house({FEED: on(A)}, trouble(A, "runs hot")), "runs hot: keep off it."),
        (
            house({FEED: on(A)}, breakers=[breaker(A, found={"state": "off", "why": "wet wall"})]),
            "(wet wall): leave it",
        ),
        (house({FEED: on(A)}, breakers=[breaker(A, may_open={"may": "never"})]), "keep off it."),
        (house({FEED: on(A)}, breakers=[breaker(A, device="fuse", opens="hot")]), "must have the same rating."),
    ],
)
def test_what_must_be_left_alone_is_never_to_be_reset(home, words) -> None:
    (step,) = steps(home)
    assert words in step
    assert "turn it fully off" not in step


def test_a_subpanels_feeder_is_told_where_all_of_it_is_dead() -> None:
    panels = (panel(PANEL, spaces=200), panel(2, prefix="G", fed_by=({"kind": "breaker", "breaker": B},)))
    home = house({FEED: on(A)}, panels=panels, breakers=[breaker(A, of=2), breaker(B)])
    assert steps(home)[-1] == "If all of Panel 2 is dead: look at 5 in Panel 1."
