"""What else an edit did, in sentences for the status line: feeds without a breaker, readings left without a feed."""

from collections.abc import Iterator

from floorplan_circuits.edits.edited import counted
from floorplan_circuits.edits.off_walls import boxes_off_walls
from floorplan_circuits.home.boxes import Feed, NotKnown, Supplied
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Opened, Round, Traced

LAPPED_MM2 = 100_000
"""From a tenth of a square metre on, two rooms lie over each other on purpose or by mistake, not by a hair."""


def consequences(before: Home, after: Home) -> tuple[str, ...]:
    """Return what happened beside the edit itself, the most dangerous first; nothing if nothing did."""
    return tuple(sentence for rule in RULES for sentence in rule(before, after))


# --- feeds ----------------------------------------------------------------------------------------------------------


def _feeds(home: Home, other: Home) -> dict[int, Feed]:
    """Return the feeds of the boxes that the other home does not have just so."""
    return {feed.id: feed for box in home.boxes if other.boxes.get(box.id) is not box for feed in box.feeds()}


def _feeds_untied(before: Home, after: Home) -> Iterator[str]:
    if before.boxes is after.boxes:
        return
    was, now = _feeds(before, after), _feeds(after, before)
    pairs = [(was[number].on, feed.on) for number, feed in now.items() if number in was and feed is not was[number]]
    lost = sum(isinstance(new, NotKnown) and not isinstance(old, NotKnown) for old, new in pairs)
    if lost:
        yield f"{counted(lost, 'feed has', 'feeds have')} no breaker now: treat as live."
    fewer = sum(
        isinstance(new, Supplied) and isinstance(old, Supplied) and len(new.supplies) < len(old.supplies)
        for old, new in pairs
    )
    if fewer:
        yield f"{counted(fewer, 'feed is', 'feeds are')} said to hang on fewer breakers now."


def _tested_gone(before: Home, after: Home) -> Iterator[str]:
    """Tell what was tested and is no longer there: what was read can still exclude, but prove nothing any more."""
    if before.boxes is not after.boxes:
        gone = _feeds(before, after).keys() - _feeds(after, before).keys()
        gone = gone & _feeds_tested(before) if gone else gone
        if gone:
            yield f"{counted(len(gone), 'feed')} with test readings went with it."
    if before.breakers is not after.breakers:
        gone = _handles_tested(before) & set(before.breakers.ids()) - set(after.breakers.ids())
        if gone:
            yield f"{counted(len(gone), 'breaker')} with test readings went with it."


def _feeds_tested(home: Home) -> set[int]:
    found = {reading.feed for entry in home.log if isinstance(entry, Round) for reading in entry.readings}
    found |= {entry.feed for entry in home.log if isinstance(entry, Traced)}
    seen = (cable.feed for entry in home.log if isinstance(entry, Opened) for cable in entry.cables)
    return found | {feed for feed in seen if feed is not None}


def _handles_tested(home: Home) -> set[int]:
    found = {handle for entry in home.log if isinstance(entry, Round) for handle in entry.off}
    return found | {entry.handle for entry in home.log if isinstance(entry, Traced)}


# --- the rest -------------------------------------------------------------------------------------------------------


def _went_along(before: Home, after: Home) -> Iterator[str]:
    """Tell what stood in a panel or on a level that is gone."""
    levels = set(before.levels.ids()) - set(after.levels.ids())
    panels = set(before.panels.ids()) - set(after.panels.ids())
    if not levels and not panels:
        return
    counts = (
        (sum(room.level in levels for room in before.rooms), "room", ""),
        (sum(box.level in levels for box in before.boxes), "box", "boxes"),
        (sum(panel.level in levels for panel in before.panels), "panel", ""),
        (sum(breaker.panel in panels for breaker in before.breakers), "breaker", ""),
    )
    told = [counted(count, one, many) for count, one, many in counts if count]
    if told:
        yield f"{' and '.join([', '.join(told[:-1]), told[-1]] if told[1:] else told)} went with it."


def _unfed(before: Home, after: Home) -> Iterator[str]:
    panels = [(panel.name, panel.fed_by, before.panels.get(panel.id)) for panel in after.panels]
    lost = [name for name, feeders, was in panels if not feeders and was is not None and was.fed_by]
    if lost:
        yield f"Nothing is said to feed {', '.join(lost)} now."
    sources = [(source.name, source.into, before.sources.get(source.id)) for source in after.sources]
    idle = [name for name, into, was in sources if not into and was is not None and was.into]
    if idle:
        yield f"Nobody says what {', '.join(idle)} reaches now: treat all as live."


def _lapped(before: Home, after: Home) -> Iterator[str]:
    """Tell which rooms came to lie over each other: it is allowed, and the smaller one has the boxes there."""
    if before.rooms is after.rooms:
        return
    fresh = [room for room in after.rooms if before.rooms.get(room.id) is not room]
    for one, other in _pairs(fresh, after):
        old, older = before.rooms.get(one.id), before.rooms.get(other.id)
        if _over(one, other) and not (old is not None and older is not None and _over(old, older)):
            yield f"{one.name} and {other.name} lie over each other: boxes there count for the smaller one."


def _pairs(fresh: list[Room], home: Home) -> Iterator[tuple[Room, Room]]:
    """Yield each of these rooms with every other of its level, no pair twice."""
    done: set[int] = set()
    for one in fresh:
        done.add(one.id)
        yield from ((one, other) for other in home.rooms if other.level == one.level and other.id not in done)


def _over(one: Room, other: Room) -> bool:
    if one.outline == other.outline:
        return True
    if any(_apart(one, other, axis) for axis in (0, 1)):
        return False
    from floorplan_circuits.geometry.overlaps import overlap_mm2  # late: shapely must not delay the first frame

    return overlap_mm2(one.outline, other.outline) >= LAPPED_MM2


def _apart(one: Room, other: Room, axis: int) -> bool:
    ours, theirs = [at[axis] for at in one.outline], [at[axis] for at in other.outline]
    return max(ours) <= min(theirs) or max(theirs) <= min(ours)


RULES = (_feeds_untied, _tested_gone, _went_along, _unfed, _lapped, boxes_off_walls)
