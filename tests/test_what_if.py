"""What would be with handles off: nothing turned, nothing changed, and never more than the evidence."""

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.find import find, what_if
from floorplan_circuits.home.power import Tie
from tests.homes import homes
from tests.supply.wiring import UNKNOWN, breaker, elsewhere, on, panel, source
from tests.survey.hidden import evening, hidden_home, with_evening
from tests.survey.houses import FEED, PANEL, A, B, C, a_test, house


def states(home, *off: int) -> dict[int, str]:
    return {feed: one.state for feed, one in what_if(find(home), off).feeds.items()}


def test_what_is_tested_on_it_should_be_dead_what_is_said_is_not_proved_and_the_rest_live() -> None:
    home = house({FEED: on(A), 401: on(A), 402: on(B), 403: UNKNOWN, 404: on(C, elsewhere())}, *a_test(A))
    assert states(home, A, C) == {
        FEED: "should be dead",
        401: "not proved",
        402: "live",
        403: "unknown",
        404: "unknown",
    }


def test_tied_handles_move_together() -> None:
    tied = [breaker(one, tie=Tie(group=1, made="by the factory")) for one in (A, B)]
    assert what_if(find(house({FEED: on(B)}, breakers=tied)), [A]).off == {A, B}


def test_a_subpanel_follows_its_feeder_and_a_second_source_keeps_what_it_keeps() -> None:
    panels = (panel(PANEL, spaces=200), panel(2, prefix="G", fed_by=({"kind": "breaker", "breaker": B},)))
    fields = {"panels": panels, "breakers": [breaker(A, of=2), breaker(B), breaker(C)]}
    assert what_if(find(house({FEED: on(A)}, **fields)), [B]).lit == {C}
    kept = house({FEED: on(A)}, sources=(source(900, 2, kind="battery"),), **fields)
    assert A in what_if(find(kept), [B]).lit


def test_what_was_found_off_is_off_in_any_case() -> None:
    home = house({FEED: on(A)}, breakers=[breaker(A, found={"state": "off"}), breaker(B)])
    assert what_if(find(home), []).off == {A}
    assert states(home) == {FEED: "not proved"}


@settings(max_examples=40)
@given(homes(), st.data())
def test_it_never_fails_and_changes_nothing(home, data) -> None:
    findings, handles = find(home), list(home.breakers.ids())
    off = data.draw(st.lists(st.sampled_from(handles), unique=True)) if handles else []
    told = what_if(findings, off)
    assert set(told.feeds) == set(findings.conclusions)
    assert set(told.boxes) == set(findings.boxes)
    assert findings.home is home


@settings(max_examples=60)
@given(st.integers(0, 100_000), st.data())
def test_no_feed_that_should_be_dead_is_live_in_truth(seed, data) -> None:
    hidden = hidden_home(seed)
    home = with_evening(hidden, evening(hidden, 30, solo=True))
    off = data.draw(st.lists(st.sampled_from(home.breakers.ids()), unique=True))
    told = what_if(find(home), off)
    for feed, one in told.feeds.items():
        if one.state == "should be dead":
            assert not hidden.hot(feed, told.off)
