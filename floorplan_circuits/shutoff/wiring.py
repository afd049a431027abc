"""What supplies what in one home, both ways, and what goes dark: worked out once, however often it is asked.

A shut-off adds to what is stated the breakers that a feed may hang on. That changes a few nodes of a large graph: they
are laid over it (`Laid`), and of what goes dark only what stands below them is worked out anew.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Set
from dataclasses import dataclass, field
from functools import cached_property

from floorplan_circuits.shutoff.cut import Supplies
from floorplan_circuits.supply.graph import ALWAYS_LIVE
from floorplan_circuits.supply.handles import opened
from floorplan_circuits.supply.walks import Node, reached

Loads = Mapping[Node, tuple[Node, ...]]

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
    _dead: dict[frozenset[int], frozenset[Node]] = field(default_factory=dict, compare=False)

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
            return _feeds(self._dead_with(turned))
        before, touched = self.under.goes_dark(turned), _feeds(self.below)
        dead = self._live_below - self._live_among(self.below, turned, self._outside(self.under, turned))
        return (before - touched if before & touched else before) | _feeds(dead)

    def _dead_with(self, turned: frozenset[int]) -> frozenset[Node]:
        """Return all that is live as the home was found and not with these handles off, if nothing was laid over."""
        if turned not in self._dead:
            if len(self._dead) >= MOST_KEPT:
                self._dead.clear()
            below = reached(self.loads, opened(turned)) & self.live_as_found
            stays = self._live_among(below, turned, self.live_as_found.__contains__)
            self._dead[turned] = frozenset(below - stays)
        return self._dead[turned]

    @cached_property
    def live_as_found(self) -> set[Node]:
        """All that a source reaches as the home was found."""
        return reached(self.loads, filter(_is_source, self.loads), opened(self.resting))

    @cached_property
    def _live_below(self) -> set[Node]:
        """What is live as the home was found of all that was laid over and stands below it."""
        none = frozenset[int]()
        return set() if self.under is None else self._live_among(self.below, none, self._outside(self.under, none))

    @staticmethod
    def _outside(under: "Wiring", turned: frozenset[int]) -> Callable[[Node], bool]:
        """Return what tells whether a node that nothing was laid over is live with these handles off."""
        live, dead = under.live_as_found, under._dead_with(turned)
        return lambda node: node in live and node not in dead

    def _live_among(self, nodes: Set[Node], turned: frozenset[int], outside: Callable[[Node], bool]) -> set[Node]:
        """Return which of these nodes are live with these handles off, given what is live of all others."""
        closed = opened(turned | self.resting)
        todo = [
            node
            for node in nodes - closed
            if _is_source(node) or any(giver not in nodes and outside(giver) for giver in self.supplies.get(node, ()))
        ]
        found = set(todo)
        while todo:
            for node in self.loads.get(todo.pop(), ()):
                if node in nodes and node not in found and node not in closed:
                    found.add(node)
                    todo.append(node)
        return found


def _is_source(node: Node) -> bool:
    return node[0] in ALWAYS_LIVE


def _feeds(nodes: Iterable[Node]) -> frozenset[int]:
    return frozenset(number for kind, number in nodes if kind == "feed")
