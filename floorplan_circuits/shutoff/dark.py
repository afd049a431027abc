"""What it weighs to turn handles off: what goes dark with them, critical things most."""

from collections.abc import Iterable, Mapping, Set

from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds

HANDLE_WEIGHT, FEED_WEIGHT, CRITICAL_WEIGHT = 1, 1, 20
"""What a choice costs: one a handle that must be moved, one a feed that goes dark, twenty more where it is critical."""


def places_of(home: Home) -> dict[int, FeedPlace]:
    """Return where each existing feed is."""
    return {place.feed.id: place for place in existing_feeds(home)}


def critical_among(places: Mapping[int, FeedPlace]) -> frozenset[int]:
    """Return the feeds of devices that somebody called critical."""
    return frozenset(
        feed for feed, place in places.items() if place.device is not None and place.device.critical
    )  # fmt: skip


def weight(handles: Iterable[int], dark: Set[int], critical: Set[int]) -> int:
    """Return what it costs to turn these handles off: what goes dark, critical things most, and one a handle.

    Handles that move together count as the one movement that they are: name one of each.
    """
    cost = HANDLE_WEIGHT * sum(1 for _ in handles)
    return cost + FEED_WEIGHT * len(dark) + CRITICAL_WEIGHT * len(critical & dark)
