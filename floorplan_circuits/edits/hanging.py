"""What a feed hangs on besides one breaker: two of them, a device before it, a source, elsewhere, nothing at all.

All of it is stated, as a tie is: a claim of the person's, never evidence.
"""

from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple

from floorplan_circuits.edits.edited import Edited, Refused, edit, only, sound, there
from floorplan_circuits.edits.seen import feed_there
from floorplan_circuits.edits.ties import hung, tie, untie, with_feeds
from floorplan_circuits.home.boxes import (
    Behind,
    Disconnected,
    FromBreaker,
    FromElsewhere,
    FromSource,
    Hangs,
    Supplied,
    Supply,
)
from floorplan_circuits.home.called import feed_called
from floorplan_circuits.home.home import FeedPlace, Home, feeds
from floorplan_circuits.home.integrity import behind_ends
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.record import change
from floorplan_circuits.supply.numbering import mark

OF_A_FEED = frozenset({"returns", "volts", "part", "note"})
NOT_TIED = "Say first which breaker it hangs on."


@edit
def hang_behind(home: Home, feed: int, other: int) -> Edited:
    """Say that a feed is in series behind another: a ground-fault device, a transformer, a local disconnect.

    Raises `Refused` where it would come to hang behind itself.
    """
    place, before = feed_there(home, feed), feed_there(home, other)
    after = sound(home, _on(home, place, Behind(how="behind", feed=other)), behind_ends)
    return Edited(after, f"Hang {feed_called(place)} behind {feed_called(before)}")


@edit
def hang_on_source(home: Home, feed: int, source: int) -> Edited:
    """Say that a feed is supplied by a source of its own, by no breaker."""
    place, found = feed_there(home, feed), there(home.sources, source, "source")
    supply = FromSource(kind="source", source=source)
    return Edited(_on(home, place, _any(supply)), f"Hang {feed_called(place)} on {found.name}")


@edit
def hang_elsewhere(home: Home, feed: int, where: str = "") -> Edited:
    """Say that a feed is supplied from outside what is recorded: a neighbour, the house service."""
    place = feed_there(home, feed)
    supply = FromElsewhere(kind="elsewhere", where=" ".join(where.split()))
    return Edited(_on(home, place, _any(supply)), f"{feed_called(place)} comes from elsewhere")


@edit
def disconnect(home: Home, feed: int, *, seen_by: str = "", date: str) -> Edited:
    """Say that a feed is connected to nothing: somebody saw both its ends."""
    place = feed_there(home, feed)
    on = Disconnected(how="disconnected", seen_by=" ".join(seen_by.split()), date=date)
    return Edited(_on(home, place, on), f"{feed_called(place)} is connected to nothing")


@edit
def also_on(home: Home, feed: int, breaker: int) -> Edited:
    """Say that a feed that is tied hangs on a further breaker as well: a loop, live if any of them is on."""
    place, found = feed_there(home, feed), there(home.breakers, breaker, "breaker")
    on = place.feed.on
    if not isinstance(on, Supplied):
        raise Refused(NOT_TIED)
    called = mark(home.panels.get(found.panel), found)
    if any(isinstance(one, FromBreaker) and one.breaker == breaker for one in on.supplies):
        raise Refused(f"{feed_called(place)} hangs on {called} already.")
    more = FromBreaker(kind="breaker", breaker=breaker)
    after = _on(home, place, change(on, supplies=(*on.supplies, more)))
    return Edited(after, f"{feed_called(place)} hangs on {called} as well")


@edit
def live_if(home: Home, feed: int, how: Literal["any", "all"]) -> Edited:
    """Say whether a feed of several supplies is live if any of them is (a loop), or works only on all (across two)."""
    place = feed_there(home, feed)
    if not isinstance(place.feed.on, Supplied):
        raise Refused(NOT_TIED)
    words = "if any of its supplies is on" if how == "any" else "only if all its supplies are on"
    return Edited(_on(home, place, change(place.feed.on, how=how)), f"{feed_called(place)} works {words}")


