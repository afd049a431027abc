import pytest

from tests.supply.wiring import behind, breaker, breaker_supply, on, panel, source_supply
from tests.survey.houses import FEED, PANEL, A, B, C, a_test, box_of, case, changed, evidence_of, house, traced

GARAGE = 2
NEXT = 401
IN_GARAGE = {
    "panels": [panel(PANEL, spaces=200), panel(GARAGE, prefix="G", fed_by=(breaker_supply(A),))],
    "breakers": [breaker(A, opens="hot"), breaker(B, of=GARAGE, opens="hot"), breaker(C, of=GARAGE, opens="hot")],
}


@pytest.mark.parametrize(
    "change",
    [
        changed(box_of(FEED)),
        changed(box_of(NEXT)),
        changed(panels=(GARAGE,)),
        changed(panels=(PANEL,)),
        changed(),
        changed(box_of(NEXT), what="plates mixed up"),
    ],
)
def test_a_change_of_the_box_of_what_it_is_behind_or_of_any_panel_above_lapses(change) -> None:
    home = house({FEED: behind(NEXT), NEXT: on(B)}, change, **IN_GARAGE)
    assert case(home).lapsed == 0


def test_what_may_have_touched_anything_lapses_what_is_tied_to_nothing_too() -> None:
    assert case(house(None, changed())).lapsed == 0
    assert case(house(None, changed())).box_changed == 0


@pytest.mark.parametrize("change", [changed(box_of(402)), changed(panels=(3,)), changed(box_of(999))])
def test_a_change_of_something_else_does_not(change) -> None:
    home = house({FEED: on(B), 402: on(B)}, change, **IN_GARAGE)
    assert case(home).lapsed == -1


def test_a_change_behind_a_feed_does_not_reach_up_to_it() -> None:
    assert case(house({FEED: on(A), NEXT: behind(FEED)}, changed(box_of(NEXT)))).lapsed == -1


def test_work_on_the_panel_of_the_proved_or_traced_breaker_lapses_though_nothing_is_stated() -> None:
    assert case(house(None, *a_test(A), changed(panels=(PANEL,)))).lapsed == 3
    assert case(house(None, traced(A), changed(panels=(PANEL,)))).lapsed == 1


def test_a_test_is_fresh_only_if_it_began_after_the_change() -> None:
    before, dead, after = a_test(A)
    for entries in (
        (before, dead, after, changed()),
        (before, dead, changed(), after),
        (before, changed(), dead, after),
    ):
        assert case(house(None, *entries)).fresh == ()
    assert len(case(house(None, changed(), before, dead, after)).fresh) == 1


def test_of_a_feeder_and_the_breaker_below_it_both_tested_the_breaker_counts() -> None:
    tests = (*a_test(A), *a_test(B))
    home = house(None, *tests, **IN_GARAGE)
    assert [proof.handle for proof in case(home).found] == [{A}, {B}]
    assert [proof.handle for proof in case(home).fresh] == [{B}]


def test_a_feeder_that_was_tested_says_nothing_of_the_breaker_that_is_stated_below_it() -> None:
    assert case(house({FEED: on(B)}, *a_test(A), **IN_GARAGE)).fresh == ()


def test_a_trace_that_a_newer_program_added_to_is_none() -> None:
    assert case(house(None, traced(A) | {"sure": False})).traces == ()


def test_a_breaker_and_a_feed_are_live_as_long_as_one_supply_reaches_them() -> None:
    evidence = evidence_of(house({FEED: on(A, B)}))
    both = frozenset({A, B})
    assert evidence.is_live(("feed", FEED), frozenset({A}))
    assert evidence.is_live(("circuit", A), frozenset({A})), "the loop feeds it back"
    assert not evidence.is_live(("feed", FEED), both)
    assert not evidence.is_live(("circuit", A), both)


def test_a_source_without_a_breaker_is_live_always() -> None:
    evidence = evidence_of(house({FEED: on(source_supply(999))}))
    assert evidence.is_live(("feed", FEED), frozenset({A, B, C}))


def test_a_handle_is_above_others_only_if_it_opens_them_all_and_is_none_of_them() -> None:
    evidence = evidence_of(house(**IN_GARAGE))
    assert evidence.is_above({A}, {B, C})
    assert not evidence.is_above({A}, {A, B})
    assert not evidence.is_above({B}, {C})
    assert not evidence.is_above({A}, ())
    assert evidence.feeders == {A}
