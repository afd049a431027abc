"""What is live, what is closed off and what goes dark when handles are opened, as stated: no word on evidence."""

from typing import NamedTuple

from floorplan_circuits.home.boxes import Feed, FromElsewhere, FromSource, Supplied
from floorplan_circuits.home.home import Home, feeds
from floorplan_circuits.supply.graph import SupplyGraph
from floorplan_circuits.supply.handles import opened
from floorplan_circuits.supply.walks import Node, reached


class Nearest(NamedTuple):
    """What a feed is stated to hang on: breakers, and supplies that are no breaker, in words."""

    breakers: tuple[int, ...] = ()
    others: tuple[str, ...] = ()


def live(graph: SupplyGraph, off: frozenset[int]) -> frozenset[Node]:
    """Return the nodes that a supply reaches while the handles `off` (breakers and mains) are open.

    All supplies count, those that stand still or start by themselves too. Open handles are not among the nodes.
    """
    return frozenset(reached(graph.loads, graph.roots, opened(off)))


def closed_off(graph: SupplyGraph, off: frozenset[int]) -> frozenset[int]:
    """Return the feeds that no stated supply reaches while the handles `off` are open, disconnected ones among them.

    A feed of which nobody knows, or that has a supply from elsewhere, is never closed off.
    """
    alive = live(graph, off)
    return frozenset(feed for feed in graph.feeds if ("feed", feed) not in alive)


def what_goes_dark(graph: SupplyGraph, off: frozenset[int]) -> frozenset[int]:
    """Return the feeds that are live with every handle on and closed off once those in `off` are open."""
    return closed_off(graph, off) - closed_off(graph, frozenset())


def what_feeds(graph: SupplyGraph, feed: int) -> frozenset[int]:
    """Return all breakers above a feed, on whichever way: its own, feeders, and those that could feed it back."""
    return frozenset(number for kind, number in reached(graph.supplies, [("feed", feed)]) if kind == "breaker")


# --- what stands next -----------------------------------------------------------------------------------------------


def nearest_breakers(home: Home) -> dict[int, Nearest]:
    """Return for each feed, planned ones too, the breakers it is stated to be on, chains of 'behind' followed.

    Other supplies stand in words: 'elsewhere: the neighbour', 'source: Solar'. Nothing where nobody knows.
    """
    stated = {place.feed.id: place.feed for place in feeds(home)}
    into = _sources_into(home)
    return {feed: _nearest(home, _chain(feed, stated), into) for feed in stated}


def _sources_into(home: Home) -> dict[int, list[str]]:
    found: dict[int, list[str]] = {}
    for source in home.sources:
        for target in source.into:
            found.setdefault(target, []).append(f"source: {source.name}")
    return found


def _chain(feed: int, stated: dict[int, Feed]) -> list[Feed]:
    """Return the feed and those it hangs behind, nearest first, until one has supplies of its own or comes again."""
    chain: dict[int, Feed] = {}
    at: int | None = feed
    while at in stated and at not in chain:
        chain[at] = stated[at]
        on = stated[at].on
        at = on.feed if on.how == "behind" else None
    return list(chain.values())


def _nearest(home: Home, chain: list[Feed], into: dict[int, list[str]]) -> Nearest:
    on = chain[-1].on
    supplies = on.supplies if isinstance(on, Supplied) else ()
    breakers = [one.breaker for one in supplies if one.kind == "breaker" and one.breaker in home.breakers]
    words = [_in_words(home, one) for one in supplies if one.kind != "breaker"]
    words += [word for feed in chain for word in into.get(feed.id, ())] if into else []
    return Nearest(tuple(dict.fromkeys(breakers)), tuple(dict.fromkeys(words)))


def _in_words(home: Home, supply: FromSource | FromElsewhere) -> str:
    if supply.kind == "elsewhere":
        return f"elsewhere: {supply.where}" if supply.where else "elsewhere"
    source = home.sources.get(supply.source)
    return f"source: {source.name}" if source is not None else "source: not known"
