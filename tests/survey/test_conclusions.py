import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Round
from floorplan_circuits.home.record import change
from floorplan_circuits.supply.graph import supply_graph
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.proof import Bench, proofs
from floorplan_circuits.survey.statements import statements
from tests.homes import generate, homes, solo_rounds, with_log
from tests.supply.wiring import DISCONNECTED, UNKNOWN, behind, breaker, breaker_supply, elsewhere, on, panel
from tests.survey.houses import (
    DAY,
    FEED,
    FIRST_ENTRY,
    MAIN,
    PANEL,
    A,
    B,
    C,
    a_test,
    box_of,
    changed,
    device_of,
    found,
    house,
    known,
    struck,
    traced,
    went,
)

NEXT = 401
IN_GARAGE = {
    "panels": [panel(PANEL, spaces=200), panel(2, prefix="G", fed_by=(breaker_supply(A),))],
    "breakers": [breaker(A, opens="hot"), breaker(B, of=2, opens="hot"), breaker(C, of=2, opens="hot")],
}


# --- from statements alone ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("hangs", "standing", "breakers", "others"),
    [
        (UNKNOWN, "unknown", (), ()),
        (on(A), "claimed", (A,), ()),
        (on(A, B), "claimed", (A, B), ()),
        (on(elsewhere("hall")), "claimed", (), ("elsewhere: hall",)),
        (on(999), "unknown", (), ()),
        (on(A, 999), "unknown", (A,), ()),
        (behind(999), "unknown", (), ()),
        (DISCONNECTED, "claimed", (), ()),
    ],
)
def test_what_is_only_stated_is_at_most_claimed(hangs, standing, breakers, others) -> None:
    one = known(house({FEED: hangs}))
    assert (one.standing, one.breakers, one.others) == (standing, breakers, others)


def test_a_disconnected_feed_that_nobody_saw_is_unknown() -> None:
    assert known(house({FEED: change(DISCONNECTED, seen_by="")})).standing == "unknown"


def test_what_hangs_behind_an_unknown_or_a_disconnected_feed_is_unknown() -> None:
    assert known(house({FEED: behind(NEXT), NEXT: UNKNOWN})).standing == "unknown"
    assert known(house({FEED: behind(NEXT), NEXT: DISCONNECTED})).standing == "unknown"


def test_a_planned_device_has_no_conclusion() -> None:
    home = house({FEED: on(A)}, *a_test(A))
    (box,) = home.boxes
    planned = change(box, devices=(change(box.devices[0], planned=True),))
    assert found(change(home, boxes=home.boxes.put(planned))).conclusions == {}


# --- proved ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("hangs", [UNKNOWN, on(A)])
def test_a_whole_test_proves_the_feed_with_its_date(hangs) -> None:
    one = known(house({FEED: hangs}, *a_test(A)))
    assert (one.standing, one.breakers, one.date, one.besides) == ("proved", (A,), DAY, ())


def test_a_test_of_what_it_hangs_behind_proves_nothing_downstream() -> None:
    home = house({FEED: behind(NEXT), NEXT: on(A)}, *a_test(A, feed=NEXT))
    assert known(home, NEXT).standing == "proved"
    assert known(home).standing == "claimed"


def test_neighbours_walls_and_labels_fill_nothing_in() -> None:
    home = house({FEED: on(A), NEXT: on(A), 402: UNKNOWN}, *a_test(A))
    assert [known(home, feed).standing for feed in (FEED, NEXT, 402)] == ["proved", "claimed", "unknown"]


@pytest.mark.parametrize("feeds", [{FEED: on(A, B)}, {FEED: behind(NEXT), NEXT: on(A, B)}, {FEED: on(A, elsewhere())}])
@pytest.mark.parametrize("each_hot", [True, False])
def test_a_loop_is_never_proved(feeds, each_hot) -> None:
    for handle in (A, B):
        assert known(house(feeds, *a_test(handle, each_hot=each_hot))).standing in ("claimed", "contradicted")


def test_one_breaker_said_twice_is_a_loop_as_well() -> None:
    """Live if either pole is on: the test of the handle tells nothing of the way that nobody drew."""
    poles = (breaker_supply(A, 0), breaker_supply(A, 1))
    two = [breaker(A, 1, 3, opens="both hots")]
    for how, is_proved in (("any", False), ("all", True)):
        home = house({FEED: on(*poles, how=how)}, *a_test(A, each_hot=True), breakers=two)
        assert (known(home).standing == "proved") == is_proved


