"""Who can bear witness: whether a method shows at this feed what the mains does there."""

from collections.abc import Mapping

from floorplan_circuits.home.boxes import Control
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds
from floorplan_circuits.home.kinds import catalogue, kind_named
from floorplan_circuits.home.log import STRONG_METHODS

TESTERS = ("two-lead tester", "low-impedance meter")
PLUGGED_IN = ("lamp plugged in", "radio plugged in, no battery")
WORKED_BY_HAND = ("hand", "pull cord")


class Witnesses:
    """What can bear witness in one home, by what its controls work."""

    def __init__(self, home: Home) -> None:
        self.switched: Mapping[int, list[Control]] = _by(home, "feeds")
        self.switching: Mapping[int, list[Control]] = _by(home, "switches")
        self._built = frozenset(place.feed.id for place in existing_feeds(home))

    def can_prove(self, place: FeedPlace, method: str) -> bool:
        """Tell whether a reading of the feed by this method may be part of a proof.

        A lamp shows its own feed, and that of the one switch that works it by hand; whatever a timer, photocell or
        sensor can put out shows nothing by being dead; a battery shows nothing at all.
        """
        if method not in STRONG_METHODS or not self._steady(place):
            return False
        return method in TESTERS or self._load_shows(place, method)

    def lacks_a_hand(self, place: FeedPlace, method: str) -> bool:
        """Tell whether it might be part of a proof if somebody said how the switch is worked that has to do with it."""
        device = () if place.device is None else self.switching.get(place.device.id, ())
        groups = (*self.switched.get(place.feed.id, ()), *device)
        return method in STRONG_METHODS and any(group.by == "not known" for group in groups)

    def can_deny(self, place: FeedPlace, method: str) -> bool:
        """Tell whether 'live' by this method is more than a reason to treat the feed as live."""
        if method not in STRONG_METHODS:
            return False
        return method in TESTERS or place.device is None or not kind_named(place.device.kind).battery

    def _steady(self, place: FeedPlace) -> bool:
        return all(control.by in WORKED_BY_HAND for control in self.switched.get(place.feed.id, ()))

    def _load_shows(self, place: FeedPlace, method: str) -> bool:
        kind = None if place.device is None else catalogue().get(place.device.kind)
        if kind is None or kind.battery or kind.holds_cables:
            return False
        if kind.group == "switch":
            return self._works_one_lamp(place)
        return kind.group == "receptacle" or method not in PLUGGED_IN

    def _works_one_lamp(self, place: FeedPlace) -> bool:
        """Tell whether the switch is in series with a lamp: one feed, one control by hand that is recorded."""
        if place.device is None or len(place.device.feeds) != 1:
            return False
        controls = self.switching.get(place.device.id, [])
        lamps = bool(controls) and any(feed in self._built for feed in controls[0].feeds)
        return len(controls) == 1 and controls[0].by in WORKED_BY_HAND and lamps


def _by(home: Home, field: str) -> dict[int, list[Control]]:
    found: dict[int, list[Control]] = {}
    for control in home.controls:
        for number in getattr(control, field):
            found.setdefault(number, []).append(control)
    return found
