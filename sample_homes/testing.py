"""Log entries of an invented home: passes with one breaker off at a time, and boxes that somebody opened."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from floorplan_circuits.home.boxes import Box, Device, Feed, Supplied
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.log import Cable, Method, Opened, Reading, Round, Tester

from .builder import Builder  # relative: the folder is packaged inside the program as well

OTHERS_READ = 4
"""How many points on other circuits are read while one breaker is off."""


@dataclass(frozen=True, slots=True)
class Evening:
    """When, by whom and with what a pass was made. `resting` were found off and stay off; `stubborn` never go dead."""

    date: str
    who: str
    method: Method
    resting: tuple[int, ...] = ()
    stubborn: tuple[Feed, ...] = ()


@dataclass(frozen=True, slots=True)
class Point:
    """A feed that can be read, with the breaker it is stated on, and whether each of two hots was shown."""

    feed: Feed
    breaker: int
    each_hot: bool


def solo_pass(home: Builder, evening: Evening, handles: Sequence[int], boxes: Iterable[Box]) -> None:
    """Log a pass over the boxes' devices: all on, each handle off alone, all on again.

    Of breakers whose handles are tied, `handles` names one: the others go off with it.
    """
    moved = [_moved_with(home, handle) for handle in handles]
    reached = {breaker for together in moved for breaker in together}
    points = [point for box in boxes for device in box.devices for point in _points(device) if point.breaker in reached]
    everything = tuple(_reading(point, "live") for point in points)
    home.log.append(_round(home, evening, (), everything, "All on, at the start"))
    for together in moved:
        home.log.append(_round(home, evening, together, _with_off(together, points, evening), ""))
    home.log.append(_round(home, evening, (), everything, "All on again, at the end"))


def opened(home: Builder, date: str, who: str, *boxes: Box) -> None:
    """Log that somebody looked in the boxes, their breakers off, and told every cable: one for each feed."""
    for box in boxes:
        cables = tuple(
            Cable(enters="top" if at == 0 else "bottom", feed=feed.id) for at, feed in enumerate(box.feeds())
        )
        home.log.append(Opened(id=home.number(), kind="opened", date=date, who=who, box=box.id, cables=cables))


def _points(device: Device) -> Iterable[Point]:
    """Yield what can be read of a device: feeds stated on one breaker."""
    for feed in device.feeds:
        if isinstance(feed.on, Supplied):
            breakers = {supply.breaker for supply in feed.on.supplies if supply.kind == "breaker"}
            if len(breakers) == 1:
                yield Point(feed, min(breakers), kind_named(device.kind).hots > 1)


def _moved_with(home: Builder, handle: int) -> tuple[int, ...]:
    """Return the breaker and all that are tied to it."""
    tie = next(breaker.tie for breaker in home.breakers if breaker.id == handle)
    if tie is None:
        return (handle,)
    return tuple(other.id for other in home.breakers if other.tie is not None and other.tie.group == tie.group)


def _with_off(off: tuple[int, ...], points: Sequence[Point], evening: Evening) -> tuple[Reading, ...]:
    mine = [point for point in points if point.breaker in off]
    others = [point for point in points if point.breaker not in off][:OTHERS_READ]
    said = [_reading(point, "live" if point.feed in evening.stubborn else "dead") for point in mine]
    return (*said, *(_reading(point, "live") for point in others))


def _reading(point: Point, says: str) -> Reading:
    return Reading.model_validate({"feed": point.feed.id, "says": says, "each_hot": point.each_hot})


def _round(home: Builder, evening: Evening, off: tuple[int, ...], readings: tuple[Reading, ...], note: str) -> Round:
    return Round(
        id=home.number(),
        kind="round",
        date=evening.date,
        who=evening.who,
        note=note,
        off=(*off, *evening.resting),
        method=evening.method,
        tester=Tester(before=True, after=True),
        readings=readings,
    )