def test_a_proof_that_leans_on_a_handle_found_off_names_it_and_holds_while_it_stays_off() -> None:
    def resting(*more):
        home = house(None, *a_test(A, resting=(C,)), *more)
        return change(home, breakers=home.breakers.put(change(home.breakers[C], found={"state": "off"})))

    one = known(resting())
    assert (one.standing, one.besides) == ("proved", (C,))
    assert known(resting(went("live", A, C, feed=NEXT))).standing == "proved"
    assert known(resting(went("live", feed=NEXT))).standing == "expired"


def test_a_feed_without_a_statement_that_a_feeder_makes_dead_stays_unknown_and_keeps_the_feeder() -> None:
    one = known(house(None, *a_test(A), **IN_GARAGE))
    assert (one.standing, one.breakers) == ("unknown", (A,))


def test_a_feed_that_is_stated_on_the_feeder_itself_is_proved_on_it() -> None:
    assert known(house({FEED: on(A)}, *a_test(A), **IN_GARAGE)).standing == "proved"


def test_a_test_of_the_feeder_does_not_prove_the_breaker_below_it() -> None:
    one = known(house({FEED: on(B)}, *a_test(A), **IN_GARAGE))
    assert (one.standing, one.breakers) == ("claimed", (B,))


# --- expired --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("change_", [changed(box_of(FEED)), changed(panels=(PANEL,)), changed()])
def test_a_change_makes_a_test_expire_and_keeps_its_breaker(change_) -> None:
    one = known(house(None, *a_test(A), change_))
    assert (one.standing, one.breakers) == ("expired", (A,))


def test_a_change_of_what_it_is_behind_makes_its_test_expire() -> None:
    home = house({FEED: behind(NEXT), NEXT: on(A)}, *a_test(A), changed(box_of(NEXT)))
    assert known(home).standing == "expired"


def test_testing_again_after_the_change_proves_again_and_a_struck_change_is_none() -> None:
    assert known(house(None, *a_test(A), changed(), *a_test(A))).standing == "proved"
    assert known(house(None, *a_test(A), changed(), struck(FIRST_ENTRY + 3))).standing == "proved"


def test_a_trace_after_a_change_does_not_hide_that_the_test_expired() -> None:
    assert known(house(None, *a_test(A), changed(), traced(A))).standing == "expired"


def test_an_expired_test_stays_expired_though_the_feeder_was_tested_since() -> None:
    home = house({FEED: on(B)}, *a_test(B), changed(box_of(FEED)), *a_test(A), **IN_GARAGE)
    assert known(home).standing == "expired"


# --- traced ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("hangs", [UNKNOWN, on(A)])
def test_a_trace_to_the_stated_breaker_or_with_none_stated_counts(hangs) -> None:
    one = known(house({FEED: hangs}, traced(A)))
    assert (one.standing, one.breakers) == ("traced", (A,))


@pytest.mark.parametrize(
    ("hangs", "entries", "standing"),
    [
        (on(B), (traced(A),), "claimed"),
        (UNKNOWN, (traced(A), traced(B)), "unknown"),
        (UNKNOWN, (traced(999),), "unknown"),
        (UNKNOWN, (traced(MAIN),), "unknown"),
        (UNKNOWN, (traced(A), changed(panels=(PANEL,))), "unknown"),
        (UNKNOWN, (traced(A), struck(FIRST_ENTRY)), "unknown"),
        (UNKNOWN, (traced(A), {"kind": "withdrawn", "entry": FIRST_ENTRY}), "unknown"),
        (on(A, elsewhere()), (traced(A),), "claimed"),
        (on(A, B), (traced(A),), "claimed"),
    ],
)
def test_a_trace_that_something_speaks_against_counts_for_nothing(hangs, entries, standing) -> None:
    assert known(house({FEED: hangs}, *entries)).standing == standing


def test_one_pass_of_a_tracer_points_to_nothing_and_a_cable_followed_by_eye_does() -> None:
    """In the first pass its receiver learns how strong the signal gets: common practice, no source."""
    assert known(house(None, traced(A, passes=1))).standing == "unknown"
    followed = known(house(None, traced(A, passes=1, way="followed by eye")))
    assert (followed.standing, followed.says) == ("traced", "its cable was followed to it")


def test_a_signal_on_its_way_through_a_feeder_points_to_no_breaker() -> None:
    assert known(house(None, traced(A), **IN_GARAGE)).standing == "unknown"


