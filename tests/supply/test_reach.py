"""What is live, closed off and dark, as stated."""

import pytest
from hypothesis import given, settings

from floorplan_circuits.supply.graph import supply_graph
from floorplan_circuits.supply.reach import Nearest, closed_off, live, nearest_breakers, what_feeds, what_goes_dark
from tests.supply.wiring import (
    DISCONNECTED,
    UNKNOWN,
    behind,
    breaker,
    breaker_supply,
    elsewhere,
    handles_off,
    main,
    on,
    panel,
    source,
    source_supply,
    wired,
    wirings,
)

NOTHING = frozenset()


def graph_of(*args, **fields):
    return supply_graph(wired(*args, **fields))


def off(*handles):
    return frozenset(handles)


HOUSE = graph_of(
    [panel(1, mains=(main(5),)), panel(2, fed_by=(breaker_supply(12),))],
    [breaker(10), breaker(11), breaker(12), breaker(20, of=2)],
    {40: on(10), 41: on(11), 42: on(20), 43: behind(40), 44: UNKNOWN, 45: on(elsewhere()), 46: DISCONNECTED},
)
"""A main panel, a subpanel on breaker 12, and feeds of every kind."""


@pytest.mark.parametrize(
    ("opened", "dark"),
    [
        (off(), set()),
        (off(10), {40, 43}),
        (off(12), {42}),
        (off(20), {42}),
        (off(5), {40, 41, 42, 43}),
        (off(10, 11, 12), {40, 41, 42, 43}),
        (off(99), set()),
    ],
)
def test_what_goes_dark_is_what_hangs_on_the_open_handles_alone(opened, dark):
    assert what_goes_dark(HOUSE, opened) == dark


def test_a_feed_of_unknown_supply_or_from_elsewhere_is_never_closed_off():
    everything = off(5, 10, 11, 12, 20)

    assert closed_off(HOUSE, everything) == {40, 41, 42, 43, 46}


def test_a_disconnected_feed_is_closed_off_with_everything_on_and_does_not_go_dark():
    assert closed_off(HOUSE, NOTHING) == {46}
    assert 46 not in what_goes_dark(HOUSE, off(5))


def test_wires_on_the_supply_side_of_a_main_stay_live_with_it_off():
    alive = live(HOUSE, off(5))

    assert ("panel", 1) in alive
    assert ("main", 5) not in alive
    assert ("bus", 1) not in alive


def test_with_several_mains_a_breaker_is_dead_only_with_all_of_them_off():
    split_bus = graph_of([panel(1, mains=(main(5), main(6)))], [breaker(10)], {40: on(10)})

    assert closed_off(split_bus, off(5)) == closed_off(split_bus, off(6)) == NOTHING
    assert closed_off(split_bus, off(5, 6)) == {40}


def test_a_residual_current_device_shuts_off_all_behind_it():
    graph = graph_of([panel(1)], [breaker(10), breaker(11, behind=10), breaker(12)], {40: on(11), 41: on(12)})

    assert closed_off(graph, off(10)) == closed_off(graph, off(11)) == {40}


@pytest.mark.parametrize("how", ["any", "all"])
def test_a_feed_on_two_breakers_is_live_while_either_is_on(how):
    graph = graph_of([panel(1)], [breaker(10), breaker(11)], {40: on(10, 11, how=how)})

    assert closed_off(graph, off(10)) == closed_off(graph, off(11)) == NOTHING
    assert closed_off(graph, off(10, 11)) == {40}


def test_a_loop_keeps_the_rest_of_both_circuits_live():
    graph = graph_of([panel(1)], [breaker(10), breaker(11), breaker(12)], {40: on(10, 11), 41: on(10), 42: on(12)})

    assert closed_off(graph, off(10)) == NOTHING
    assert closed_off(graph, off(10, 11)) == {40, 41}
    assert closed_off(graph, off(12)) == {42}
    assert what_feeds(graph, 41) == {10, 11}
    assert what_feeds(graph, 42) == {12}


