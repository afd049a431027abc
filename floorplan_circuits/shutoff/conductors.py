"""What to test in an open box: every conductor of every device, each half, and every cable that passes or was seen.

Where nothing says how many conductors may be live, more are told rather than fewer.
"""

from collections.abc import Iterator

from floorplan_circuits.findings import Findings, Pair, ToTest
from floorplan_circuits.home.boxes import Box, Device, Feed, FromBreaker, Supplied
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named, only_holds_cables

FIRST: tuple[Pair, ...] = ("hot to ground", "hot to neutral", "neutral to ground")
FURTHER: tuple[Pair, ...] = ("hot to ground", "hot to neutral")
"""Pairs of a further conductor beside the same neutral."""
HOT_TO_HOT: tuple[Pair, ...] = ("hot to hot",)
TERMINALS = {
    "three-way switch": ("common", "traveller 1", "traveller 2"),
    "four-way switch": ("terminal 1", "terminal 2", "terminal 3", "terminal 4"),
}
"""What a switch is tested at, where it is more than two terminals (common practice, no source)."""
TWO_TERMINALS = ("terminal 1", "terminal 2")
ONE_HOT = ("receptacle", "light")
"""Groups of kinds in which the kind itself tells how many conductors are hot."""
ANYTHING_ELSE = "any other conductor or splice in it"


def to_test(box: Box, findings: Findings) -> tuple[ToTest, ...]:
    """Return what to test in a box, gang by gang, then cables that pass, then those that somebody saw in it."""
    return (
        *(row for device in box.devices if not device.planned for row in _device(box, device, findings.home)),
        *(row for feed in box.passing for row in _hots(box, feed, _passing_called(feed), _poles(feed, findings.home))),
        *_seen(box, findings),
        ToTest(box.id, None, ANYTHING_ELSE, FIRST),
    )


# --- devices --------------------------------------------------------------------------------------------------------


def _device(box: Box, device: Device, home: Home) -> Iterator[ToTest]:
    kind = kind_named(device.kind)
    named = device.name or kind.label
    if only_holds_cables(device, box):
        return  # it only holds the cables that pass
    if kind.group == "switch":
        yield from _switch(box, device, named)
        return
    for part, feed in _parts(device, kind.parts if kind.group == "receptacle" else ()):
        yield from _hots(box, feed, f"{named}, {part}" if part else named, _device_hots(device, feed, home))


def _switch(box: Box, device: Device, named: str) -> Iterator[ToTest]:
    """Yield the terminals of a switch: with it off its load side is dead, and the other one may be live."""
    for feed in device.feeds or (None,):
        called = f"{named}, {feed.part}" if feed is not None and feed.part else named
        for nth, terminal in enumerate(TERMINALS.get(device.kind, TWO_TERMINALS)):
            pairs = FURTHER if nth else FIRST
            yield ToTest(box.id, feed.id if feed is not None else None, f"{called}, {terminal}", pairs)


def _parts(device: Device, halves: tuple[str, ...]) -> Iterator[tuple[str, Feed | None]]:
    """Yield each part of a device with its feed: every half of a receptacle, whether or not a feed names it."""
    whole = next((feed for feed in device.feeds if not feed.part), None)
    for half in halves:
        own = tuple(feed for feed in device.feeds if feed.part == half)  # two of one name are a slip, and both enter
        yield from ((half, feed) for feed in own or (whole,))
    for feed in device.feeds:
        if feed.part not in halves and (feed.part or not halves or len(device.feeds) > 1):
            yield feed.part, feed
    if not halves and not device.feeds:
        yield "", None


def _device_hots(device: Device, feed: Feed | None, home: Home) -> int:
    kind = kind_named(device.kind)
    is_all = feed is not None and isinstance(feed.on, Supplied) and feed.on.how == "all"
    return kind.hots if kind.group in ONE_HOT and not is_all else max(kind.hots, _poles(feed, home))


# --- cables ---------------------------------------------------------------------------------------------------------


def _passing_called(feed: Feed) -> str:
    return f"cable that passes, {feed.part}" if feed.part else "cable that passes"


def _seen(box: Box, findings: Findings) -> Iterator[ToTest]:
    """Yield the cables that somebody saw in the box and that the map does not have there."""
    own = {feed.id for feed in box.feeds()}
    marks = {feed.id: other.mark for other in findings.home.boxes for feed in other.feeds()}
    found = findings.boxes.get(box.id)
    for cable in found.seen if found is not None else ():
        if cable.feed is None or cable.feed not in own:
            what = f"cable of {marks[cable.feed]}" if cable.feed in marks else "cable that nobody knows"
            called = f"{what}, seen at {cable.enters}" if cable.enters else f"{what}, seen in it"
            yield ToTest(box.id, cable.feed, called, (*FIRST, *HOT_TO_HOT))


# --- hots -----------------------------------------------------------------------------------------------------------


def _poles(feed: Feed | None, home: Home) -> int:
    """Return how many conductors of a feed may be hot by the poles that supply it, at least one."""
    if feed is None or not isinstance(feed.on, Supplied):
        return 1
    each = [
        len(home.breakers[one.breaker].poles) if one.pole is None and one.breaker in home.breakers else 1
        for one in feed.on.supplies
        if isinstance(one, FromBreaker)
    ]
    return max(1, sum(each) if feed.on.how == "all" else max(each, default=1))


def _hots(box: Box, feed: Feed | None, what: str, hots: int) -> Iterator[ToTest]:
    """Yield each hot conductor of one feed; of two the second is tested against the first, of more each in turn."""
    number = feed.id if feed is not None else None
    for nth in range(hots):
        called = f"{what}, hot {nth + 1}" if hots > 1 else what
        between = HOT_TO_HOT if hots > 2 or nth == 1 else ()
        yield ToTest(box.id, number, called, (*(FURTHER if nth else FIRST), *between))