# --- what a newer program wrote -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "named",
    [FEED, box_of(FEED), device_of(FEED), NEXT, box_of(NEXT), device_of(NEXT), A, PANEL, MAIN],
)
def test_whatever_an_unknown_entry_names_of_all_it_leans_on_leaves_it_unknown_and_hides_no_breaker(named) -> None:
    feeds = {FEED: behind(NEXT), NEXT: on(A)}
    one = known(house(feeds, *a_test(A), {"kind": "weighed", "of": named}))
    assert (one.standing, one.breakers) == ("unknown", (A,))


def test_an_unknown_entry_that_names_the_proved_breaker_or_its_panel_reaches_a_feed_without_a_statement() -> None:
    for named in (A, PANEL, MAIN):
        one = known(house(None, *a_test(A), {"kind": "weighed", "of": [named]}))
        assert (one.standing, one.breakers) == ("unknown", (A,))


@pytest.mark.parametrize("at", range(3))
def test_an_unknown_entry_that_names_a_round_of_the_test_leaves_no_test(at) -> None:
    home = house({FEED: on(A)}, *a_test(A), {"kind": "withdrawn", "round": FIRST_ENTRY + at})
    assert known(home).standing == ("claimed" if at == 1 else "suggested")


def test_an_unknown_entry_about_something_else_changes_nothing() -> None:
    feeds = {FEED: on(A), NEXT: on(B)}
    assert known(house(feeds, *a_test(A), {"kind": "weighed", "of": [NEXT, B, 999]})).standing == "proved"


# --- never tested ---------------------------------------------------------------------------------------------------


def test_what_no_test_ever_proved_is_listed_also_where_a_test_denied_it() -> None:
    feeds = {feed: on(A) for feed in range(FEED, FEED + 5)}
    entries = (*a_test(A), *a_test(A, feed=401), *a_test(A, feed=402), changed(box_of(402)), went("live", A, feed=401))
    home = house(feeds, *entries, went("live", A, feed=403))
    standings = [known(home, feed).standing for feed in feeds]
    assert standings == ["proved", "contradicted", "expired", "contradicted", "claimed"]
    assert found(home).never_tested == (403, 404)


# --- homes with a hidden truth --------------------------------------------------------------------------------------


def solo(seed: int, devices: int = 40) -> tuple[Home, dict[int, frozenset[int]]]:
    generated = generate(seed, devices)
    return with_log(generated.home, solo_rounds(generated, generated.home.breakers.ids())), dict(generated.truth)


@settings(max_examples=25)
@given(st.integers(0, 10_000), st.sampled_from([20, 60, 160]))
def test_whatever_an_honest_solo_pass_proves_is_true(seed, devices) -> None:
    home, truth = solo(seed, devices)
    standings = found(home).conclusions
    proved = {feed: one for feed, one in standings.items() if one.standing == "proved"}
    assert proved
    assert all(frozenset(one.breakers) == truth[feed] for feed, one in proved.items())


@settings(max_examples=15)
@given(st.integers(0, 10_000))
def test_an_honest_solo_pass_proves_no_breaker_but_the_true_one_and_feeders_above_it(seed) -> None:
    home, truth = solo(seed)
    stated, bench = statements(home, supply_graph(home)), Bench.of(home, LogBook(home))
    feeders = {feeder.breaker for panel in home.panels for feeder in panel.fed_by if feeder.kind == "breaker"}
    for feed, one in stated.items():
        for proof in proofs(one.chain[0], one, bench):
            assert proof.handle <= truth[feed] | feeders


def test_a_loop_that_only_the_main_puts_out_is_not_suggested_on_the_one_breaker_that_stayed_on() -> None:
    loop = [went(), went("live", A), went("live", B), went("dead", MAIN), went()]
    assert known(house(None, *loop)).standing == "unknown"
    assert known(house(None, *loop, went("dead", C))).standing == "suggested"


def test_what_is_dead_with_a_feeder_off_is_not_suggested_on_the_feeder() -> None:
    loop = [went(), went("live", B), went("live", C), went("dead", A)]
    assert known(house(None, *loop, **IN_GARAGE)).standing == "unknown"


RANK = ("unknown", "claimed", "suggested", "traced", "proved")


@settings(max_examples=40)
@given(st.integers(0, 10_000), st.data())
def test_taking_away_a_round_never_raises_a_feed_that_nothing_speaks_against(seed, data) -> None:
    home, _ = solo(seed, 25)
    gone = data.draw(st.sampled_from(home.log))
    _never_rises(home, change(home, log=tuple(entry for entry in home.log if entry is not gone)))


WEAKER = (
    {"tester": {"before": False, "after": True}},
    {"tester": {"before": True, "after": False}},
    {"date": ""},
    {"method": "not said"},
)


