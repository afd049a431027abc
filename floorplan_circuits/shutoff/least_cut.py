"""The cut of least weight between all sources and some targets, as a minimum cut of a flow network.

Each handle that may be cut is parted in two, with what it weighs between; nothing else can be cut. So whatever has one
supply only, and is no such handle, is taken for what supplies it: the network is little more than the handles.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from floorplan_circuits.shutoff.cut import Supplies
from floorplan_circuits.supply.graph import ALWAYS_LIVE
from floorplan_circuits.supply.walks import Node

if TYPE_CHECKING:
    import networkx as nx

Side = tuple[str, Node]
"""A node of the network: where a node is supplied, or, of a handle that may be cut, where it gives on."""

SOURCE, SINK = ("all sources", 0), ("all targets", 0)


@dataclass(frozen=True, slots=True)
class Above:
    """What stands above targets: what supplies each node, through what nothing comes, what each handle weighs."""

    supplies: Supplies
    shut: frozenset[Node]
    weights: Mapping[Node, int]

    def givers(self, node: Node) -> list[Node]:
        """Return what supplies a node and is not shut."""
        return [giver for giver in self.supplies.get(node, ()) if giver not in self.shut]

    def gives(self, node: Node) -> Side:
        """Return the side of a node that others are supplied from."""
        return ("out" if node in self.weights else "in", node)

    def through(self, node: Node) -> Node:
        """Return the one node that all that reaches a node comes through, as far up as there is just one."""
        seen = {node}
        while node not in self.weights:
            if node[0] in ALWAYS_LIVE:
                return SOURCE
            givers = self.givers(node)
            if len(givers) != 1 or givers[0] in seen:
                return node
            (node,) = givers
            seen.add(node)
        return node


def least_cut(targets: Iterable[Node], above: Above) -> tuple[int, frozenset[Node]] | None:
    """Return the least weight that parts all sources from these, and the handles it is of; None where nothing does."""
    import networkx as nx  # late: cuts alone need it, and loading it takes as long as all else of a check
    from networkx.algorithms.flow import edmonds_karp  # half of the default's time on so few paths

    graph = _network(targets, above)
    try:
        value, (reachable, _) = nx.minimum_cut(graph, ("in", SOURCE), ("in", SINK), flow_func=edmonds_karp)
    except nx.NetworkXUnbounded:
        return None
    cut = (node for side, node in reachable if side == "in" and node in above.weights)
    return int(value), frozenset(node for node in cut if ("out", node) not in reachable)


def _network(targets: Iterable[Node], above: Above) -> "nx.DiGraph[Side]":
    import networkx as nx

    graph: nx.DiGraph[Side] = nx.DiGraph()
    graph.add_nodes_from((("in", SOURCE), ("in", SINK)))
    known = dict[Node, Node]()
    todo = [SINK]
    seen = {SINK, SOURCE}
    while todo:
        node = todo.pop()
        if node in above.weights:
            graph.add_edge(("in", node), ("out", node), capacity=above.weights[node])
        for giver in targets if node == SINK else above.givers(node):
            if giver not in known:
                known[giver] = above.through(giver)
            top = known[giver]
            graph.add_edge(above.gives(top), ("in", node))
            if top not in seen:
                seen.add(top)
                todo.append(top)
    return graph
