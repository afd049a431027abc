"""Reachability against brute force: the graph library's own descendants, a naive search of paths, and a flood.

No published figures: the checks are independent ways to the same answer.
"""

import networkx as nx
from hypothesis import given, settings

from floorplan_circuits.supply.graph import SupplyGraph, supply_graph
from floorplan_circuits.supply.reach import closed_off, live, what_feeds
from tests.supply.wiring import handles_off, wirings


def opened(graph: SupplyGraph, off):
    library = graph.to_networkx()
    library.remove_nodes_from([(kind, handle) for handle in off for kind in ("breaker", "main")])
    return library


@settings(max_examples=60, deadline=None)
@given(wirings(), handles_off)
def test_what_is_live_is_what_the_graph_library_finds_below_the_roots(home, off):
    graph = supply_graph(home)
    library = opened(graph, off)
    expected = set(graph.roots).union(*(nx.descendants(library, root) for root in graph.roots))

    assert live(graph, off) == expected


@settings(max_examples=60, deadline=None)
@given(wirings())
def test_what_feeds_a_feed_are_the_breakers_among_its_ancestors(home):
    graph = supply_graph(home)
    library = graph.to_networkx()
    for feed in graph.feeds:
        above = nx.ancestors(library, ("feed", feed))
        assert what_feeds(graph, feed) == {number for kind, number in above if kind == "breaker"}


@settings(max_examples=100, deadline=None)
@given(wirings(), handles_off)
def test_power_that_runs_back_reaches_what_a_flood_over_closed_conductors_reaches(home, off):
    """Conductors have no direction: whatever a closed path joins to a supply is live (common practice, no source)."""
    graph = supply_graph(home)
    flooded = nx.Graph(opened(graph, off))
    expected = set(graph.roots).union(*(nx.node_connected_component(flooded, root) for root in graph.roots))

    assert live(graph, off) == expected


@settings(max_examples=100, deadline=None)
@given(wirings(loops=False, mistakes=False), handles_off)
def test_without_second_supplies_a_feed_is_live_if_every_handle_on_its_one_way_up_is_on(home, off):
    graph = supply_graph(home)
    naive = {feed for feed in graph.feeds if not feed_is_live(home, feed, off)}

    assert closed_off(graph, off) == naive


def feed_is_live(home, number, off):
    hangs = next(feed for feed in home.boxes[20_000].feeds() if feed.id == number).on
    if hangs.how == "behind":
        return feed_is_live(home, hangs.feed, off)
    if hangs.how == "any":
        return breaker_is_live(home, hangs.supplies[0].breaker, off)
    return hangs.how == "not known"


def breaker_is_live(home, number, off):
    breaker = home.breakers[number]
    above = (
        bus_is_live(home, breaker.panel, off) if breaker.behind is None else breaker_is_live(home, breaker.behind, off)
    )
    return above and number not in off


def bus_is_live(home, number, off):
    panel = home.panels[number]
    behind_a_main = not panel.mains or any(main.id not in off for main in panel.mains)
    return behind_a_main and all(breaker_is_live(home, feeder.breaker, off) for feeder in panel.fed_by)
