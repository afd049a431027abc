"""The supply graph: nothing is dead by a mistake in the map."""

import networkx as nx
from hypothesis import given, settings

from floorplan_circuits.supply.graph import ALWAYS_LIVE, supply_graph
from floorplan_circuits.supply.walks import reached
from tests.supply.wiring import (
    DISCONNECTED,
    UNKNOWN,
    behind,
    breaker,
    breaker_supply,
    on,
    panel,
    source,
    wired,
    wirings,
)


def test_a_panel_that_is_not_said_to_hang_on_anything_has_an_unnamed_supply():
    graph = supply_graph(wired([panel(1)], [breaker(10)], {40: on(10)}))

    assert graph.roots == (("supply", 1),)
    assert graph.supplies["panel", 1] == (("supply", 1),)


def test_a_panel_with_a_source_or_a_feeder_has_no_other_supply():
    graph = supply_graph(wired([panel(1), panel(2, fed_by=(breaker_supply(10),))], [breaker(10)], {}, [source(30, 1)]))

    assert graph.roots == (("source", 30),)


def test_panels_that_feed_each_other_count_as_supplied_from_outside():
    round_panels = [panel(1, fed_by=(breaker_supply(11),)), panel(2, fed_by=(breaker_supply(10),))]
    graph = supply_graph(wired(round_panels, [breaker(10), breaker(11, of=2)], {}))

    assert set(graph.roots) == {("supply", 1), ("supply", 2)}


def test_breakers_and_feeds_that_stand_behind_themselves_count_as_supplied_by_someone_unknown():
    breakers = [breaker(10, behind=11), breaker(11, behind=10)]
    graph = supply_graph(wired([panel(1)], breakers, {40: behind(41), 41: behind(40), 42: on(10)}))

    assert {("unknown", 10), ("unknown", 11), ("unknown", 40), ("unknown", 41)} < set(graph.roots)
    assert ("unknown", 42) not in graph.roots


def test_a_breaker_without_a_panel_and_a_feed_behind_nothing_are_supplied_by_someone_unknown():
    graph = supply_graph(wired([], [breaker(10, of=9)], {40: behind(77)}))

    assert set(graph.roots) == {("unknown", 10), ("unknown", 40)}


def test_what_hangs_behind_a_disconnected_feed_has_no_supply():
    graph = supply_graph(wired([], [], {40: DISCONNECTED, 41: behind(40)}))

    assert graph.roots == ()
    assert graph.feeds == (40, 41)


def test_planned_devices_have_no_part_in_it_and_what_hangs_behind_one_is_unknown():
    graph = supply_graph(wired([], [], {40: UNKNOWN, 41: behind(40)}, planned=[40]))

    assert graph.feeds == (41,)
    assert graph.roots == (("unknown", 41),)


def test_a_panel_that_changes_over_sends_no_power_back_to_either_supply():
    feeder, generator = breaker_supply(10), source(30, 2)

    def runs_back(changes_over):
        panels = [panel(1), panel(2, fed_by=(feeder,), changes_over=changes_over)]
        return ("circuit", 10) in supply_graph(wired(panels, [breaker(10)], {}, [generator])).loads["panel", 2]

    assert [runs_back(how) for how in ("none", "not known", "by hand", "by itself")] == [True, True, False, False]


def test_an_empty_home_has_an_empty_graph():
    graph = supply_graph(wired([], [], {}))

    assert (dict(graph.loads), dict(graph.supplies), graph.roots, graph.feeds) == ({}, {}, (), ())


@settings(max_examples=60, deadline=None)
@given(wirings())
def test_both_directions_tell_the_same_and_equal_homes_have_equal_graphs(home):
    graph = supply_graph(home)
    down = {(giver, taker) for giver, takers in graph.loads.items() for taker in takers}

    assert down == {(giver, taker) for taker, givers in graph.supplies.items() for giver in givers}
    assert supply_graph(home) == graph
    assert set(graph.to_networkx().edges) == down
    assert all(node[0] in ALWAYS_LIVE and node not in graph.supplies for node in graph.roots)


@settings(max_examples=100, deadline=None)
@given(wirings())
def test_every_panel_breaker_and_feed_has_a_supply_but_for_what_is_disconnected(home):
    graph = supply_graph(home)
    known = reached(graph.loads, graph.roots)
    cut = {("feed", feed) for feed in graph.feeds if home.boxes[20_000].feeds()[feed - 400].on.how == "disconnected"}

    assert {("panel", one) for one in home.panels.ids()} <= known
    assert {("breaker", one) for one in home.breakers.ids()} <= known
    assert {("feed", one) for one in graph.feeds} <= known | reached(graph.loads, cut)


def test_the_library_graph_holds_what_stands_alone_too():
    graph = supply_graph(wired([], [], {40: DISCONNECTED})).to_networkx()

    assert list(graph.nodes) == [("feed", 40)]
    assert nx.is_empty(graph)