@settings(max_examples=40)
@given(homes(), st.data())
def test_taking_a_part_away_from_a_wild_round_never_raises_a_feed_that_nothing_speaks_against(home, data) -> None:
    rounds = [entry for entry in home.log if isinstance(entry, Round)]
    if rounds:
        weak = data.draw(st.sampled_from(rounds))
        weaker = change(weak, **data.draw(st.sampled_from(WEAKER)))
        _never_rises(home, change(home, log=tuple(weaker if entry is weak else entry for entry in home.log)))


def _never_rises(home: Home, less: Home) -> None:
    """With less to go by no standing is higher, where no reading spoke against it that may be what was taken away."""
    before, after = found(home).conclusions, found(less).conclusions
    at_odds = {one.feed for one in found(home).disagreements}
    for feed, one in before.items():
        if (
            one.standing in RANK
            and feed not in at_odds
            and not one.says.startswith("tested once")
            and after[feed].standing in RANK
        ):
            assert RANK.index(after[feed].standing) <= RANK.index(one.standing)


@settings(max_examples=40)
@given(homes())
def test_without_a_tester_that_was_proved_nothing_is(home) -> None:
    unproved = {"tester": {"before": True, "after": False}}
    log = tuple(change(entry, **unproved) if isinstance(entry, Round) else entry for entry in home.log)
    assert "proved" not in {one.standing for one in found(change(home, log=log)).conclusions.values()}


@settings(max_examples=40)
@given(homes())
def test_no_standing_hides_a_breaker_that_is_stated(home) -> None:
    stated = statements(home, supply_graph(home))
    for feed, one in found(home).conclusions.items():
        assert set(stated[feed].breakers) <= set(one.breakers)
        assert set(stated[feed].others.values()) <= set(one.others)


# --- evenings at random ---------------------------------------------------------------------------------------------


@st.composite
def evenings(draw: st.DrawFn) -> list[dict]:
    """Up to nine rounds about one feed, many of them nearly right."""
    return [
        went(
            draw(st.sampled_from(("live", "dead", "dead", "unclear"))),
            *draw(st.sampled_from(((), (), (A,), (A,), (B,), (C,), (A, C), (A, B), (MAIN,)))),
            method=draw(st.sampled_from(("two-lead tester",) * 4 + ("lamp plugged in", "non-contact tester"))),
            tester={"before": draw(st.integers(0, 5)) > 0, "after": draw(st.integers(0, 5)) > 0},
            date=draw(st.sampled_from((DAY, DAY, DAY, "2026-03-15", ""))),
        )
        for _ in range(draw(st.integers(3, 9)))
    ]


def _is_whole(before: dict, dead: dict, after: dict, handle: int, resting: set[int]) -> bool:
    """The rule in the order in which a person would say it."""
    return (
        before["readings"][0]["says"] == after["readings"][0]["says"] == "live"
        and dead["readings"][0]["says"] == "dead"
        and set(dead["off"]) - {handle} == set(before["off"]) == set(after["off"])
        and set(before["off"]) <= resting
        and handle in dead["off"]
        and handle not in resting
        and dead["tester"] == {"before": True, "after": True}
        and before["method"] == dead["method"] == after["method"] != "non-contact tester"
        and before["date"] == dead["date"] == after["date"] != ""
    )


@settings(max_examples=200)
@given(evenings(), st.booleans())
def test_whatever_an_evening_says_proved_means_that_a_whole_test_is_in_it(evening, c_rests) -> None:
    home = house(None, *evening)
    if c_rests:
        home = change(home, breakers=home.breakers.put(change(home.breakers[C], found={"state": "off"})))
    one, resting = known(home), {C} if c_rests else set()
    if one.standing == "proved":
        (handle,) = one.breakers
        places = range(len(evening))
        wholes = [
            (i, j, k)
            for j in places
            for i in places[:j]
            for k in places[j + 1 :]
            if _is_whole(evening[i], evening[j], evening[k], handle, resting)
        ]
        assert wholes
        lit = [entry for entry in evening if entry["readings"][0]["says"] == "live" and handle in entry["off"]]
        assert all(entry["method"] == "non-contact tester" for entry in lit)


@settings(max_examples=100)
@given(evenings(), st.data())
def test_taking_a_part_away_from_an_evening_never_proves_what_it_did_not(evening, data) -> None:
    at = data.draw(st.integers(0, len(evening) - 1))
    weaker = [*evening[:at], evening[at] | data.draw(st.sampled_from(WEAKER)), *evening[at + 1 :]]
    _never_rises(house(None, *evening), house(None, *weaker))
