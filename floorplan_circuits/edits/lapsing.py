"""What lapsed stays lapsed: no edit of the map makes a test count again that a change had put an end to.

A test of a feed counts until its box, one that it hangs behind, or a panel above it changes. Carry the feed to another
box, or say that the panel hangs on something else, and that change is no longer above it. So the edit says it anew.
"""

from collections.abc import Iterator

from floorplan_circuits.home.boxes import Behind, Box, FromBreaker, Hangs, Supplied
from floorplan_circuits.home.home import FeedPlace, Home, feeds
from floorplan_circuits.home.log import Change, Round, Traced
from floorplan_circuits.home.record import change
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.statements import breakers_above

NOTE = "It stood elsewhere on the map when that changed: what was tested before still counts no more."


def keep_lapsed(before: Home, after: Home) -> Home:
    """Return `after`, with a change of each box at its log's end whose tests would count again by the edit alone."""
    if _is_wired_alike(before, after) or not any(isinstance(entry, Change) for entry in before.log):
        return after
    was, now = _Lapses(before), _Lapses(after)
    boxes = dict.fromkeys(
        place.box.id
        for feed, place in now.places.items()
        if feed in was.places and now.lapse(feed) < was.last_seen(feed) <= was.lapse(feed)
    )
    if not boxes:
        return after
    entry = Change(id=after.next_id, kind="change", what="unknown work", boxes=tuple(boxes), note=NOTE)
    return change(after, log=(*after.log, entry), next_id=after.next_id + 1)


def _is_wired_alike(before: Home, after: Home) -> bool:
    """Tell whether panels and breakers are the same, and no box holds another feed, or one that hangs otherwise."""
    if before.panels is not after.panels or before.breakers is not after.breakers:
        return False
    touched = ((before.boxes.get(box.id), box) for box in after.boxes if before.boxes.get(box.id) is not box)
    return all(was is not None and _hanging(was) == _hanging(box) for was, box in touched)


def _hanging(box: Box) -> list[tuple[int, Hangs]]:
    return [(feed.id, feed.on) for feed in box.feeds()]


class _Lapses:
    """Where in the log of one home the tests of each feed that has any lapsed last."""

    def __init__(self, home: Home) -> None:
        self._home, self._book = home, LogBook(home)
        self._above, self._together = breakers_above(home), moves_together(home)
        self._every = {place.feed.id: place for place in feeds(home)}
        self._handles: dict[int, set[int]] = {}
        self._seen: dict[int, int] = {}
        for place, entry in self._book.entries:
            named = entry.off if isinstance(entry, Round) else ()
            for reading in entry.readings if isinstance(entry, Round) else ():
                self._seen[reading.feed] = place
                if reading.says == "dead":
                    self._handles.setdefault(reading.feed, set()).update(self._alone(named))
            if isinstance(entry, Traced):
                self._seen[entry.feed] = place
                self._handles.setdefault(entry.feed, set()).add(entry.handle)
        self.places = {feed: place for feed, place in self._every.items() if feed in self._seen}

    def last_seen(self, feed: int) -> int:
        """Return the place of what was seen of a feed last."""
        return self._seen.get(feed, -1)

    def lapse(self, feed: int) -> int:
        """Return the place of the last change of all that a test of the feed leans on, -1 for none."""
        chain = list(self._chain(self._every[feed]))
        boxes = (self._book.changed_boxes.get(place.box.id, -1) for place in chain)
        on = chain[-1].feed.on
        supplies = on.supplies if isinstance(on, Supplied) else ()
        named = {one.breaker for one in supplies if isinstance(one, FromBreaker)} | self._handles.get(feed, set())
        every = {higher for one in named for higher in (one, *self._above.get(one, ()))}
        known = self._home.breakers
        panels = (self._book.panel_change(known[one].panel) for one in every if one in known)
        return max(self._book.changed_anything, *boxes, *panels, -1)

    def _alone(self, off: tuple[int, ...]) -> frozenset[int]:
        """Return the one handle that was off beyond those found off; nothing where it was not one alone."""
        beyond = frozenset(off) - self._book.found_off
        return beyond if beyond and self._together.get(min(beyond)) == beyond else frozenset()

    def _chain(self, place: FeedPlace) -> Iterator[FeedPlace]:
        seen = set[int]()
        while place.feed.id not in seen:
            seen.add(place.feed.id)
            yield place
            on = place.feed.on
            if not isinstance(on, Behind) or on.feed not in self._every:
                return
            place = self._every[on.feed]
