"""The supply graph: from the sources down to the feeds, as stated.

Nodes are (kind, id), edges run from what gives power to what takes it:

    source → panel → main → bus → breaker → circuit → feed → feed behind it
                                            circuit → panel further on, or breaker behind it

('panel', p)      where power enters a panel: the supply side of its mains, live with them off
('bus', p)        what its breakers stand on; nobody records which of several mains feeds what: live if any is on
('breaker', b)    opens with its handle; ('main', m) likewise
('circuit', b)    the load side of a breaker: what another supply on it keeps live with the breaker off
('supply', p)     the unnamed supply of a panel that is not stated to hang on anything: always live
('elsewhere', f)  a feed's supply from outside what is recorded: always live
('unknown', n)    the supply of a feed or breaker of which nobody knows: always live

Whatever can give power counts as live always, a generator that stands still too. Where two supplies meet, power may
run back (see `backfeed`): such edges stand in both directions.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.supply.backfeed import running_back
from floorplan_circuits.supply.edges import stated_edges
from floorplan_circuits.supply.walks import Node, reached

if TYPE_CHECKING:
    import networkx as nx

Adjacency = Mapping[Node, tuple[Node, ...]]
ALWAYS_LIVE = frozenset({"source", "supply", "elsewhere", "unknown"})
"""Kinds of nodes that nothing in the home supplies and no handle opens."""


@dataclass(frozen=True, slots=True)
class SupplyGraph:
    """What hangs on what: `loads` leads from a node to what it supplies, `supplies` back; `roots` are always live.

    `feeds` are all that are built, in the order of their boxes.
    """

    loads: Adjacency
    supplies: Adjacency
    roots: tuple[Node, ...]
    feeds: tuple[int, ...]

    def to_networkx(self) -> "nx.DiGraph[Node]":
        """Return the same graph for questions of cuts and paths, disconnected feeds included."""
        import networkx as nx  # late: cuts alone need it, and loading it takes as long as all else of a check

        graph: nx.DiGraph[Node] = nx.DiGraph()
        graph.add_nodes_from(self.roots)
        graph.add_nodes_from(("feed", feed) for feed in self.feeds)
        graph.add_edges_from((node, load) for node, loads in self.loads.items() for load in loads)
        return graph


def supply_graph(home: Home) -> SupplyGraph:
    """Return the graph of everything built, as stated; planned devices have no part in it.

    Nothing is dead by a mistake in the map: what hangs on itself or on something gone counts as supplied by someone
    unknown. Only what is stated to be disconnected, and what hangs behind that alone, has no supply.
    """
    feeds = tuple(place.feed for place in existing_feeds(home))
    draft = _Draft()
    draft.join(stated_edges(home, feeds))
    cut = [("feed", feed.id) for feed in feeds if feed.on.how == "disconnected"]
    draft.supply_strays("supply", [("panel", panel) for panel in home.panels.ids()], cut)
    draft.supply_strays("unknown", [("breaker", breaker) for breaker in home.breakers.ids()], cut)
    draft.supply_strays("unknown", [("feed", feed.id) for feed in feeds], cut)
    draft.join(running_back(draft.supplies, frozenset(draft.roots()), _changing_over(home)))
    roots, ids = tuple(draft.roots()), tuple(feed.id for feed in feeds)
    return SupplyGraph(_frozen(draft.loads), _frozen(draft.supplies), roots, ids)


def _changing_over(home: Home) -> frozenset[Node]:
    return frozenset(("panel", panel.id) for panel in home.panels if panel.changes_over in ("by hand", "by itself"))


def _frozen(found: Mapping[Node, Iterable[Node]]) -> Adjacency:
    return MappingProxyType({node: tuple(others) for node, others in found.items()})


class _Draft:
    """A graph while it is being built: each node's loads and supplies, in the order stated, each once."""

    def __init__(self) -> None:
        self.loads: dict[Node, dict[Node, None]] = {}
        self.supplies: dict[Node, dict[Node, None]] = {}

    def join(self, edges: Iterable[tuple[Node, Node]]) -> None:
        for giver, taker in edges:
            self.loads.setdefault(giver, {})[taker] = None
            self.supplies.setdefault(taker, {})[giver] = None

    def roots(self) -> list[Node]:
        return [node for node in self.loads if node[0] in ALWAYS_LIVE]

    def supply_strays(self, kind: str, nodes: list[Node], cut: list[Node]) -> None:
        """Give those of `nodes` that no root reaches a root of their own, but for what hangs behind a `cut` one.

        First those that hang on nothing, then what is left and can only hang on itself.
        """
        known = reached(self.loads, [*self.roots(), *cut])
        loose = [node for node in nodes if node not in known and node not in self.supplies]
        known |= reached(self.loads, loose)
        strays = [*loose, *(node for node in nodes if node not in known)]
        self.join(((kind, node[1]), node) for node in strays)
