"""What to turn off before a box is opened, what that costs, and what it does not do."""

import pytest

from floorplan_circuits.home.boxes import Device, Feed
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Tie
from floorplan_circuits.home.record import change
from tests.shutoff.plans import handles_off, plan_of
from tests.supply.wiring import UNKNOWN, behind, breaker, elsewhere, main, on, panel, source
from tests.survey.houses import FEED, MAIN, PANEL, A, B, C, a_test, box_of, house, opened, traced, trouble, went

SEEN = opened(box_of(FEED), FEED)


def passing(home: Home, number: int, hangs) -> Home:
    """The same home with a cable that passes through the box."""
    box = home.boxes[box_of(FEED)]
    return change(home, boxes=home.boxes.put(change(box, passing=(Feed(id=number, on=hangs),))))


def test_the_breaker_of_the_box_is_turned_off_and_the_box_should_be_dead() -> None:
    own = [breaker(A, opens="hot", protects=("arc fault",)), breaker(B, opens="hot"), breaker(C)]
    plan = plan_of(house({FEED: on(A)}, *a_test(A), SEEN, breakers=own))
    assert handles_off(plan) == {A}
    assert plan.off[0].because == ("B400: tested, on it",)
    assert [state.state for state in plan.states] == ["should be dead"]
    assert plan.is_whole


@pytest.mark.parametrize(
    "home",
    [
        house({FEED: on(A)}, SEEN),
        house({FEED: on(A)}, *a_test(A)),
        house({FEED: UNKNOWN}, SEEN),
        house({FEED: on(A)}, *a_test(A), SEEN),
    ],
)
def test_with_any_part_missing_it_is_not_whole(home) -> None:
    assert not plan_of(home).is_whole


def test_a_cable_that_passes_is_turned_off_too() -> None:
    plan = plan_of(passing(house({FEED: on(A)}), 500, on(B)))
    assert handles_off(plan) == {A, B}


def test_a_cable_that_somebody_saw_in_it_is_turned_off_too() -> None:
    home = house({FEED: on(A), 401: on(B)}, opened(box_of(FEED), FEED, 401))
    assert handles_off(plan_of(home)) == {A, B}


def test_what_hangs_behind_another_device_is_cut_at_its_breaker() -> None:
    assert handles_off(plan_of(house({FEED: behind(401), 401: on(C)}))) == {C}


def test_a_loop_needs_every_breaker_of_it() -> None:
    assert handles_off(plan_of(house({FEED: on(A, B)}))) == {A, B}


def test_handles_that_are_tied_by_the_factory_move_together_and_a_makeshift_tie_does_not() -> None:
    def tied(made: str) -> Home:
        pair = [breaker(one, tie=Tie(group=1, made=made)) for one in (A, B)]
        return house({FEED: on(A)}, breakers=[*pair, breaker(C)])

    assert handles_off(plan_of(tied("by the factory"))) == {A, B}
    assert len(plan_of(tied("by the factory")).off) == 1
    assert handles_off(plan_of(tied("makeshift"))) == {A}


def test_every_circuit_that_shares_a_neutral_is_in() -> None:
    sharing = [change(breaker(one), poles=({"space": 2 * at + 1, "neutral": 900},)) for at, one in enumerate((A, B))]
    plan = plan_of(house({FEED: on(A)}, breakers=[*sharing, breaker(C)]))
    assert handles_off(plan) == {A, B}
    assert ("shares a neutral with 1",) in [one.because for one in plan.off]


def test_a_borrowed_neutral_puts_the_other_circuit_in_from_either_side() -> None:
    borrowed = {"kind": "breaker", "breaker": B}
    home = house({FEED: on(A)}, feed_fields={"returns": borrowed})
    assert handles_off(plan_of(home)) == {A, B}
    box = home.boxes[box_of(FEED)]
    other = change(
        box, id=9001, mark="B9001", devices=(change(box.devices[0], id=9002, feeds=(Feed(id=9003, on=on(B)),)),)
    )
    assert handles_off(plan_of(change(home, boxes=home.boxes.put(other)), 9001)) == {A, B}


