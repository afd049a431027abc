"""The steps of a shut-off: in the order of the practice, and never stronger than the state of a box."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from floorplan_circuits.find import find, shut_off
from floorplan_circuits.findings import Findings, Step
from floorplan_circuits.home.boxes import FromElsewhere
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Permission, Tie
from floorplan_circuits.home.record import change
from floorplan_circuits.shutoff.steps import BRING_A_GROUND, KEEP_AWAY, NO_COVER, SMART_SWITCH, steps
from tests.drawing.drawn import sample
from tests.homes import homes
from tests.shutoff.plans import plan_of
from tests.supply.wiring import UNKNOWN, breaker, on
from tests.survey.houses import FEED, A, B, a_test, box_of, house, opened

ORDER = (
    "bring", "tell", "mind", "see it work", "keep off", "off", "tag", "see it stopped", "prove", "open", "ground",
    "test", "found live", "prove again", "work", "close", "by itself", "on", "stays off", "afterwards", "call",
)  # fmt: skip
NEAR = 401
"""A feed in a box of its own whose receptacle was tested and stays live: the point to prove the tester on."""
WHOLE = house(
    {FEED: on(A), NEAR: on(B)},
    *a_test(A),
    *a_test(B, feed=NEAR),
    opened(box_of(FEED), FEED),
    breakers=[breaker(one, opens="hot", protects=("arc fault",)) for one in (A, B)],
)


def steps_of(home: Home, *boxes: int) -> tuple[Step, ...]:
    return steps(plan_of(home, *boxes), find(home))


def kinds(found: tuple[Step, ...]) -> list[str]:
    return [step.kind for step in found]


def said(found: tuple[Step, ...], kind: str) -> str:
    return "; ".join(" ".join((step.do, *step.more)) for step in found if step.kind == kind)


def of_sample(name: str, *marks: str) -> tuple[Findings, tuple[Step, ...]]:
    findings = sample(name)
    by_mark = {box.mark: box.id for box in findings.home.boxes}
    return findings, steps(shut_off(findings, [by_mark[mark] for mark in marks]), findings)


# --- the order ------------------------------------------------------------------------------------------------------


def test_the_steps_follow_the_practice_in_its_order() -> None:
    found = kinds(steps_of(WHOLE))
    assert found == [kind for kind in ORDER if kind in found]
    assert {"tell", "off", "tag", "prove", "ground", "test", "found live", "prove again", "work", "on"} <= {*found}


def test_the_tester_is_proved_on_the_named_live_point_before_and_after() -> None:
    found = steps_of(WHOLE)
    assert "B401" in said(found, "prove")
    assert "B401" in said(found, "prove again")
    assert "B401" in said(found, "ground")


def test_without_a_live_point_the_tester_is_proved_before_anything_goes_off() -> None:
    found = steps_of(house({FEED: on(A)}))
    assert kinds(found).index("prove") < kinds(found).index("off")
    assert "proving unit" in said(found, "prove")
    assert "nothing was shown: stop" in said(found, "prove again")
    assert "bring a known ground, proved before, or stop" in said(found, "ground")


def test_every_handle_is_turned_off_by_its_number_and_turned_on_again() -> None:
    findings, found = of_sample("cottage", "B1", "B2")
    off = [handle for step in found if step.kind == "off" for handle in step.handles]
    (again,) = [step for step in found if step.kind == "on"]
    assert off
    assert sorted(off) == sorted(again.handles)
    for handle in off:
        assert findings.marks[handle] in said(found, "off")


def test_tied_handles_are_one_movement_and_each_is_looked_at() -> None:
    tied = [breaker(one, tie=Tie(group=1, made="by the factory")) for one in (A, B)]
    found = steps_of(house({FEED: on(A)}, breakers=tied))
    (off,) = [step for step in found if step.kind == "off"]
    assert off.handles == (A, B)
    assert "see that each is off" in said(found, "off")


def test_whose_word_is_needed_is_told_before_anything_goes_off() -> None:
    asked = [breaker(A, may_open=Permission(may="ask", whose="the tenant", why="an aquarium"))]
    assert "ask the tenant: an aquarium" in said(steps_of(house({FEED: on(A)}, breakers=asked)), "tell")


def test_what_was_found_off_is_looked_at_and_stays_off() -> None:
    _, found = of_sample("cottage", "B3")
    assert said(found, "keep off") == "See that 10 (Main panel) is off, as found. Leave it so."
    assert said(found, "stays off") == "Leave 10 off: it was found so."
    assert not {handle for step in found if step.kind == "stays off" for handle in step.handles} & {
        handle for step in found if step.kind == "on" for handle in step.handles
    }


# --- what minds -----------------------------------------------------------------------------------------------------


def test_what_is_critical_is_shut_down_first_and_what_starts_by_itself_is_named() -> None:
    _, found = of_sample("cottage", "B3")
    assert said(found, "mind").startswith("First see to what must not simply go off: ")
    assert "Furnace, Back hall: turn it down first" in said(found, "mind")
    assert "furnace (Back hall)" in said(found, "by itself")


def test_what_is_critical_in_the_box_itself_is_shut_down_too() -> None:
    home = house({FEED: on(A)})
    box = home.boxes[box_of(FEED)]
    device = change(box.devices[0], name="freezer", critical="the food in it")
    home = change(home, boxes=home.boxes.put(change(box, devices=(device,))))
    assert "Freezer: keep its door shut" in said(steps_of(home), "mind")
    assert "freezer" in said(steps_of(home), "by itself")


# --- never stronger than the state ----------------------------------------------------------------------------------


def test_a_box_of_which_no_handle_is_known_is_not_to_be_opened() -> None:
    found = steps_of(house({FEED: UNKNOWN}))
    assert kinds(found) == ["stop", "call"]
    assert "Don’t open B400: unknown: treat as live." in said(found, "stop")


def test_a_bare_cable_end_is_not_to_be_touched_since_it_has_no_cover_to_leave_on() -> None:
    home = house({FEED: UNKNOWN})
    home = change(home, boxes=home.boxes.put(change(home.boxes[box_of(FEED)], mount="loose cable end")))
    found = said(steps_of(home), "stop")
    assert found.startswith("Don’t touch B400: unknown: treat as live.")
    assert KEEP_AWAY in found
    assert "cover" not in found
    assert "open" not in found


def test_no_cover_is_taken_off_a_bare_cable_end() -> None:
    box = WHOLE.boxes[box_of(FEED)]
    home = change(WHOLE, boxes=WHOLE.boxes.put(change(box, mount="loose cable end")))
    assert said(steps_of(home), "open").startswith(NO_COVER)


def test_it_is_not_to_be_opened_beside_another_one_either() -> None:
    home = house({FEED: on(A), 401: UNKNOWN})
    found = steps_of(home, box_of(FEED), box_of(401))
    assert "Don’t open B401" in said(found, "stop")
    assert {row.box for step in found for row in step.to_test} == {box_of(FEED)}
    assert said(found, "open").startswith("Take the cover off B400.")


def test_a_box_with_an_unknown_cable_is_not_opened_even_with_the_rest_off() -> None:
    found = steps_of(house({FEED: on(A)}, *a_test(A), opened(box_of(FEED), FEED, None)))
    assert said(found, "stop").startswith("Don’t open B400: unknown: treat as live.")
    assert "licensed electrician open and test it" in said(found, "stop")
    assert kinds(found) == ["stop", "call"]


def test_a_box_with_a_supply_from_elsewhere_is_not_to_be_worked_in() -> None:
    found = steps_of(house({FEED: on(A, FromElsewhere(kind="elsewhere"))}))
    assert "stop" in kinds(found)
    assert "work" not in kinds(found)


def test_work_comes_only_after_its_tests_and_says_so() -> None:
    assert said(steps_of(WHOLE), "work").startswith("Only if nothing was live, and the tester passed again: work.")
    assert "B400: each conductor is live until its own test" in said(steps_of(house({FEED: on(A)})), "work")


def test_in_a_box_without_ground_a_known_one_is_brought_or_the_work_stops() -> None:
    home = house({FEED: on(A)})
    box = home.boxes[box_of(FEED)]
    device = change(box.devices[0], ground="absent")
    found = steps_of(change(home, boxes=home.boxes.put(change(box, devices=(device,)))))
    assert said(found, "ground").count("B400: no ground there.") == 1
    assert "B400 receptacle: no ground." in said(found, "call")
    assert BRING_A_GROUND in said(steps_of(WHOLE), "ground")


@pytest.mark.parametrize(("kind", "warned"), [("dimmer", True), ("three-way switch", True), ("ceiling light", False)])
def test_a_switch_box_gets_the_caution_about_the_neutral(kind: str, warned: bool) -> None:
    assert (SMART_SWITCH in said(steps_of(house({FEED: on(A)}, kind=kind)), "work")) == warned


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(homes(), st.data())
def test_the_steps_of_any_home_never_say_more_than_the_states(home: Home, data: st.DataObject) -> None:
    findings = find(home)
    if not findings.boxes:
        return
    boxes = data.draw(st.lists(st.sampled_from(sorted(findings.boxes)), min_size=1, max_size=4, unique=True))
    plan = shut_off(findings, tuple(boxes))
    found = steps(plan, findings)
    words = " ".join(f"{step.do} {' '.join(step.more)}" for step in found).lower()
    shut = {one.box for one in plan.states if one.state == "live"}
    assert found[-1].kind == "call"
    assert "safe" not in words
    assert not shut & {row.box for step in found for row in step.to_test}
    for one in plan.states:
        if one.state in ("live", "unknown"):
            assert home.boxes[one.box].mark.lower() in said(found, "stop").lower()
    if "work" in kinds(found):
        order = [kinds(found).index(kind) for kind in ("prove", "ground", "test", "prove again", "work", "close")]
        assert order == sorted(order)