@edit
def set_feed(home: Home, feed: int, **fields: object) -> Edited:
    """Change fields of a feed: which neutral it returns by, its volts, its part, its note."""
    only(fields, OF_A_FEED)
    place = feed_there(home, feed)
    after, _ = with_feeds(home, {feed}, lambda one, _device: change(one, **fields))
    return Edited(after, f"Edit {feed_called(place)}")


def _any(supply: FromSource | FromElsewhere) -> Supplied:
    return Supplied(how="any", supplies=(supply,))


def _on(home: Home, place: FeedPlace, on: Hangs) -> Home:
    return with_feeds(home, {place.feed.id}, lambda feed, _device: hung(feed, on))[0]


# --- all of it as one choice ------------------------------------------------------------------------------------------


class Hanging(NamedTuple):
    """What a feed hangs on, as a list offers it: how, and the breakers, the feed or the source that it is by."""

    how: Literal["not known", "breaker", "behind", "source", "elsewhere", "disconnected", "several"]
    of: tuple[int, ...] = ()


NOBODY_KNOWS, FROM_ELSEWHERE, ON_NOTHING = Hanging("not known"), Hanging("elsewhere"), Hanging("disconnected")


def hanging(on: Hangs) -> Hanging:
    """Return what a feed hangs on as one choice; what several supplies make is no choice but told as it is."""
    match on:
        case Behind():
            return Hanging("behind", (on.feed,))
        case Disconnected():
            return ON_NOTHING
        case Supplied():
            found = list(dict.fromkeys(_one(supply) for supply in on.supplies))
            return found[0] if len(found) == 1 else Hanging("several", tuple(one for each in found for one in each.of))
    return NOBODY_KNOWS


def _one(supply: Supply) -> Hanging:
    match supply:
        case FromBreaker():
            return Hanging("breaker", (supply.breaker,))
        case FromSource():
            return Hanging("source", (supply.source,))
    return FROM_ELSEWHERE


def hang(home: Home, feed: int, way: Hanging, *, date: str) -> Edited:
    """Hang a feed as was chosen; `date` is the day on which both ends of what is disconnected were seen."""
    match way:
        case ("breaker", (breaker,)):
            return tie(home, [feed], breaker)
        case ("behind", (other,)):
            return hang_behind(home, feed, other)
        case ("source", (source,)):
            return hang_on_source(home, feed, source)
        case ("elsewhere", _):
            return hang_elsewhere(home, feed)
        case ("disconnected", _):
            return disconnect(home, feed, date=date)
    return untie(home, [feed])


def ways_to_hang(home: Home, feed: int, marks: Mapping[int, str]) -> Iterator[tuple[str, Hanging]]:
    """Yield all that a feed can be said to hang on, in words: breakers, what may stand before it, sources, the rest."""
    yield "not known", NOBODY_KNOWS
    yield from ((mark, Hanging("breaker", (one,))) for one, mark in marks.items() if one in home.breakers)
    yield from (
        (f"behind {feed_called(place)}", Hanging("behind", (place.feed.id,)))
        for place in guards(home)
        if place.feed.id != feed
    )
    yield from ((f"from {source.name}", Hanging("source", (source.id,))) for source in home.sources)
    yield "from elsewhere", FROM_ELSEWHERE
    yield "nothing: I saw both ends", ON_NOTHING


def guards(home: Home) -> tuple[FeedPlace, ...]:
    """Return the feeds that others may stand behind by what they are of, and those behind which any is said to be."""
    places = list(feeds(home))
    before = {place.feed.on.feed for place in places if isinstance(place.feed.on, Behind)}
    return tuple(place for place in places if place.feed.id in before or in_series(place))


def in_series(place: FeedPlace) -> str:
    """Return what a feed is to those behind it: 'ground fault', 'transformer', or nothing."""
    return kind_named(place.device.kind).in_series if place.device is not None else ""
