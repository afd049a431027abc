"""What a plan is about: the handles to be told apart, those left alone, the feeds to look at, what to watch there."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from floorplan_circuits.findings import Conclusion
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds, mains
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.supply.handles import may_move_along, moves_together
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.statements import breakers_above
from floorplan_circuits.survey.troubles import keep_off, with_joined

PLUG_IN = "plug in a lamp or a radio without a battery"
IN_USE = "leave it plugged in: see by its own light or sound whether it runs, and call it unclear where neither tells"
"""What to do at a receptacle of one thing that is not to be unplugged: a pump, a freezer."""
BULB_FIRST = "put in a bulb that works, and leave its switch on"
ADAPTER = "nothing to watch: with the breaker off and tested, clip on a tracer's adapter for bare ends"
BY_TESTER = "nothing to watch from outside: it is found when its box is opened with all that may feed it off"
WHAT_IT_WORKS = "look at what it works, switched on; the switch itself stays shut"
NOT_SAID = (
    "nobody said what it works, so nothing shows from outside: say which light it works, or it is found when its box "
    "is opened with all that may feed it off"
)
AUTOMATIC = "it may go out by itself: force it on, or call it unclear"


@dataclass(frozen=True, slots=True)
class Scope:
    """What there is to find out. `handles` name one of each movement, the busiest first known by `busy`.

    `apart` are feeders and mains, fuses, and handles that a nail joins: kept on in the rounds, tested by themselves.
    """

    handles: tuple[int, ...]
    busy: Mapping[int, int]
    left_alone: Mapping[int, str]
    apart: tuple[int, ...]
    feeds: tuple[FeedPlace, ...]
    advice: Mapping[int, str]


def scope(
    home: Home,
    record: LogBook,
    known: Mapping[int, Conclusion],
    leave_on: Collection[int],
    boxes: Collection[int],
    agreed: Collection[int] = (),
    *,
    trusting: bool = False,
) -> Scope:
    """Return what a plan is about: all that is not proved, or of `boxes` alone where any are given.

    `agreed` are handles to be asked for that may be turned off now: whoever it is agreed.
    Handles that no such feed can hang on by what the log says are left on: they need not be told apart any more. If
    `trusting`, a 'dead' counts for that too: patterns that are no stronger lean on each one anyway.
    """
    together, along = moves_together(home), may_move_along(home)
    alone = _left_alone(home, record, leave_on, agreed)
    said = said_on(known)
    feeders = frozenset[int]().union(*breakers_above(home).values())
    wanted = [place for place in _unproved(home, known) if not boxes or place.box.id in boxes]
    working = _switches_that_work_something(home)
    watched = [place for place in wanted if not _nothing_to_watch(place, working)]
    possible = {breaker for place in watched for breaker in _may_be(known[place.feed.id], home, trusting)}
    movements = dict.fromkeys(min(together[breaker]) for breaker in home.breakers.ids() if breaker in possible)
    apart = [one for one in movements if together[one] & feeders or _is_no_sign(one, home, together, along)]
    handles = [one for one in movements if one not in apart and not any(other in alone for other in together[one])]
    return Scope(
        tuple(handles),
        {one: len(feeds_on(together[one], said)) for one in handles},
        alone,
        (*apart, *(main.id for _, main in mains(home))),
        tuple(watched),
        dict(_advice(home, wanted, working)),
    )


def _is_no_sign(
    handle: int, home: Home, together: Mapping[int, frozenset[int]], along: Mapping[int, frozenset[int]]
) -> bool:
    """Tell whether a handle is no part of a pattern: a fuse, or one that may move another along, whoever pulls it."""
    return home.breakers[handle].device == "fuse" or along[handle] != together[handle]


def _unproved(home: Home, known: Mapping[int, Conclusion]) -> Iterator[FeedPlace]:
    for place in existing_feeds(home):
        if known[place.feed.id].standing != "proved" and place.feed.volts != "low":
            yield place


def _may_be(one: Conclusion, home: Home, trusting: bool) -> tuple[int, ...]:
    """Return the breakers a feed may be on: what no reading excludes, and what is said of it."""
    left = one.fits if trusting and one.fits else one.candidates
    return (*left, *(breaker for breaker in one.breakers if breaker in home.breakers))


def said_on(known: Mapping[int, Conclusion]) -> dict[int, list[int]]:
    """Return for each breaker the feeds that are said or found to be on it, in the order of `known`."""
    found: dict[int, list[int]] = {}
    for feed, one in known.items():
        for breaker in one.breakers:
            found.setdefault(breaker, []).append(feed)
    return found


def feeds_on(moved: Collection[int], said: Mapping[int, Collection[int]]) -> dict[int, None]:
    """Return the feeds that are said to be on any of these breakers, each once."""
    return dict.fromkeys(feed for breaker in sorted(moved) for feed in said.get(breaker, ()))


def _left_alone(home: Home, record: LogBook, leave_on: Collection[int], agreed: Collection[int]) -> dict[int, str]:
    """Return the handles that stay as they are, with why."""
    found = {
        breaker.id: f"was found {breaker.found.state}" + (f" ({breaker.found.why})" if breaker.found.why else "")
        for breaker in home.breakers
        if breaker.id in record.found_off
    }
    asks = {
        breaker.id: f"ask {breaker.may_open.whose or 'first'}"
        for breaker in home.breakers
        if breaker.may_open.may == "ask" and breaker.id not in found and breaker.id not in agreed
    }
    wished = dict.fromkeys(leave_on, "is to stay on")
    return {**wished, **asks, **with_joined(home, keep_off(home, record)), **found}


def _switches_that_work_something(home: Home) -> frozenset[int]:
    """Return the switches of which it is recorded what they work."""
    return frozenset(switch for control in home.controls if control.feeds for switch in control.switches)


def _nothing_to_watch(place: FeedPlace, working: Collection[int]) -> bool:
    """Tell whether nothing shows from outside: with a switch, where nobody said what it works."""
    if place.device is None or place.device.kind in ("junction box", "loose cable end", "blank outlet"):
        return True
    return kind_named(place.device.kind).group == "switch" and place.device.id not in working


def _advice(home: Home, places: list[FeedPlace], working: Collection[int]) -> Iterator[tuple[int, str]]:
    """Yield for each feed what to put there or to mind; nothing for what shows by itself."""
    by_itself = {feed for control in home.controls if control.by not in ("hand", "pull cord") for feed in control.feeds}
    for place in places:
        if place.feed.id in by_itself:
            yield place.feed.id, AUTOMATIC
        elif place.box.mount == "loose cable end" or (place.device and place.device.kind == "loose cable end"):
            yield place.feed.id, ADAPTER
        elif place.device is not None and kind_named(place.device.kind).group == "switch":
            yield place.feed.id, WHAT_IT_WORKS if place.device.id in working else NOT_SAID
        elif _nothing_to_watch(place, working):
            yield place.feed.id, BY_TESTER
        elif place.device is not None and kind_named(place.device.kind).group == "receptacle":
            yield place.feed.id, IN_USE if _is_kept_plugged_in(place.device) else PLUG_IN
        elif place.device is not None and kind_named(place.device.kind).group == "light":
            yield place.feed.id, BULB_FIRST


def _is_kept_plugged_in(device: Device) -> bool:
    """Tell whether a receptacle has room for one plug alone, and something that minds is on it."""
    return device.kind == "single receptacle" and bool(device.critical)
