"""The edges of the supply graph that the home states, from what gives power to what takes it."""

from collections.abc import Iterator

from floorplan_circuits.home.boxes import Feed, Supplied, Supply
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Source
from floorplan_circuits.supply.walks import Node

Edge = tuple[Node, Node]


def stated_edges(home: Home, feeds: tuple[Feed, ...]) -> Iterator[Edge]:
    """Yield every edge that sources, panels, breakers and the given feeds state; what names something gone gives none.

    A feed that names something gone, or of which nobody knows, hangs on ('unknown', its id).
    """
    yield from _of_sources(home, {feed.id for feed in feeds})
    yield from _of_panels(home)
    yield from _of_breakers(home)
    for feed in feeds:
        yield from ((giver, ("feed", feed.id)) for giver in _givers(home, feed))


def adrift(home: Home) -> tuple[Source, ...]:
    """Return the sources of which nobody said where they come in, so that they may be anywhere.

    A utility's is none: where nothing is said of it, it is what panels that hang on nothing stated hang on.
    """
    loose = [source for source in home.sources if source.kind != "utility" and not source.into]
    if not loose:
        return ()
    named = {one.source for panel in home.panels for one in panel.fed_by if one.kind == "source"}
    hung = (feed.on.supplies for box in home.boxes for feed in box.feeds() if isinstance(feed.on, Supplied))
    named |= {one.source for supplies in hung for one in supplies if one.kind == "source"}
    return tuple(source for source in loose if source.id not in named)


def _of_sources(home: Home, feeds: set[int]) -> Iterator[Edge]:
    for source in home.sources:
        for target in source.into:
            if target in home.panels:
                yield ("source", source.id), ("panel", target)
            elif target in home.breakers:
                yield ("source", source.id), ("circuit", target)
            elif target in feeds:
                yield ("source", source.id), ("feed", target)


def _of_panels(home: Home) -> Iterator[Edge]:
    for panel in home.panels:
        incoming, bus = ("panel", panel.id), ("bus", panel.id)
        for feeder in panel.fed_by:
            if feeder.kind == "breaker" and feeder.breaker in home.breakers:
                yield ("circuit", feeder.breaker), incoming
            elif feeder.kind == "source" and feeder.source in home.sources:
                yield ("source", feeder.source), incoming
        for main in panel.mains:
            yield incoming, ("main", main.id)
            yield ("main", main.id), bus
        if not panel.mains:
            yield incoming, bus


def _of_breakers(home: Home) -> Iterator[Edge]:
    for breaker in home.breakers:
        node = ("breaker", breaker.id)
        if breaker.behind is not None and breaker.behind in home.breakers:
            yield ("circuit", breaker.behind), node
        elif breaker.panel in home.panels:
            yield ("bus", breaker.panel), node
        yield node, ("circuit", breaker.id)


def _givers(home: Home, feed: Feed) -> Iterator[Node]:
    on = feed.on
    if isinstance(on, Supplied):
        yield from (_giver(home, feed, supply) for supply in on.supplies)
    elif on.how == "behind":
        yield "feed", on.feed
    elif on.how == "not known":
        yield "unknown", feed.id


def _giver(home: Home, feed: Feed, supply: Supply) -> Node:
    if supply.kind == "breaker" and supply.breaker in home.breakers:
        return "circuit", supply.breaker
    if supply.kind == "source" and supply.source in home.sources:
        return "source", supply.source
    return ("elsewhere" if supply.kind == "elsewhere" else "unknown"), feed.id
