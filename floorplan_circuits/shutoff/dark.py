"""What else goes dark when handles are turned off, and what that weighs."""

from collections.abc import Iterable, Mapping

from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds
from floorplan_circuits.shutoff.cut import Supplies, is_live
from floorplan_circuits.supply.graph import ALWAYS_LIVE
from floorplan_circuits.supply.walks import Node, reached

HANDLE_WEIGHT, FEED_WEIGHT, CRITICAL_WEIGHT = 1, 1, 20
"""What a choice costs: one a handle that must be moved, one a feed that goes dark, twenty more where it is critical."""

MANY = 30
"""From so many feeds on it is quicker to walk once from the sources down than up from each."""


def loads_of(supplies: Supplies) -> Mapping[Node, list[Node]]:
    """Return what each node supplies: the same edges, from the sources down."""
    found: dict[Node, list[Node]] = {}
    for taker, givers in supplies.items():
        for giver in givers:
            found.setdefault(giver, []).append(taker)
    return found


def goes_dark(
    off: Iterable[int], resting: frozenset[int], supplies: Supplies, loads: Mapping[Node, Iterable[Node]]
) -> tuple[int, ...]:
    """Return the feeds that are live as the home was found and not with these handles off, by their ids."""
    turned = frozenset(off)
    below = reached(loads, [(kind, handle) for handle in turned for kind in ("breaker", "main")])
    feeds = sorted(number for kind, number in below if kind == "feed")
    if len(feeds) > MANY:
        before, after = (live_feeds(handles, loads) for handles in (resting, turned | resting))
        return tuple(feed for feed in feeds if feed in before and feed not in after)
    return tuple(
        feed
        for feed in feeds
        if is_live(("feed", feed), resting, supplies) and not is_live(("feed", feed), turned | resting, supplies)
    )


def live_feeds(off: frozenset[int], loads: Mapping[Node, Iterable[Node]]) -> set[int]:
    """Return all feeds that a source reaches while these handles are off."""
    return {number for kind, number in live_nodes(off, loads) if kind == "feed"}


def live_nodes(off: frozenset[int], loads: Mapping[Node, Iterable[Node]]) -> set[Node]:
    """Return all that a source reaches while these handles are off, in one walk down from the sources."""
    closed = frozenset((kind, handle) for handle in off for kind in ("breaker", "main"))
    return reached(loads, [node for node in loads if node[0] in ALWAYS_LIVE], closed)


def places_of(home: Home) -> dict[int, FeedPlace]:
    """Return where each existing feed is."""
    return {place.feed.id: place for place in existing_feeds(home)}


def weight(handles: Iterable[int], dark: Iterable[int], places: Mapping[int, FeedPlace]) -> int:
    """Return what it costs to turn these handles off: what goes dark, critical things most, and one a handle.

    Handles that move together count as the one movement that they are: name one of each.
    """
    cost = HANDLE_WEIGHT * sum(1 for _ in handles)
    for feed in dark:
        device = places[feed].device
        cost += FEED_WEIGHT + (CRITICAL_WEIGHT if device is not None and device.critical else 0)
    return cost
