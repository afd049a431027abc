"""Homes with a hidden truth: honest readings never lead away from it, and no false 'dead' makes anything proved."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.find import find
from floorplan_circuits.findings import BoxWhenOff
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.supply.graph import supply_graph
from floorplan_circuits.supply.handles import may_move_along, moves_together
from floorplan_circuits.survey.cases import Evidence
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.statements import statements
from floorplan_circuits.survey.states import Judge, box_states
from tests.survey.hidden import Hidden, evening, hidden_home, with_evening
from tests.survey.houses import logged, opened, trouble

SEEDS = st.integers(0, 100_000)
ROUNDS = st.integers(0, 12)


def states_of(home: Home, *off: int) -> dict[int, BoxWhenOff]:
    found, graph, record = find(home), supply_graph(home), LogBook(home)
    at_odds = frozenset(one.feed for one in found.disagreements)
    judge = Judge(Evidence.of(home, graph, record), found.conclusions, statements(home, graph), at_odds)
    return box_states(judge, off)


def is_led_astray(hidden: Hidden, feed: int) -> bool:
    """Whether its breaker does not open: then being live with it off says what it should not."""
    return hidden.stuck in hidden.truth[feed].on or (hidden.stuck is not None and hidden.stuck == hidden.feeder)


@settings(max_examples=150)
@given(SEEDS, ROUNDS, st.booleans(), st.booleans())
def test_honest_readings_never_exclude_the_true_supply(seed, rounds, slips, solo) -> None:
    hidden = hidden_home(seed)
    home = with_evening(hidden, evening(hidden, rounds, slips=slips, solo=solo))
    for feed, one in find(home).conclusions.items():
        true = hidden.single(feed)
        if true is not None and not is_led_astray(hidden, feed):
            assert true in one.candidates


@settings(max_examples=60)
@given(SEEDS, ROUNDS)
def test_a_breaker_that_is_known_not_to_open_is_never_excluded(seed, rounds) -> None:
    hidden = hidden_home(seed)
    if hidden.stuck is None:
        return
    home = with_evening(hidden, [*evening(hidden, rounds), trouble(hidden.stuck)])
    for feed, one in find(home).conclusions.items():
        if hidden.single(feed) == hidden.stuck:
            assert hidden.stuck in one.candidates


@settings(max_examples=150)
@given(SEEDS, ROUNDS, st.booleans(), st.booleans())
def test_whatever_is_proved_is_true(seed, rounds, slips, solo) -> None:
    hidden = hidden_home(seed)
    home = with_evening(hidden, evening(hidden, rounds, slips=slips, solo=solo))
    together = moves_together(home)
    for feed, one in find(home).conclusions.items():
        if one.standing == "proved":
            true = hidden.truth[feed]
            assert not true.outside
            assert true.on <= together[one.breakers[0]] | {*one.besides}


@settings(max_examples=60)
@given(SEEDS)
def test_an_honest_solo_pass_does_prove_something(seed) -> None:
    hidden = hidden_home(seed, odd=False, right=True)
    home = with_evening(hidden, evening(hidden, 60, solo=True))
    together, along = moves_together(home), may_move_along(home)
    resting = {held for one in home.breakers if one.found.state == "off" for held in together[one.id]}
    alone = {one for one in home.breakers.ids() if along[one] <= together[one] | resting}
    tested = {feed for feed, one in find(home).conclusions.items() if one.standing == "proved"}
    shown = {feed: true.on for feed, true in hidden.truth.items() if not true.on & resting and true.on <= alone}
    assert tested == {feed for feed, on in shown.items() if _is_below(on, home)}


def _is_below(breakers: frozenset[int], home: Home) -> bool:
    """Whether their panel has power while what was found off stays off."""
    feeders = {home.breakers[one].panel: home.panels[home.breakers[one].panel].fed_by for one in breakers}
    resting = {one.id for one in home.breakers if one.found.state == "off"}
    return not any(getattr(feeder, "breaker", 0) in resting for fed_by in feeders.values() for feeder in fed_by)


@settings(max_examples=100)
@given(SEEDS, ROUNDS, st.booleans())
def test_without_slips_what_is_suggested_of_a_single_supply_is_true(seed, rounds, solo) -> None:
    hidden = hidden_home(seed)
    home = with_evening(hidden, evening(hidden, rounds, solo=solo))
    together = moves_together(home)
    for feed, one in find(home).conclusions.items():
        true = hidden.single(feed)
        if one.standing == "suggested" and true is not None and not is_led_astray(hidden, feed):
            assert true in together[one.breakers[0]]


@settings(max_examples=100)
@given(SEEDS, ROUNDS, st.booleans())
def test_nothing_is_at_odds_where_the_map_is_right_and_nothing_is_odd(seed, rounds, solo) -> None:
    hidden = hidden_home(seed, odd=False, right=True)
    found = find(with_evening(hidden, evening(hidden, rounds, solo=solo)))
    assert found.disagreements == ()
    assert "contradicted" not in {one.standing for one in found.conclusions.values()}


@settings(max_examples=60)
@given(SEEDS, ROUNDS, st.booleans())
def test_more_honest_evidence_never_widens_what_is_left(seed, rounds, slips) -> None:
    hidden = hidden_home(seed)
    entries = evening(hidden, rounds, slips=slips)
    left: dict[int, set[int]] = {}
    for upto in range(0, len(entries) + 1, 3):
        known = find(with_evening(hidden, entries[:upto])).conclusions
        for feed, one in known.items():
            if one.standing != "proved":
                assert set(one.candidates) <= left.get(feed, set(one.candidates))
                left[feed] = set(one.candidates)


# --- boxes ----------------------------------------------------------------------------------------------------------


def with_all_opened(hidden: Hidden, home: Home) -> Home:
    """Somebody looked in every box and told each cable rightly."""
    return logged(home, *(opened(box.id, *(feed.id for feed in box.feeds())) for box in home.boxes))


@settings(max_examples=150)
@given(SEEDS, ROUNDS, st.booleans(), st.data())
def test_no_box_that_should_be_dead_has_a_live_conductor(seed, rounds, slips, data) -> None:
    hidden = hidden_home(seed)
    entries = evening(hidden, rounds + 20, slips=slips, solo=True)
    home = with_all_opened(hidden, with_evening(hidden, entries))
    handles = [*home.breakers.ids(), 3]
    off = frozenset(data.draw(st.lists(st.sampled_from(handles), max_size=len(handles), unique=True)))
    hidden.tripped.clear()
    everything = data.draw(st.booleans())
    chosen = frozenset(home.breakers.ids()) if everything else off
    resting = frozenset(one.id for one in home.breakers if one.found.state == "off")
    for box, state in states_of(home, *chosen).items():
        if state.state == "should be dead":
            live = [feed.id for feed in home.boxes[box].feeds() if hidden.hot(feed.id, chosen | resting)]
            assert live == []


@settings(max_examples=30)
@given(SEEDS)
def test_after_a_whole_solo_pass_some_box_should_be_dead_with_all_off(seed) -> None:
    hidden = hidden_home(seed, odd=False, right=True)
    home = with_all_opened(hidden, with_evening(hidden, evening(hidden, 60, solo=True)))
    said = {state.state for state in states_of(home, *home.breakers.ids()).values()}
    tested = [one for one in find(home).conclusions.values() if one.standing == "proved"]
    assert ("should be dead" in said) == any(_all_tested(home, box.id, tested) for box in home.boxes)


def _all_tested(home: Home, box: int, tested: list) -> bool:
    return {feed.id for feed in home.boxes[box].feeds()} <= {one.feed for one in tested}


@settings(max_examples=40)
@given(SEEDS, st.sampled_from(("label", "person", "not said")))
def test_a_label_alone_never_makes_a_box_dead(seed, said_by) -> None:
    hidden = hidden_home(seed, right=True)
    boxes = hidden.home.boxes
    for box in boxes:
        devices = tuple(
            change(one, feeds=tuple(change(feed, said_by=said_by) for feed in one.feeds)) for one in box.devices
        )
        boxes = boxes.put(change(box, devices=devices))
    home = with_all_opened(hidden, change(hidden.home, boxes=boxes))
    states = states_of(home, *home.breakers.ids(), 3)
    assert all(state.state in ("live", "unknown", "not proved") for state in states.values())


@settings(max_examples=80)
@given(SEEDS, ROUNDS)
def test_feeds_that_tests_keep_apart_are_on_no_one_handle(seed, rounds) -> None:
    hidden = hidden_home(seed, odd=False, right=True)
    home = with_evening(hidden, evening(hidden, rounds))
    together = moves_together(home)
    for box in find(home).boxes.values():
        if box.apart:
            true = [hidden.truth[feed.id].on for feed in home.boxes[box.box].feeds()]
            handles = [together[next(iter(one))] for one in true]
            assert any(one.isdisjoint(other) for one, other in combinations(handles, 2))


# --- false 'dead' ---------------------------------------------------------------------------------------------------


@settings(max_examples=150)
@given(SEEDS, ROUNDS, st.booleans())
def test_a_dead_of_its_own_making_never_proves_anything(seed, rounds, solo) -> None:
    """Of feeds that no breaker made dead in any round, whatever else did: none is proved, none should be dead."""
    hidden = hidden_home(seed)
    entries = evening(hidden, rounds, slips=True, solo=solo)
    home = with_all_opened(hidden, with_evening(hidden, entries))
    proved = {feed for feed, one in find(home).conclusions.items() if one.standing == "proved"}
    for feed in proved:
        assert any(_was_made_dead(hidden, feed, frozenset(entry["off"])) for entry in entries)


def _was_made_dead(hidden: Hidden, feed: int, off: frozenset[int]) -> bool:
    true = hidden.truth[feed]
    return not true.outside and not any(hidden.is_live(one, off) for one in true.on)


@pytest.mark.parametrize("seed", range(40))
def test_taking_rounds_away_yields_no_bolder_word_where_nothing_is_at_odds(seed) -> None:
    rank = ("unknown", "claimed", "suggested", "traced", "proved")
    hidden = hidden_home(seed, odd=False, right=True)
    entries = evening(hidden, 8, solo=True)
    whole = find(with_evening(hidden, entries)).conclusions
    for gone in range(0, len(entries), 4):
        less = find(with_evening(hidden, [*entries[:gone], *entries[gone + 1 :]])).conclusions
        for feed, one in whole.items():
            assert rank.index(less[feed].standing) <= rank.index(one.standing)
