"""The close-up with handles off: what each cable would be, then the box, never better than the findings."""

import pytest

from floorplan_circuits.drawing.close_up import CloseUp, close_up
from floorplan_circuits.drawing.close_up_what_if import NEUTRAL, with_off
from floorplan_circuits.drawing.ink import Group
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.find import find, what_if
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Found
from floorplan_circuits.surfaces.collect import CollectingSurface
from tests.drawing.close_ups import groups, texts
from tests.drawing.drawn import bounds_of, overlap
from tests.supply.wiring import UNKNOWN, breaker, on
from tests.survey.houses import FEED, MAIN, A, B, a_test, box_of, house, opened


def drawn(home: Home, *off: int, wide: float = 200.0, feed: int = FEED) -> CloseUp:
    findings = find(home)
    return close_up(findings, box_of(feed), wide, PAPER, what_if(findings, off))


def block(one: CloseUp) -> Group:
    (found,) = groups(one.ink, "with handles off")
    return found


def words(one: CloseUp) -> str:
    return " ".join(mark.words for mark in texts(block(one)))


def test_without_handles_off_there_is_no_block() -> None:
    one = close_up(find(house({FEED: on(A)})), box_of(FEED), 200.0, PAPER)
    assert list(groups(one.ink, "with handles off")) == []


def test_what_is_tested_and_looked_into_should_be_dead() -> None:
    home = house({FEED: on(A)}, *a_test(A), opened(box_of(FEED), FEED))
    so = "So the box is: should be dead, test it."
    assert words(drawn(home, A)) == f"With 1 off 1 should be dead: test it {so} {NEUTRAL}"


def test_a_cable_that_nobody_knows_makes_the_box_unknown() -> None:
    home = house({FEED: on(A)}, *a_test(A), opened(box_of(FEED), FEED, None))
    said = words(drawn(home, A))
    assert "1 should be dead: test it ? unknown: treat as live" in said
    assert "So the box is: unknown, treat as live. A cable was seen in it that nobody knows." in said


def test_a_box_that_nobody_looked_into_says_so() -> None:
    said = words(drawn(house({FEED: on(A)}, *a_test(A)), A))
    assert "not opened: treat as live So the box is: not opened, treat as live." in said


def test_with_another_handle_off_the_box_is_live_and_no_neutral_is_spoken_of() -> None:
    said = words(drawn(house({FEED: on(A)}, *a_test(A)), B))
    assert said == "With 5 off 1 live So the box is: live. Its breaker is on."


def test_what_only_a_label_says_is_not_proved() -> None:
    assert "1 not proved: treat as live" in words(drawn(house({FEED: on(A)}), A))


@pytest.mark.parametrize(
    ("off", "says"),
    [((A,), "With 1 off"), ((A, B), "With 1 and 5 off"), ((MAIN,), "With main off"), ((), "With nothing turned off")],
)
def test_what_was_found_off_is_not_named_among_what_is_off(off: tuple[int, ...], says: str) -> None:
    resting = breaker(103, found=Found(state="off"))
    home = house({FEED: on(A)}, breakers=[breaker(A), breaker(B), resting])
    findings = find(home)
    assert with_off(findings, what_if(findings, off)) == says


def test_many_handles_are_counted() -> None:
    many = [breaker(101 + nth) for nth in range(6)]
    findings = find(house({FEED: UNKNOWN}, breakers=many))
    assert with_off(findings, what_if(findings, [one.id for one in many])) == "With 6 handles off"


@pytest.mark.parametrize("wide", [60.0, 110.0, 140.0, 206.0])
def test_the_block_stands_clear_of_all_else_within_the_sheet(wide: float) -> None:
    home = house({FEED: on(A)}, *a_test(A), opened(box_of(FEED), FEED, None, 401))
    one = drawn(home, A, wide=wide)
    surface = CollectingSurface()
    surface.page(one.width, one.height, one.ink)
    left, top, right, foot = bounds_of(block(one))
    assert left >= -0.2
    assert right <= wide + 0.2
    assert foot <= one.height
    for name in ("table", "summary", "picture"):
        (other,) = groups(one.ink, name)
        assert not overlap(bounds_of(other), (left, top, right, foot))