def test_a_feed_narrowed_to_two_puts_both_in_and_one_that_may_be_any_none() -> None:
    assert handles_off(plan_of(house(None, went("live", A)))) == {B, C}
    plan = plan_of(house())
    assert handles_off(plan) == set()
    looked = "nobody has looked inside, or not since it changed: more may enter"
    assert plan.unknown == ("B400: nobody knows", f"B400: {looked}")


def test_past_four_that_are_left_none_is_added() -> None:
    many = [breaker(100 + at) for at in range(8)]
    assert handles_off(plan_of(house(None, went("live", 100, 101, 102, 103), breakers=many))) == {104, 105, 106, 107}
    assert handles_off(plan_of(house(None, went("live", 100, 101, 102), breakers=many))) == set()


def test_what_is_traced_or_suggested_counts_though_the_map_says_nothing() -> None:
    assert handles_off(plan_of(house(None, traced(B)))) == {B}
    assert handles_off(plan_of(house(None, went("dead", C), went("live")))) == {C}


@pytest.mark.parametrize(
    "fields",
    [
        {"may_open": {"may": "never", "why": "oxygen"}},
        {"device": "fuse", "opens": "not known"},
    ],
)
def test_what_may_not_be_opened_is_never_part_and_what_is_above_it_is(fields) -> None:
    plan = plan_of(house({FEED: on(A)}, breakers=[breaker(A, **fields), breaker(B), breaker(C)]))
    assert handles_off(plan) == {MAIN}
    assert plan.only_the_main
    assert "The wires above the main of Panel 1 stay live with it off." in plan.stays_live


@pytest.mark.parametrize("what", ["did not open", "runs hot", "buzzes", "will not reset", "loose", "other"])
def test_a_breaker_in_trouble_is_left_alone_and_told(what) -> None:
    plan = plan_of(house({FEED: on(A)}, trouble(A, what)))
    assert handles_off(plan) == {MAIN}
    assert any(one.startswith("1 ") and one.endswith("leave it as it is.") for one in plan.stays_live)


def test_a_fuse_whose_side_is_known_may_be_taken_out() -> None:
    assert handles_off(plan_of(house({FEED: on(A)}, breakers=[breaker(A, device="fuse", opens="hot")]))) == {A}


def test_elsewhere_is_never_cut_and_keeps_the_box_as_live() -> None:
    plan = plan_of(house({FEED: on(A, elsewhere("next door"))}))
    assert handles_off(plan) == {A}
    assert [state.state for state in plan.states] == ["unknown"]
    assert "B400: no handle here makes it dead." in plan.stays_live


def test_a_source_that_starts_by_itself_stays_live_and_says_where_its_disconnect_is() -> None:
    backup = source(900, FEED, kind="battery", starts="by itself", name="Battery", disconnect="by the meter")
    plan = plan_of(house({FEED: on(A)}, sources=(backup,)))
    assert "Battery can start by itself. Its disconnect: by the meter." in plan.stays_live
    assert not plan.is_whole


def test_what_was_found_off_stays_off_and_is_told_to_keep_so() -> None:
    resting = [breaker(A, found={"state": "off"}), breaker(B), breaker(C)]
    plan = plan_of(house({FEED: on(A)}, breakers=resting))
    assert handles_off(plan) == set()
    assert [one.handles for one in plan.keep_off] == [(A,)]


def test_what_a_test_leans_on_is_told_to_be_kept_off() -> None:
    resting = [breaker(A, opens="hot"), breaker(B, found={"state": "off"}), breaker(C)]
    plan = plan_of(house({FEED: on(A)}, *a_test(A, resting=(B,)), SEEN, breakers=resting))
    assert handles_off(plan) == {A}
    assert [one.handles for one in plan.keep_off] == [(B,)]


def test_whose_word_is_needed_is_told() -> None:
    asked = breaker(A, may_open={"may": "ask", "whose": "Kim", "why": "the server"})
    (movement,) = plan_of(house({FEED: on(A)}, breakers=[asked, breaker(B)])).off
    assert movement.ask == "ask Kim: the server"


