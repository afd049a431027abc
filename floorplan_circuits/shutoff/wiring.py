"""What supplies what in one home, both ways, and what goes dark: worked out once, however often it is asked.

A shut-off adds to what is stated the breakers that a feed may hang on. That changes a few nodes of a large graph: they
are laid over it (`Laid`), and of what goes dark only what stands below them is worked out anew.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from floorplan_circuits.shutoff.cut import Supplies, is_live
from floorplan_circuits.supply.graph import ALWAYS_LIVE
from floorplan_circuits.supply.walks import Node, reached

Loads = Mapping[Node, tuple[Node, ...]]

MANY = 200
"""From so many ways of being supplied on it is quicker to walk once from the sources down than up from each."""
MOST_KEPT = 1_000
"""So many answers are kept before all are forgotten: those of the mains of a large home are long."""


class Laid(Mapping[Node, tuple[Node, ...]]):
    """A mapping with some entries laid over it, without a copy of the whole."""

    def __init__(self, under: Mapping[Node, tuple[Node, ...]], over: Mapping[Node, tuple[Node, ...]]) -> None:
        self._under, self._over = under, over

    def __getitem__(self, node: Node) -> tuple[Node, ...]:
        """Return the entry of a node."""
        return self._over[node] if node in self._over else self._under[node]

    def get(self, node: Node, default: tuple[Node, ...] = ()) -> tuple[Node, ...]:  # type: ignore[override]
        """Return the entry of a node, or the default: asked at every step of a walk."""
        return self._over[node] if node in self._over else self._under.get(node, default)

    def __iter__(self) -> Iterator[Node]:
        """Yield each node once."""
        yield from self._under
        yield from (node for node in self._over if node not in self._under)

    def __len__(self) -> int:
        """Return how many nodes there are."""
        return sum(1 for _ in self)


@dataclass(frozen=True)
class Wiring:
    """The graph both ways; `resting` are the handles that were found off. `under`: the wiring that this is laid over.

    `below` are the nodes that what was laid over may make live or dead: what differs from `under` is among them.
    """

    supplies: Supplies
    loads: Loads
    resting: frozenset[int]
    under: "Wiring | None" = None
    below: frozenset[Node] = frozenset()
    _kept: dict[frozenset[int], frozenset[int]] = field(default_factory=dict, compare=False)

    @classmethod
    def of(cls, supplies: Supplies, resting: frozenset[int]) -> "Wiring":
        """Read it from what supplies each node."""
        found: dict[Node, list[Node]] = {}
        for taker, givers in supplies.items():
            for giver in givers:
                found.setdefault(giver, []).append(taker)
        return cls(supplies, {giver: tuple(takers) for giver, takers in found.items()}, resting)

    def laid_over(self, changed: Supplies) -> "Wiring":
        """Return the wiring in which these nodes are supplied by this; what it is already changes nothing."""
        own = {node: givers for node, givers in changed.items() if givers != self.supplies.get(node, ())}
        if not own:
            return self
        loads: dict[Node, tuple[Node, ...]] = {}
        for node, givers in own.items():
            for giver in dict.fromkeys((*self.supplies.get(node, ()), *givers)):
                others = tuple(one for one in loads.get(giver, self.loads.get(giver, ())) if one != node)
                loads[giver] = (*others, node) if giver in givers else others
        laid = Laid(self.loads, loads)
        below = reached(self.loads, own) | reached(laid, own)
        return Wiring(Laid(self.supplies, own), laid, self.resting, self, frozenset(below))

    def goes_dark(self, off: Iterable[int]) -> frozenset[int]:
        """Return the feeds that are live as the home was found and not with these handles off."""
        turned = frozenset(off)
        if turned not in self._kept:
            if len(self._kept) >= MOST_KEPT:
                self._kept.clear()
            self._kept[turned] = self._dark(turned)
        return self._kept[turned]

    def _dark(self, turned: frozenset[int]) -> frozenset[int]:
        if self.under is None:
            below = reached(self.loads, [(kind, handle) for handle in turned for kind in ("breaker", "main")])
            return self._dark_among(below, turned)
        before = self.under.goes_dark(turned)
        touched = frozenset(number for kind, number in self.below if kind == "feed")
        return (before - touched if before & touched else before) | self._dark_among(self.below, turned)

    def _dark_among(self, nodes: Iterable[Node], turned: frozenset[int]) -> frozenset[int]:
        """Return which of the feeds among these nodes lose power: what hangs on the same is asked for once."""
        alike: dict[tuple[Node, ...], list[int]] = {}
        for node in nodes:
            if node[0] == "feed":
                alike.setdefault(self.supplies.get(node, ()), []).append(node[1])
        if len(alike) > MANY:
            stays = self.live_nodes(turned | self.resting)
            feeds = [feed for some in alike.values() for feed in some if ("feed", feed) in self.live_as_found]
            return frozenset(feed for feed in feeds if ("feed", feed) not in stays)
        found = set[int]()
        for feeds in alike.values():
            node = ("feed", feeds[0])
            if is_live(node, self.resting, self.supplies) and not is_live(node, turned | self.resting, self.supplies):
                found.update(feeds)
        return frozenset(found)

    @cached_property
    def live_as_found(self) -> set[Node]:
        """All that a source reaches as the home was found."""
        return self.live_nodes(self.resting)

    def live_nodes(self, off: frozenset[int]) -> set[Node]:
        """Return all that a source reaches while these handles are off, in one walk down from the sources."""
        closed = frozenset((kind, handle) for handle in off for kind in ("breaker", "main"))
        return reached(self.loads, [node for node in self.loads if node[0] in ALWAYS_LIVE], closed)
