"""What a feed hangs on besides one breaker: each way stated, told back as one choice, and never behind itself."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.boxes import put_device, set_device
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.hanging import (
    FROM_ELSEWHERE,
    NOBODY_KNOWS,
    ON_NOTHING,
    Hanging,
    also_on,
    guards,
    hang,
    hang_behind,
    hang_elsewhere,
    hanging,
    live_if,
    set_feed,
    ways_to_hang,
)
from floorplan_circuits.edits.sources import add_source
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.home.boxes import Behind, Disconnected, FromBreaker, FromElsewhere, Supplied
from floorplan_circuits.home.home import Home, feeds
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.supply.numbering import marks
from tests.edits.samples import breaker_at, feeds_in, house, level_of, panel_of, typed_in

DAY = "2026-03-14"


def two_breakers() -> Home:
    """The house with a second breaker, a generator, and a ground-fault receptacle."""
    home = typed_in(house(), 2, "15 hall")
    home = put_device(home, level_of(home), (2500, 3000), 270, "ground-fault receptacle").home
    return add_source(home, "generator", [panel_of(home)]).home


def on(home: Home, feed: int):
    return next(place.feed.on for place in feeds(home) if place.feed.id == feed)


def feed(home: Home, mark: str = "B1") -> int:
    return feeds_in(home, mark)[0]


def test_every_way_that_is_offered_can_be_chosen_and_is_told_back():
    home = two_breakers()
    one = feed(home)

    ways = dict(ways_to_hang(home, one, marks(home)))

    sources = [f"from {source.name}" for source in home.sources]
    assert "from Generator" in sources
    assert [*ways] == ["not known", "1", "2", "behind B4", *sources, "from elsewhere", "nothing: I saw both ends"]
    for words, way in ways.items():
        edited = hang(home, one, way, date=DAY)
        assert hanging(on(edited.home, one)) == way, words
        assert not problems(edited.home)


def test_what_hangs_behind_another_may_not_come_to_hang_behind_itself():
    home = two_breakers()
    first, second = feed(home, "B1"), feed(home, "B4")
    home = hang_behind(home, first, second).home

    with pytest.raises(Refused, match="behind itself"):
        hang_behind(home, second, first)
    with pytest.raises(Refused, match="behind itself"):
        hang_behind(home, second, second)


def test_what_stands_in_series_or_before_another_already_is_offered_to_hang_behind():
    home = two_breakers()
    assert [place.box.mark for place in guards(home)] == ["B4"]

    home = hang_behind(home, feed(home, "B1"), feed(home, "B2")).home
    assert [place.box.mark for place in guards(home)] == ["B2", "B4"]
    assert feed(home, "B2") not in [way.of[0] for _, way in ways_to_hang(home, feed(home, "B2"), {}) if way.of]


def test_a_loop_is_a_breaker_and_a_further_one_and_can_be_said_to_need_both():
    home = two_breakers()
    one, two = breaker_at(home, 1), breaker_at(home, 2)
    home = tie(home, [feed(home)], one).home

    looped = also_on(home, feed(home), two).home
    assert [supply.breaker for supply in on(looped, feed(home)).supplies] == [one, two]
    assert on(looped, feed(home)).how == "any"
    assert hanging(on(looped, feed(home))) == Hanging("several", (one, two))
    assert on(live_if(looped, feed(home), "all").home, feed(home)).how == "all"
    with pytest.raises(Refused, match="hangs on 2 already"):
        also_on(looped, feed(home), two)


def test_a_further_breaker_needs_a_first():
    home = two_breakers()
    for act in (lambda: also_on(home, feed(home), breaker_at(home, 1)), lambda: live_if(home, feed(home), "any")):
        with pytest.raises(Refused, match="which breaker"):
            act()


def test_what_is_disconnected_has_the_day_its_ends_were_seen():
    home = two_breakers()
    assert on(hang(home, feed(home), ON_NOTHING, date=DAY).home, feed(home)) == Disconnected(
        how="disconnected", date=DAY
    )


def test_where_it_comes_from_elsewhere_can_be_said():
    home = two_breakers()
    after = hang_elsewhere(home, feed(home), "  the house   service ").home
    assert on(after, feed(home)).supplies == (FromElsewhere(kind="elsewhere", where="the house service"),)


def test_what_is_said_of_what_it_hangs_on_is_the_persons_word_until_nobody_knows_again():
    home = two_breakers()
    said = lambda some: next(place.feed.said_by for place in feeds(some) if place.feed.id == feed(home))  # noqa: E731
    hung = hang(home, feed(home), FROM_ELSEWHERE, date=DAY).home

    assert said(hung) == "person"
    assert said(hang(hung, feed(home), NOBODY_KNOWS, date=DAY).home) == "not said"


def test_the_neutral_and_the_volts_of_a_feed_are_said_and_nothing_else_by_that():
    home = two_breakers()
    back = FromBreaker(kind="breaker", breaker=breaker_at(home, 2))
    after = set_feed(home, feed(home), returns=back, volts="low").home
    found = next(place.feed for place in feeds(after) if place.feed.id == feed(home))

    assert (found.returns, found.volts, found.on) == (back, "low", on(home, feed(home)))
    with pytest.raises(TypeError, match="does not set on"):
        set_feed(home, feed(home), on=None)


def test_what_is_only_planned_may_be_hung_and_what_is_gone_may_not():
    home = two_breakers()
    device = next(place.device for place in feeds(home) if place.feed.id == feed(home))
    home = set_device(home, device.id, planned=True).home

    assert isinstance(on(hang_behind(home, feed(home), feed(home, "B4")).home, feed(home)), Behind)
    with pytest.raises(Refused, match="not there any more"):
        hang_behind(home, 999, feed(home, "B4"))


@settings(max_examples=60)
@given(st.lists(st.tuples(st.integers(0, 3), st.integers(0, 30), st.booleans()), max_size=14))
def test_whatever_is_chosen_in_whatever_order_the_home_stays_sound(picks):
    home = two_breakers()
    breakers = home.breakers.ids()
    for box, nth, further in picks:
        one = feed(home, f"B{box + 1}")
        ways = [way for _, way in ways_to_hang(home, one, marks(home))]
        try:
            if further:
                home = also_on(home, one, breakers[nth % len(breakers)]).home
            else:
                home = hang(home, one, ways[nth % len(ways)], date=DAY).home
        except Refused:
            continue
        assert not problems(home)
        assert isinstance(on(home, one), Supplied) or not further
