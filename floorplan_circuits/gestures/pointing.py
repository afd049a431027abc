"""Finding out with nothing off: a signal tracer, or the eye along a cable, points from a device to a breaker.

It points, and proves nothing: what is recorded says which passes were made, and with which adapter.
"""

from collections.abc import Mapping
from types import MappingProxyType

from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.recording import record_traced
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.ways import Way, way_named, ways

CLICK_WHAT_IT_POINTS_TO = "Click the breaker that it points to on the panel, then the device that it was followed from."
NO_ADAPTER = "no adapter"
PASSES: Mapping[str, Mapping[str, int]] = MappingProxyType(
    {
        "signal tracer": MappingProxyType({"one pass": 1, "two passes": 2}),
        "followed by eye": MappingProxyType({"all of it was in view": 1}),
    }
)
"""Of each way that points, the answers at a device, and how many passes each records."""


def pointing_ways() -> tuple[Way, ...]:
    """Return the ways that point to a breaker."""
    return tuple(way for way in ways().values() if way.name in PASSES)


def points(way: str) -> bool:
    """Tell whether a way points to a breaker, rather than reads dead or live."""
    return way in PASSES


def adapters(way: str) -> tuple[str, ...]:
    """Return what can be put between the tracer and what it is plugged in to; nothing for other ways."""
    found = way_named(way).adapters
    return (NO_ADAPTER, *found) if found else ()


def pointed(
    home: Home, way: str, breaker: int | None, feed: int, says: str, adapter: str, date: str, who: str
) -> Edited:
    """Record that a way pointed from a feed to a breaker.

    Raises `Refused` if no breaker was named, or as recording does.
    """
    if breaker is None:
        raise Refused(CLICK_WHAT_IT_POINTS_TO)
    with_it = "" if adapter == NO_ADAPTER else adapter
    return record_traced(home, feed, breaker, way=way, passes=PASSES[way][says], adapter=with_it, date=date, who=who)
