"""What switches work together: between the switches of a group and what they work run wires of whatever feeds any.

On two circuits those wires can be live with one of them off. Radio shares no wire.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from floorplan_circuits.home.home import Home, existing_feeds


@dataclass(frozen=True, slots=True)
class SwitchGroups:
    """The groups of one home: the mains feeds of each, those of its switches and those that they work."""

    groups: tuple[tuple[int, ...], ...]
    of_feed: dict[int, list[int]]

    @classmethod
    def of(cls, home: Home) -> "SwitchGroups":
        """Read them from what is built."""
        places = [place for place in existing_feeds(home) if place.feed.volts != "low"] if home.controls else []
        there = {place.feed.id for place in places}
        of_device: dict[int, list[int]] = {}
        for place in places:
            if place.device is not None:
                of_device.setdefault(place.device.id, []).append(place.feed.id)
        groups = tuple(
            (
                *(feed for switch in group.switches for feed in of_device.get(switch, ())),
                *(feed for feed in group.feeds if feed in there),
            )
            for group in home.controls
            if group.by != "radio"
        )
        of_feed: dict[int, list[int]] = {}
        for at, group in enumerate(groups):
            for feed in group:
                of_feed.setdefault(feed, []).append(at)
        return cls(groups, of_feed)

    def beside(self, feed: int) -> Iterator[int]:
        """Yield the feeds that switches work together with this one."""
        for at in self.of_feed.get(feed, ()):
            yield from (other for other in self.groups[at] if other != feed)
