"""What lapsed stays lapsed: no edit of the map makes a test count again that a change had put an end to.

A test of a feed counts until its box, one that it hangs behind, or a panel above it changes. Carry the feed to another
box, or say that the panel hangs on something else, and that change is no longer above it. So the edit says it anew.
"""

from floorplan_circuits.home.boxes import Box, Hangs
from floorplan_circuits.home.home import Home, feeds
from floorplan_circuits.home.log import Change, Round, Traced
from floorplan_circuits.home.record import change
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.statements import breakers_above, chain_above

NOTE = "It stood elsewhere on the map when that changed: what was tested before still counts no more."


def keep_lapsed(before: Home, after: Home) -> Home:
    """Return `after`, with a change of each box at its log's end whose tests would count again by the edit alone."""
    if _is_wired_alike(before, after) or not any(isinstance(entry, Change) for entry in before.log):
        return after
    was, now = _Lapses(before), _Lapses(after)
    boxes = dict.fromkeys(
        place.box.id
        for feed, place in now.places.items()
        if feed in was.places and was.would_count_again(feed, now.lapse(feed))
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
    """Where in the log of one home what was tested or traced of each feed lapsed last."""

    def __init__(self, home: Home) -> None:
        self._home, self._book = home, LogBook(home)
        self._above, self._together = breakers_above(home), moves_together(home)
        self._every = {place.feed.id: place for place in feeds(home)}
        self._handles: dict[int, set[int]] = {}
        self._tests: dict[int, list[int]] = {}
        """Feed -> the places of what may show what it hangs on: dead with one handle alone off, or a trace."""
        self._proving: dict[int, list[int]] = {}
        """Of those, the ones by a tester that was proved before and after."""
        for place, entry in self._book.entries:
            if isinstance(entry, Round) and (handle := self._alone(entry.off)):
                for reading in entry.readings:
                    if reading.says == "dead":
                        self._note(reading.feed, place, handle)
                        if entry.tester.before and entry.tester.after:
                            self._proving.setdefault(reading.feed, []).append(place)
            elif isinstance(entry, Traced):
                self._note(entry.feed, place, frozenset({entry.handle}))
        self.places = {feed: place for feed, place in self._every.items() if feed in self._tests}

    def would_count_again(self, feed: int, since: int) -> bool:
        """Tell whether a test would count if only what is later than `since` lapsed, and none was taken again."""
        lapse, tests = self.lapse(feed), self._tests.get(feed, [])
        taken_again = any(place > lapse for place in self._proving.get(feed, ()))
        return not taken_again and any(since < place <= lapse for place in tests)

    def lapse(self, feed: int) -> int:
        """Return the place of the last change of all that those tests lean on, -1 for none."""
        boxes = (
            self._book.changed_boxes.get(place.box.id, -1) for place in chain_above(self._every[feed], self._every)
        )
        every = {higher for one in self._handles.get(feed, ()) for higher in (one, *self._above.get(one, ()))}
        known = self._home.breakers
        panels = (self._book.panel_change(known[one].panel) for one in every if one in known)
        return max(self._book.changed_anything, *boxes, *panels, -1)

    def _note(self, feed: int, place: int, handle: frozenset[int]) -> None:
        self._tests.setdefault(feed, []).append(place)
        self._handles.setdefault(feed, set()).update(handle)

    def _alone(self, off: tuple[int, ...]) -> frozenset[int]:
        """Return the one handle that was off beyond those found off; nothing where it was not one alone."""
        beyond = frozenset(off) - self._book.found_off
        return beyond if beyond and self._together.get(min(beyond)) == beyond else frozenset()
