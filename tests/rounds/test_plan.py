"""The plan of an evening: every handle told apart, nothing turned that must not be, the walk short."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.find import find, plan_rounds
from floorplan_circuits.findings import TestPlan
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Tie
from floorplan_circuits.rounds.plan import moves_in
from floorplan_circuits.supply.handles import may_move_along, moves_together
from sample_homes.write_samples import SAMPLES
from tests.homes import homes
from tests.supply.wiring import UNKNOWN, breaker, on, panel
from tests.survey.hidden import Hidden, hidden_home
from tests.survey.houses import DAY, FEED, PANEL, A, B, C, a_test, house, logged, trouble, went

SEEDS = st.integers(0, 100_000)


def plan_of(home: Home, **options) -> TestPlan:
    return plan_rounds(find(home), **options)


def test_the_rounds_tell_every_handle_apart() -> None:
    found = plan_of(house())
    patterns = {handle: [handle in one.off for one in found.rounds] for handle in found.handles}
    assert set(patterns) == {A, B, C}
    assert len(found.rounds) == 3
    assert len({tuple(shown) for shown in patterns.values()}) == 3


@pytest.mark.parametrize(
    ("one", "why"),
    [
        (breaker(A, found={"state": "off", "why": "wet"}), "was found off (wet)"),
        (breaker(A, may_open={"may": "never"}), "must never be turned off"),
        (breaker(A, may_open={"may": "ask", "whose": "Kim"}), "ask Kim"),
    ],
)
def test_what_must_be_left_alone_is_never_turned(one, why) -> None:
    found = plan_of(house(breakers=[one, breaker(B), breaker(C)]))
    assert found.left_alone == {A: why}
    assert A not in found.handles


def test_a_breaker_in_trouble_and_one_that_is_to_stay_on_are_left_alone() -> None:
    found = plan_of(house(None, trouble(A, "buzzes")), leave_on=[B])
    assert found.left_alone == {A: "buzzes", B: "is to stay on"}
    assert found.handles == (C,)


def test_feeders_mains_and_fuses_are_tested_apart() -> None:
    panels = (panel(PANEL, spaces=200), panel(2, prefix="G", fed_by=({"kind": "breaker", "breaker": C},)))
    found = plan_of(
        house(panels=panels, breakers=[breaker(A, of=2), breaker(B, device="fuse", opens="hot"), breaker(C)])
    )
    assert found.handles == (A,)
    assert found.apart == (B, C)


def test_tied_handles_are_one_movement() -> None:
    tied = [breaker(one, tie=Tie(group=1, made="by the factory")) for one in (A, B)]
    assert plan_of(house(breakers=[*tied, breaker(C)])).handles == (A, C)


def test_it_goes_on_from_what_the_log_says() -> None:
    home = house({FEED: on(A), 401: UNKNOWN}, *a_test(A), went("live", A, feed=401))
    found = plan_of(home)
    assert found.feeds == (401,)
    assert found.handles == (B, C)


def test_of_one_box_only_its_feeds_are_read() -> None:
    home = house({FEED: UNKNOWN, 401: UNKNOWN})
    assert plan_of(home, boxes=[home.boxes.rows[1].id]).feeds == (401,)


def test_what_is_said_to_be_on_a_handle_is_looked_at_with_it_alone() -> None:
    found = plan_of(house({FEED: on(B), 401: on(B), 402: UNKNOWN}))
    assert [(one.handle, one.feeds) for one in found.solo] == [(B, (FEED, 401))]


def test_what_cannot_be_watched_is_told_with_advice() -> None:
    found = plan_of(house(kind="junction box"))
    assert found.feeds == ()
    assert "nothing to watch" in found.advice[FEED]


@pytest.mark.parametrize("sample", SAMPLES)
def test_the_samples_take_no_more_than_one_breaker_at_a_time(sample) -> None:
    compared = plan_of(SAMPLES[sample]()).compared
    assert compared["plan"].readings <= compared["one_at_a_time"].readings
    assert compared["plan"].metres <= compared["one_at_a_time"].metres
    assert compared["plan"].rounds <= compared["one_at_a_time"].rounds


@settings(max_examples=10)
@given(homes(), st.sampled_from(("equal weight", "least rounds", "one more round")))
def test_any_home_can_be_planned_and_each_round_reads_each_feed_once(home, strength) -> None:
    found = plan_of(home, strength=strength)
    together = moves_together(home)
    for one in (found.all_on, *found.rounds):
        assert sorted(feed for stop in one.walk for feed in stop.feeds) == sorted(found.feeds)
        assert not {other for handle in one.off for other in together[handle]} & set(found.left_alone)
    before: set[int] = set()
    for one in found.rounds:
        assert set(one.moves) == before ^ set(one.off)
        before = set(one.off)
    assert moves_in([one.off for one in found.rounds]) == sum(len(one.moves) for one in found.rounds) + len(before)


# --- carried out in homes with a hidden truth -----------------------------------------------------------------------


def carried_out(hidden: Hidden, found: TestPlan, false_dead: int = 0) -> Home:
    """The log of somebody who follows the plan, a tester in hand; some readings are wrongly 'dead'."""
    home, together = hidden.home, moves_together(hidden.home)
    resting = frozenset(one.id for one in home.breakers if one.found.state == "off")
    entries = []
    for one in (found.all_on, *found.rounds, found.all_on):
        off = frozenset(other for handle in one.off for other in together[handle]) | resting
        shown = {feed: "live" if hidden.hot(feed, off) else "dead" for feed in found.feeds}
        if one is not found.all_on:
            for feed in hidden.rng.sample(found.feeds, min(false_dead, len(found.feeds))):
                shown[feed] = "dead"
        entries.append(_round(off, shown))
    return logged(home, *entries)


def _round(off: frozenset[int], shown: dict[int, str]) -> dict:
    return {
        "kind": "round",
        "off": sorted(off),
        "method": "two-lead tester",
        "date": DAY,
        "tester": {"before": True, "after": True},
        "readings": [{"feed": feed, "says": says, "each_hot": True} for feed, says in shown.items()],
    }


def on_one_handle(hidden: Hidden, feed: int, found: TestPlan) -> int | None:
    """The handle of the plan that alone feeds it, or None; nor one that may move another along, as a nail does."""
    true, together, along = hidden.single(feed), moves_together(hidden.home), may_move_along(hidden.home)
    if true is None or along[true] != together[true]:
        return None
    handle = min(together[true])
    return handle if handle in found.handles else None


@settings(max_examples=25)
@given(SEEDS)
def test_each_feed_on_one_handle_is_found_in_the_published_number_of_rounds(seed) -> None:
    hidden = hidden_home(seed, odd=False, right=True)
    found = plan_of(hidden.home)
    known = find(carried_out(hidden, found)).conclusions
    together = moves_together(hidden.home)
    for feed in found.feeds:
        handle = on_one_handle(hidden, feed, found)
        if handle is not None:
            assert known[feed].standing in ("suggested", "proved")
            assert {*known[feed].breakers} <= together[handle]


@settings(max_examples=25)
@given(SEEDS)
def test_read_truly_nothing_on_two_supplies_or_from_elsewhere_is_suggested_on_one_handle(seed) -> None:
    hidden = hidden_home(seed)
    hidden.stuck = None
    found = plan_of(hidden.home)
    known, together = find(carried_out(hidden, found)).conclusions, moves_together(hidden.home)
    for feed in found.feeds:
        if known[feed].standing == "suggested":
            true = hidden.truth[feed]
            assert not true.outside
            assert true.on <= together[known[feed].breakers[0]] | {
                one.id for one in hidden.home.breakers if one.found.state == "off"
            }


@settings(max_examples=25)
@given(SEEDS, st.integers(1, 6))
def test_false_deads_never_suggest_another_handle_for_what_hangs_on_one(seed, wrong) -> None:
    hidden = hidden_home(seed, odd=False)
    found = plan_of(hidden.home)
    known, together = find(carried_out(hidden, found, false_dead=wrong)).conclusions, moves_together(hidden.home)
    for feed in found.feeds:
        handle = on_one_handle(hidden, feed, found)
        if handle is not None and known[feed].standing == "suggested":
            assert {*known[feed].breakers} <= together[handle]