def test_a_feeder_that_will_do_alone_is_offered_with_what_goes_dark() -> None:
    panels = (
        panel(PANEL, spaces=200, mains=(main(MAIN),)),
        panel(2, prefix="G", fed_by=({"kind": "breaker", "breaker": C},)),
    )
    breakers = [breaker(A, of=2), breaker(B, of=2), breaker(C)]
    plan = plan_of(passing(house({FEED: on(A), 401: on(B)}, panels=panels, breakers=breakers), 500, on(B)))
    assert handles_off(plan) == {A, B}
    assert [choice.handles for choice in plan.choices] == [(C,), (MAIN,)]


def test_critical_things_come_first_with_what_to_mind() -> None:
    home = house({FEED: on(A), 401: on(A), 402: on(A)})
    fridge = change(home.boxes[box_of(402)].devices[0], name="freezer", critical="the food in it")
    box = change(home.boxes[box_of(402)], devices=(fridge,))
    plan = plan_of(change(home, boxes=home.boxes.put(box)))
    assert [one.feed for one in plan.goes_dark] == [402, 401]
    assert plan.goes_dark[0].mind.startswith("Keep its door shut.")


def test_what_was_dark_before_does_not_go_dark() -> None:
    panels = (panel(PANEL, spaces=200), panel(2, prefix="G", fed_by=({"kind": "breaker", "breaker": C},)))
    breakers = [breaker(A, of=2, may_open={"may": "never"}), breaker(B, of=2, found={"state": "off"}), breaker(C)]
    plan = plan_of(house({FEED: on(A), 401: on(B)}, panels=panels, breakers=breakers))
    assert handles_off(plan) == {C}
    assert plan.goes_dark == ()


def test_of_tied_handles_one_that_was_found_off_is_not_turned_off_again() -> None:
    factory = Tie(group=1, made="by the factory")
    tied = [breaker(A, tie=factory), breaker(B, found={"state": "off"}, tie=factory)]
    assert handles_off(plan_of(house({FEED: on(A)}, breakers=tied))) == {A}


def test_the_nearest_tested_point_that_stays_live_is_named() -> None:
    home = house({FEED: on(A), 401: on(A), 402: on(B), 403: on(C)}, *a_test(A, feed=401), *a_test(B, feed=402))
    assert plan_of(home).prove_tester_at == box_of(402)
    assert plan_of(house({FEED: on(A)})).prove_tester_at is None


def test_a_planned_device_is_no_part_of_it() -> None:
    home = house({FEED: on(A)})
    box = home.boxes[box_of(FEED)]
    planned = Device(id=600, slot=1, kind="switch", planned=True, feeds=(Feed(id=601, on=on(B)),))
    with_planned = change(box, gangs=2, devices=(*box.devices, planned))
    assert handles_off(plan_of(change(home, boxes=home.boxes.put(with_planned)))) == {A}


@pytest.mark.parametrize("picked", [FEED, 401])
def test_a_planned_device_that_others_are_said_to_hang_behind_does_not_go_dark(picked: int) -> None:
    home = house({FEED: on(A), 401: behind(601)})
    box = home.boxes[box_of(FEED)]
    planned = Device(id=600, slot=1, kind="duplex receptacle", planned=True, feeds=(Feed(id=601, on=on(A)),))
    with_planned = change(box, gangs=2, devices=(*box.devices, planned))
    plan = plan_of(change(home, boxes=home.boxes.put(with_planned)), box_of(picked))
    assert A in handles_off(plan)
    assert {one.feed for one in plan.goes_dark} <= {FEED, 401} - {picked}


def test_what_hangs_on_no_breaker_here_is_not_said_to_have_one() -> None:
    def because(*supplies: object) -> str:
        home = house({FEED: on(*supplies)}, *a_test(A), SEEN)  # type: ignore[arg-type]
        return "; ".join(plan_of(home).states[0].because)

    assert "no breaker of these panels feeds it" in because(elsewhere("next door"))
    assert "it has a supply besides its breaker" in because(A, elsewhere("next door"))
