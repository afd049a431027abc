"""Ties: which breaker a feed is said to hang on. A tie is a claim, never evidence."""

from collections.abc import Callable, Iterable

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit, there
from floorplan_circuits.home.boxes import NOT_KNOWN, Box, Device, Feed, FromBreaker, Hangs, Supplied
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.record import change
from floorplan_circuits.supply.numbering import mark as mark_of

ChangeFeed = Callable[[Feed, Device | None], Feed]


@edit
def tie(home: Home, things: Iterable[int], breaker: int, mark: str = "") -> Edited:
    """Say that boxes, devices or single feeds hang on a breaker. Raises `Refused` if none of them takes power.

    What needs as many hots as the breaker has poles hangs on each of its poles. Where the breaker has more or fewer,
    nobody can tell which, and none is named. `mark` is what the breaker is called, if not after its spaces.
    """
    found = there(home.breakers, breaker, "breaker")
    poles = len(found.poles)

    def tied(feed: Feed, device: Device | None) -> Feed:
        across = 1 < poles == (kind_named(device.kind).hots if device is not None else 1)
        return hung(feed, _across(breaker, poles) if across else _on(breaker))

    after, count = with_feeds(home, set(things), tied)
    if not count:
        raise Refused("Choose devices first: nothing there takes power.")
    return Edited(after, f"Tie {counted(count, 'feed')} to {mark or mark_of(home.panels.get(found.panel), found)}")


@edit
def untie(home: Home, things: Iterable[int]) -> Edited:
    """Say that nobody knows what boxes, devices or feeds hang on."""
    after, count = with_feeds(home, set(things), lambda feed, _device: hung(feed, NOT_KNOWN))
    if not count:
        raise Refused("Choose devices first: nothing there takes power.")
    return Edited(after, f"Untie {counted(count, 'feed')}")


def feeds_of(home: Home, things: Iterable[int]) -> tuple[Feed, ...]:
    """Return all feeds of the boxes, devices and feeds named."""
    wanted = set(things)
    return tuple(feed for box in home.boxes for feed, device in _feeds(box) if _is_meant(feed, device, box, wanted))


def _on(breaker: int) -> Hangs:
    return Supplied(how="any", supplies=(FromBreaker(kind="breaker", breaker=breaker),))


def _across(breaker: int, poles: int) -> Hangs:
    supplies = tuple(FromBreaker(kind="breaker", breaker=breaker, pole=pole) for pole in range(poles))
    return Supplied(how="all", supplies=supplies)


def hung(feed: Feed, on: Hangs) -> Feed:
    """Return a feed on another supply: from now on it is the person who says so, no longer a label."""
    return feed if feed.on == on else change(feed, on=on, said_by="not said" if on is NOT_KNOWN else "person")


def with_feeds(home: Home, wanted: set[int], changed: ChangeFeed) -> tuple[Home, int]:
    """Return the home with these feeds, or those of these devices and boxes, changed, and how many they are."""
    boxes, count = home.boxes, 0
    for box in home.boxes:
        meant = {feed.id for feed, device in _feeds(box) if _is_meant(feed, device, box, wanted)}
        if meant:
            boxes = boxes.put(_with_box_feeds(box, meant, changed))
            count += len(meant)
    return (change(home, boxes=boxes) if count else home), count


def _feeds(box: Box) -> list[tuple[Feed, Device | None]]:
    inside: list[tuple[Feed, Device | None]] = [(feed, device) for device in box.devices for feed in device.feeds]
    return inside + [(feed, None) for feed in box.passing]


def _is_meant(feed: Feed, device: Device | None, box: Box, wanted: set[int]) -> bool:
    """Tell whether a feed is meant: itself, its device, or a whole box (its devices, not what only passes)."""
    if feed.id in wanted or (device is not None and device.id in wanted):
        return True
    return box.id in wanted and (device is not None or not box.devices)


def _with_box_feeds(box: Box, meant: set[int], changed: ChangeFeed) -> Box:
    devices = tuple(
        change(device, feeds=tuple(changed(feed, device) if feed.id in meant else feed for feed in device.feeds))
        for device in box.devices
    )
    passing = tuple(changed(feed, None) if feed.id in meant else feed for feed in box.passing)
    return change(box, devices=devices, passing=passing)
