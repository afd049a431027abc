"""Which boxes of a shut-off may be opened to be tested: not one that is live all the same, or where live is likely."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from floorplan_circuits.findings import BoxWhenOff
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.shutoff.cut import Supplies
from floorplan_circuits.shutoff.targets import entering, may_hang_on
from floorplan_circuits.supply.handles import HANDLE_KINDS
from floorplan_circuits.supply.walks import reached
from floorplan_circuits.survey.boxes import cables, not_recorded
from floorplan_circuits.survey.states import Judge


def stay_shut(states: Iterable[BoxWhenOff], off: frozenset[int], judge: Judge, supplies: Supplies) -> tuple[int, ...]:
    """Return the boxes that a householder is not to open with these handles off, in the order of their states.

    A box stays shut if it is live all the same, or if nothing in it is known to hang on a handle that is off. Where
    something in it is unknown, live is likely: it stays shut too, unless each thing that enters is known or narrowed to
    breakers that are off. What then is to be tested with the cover off is a licensed electrician's step: nobody else is
    asked to stand before an open box that is likely to be live.
    """
    asked = _Asked(off - judge.evidence.record.never_opened, judge, supplies)
    return tuple(one.box for one in states if not asked.may_be_opened(one))


@dataclass(frozen=True, slots=True)
class _Asked:
    """What boxes are asked of: the handles that are off and do open, and what is known."""

    off: frozenset[int]
    judge: Judge
    supplies: Supplies

    def may_be_opened(self, one: BoxWhenOff) -> bool:
        """Tell whether a box in this state may be opened to be tested."""
        if one.state in ("live", "should be dead"):
            return one.state == "should be dead"
        box, record = self.judge.evidence.home.boxes[one.box], self.judge.evidence.record
        shut = [self._is_off(feed) for feed in entering(box, record) if feed in self.judge.known]
        return any(shut) if one.state != "unknown" else any(shut) and all(shut) and not self._holds_a_stranger(box)

    def _holds_a_stranger(self, box: Box) -> bool:
        """Tell whether something enters the box of which nothing is recorded."""
        seen = cables(box, self.judge.evidence.record)
        return bool(not_recorded(box)) or any(feed is None or feed not in self.judge.known for feed in seen)

    def _is_off(self, feed: int) -> bool:
        """Tell whether all breakers that a feed is known or narrowed to are off, or behind a handle that is."""
        found = self.judge.known[feed]
        if found.others or found.standing == "contradicted" or feed in self.judge.at_odds:
            return False
        hangs = may_hang_on(found, self.judge.evidence.home)
        if not hangs or self._was_live_without(hangs, feed):
            return False
        return all(not self.off.isdisjoint(self._handles_above(breaker)) for breaker in hangs)

    def _was_live_without(self, breakers: Iterable[int], feed: int) -> bool:
        """Tell whether anybody found a feed live, with whatever tester, while all these breakers were off."""
        seen = self.judge.evidence.record.readings.get(feed, ())
        return any(one.reading.says == "live" and one.off.issuperset(breakers) for one in seen)

    def _handles_above(self, breaker: int) -> Iterator[int]:
        """Yield a breaker and every handle above it."""
        return (number for kind, number in reached(self.supplies, [("breaker", breaker)]) if kind in HANDLE_KINDS)
