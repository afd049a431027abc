"""What must lose every path to a source before boxes are opened: their feeds, and circuits that share a neutral."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from floorplan_circuits.findings import Conclusion
from floorplan_circuits.home.boxes import Box, FromBreaker, Supplied
from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.supply.walks import Node
from floorplan_circuits.survey.boxes import cables
from floorplan_circuits.survey.log_book import LogBook

Supplies = Mapping[Node, tuple[Node, ...]]
FEW = 4
"""So many candidates are all turned off; past that none is, and the main is offered."""


@dataclass(frozen=True, slots=True)
class Target:
    """One conductor that must be dead: a feed in a chosen box, or the circuit of a breaker that shares its neutral.

    `may_hang_on` are breakers it may hang on beside what the map says: tested, suggested, or the few that are left.
    """

    node: Node
    feed: int | None
    may_hang_on: tuple[int, ...] = ()
    sharing_with: int | None = None


def targets(
    home: Home,
    boxes: Iterable[int],
    record: LogBook,
    known: Mapping[int, Conclusion],
    sharing: Mapping[int, tuple[int, ...]],
) -> tuple[Target, ...]:
    """Return what must be dead in these boxes: each feed, then the circuits that share a neutral with one of them.

    `sharing` are the breakers that share one with each: see `sharing_neutrals`.
    """
    feeds = [feed for box in boxes for feed in entering(home.boxes[box], record) if feed in known]
    of_boxes = [Target(("feed", feed), feed, may_hang_on(known[feed], home)) for feed in dict.fromkeys(feeds)]
    used = dict.fromkeys(breaker for one in of_boxes for breaker in known[one.feed or 0].breakers)
    return (*of_boxes, *_sharing(sharing, [*used, *(extra for one in of_boxes for extra in one.may_hang_on)]))


def entering(box: Box, record: LogBook) -> tuple[int, ...]:
    """Return every feed that enters a box: those recorded, and those that somebody saw in it."""
    seen = (feed for feed in cables(box, record) if feed is not None)
    return tuple(dict.fromkeys((*(feed.id for feed in box.feeds()), *seen)))


def may_hang_on(one: Conclusion, home: Home) -> tuple[int, ...]:
    """Return the breakers to turn off for a feed beside those that the map says: none where it may be any."""
    narrowed = len(one.candidates) < len(home.breakers) and len(one.candidates) <= FEW
    left = one.candidates if narrowed and one.standing != "proved" else ()
    return tuple(dict.fromkeys(breaker for breaker in (*one.breakers, *left) if breaker in home.breakers))


def _sharing(shared: Mapping[int, tuple[int, ...]], breakers: Iterable[int]) -> Iterator[Target]:
    """Yield the circuits whose neutral is shared with one of these breakers, each with the one it shares with."""
    used = dict.fromkeys(breakers)
    for mine in used:
        for other in shared.get(mine, ()):
            if other not in used:
                yield Target(("circuit", other), None, (), mine)


def sharing_neutrals(home: Home) -> dict[int, tuple[int, ...]]:
    """Return for each breaker those that share a neutral with it: by its poles, or by a feed that returns there."""
    groups: dict[object, list[int]] = {}
    for breaker in home.breakers:
        for pole in breaker.poles:
            if isinstance(pole.neutral, int):
                groups.setdefault(pole.neutral, []).append(breaker.id)
    for place in existing_feeds(home):
        feed = place.feed
        if isinstance(feed.returns, FromBreaker) and isinstance(feed.on, Supplied):
            own = [supply.breaker for supply in feed.on.supplies if isinstance(supply, FromBreaker)]
            groups[("feed", feed.id)] = [feed.returns.breaker, *own]
    found: dict[int, dict[int, None]] = {}
    for group in groups.values():
        for one in group:
            found.setdefault(one, {}).update(dict.fromkeys(other for other in group if other != one))
    return {one: tuple(other for other in others if other in home.breakers) for one, others in found.items()}


def with_candidates(supplies: Supplies, wanted: Iterable[Target]) -> dict[Node, tuple[Node, ...]]:
    """Return what supplies the targets, the breakers that they may hang on among it.

    The root of a feed of which nobody knows is left out: no handle cuts it, and the state of its box tells of it.
    """
    found: dict[Node, tuple[Node, ...]] = {}
    for one in wanted:
        stated = [giver for giver in supplies.get(one.node, ()) if giver[0] != "unknown"]
        extra = [("circuit", breaker) for breaker in one.may_hang_on]
        found[one.node] = tuple(dict.fromkeys([*stated, *extra]))
    return found