def test_a_generator_on_one_circuit_keeps_the_whole_panel_live_until_that_breaker_is_off_too():
    feeds = {40: on(10), 41: on(11)}
    graph = graph_of([panel(1, mains=(main(5),))], [breaker(10), breaker(11)], feeds, [source(30, 40)])

    assert closed_off(graph, off(5)) == NOTHING
    assert closed_off(graph, off(5, 10)) == {41}
    assert closed_off(graph, off(10)) == NOTHING


def test_solar_panels_on_a_breaker_keep_the_bus_live_with_the_main_off():
    solar = source(30, 10, kind="solar", starts="by itself")
    graph = graph_of([panel(1, mains=(main(5),))], [breaker(10), breaker(11)], {40: on(11)}, [solar])

    assert closed_off(graph, off(5)) == NOTHING
    assert closed_off(graph, off(5, 10)) == closed_off(graph, off(11)) == {40}
    assert what_feeds(graph, 40) == {10, 11}


def test_what_feeds_a_feed_are_its_breaker_and_all_feeders_above():
    assert what_feeds(HOUSE, 42) == {12, 20}
    assert what_feeds(HOUSE, 43) == {10}
    assert what_feeds(HOUSE, 44) == what_feeds(HOUSE, 46) == what_feeds(HOUSE, 777) == NOTHING


@settings(max_examples=60, deadline=None)
@given(wirings(), handles_off, handles_off)
def test_opening_more_handles_never_makes_anything_live(home, some, more):
    graph = supply_graph(home)

    assert live(graph, some | more) <= live(graph, some)
    assert what_goes_dark(graph, some) <= closed_off(graph, some)
    assert what_goes_dark(graph, some).isdisjoint(closed_off(graph, NOTHING))


@settings(max_examples=60, deadline=None)
@given(wirings())
def test_a_breaker_whose_opening_darkens_a_feed_is_among_those_that_feed_it(home):
    graph = supply_graph(home)
    for one in home.breakers.ids():
        assert all(one in what_feeds(graph, feed) for feed in what_goes_dark(graph, off(one)))


# --- what stands next -----------------------------------------------------------------------------------------------


def nearest(feeds, sources=(), breakers=(10, 11)):
    return nearest_breakers(wired([panel(1)], [breaker(one) for one in breakers], feeds, sources))


def test_the_nearest_breakers_are_those_stated_in_their_order_each_once():
    both_poles = on(breaker_supply(11, 0), breaker_supply(11, 1), breaker_supply(10), how="all")

    assert nearest({40: both_poles}) == {40: Nearest((11, 10), ())}


def test_what_hangs_behind_a_feed_has_what_that_one_has():
    found = nearest({40: on(10, elsewhere("the neighbour")), 41: behind(40), 42: behind(41)})

    assert found[42] == found[41] == found[40] == Nearest((10,), ("elsewhere: the neighbour",))


def test_other_supplies_stand_in_words():
    generator = source(30, 41, name="Generator")
    found = nearest({40: on(source_supply(30), elsewhere()), 41: on(10), 42: behind(41)}, [generator])

    assert found[40] == Nearest((), ("source: Generator", "elsewhere"))
    assert found[41] == found[42] == Nearest((10,), ("source: Generator",))


def test_nothing_is_named_where_nobody_knows_or_what_was_named_is_gone():
    found = nearest({40: UNKNOWN, 41: DISCONNECTED, 42: behind(99), 43: on(77), 44: on(source_supply(78))})

    assert found[40] == found[41] == found[42] == found[43] == Nearest()
    assert found[44] == Nearest((), ("source: not known",))


def test_feeds_that_hang_behind_each_other_end():
    assert nearest({40: behind(41), 41: behind(40)}) == {40: Nearest(), 41: Nearest()}


def test_planned_feeds_are_named_too():
    home = wired([panel(1)], [breaker(10)], {40: on(10)}, planned=[40])

    assert nearest_breakers(home) == {40: Nearest((10,), ())}
