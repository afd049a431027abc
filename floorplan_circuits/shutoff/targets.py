"""What must lose every path to a source before boxes are opened.

The feeds in them; what switches work together with one, since wires run between those; circuits that share a neutral.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from floorplan_circuits.findings import Conclusion
from floorplan_circuits.home.boxes import Box, FromBreaker
from floorplan_circuits.home.home import Home, existing_feeds
from floorplan_circuits.supply.walks import Node
from floorplan_circuits.survey.boxes import cables
from floorplan_circuits.survey.cases import Evidence
from floorplan_circuits.survey.log_book import LogBook

Supplies = Mapping[Node, tuple[Node, ...]]
FEW = 4
"""So many candidates are all turned off; past that none is, and the main is offered."""


@dataclass(frozen=True, slots=True)
class Target:
    """One conductor that must be dead: a feed in a chosen box, or the circuit of a breaker that shares its neutral.

    `may_hang_on` are breakers it may hang on beside what the map says: tested, suggested, or the few that are left.
    `worked_with`: it is in another box, and a switch works it together with this feed of a chosen one.
    """

    node: Node
    feed: int | None
    may_hang_on: tuple[int, ...] = ()
    sharing_with: int | None = None
    worked_with: int | None = None


def targets(
    evidence: Evidence,
    boxes: Iterable[int],
    known: Mapping[int, Conclusion],
    sharing: Mapping[int, tuple[int, ...]],
) -> tuple[Target, ...]:
    """Return what must be dead for these boxes: each feed, what works together with it, what shares a neutral.

    `sharing` are the breakers that share one with each: see `sharing_neutrals`.
    """
    home, record = evidence.home, evidence.record
    feeds = [feed for box in boxes for feed in entering(home.boxes[box], record) if feed in known]
    of_boxes = [Target(("feed", feed), feed, may_hang_on(known[feed], home)) for feed in dict.fromkeys(feeds)]
    beside = {other: feed for feed in feeds for other in evidence.groups.beside(feed)}
    of_boxes += [
        Target(("feed", other), other, may_hang_on(known[other], home), worked_with=feed)
        for other, feed in beside.items()
        if other not in feeds and may_hang_on(known[other], home)
    ]
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
    """Yield the circuits that share a neutral with one of these breakers, or with one that does, each with that one."""
    todo = list(dict.fromkeys(breakers))
    seen = set(todo)
    for mine in todo:
        for other in shared.get(mine, ()):
            if other not in seen:
                seen.add(other)
                todo.append(other)
                yield Target(("circuit", other), None, (), mine)


def sharing_neutrals(home: Home, known: Mapping[int, Conclusion]) -> dict[int, tuple[int, ...]]:
    """Return for each breaker those that share a neutral with it: by its poles, or by a feed that returns there.

    A feed that returns by another's neutral brings together that breaker and all that it is said or known to be on.
    """
    groups: dict[object, list[int]] = {}
    for breaker in home.breakers:
        for pole in breaker.poles:
            if isinstance(pole.neutral, int):
                groups.setdefault(pole.neutral, []).append(breaker.id)
    for place in existing_feeds(home):
        feed = place.feed
        if isinstance(feed.returns, FromBreaker):
            groups[("feed", feed.id)] = [feed.returns.breaker, *known[feed.id].breakers]
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
