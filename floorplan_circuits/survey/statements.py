"""What the map says of each feed, without any evidence: every supply that can reach it, near ones alone.

Power that runs back is among it: where two circuits are joined somewhere, or a source feeds into a circuit, every feed
on that circuit has the other supply too, with its own breaker off.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from itertools import pairwise

from floorplan_circuits.home.boxes import Behind, FromElsewhere, Hangs, Supplied
from floorplan_circuits.home.home import FeedPlace, Home, feeds
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.supply.graph import ALWAYS_LIVE, SupplyGraph
from floorplan_circuits.supply.reach import Nearest, nearest_breakers
from floorplan_circuits.supply.walks import Node


@dataclass(frozen=True, slots=True)
class Stated:
    """What the map says of one feed, chains of 'behind' followed.

    `others` are supplies that are no breaker, by what they are, in words. `chain` is the feed and those it hangs
    behind, nearest first; `end` what the last of them hangs on. `unsure`: some of it hangs on nobody knows what.
    `joined`: power that runs back reaches it as well. `is_low_voltage`: it is so behind a transformer that is stated,
    and no source feeds into it: no shock from it.
    """

    breakers: tuple[int, ...] = ()
    others: Mapping[Node, str] = field(default_factory=dict)
    chain: tuple[FeedPlace, ...] = ()
    unsure: bool = True
    joined: bool = False
    is_low_voltage: bool = False

    @property
    def end(self) -> Hangs:
        """What the last feed of the chain hangs on."""
        return self.chain[-1].feed.on

    @property
    def is_loop(self) -> bool:
        """Whether any one of several supplies keeps it live."""
        return isinstance(self.end, Supplied) and self.end.how == "any" and len(self.end.supplies) > 1


def statements(home: Home, graph: SupplyGraph) -> dict[int, Stated]:
    """Return what is stated of each existing feed."""
    places = {place.feed.id: place for place in feeds(home)}
    near, ends = nearest_breakers(home), _Ends(home, graph, places)
    return {feed: _stated(places[feed], near[feed], ends, places) for feed in graph.feeds}


def _stated(place: FeedPlace, near: Nearest, ends: "_Ends", places: Mapping[int, FeedPlace]) -> Stated:
    reached, chain = ends.of(place.feed.id), chain_above(place, places)
    running_back = [number for kind, number in reached if kind == "breaker" and number not in near.breakers]
    others = ends.others(reached)
    told = {("stated", at): words for at, words in enumerate(near.others) if words not in others.values()}
    return Stated(
        breakers=(*near.breakers, *running_back),
        others=others | told,
        chain=chain,
        unsure=any(kind == "unknown" for kind, _ in reached) or any(map(_is_unreliable, chain)),
        joined=bool(running_back) or len(others) > len(near.others),
        is_low_voltage=place.feed.volts == "low" and _is_behind_transformer(chain, ends.fed_into),
    )


def _is_behind_transformer(chain: tuple[FeedPlace, ...], fed_into: frozenset[int]) -> bool:
    for place, above in pairwise(chain):
        if place.feed.volts != "low" or place.feed.id in fed_into:
            return False
        if above.device is not None and kind_named(above.device.kind).in_series == "transformer":
            return not above.device.planned
    return False


def _is_unreliable(place: FeedPlace) -> bool:
    """Tell whether it is not built yet, or a newer program added to what it hangs on what this one cannot read."""
    on = place.feed.on
    parts = (on, *(on.supplies if isinstance(on, Supplied) else ()))
    return (place.device is not None and place.device.planned) or any(part.extras() for part in parts)


def chain_above(place: FeedPlace, places: Mapping[int, FeedPlace]) -> tuple[FeedPlace, ...]:
    """Return a feed and those it hangs behind, nearest first."""
    chain = {place.feed.id: place}
    on = place.feed.on
    while isinstance(on, Behind) and on.feed in places and on.feed not in chain:
        chain[on.feed] = places[on.feed]
        on = places[on.feed].feed.on
    return tuple(chain.values())


class _Ends:
    """Walks up from feeds to the first breakers and always-live supplies; what hangs alike is walked once."""

    def __init__(self, home: Home, graph: SupplyGraph, places: Mapping[int, FeedPlace]) -> None:
        self.home, self.graph, self.places = home, graph, places
        self.fed_into = frozenset(target for source in home.sources for target in source.into)
        self.known: dict[tuple[Node, ...], tuple[Node, ...]] = {}

    def of(self, feed: int) -> tuple[Node, ...]:
        """Return the breakers and supplies that reach the feed first, on every way."""
        givers = self.graph.supplies.get(("feed", feed), ())
        if givers not in self.known:
            self.known[givers] = self._walk(givers)
        return self.known[givers]

    def _walk(self, givers: Iterable[Node]) -> tuple[Node, ...]:
        todo, seen, found = list(reversed(tuple(givers))), set(givers), list[Node]()
        while todo:
            at = todo.pop()
            if at[0] == "breaker" or at[0] in ALWAYS_LIVE:
                found.append(at)
                continue
            fresh = [node for node in self.graph.supplies.get(at, ()) if node not in seen]
            seen.update(fresh)
            todo.extend(reversed(fresh))
        return tuple(found)

    def others(self, reached: Iterable[Node]) -> dict[Node, str]:
        """Return in words those that are no breaker; two that nobody gave a name stay two."""
        found: dict[Node, str] = {}
        for node in reached:
            for key, words in self._other(node):
                found.setdefault(key, words)
        return found

    def _other(self, node: Node) -> Iterable[tuple[Node, str]]:
        kind, number = node
        if kind == "source":
            yield node, f"source: {self.home.sources[number].name}"
        elif kind == "supply":
            yield node, "a supply that nobody recorded"
        elif kind == "elsewhere":
            on = self.places[number].feed.on
            for supply in on.supplies if isinstance(on, Supplied) else ():
                if isinstance(supply, FromElsewhere):
                    named = f"elsewhere: {supply.where}" if supply.where else ""
                    yield (named or "elsewhere", 0 if named else number), named or "elsewhere"


def breakers_above(home: Home) -> dict[int, frozenset[int]]:
    """Return for each breaker all that stand between it and the sources: what it is behind, feeders of its panel."""
    feeders = {
        panel.id: [feeder.breaker for feeder in panel.fed_by if feeder.kind == "breaker"] for panel in home.panels
    }
    direct = {
        breaker.id: {*feeders.get(breaker.panel, ()), *(() if breaker.behind is None else (breaker.behind,))}
        for breaker in home.breakers
    }
    return {breaker: frozenset(_all_above(breaker, direct)) for breaker in direct}


def _all_above(breaker: int, direct: Mapping[int, set[int]]) -> set[int]:
    found, todo = set[int](), list(direct[breaker])
    while todo:
        at = todo.pop()
        if at not in found and at in direct:
            found.add(at)
            todo.extend(direct[at])
    return found - {breaker}
