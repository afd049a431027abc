"""Walks over plain dicts."""

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.supply.walks import reached, walk

nodes = st.tuples(st.just("node"), st.integers(0, 9))
graphs = st.dictionaries(nodes, st.lists(nodes, max_size=4), max_size=10)


@given(graphs, st.lists(nodes, max_size=3), st.frozensets(nodes, max_size=4))
def test_a_walk_reaches_what_the_graph_library_reaches(follows, start, closed):
    graph = nx.DiGraph([(a, b) for a, others in follows.items() for b in others])
    graph.add_nodes_from(start)
    graph.remove_nodes_from(closed)
    expected = {node for one in start if one in graph for node in ({one} | nx.descendants(graph, one))}

    assert reached(follows, start, closed) == expected


@given(graphs, st.lists(nodes, max_size=3))
def test_a_walk_names_each_node_once_and_begins_at_its_start(follows, start):
    found = list(walk(follows, start))

    assert len(found) == len(set(found))
    assert found[:1] == list(dict.fromkeys(start))[-1:]
