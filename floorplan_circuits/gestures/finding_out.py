"""Finding out: one breaker off, a way of testing, and then each click on a device records what it showed."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from floorplan_circuits.edits.edited import Edited, Refused, there
from floorplan_circuits.edits.logged import Fields
from floorplan_circuits.edits.recording import record_round, single_test, strike
from floorplan_circuits.edits.seen import may_turn_off
from floorplan_circuits.gestures.pointing import (
    CLICK_WHAT_IT_POINTS_TO,
    NO_ADAPTER,
    PASSES,
    pointed,
    pointing_ways,
    points,
)
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.handling import FUSE_STAYS_LIVE, is_fuse
from floorplan_circuits.home.home import FeedPlace, Home, feeds
from floorplan_circuits.home.ways import Way, ways
from floorplan_circuits.supply.numbering import mark

NOT_A_READING = ("signal tracer", "helper on the phone")
"""Ways that a round can name, but that say nothing of live or dead by themselves."""
CHOOSE_A_WAY = "Say first how you test: choose it on the left."
SAYS = "Turn a breaker off, click it on the panel, then click each device that you look at."
READS = ("dead", "live", "unclear")
A_SLIP = "a slip of the hand"


@dataclass(frozen=True, slots=True)
class SetUp:
    """What holds for all that is recorded now: which breaker is off, how it is tested, and what else was seen.

    By a way that points nothing is off: `breaker` is the one that it points to. `live_before` and `live_again` speak of
    every device that is called dead; so do the other ticks of all readings.
    """

    breaker: int | None = None
    way: str = ""
    live_before: bool = False
    live_again: bool = False
    tester_before: bool = False
    tester_after: bool = False
    each_hot: bool = False
    who: str = ""
    helper: str = ""
    adapter: str = NO_ADAPTER

    @property
    def points(self) -> bool:
        """Whether the way points to a breaker, rather than reads dead or live."""
        return points(self.way)

    @property
    def answers(self) -> tuple[str, ...]:
        """What can be said at a device."""
        return tuple(PASSES[self.way]) if self.points else READS


def choices() -> tuple[Way, ...]:
    """Return the ways by which a device can be read dead or live."""
    return tuple(way for way in ways().values() if "round" in way.recorded_as and way.name not in NOT_A_READING)


def all_choices() -> tuple[Way, ...]:
    """Return the ways by which a device can be read, then those that point from it to a breaker."""
    return (*choices(), *pointing_ways())


def with_breaker(now: SetUp, home: Home, breaker: int) -> SetUp:
    """Return what holds with another breaker off, or pointed to: what was ticked of the last one is not said of it.

    Raises `Refused` for one that may not be turned off, that was found off, or that gives trouble.
    """
    if now.points:
        there(home.breakers, breaker, "breaker")
    else:
        may_turn_off(home, breaker)
    return now if breaker == now.breaker else _afresh(now, breaker)


def back_on(now: SetUp) -> SetUp:
    """Return what holds with all as usual again."""
    return now if now.breaker is None else _afresh(now, None)


def _afresh(now: SetUp, breaker: int | None) -> SetUp:
    return replace(now, breaker=breaker, live_before=False, live_again=False, tester_after=False)


def with_way(now: SetUp, way: str) -> SetUp:
    """Return what holds with another way of testing: nothing that was seen with the last one is said of it."""
    if way == now.way:
        return now
    same_sense = points(way) == now.points  # a breaker that was pointed to is not off, nor the other way about
    cleared = _afresh(now, now.breaker if same_sense else None)
    return replace(cleared, way=way, tester_before=False, each_hot=False, adapter=NO_ADAPTER)


def readable(box: Box, device: int | None, home: Home) -> tuple[FeedPlace, ...]:
    """Return the feeds to read at a click: of one device of a box, or all that enter; what is only planned is left."""
    return tuple(
        place
        for place in feeds(home)
        if place.box.id == box.id
        and (device is None or (place.device is not None and place.device.id == device))
        and not (place.device is not None and place.device.planned)
    )


def recorded(now: SetUp, home: Home, feed: int, says: str, date: str) -> Edited:
    """Record what one feed showed: with the breaker off, with all as usual, or pointed to it.

    Raises `Refused` as recording does.
    """
    if not now.way:
        raise Refused(CHOOSE_A_WAY)
    if now.points:
        return pointed(home, now.way, now.breaker, feed, says, now.adapter, date, now.who)
    common: Fields = {"method": now.way, "date": date, "who": now.who, "helper": now.helper, "each_hot": now.each_hot}
    common |= {"tester_before": now.tester_before, "tester_after": now.tester_after}
    if now.breaker is None:
        return record_round(home, (), [(feed, says)], **common)
    dead = says == "dead"
    seen: Fields = {"live_before": now.live_before and dead, "live_again": now.live_again and dead}
    return single_test(home, now.breaker, feed, says, **common, **seen)


def slip_struck(home: Home, entries: Iterable[int], date: str, who: str) -> Edited:
    """Strike all that one click recorded. Raises `Refused` if none of it counts any more."""
    after, made, gone = home, list[int](), ""
    for entry in entries:
        try:
            edited = strike(after, entry, A_SLIP, date=date, who=who)
        except Refused as refused:
            gone = str(refused)
            continue
        after = edited.home
        made.extend(edited.made)
    if not made:
        raise Refused(gone or "Nothing was recorded yet.")
    return Edited(after, "Strike what was recorded last", tuple(made))


def headline(now: SetUp, home: Home) -> str:
    """Return the state that a reading is taken in: '5 is off', 'It points to 5' or 'All as usual'."""
    breaker = home.breakers.get(now.breaker)
    if breaker is None:
        return "All as usual"
    number = mark(home.panels.get(breaker.panel), breaker)
    if now.points:
        return f"It points to {number}"
    return f"{number} is out" if is_fuse(home, breaker.id) else f"{number} is off"


def also_recorded(now: SetUp) -> str:
    """Return what a reading of dead records besides, so that nothing is written down that the person did not see."""
    words = list(_ticked(now))
    return f"‘Dead’ also records: {', '.join(words)}." if words else ""


def _ticked(now: SetUp) -> Iterator[str]:
    if now.points:
        return
    if now.breaker is not None and now.live_before:
        yield "live before"
    if now.breaker is not None and now.live_again:
        yield "live again"
    if now.tester_before or now.tester_after:
        both = " and ".join([*["before"] * now.tester_before, *["after"] * now.tester_after])
        yield f"tester proved {both}"
    if now.each_hot:
        yield "each hot shown"


def taken(now: SetUp, home: Home) -> str:
    """Return the sentence for a breaker just turned off, with whose word it takes where it may not be opened freely."""
    if now.breaker is None:
        return f"All is as usual, you say. {CLICK_WHAT_IT_POINTS_TO if now.points else SAYS}"
    breaker = there(home.breakers, now.breaker, "breaker")
    if now.points:
        return f"{headline(now, home)}, you say. Now click the device that it was followed from."
    asks = breaker.may_open
    whose = f" Ask {asks.whose or 'first'}{f': {asks.why}' if asks.why else ''}." if asks.may == "ask" else ""
    care = f" {FUSE_STAYS_LIVE}" if is_fuse(home, now.breaker) else ""
    return f"{headline(now, home)}, you say.{care} Now click each device that you look at.{whose}"
