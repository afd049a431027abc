"""Shutting off: which boxes a click picks, which handles a click flips on the screen, and what was found afterwards."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from floorplan_circuits.edits.edited import Edited, Refused, there
from floorplan_circuits.edits.recording import record_change, record_round
from floorplan_circuits.edits.seen import found_off, handle_called
from floorplan_circuits.findings import Findings, ShutOff, Subject
from floorplan_circuits.home.called import feed_called
from floorplan_circuits.home.handling import to_open
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.troubles import keep_off

SAYS = "Click each box that you want to open, or a room’s name for all in it. Click again to take it out."
FLIPPED_SAYS = "On the screen alone: nothing is turned in the house."
NOTHING_OFF = "Flip first on the panel what you turned off: a reading counts only with what was off beside it."
NOTHING_PICKED = "Choose the box you want to open."
MOST_NAMED = 5
"""So many boxes or handles are named in the status line; of more their count is told."""
CHANGES = {"Rewired": "rewired", "Cover plates mixed up": "plates mixed up", "Something else": "unknown work"}
"""What may have changed in a box, in words, and as the log has it."""


# --- picking --------------------------------------------------------------------------------------------------------


def boxes_of(subject: Subject | None, findings: Findings) -> tuple[int, ...]:
    """Return the boxes that a click on something means: a box, that of a device, all of a room."""
    if subject is None:
        return ()
    built = (box for box in findings.home.boxes if box.id in findings.boxes)
    if subject.kind == "room":
        return tuple(box.id for box in built if findings.room_of.get(box.id) == subject.id)
    if subject.kind == "device":
        return tuple(box.id for box in built if any(device.id == subject.id for device in box.devices))
    return tuple(box.id for box in built if subject.kind == "box" and box.id == subject.id)


def picked(now: tuple[int, ...], clicked: Iterable[int]) -> tuple[int, ...]:
    """Return what is picked after a click: all that was clicked is added, or taken out where all was in already."""
    boxes = tuple(clicked)
    if boxes and set(boxes) <= set(now):
        return tuple(box for box in now if box not in boxes)
    return tuple(dict.fromkeys((*now, *boxes)))


def asks_for(plan: ShutOff, findings: Findings) -> str:
    """Return what a shut-off asks for, for the status line: first which boxes are not to be opened."""
    shut = [one for one in plan.states if one.box in plan.stay_shut]
    boxes = _listed([findings.home.boxes[box].mark for box in plan.boxes if box not in plan.stay_shut])
    if shut:
        says = "; ".join(dict.fromkeys(one.says for one in shut))
        closed = [findings.home.boxes[one.box] for one in shut]
        bare = {box.is_bare for box in closed}
        do = " or ".join(word for word, is_bare in (("open", False), ("touch", True)) if is_bare in bare)
        never = f"Don’t {do} {_listed([box.mark for box in closed])}: {says}."
        return f"{never} {_asks(boxes, plan, findings) if boxes else _no_way_in(plan)}"
    return _asks(boxes, plan, findings)


def _no_way_in(plan: ShutOff) -> str:
    if plan.off:
        return "Find out first what feeds it, or call a licensed electrician."
    return "For it no handle is known that makes it dead. Treat it as live."


def _asks(boxes: str, plan: ShutOff, findings: Findings) -> str:
    handles = _listed([findings.marks[handle] for one in plan.off for handle in one.handles])
    if not handles:
        return f"To open {boxes}: no handle is known that makes it dead. Treat it as live."
    does = to_open(findings.home, [handle for one in plan.off for handle in one.handles], handles)
    return f"To open {boxes} {does[:1].lower()}{does[1:]}, then test. On the screen alone they are off now."


def _listed(marks: Sequence[str]) -> str:
    if len(marks) > MOST_NAMED:
        return f"these {len(marks)}"
    return " and ".join(filter(None, (", ".join(marks[:-1]), *marks[-1:])))


# --- flipping -------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Flip:
    """The handles that are off on the screen after a click, and what to say of it."""

    handles: frozenset[int]
    says: str


def flipped(now: frozenset[int], home: Home, handle: int) -> Flip:
    """Return what is off on the screen after a click on a handle; what is tied by the factory moves along.

    Raises `Refused` for one that is gone, and for one that was found off: it stays as it was found.
    """
    called, resting = handle_called(home, handle), found_off(home)
    if handle in resting:
        why = home.breakers[handle].found.why
        raise Refused(f"{called} was found off{f' ({why})' if why else ''}: it stays as it was found.")
    group = moves_together(home).get(handle, frozenset({handle}))
    moved = f"{_named(home, group)} {'is' if len(group) == 1 else 'are'}"
    if handle in now:
        return Flip(now - group, f"{moved} on again. {FLIPPED_SAYS}")
    return Flip(now | group, " ".join((f"{moved} off.", *_mind(home, group), FLIPPED_SAYS)))


def _named(home: Home, handles: Iterable[int]) -> str:
    return " and ".join(handle_called(home, one) for one in sorted(handles))


def _mind(home: Home, handles: Iterable[int]) -> Iterable[str]:
    """Yield what a person must know before doing in the house what the screen shows."""
    never = keep_off(home, LogBook(home))
    for handle in sorted(handles):
        breaker = home.breakers.get(handle)
        if breaker is None:
            continue
        words = ": ".join(part for part in (breaker.may_open.whose, breaker.may_open.why) if part)
        if handle in never:
            yield f"In the house leave it alone: it {never[handle]}{f' ({words})' if words else ''}."
        elif breaker.may_open.may == "ask":
            yield f"Ask {words or 'first'} before it goes off."


# --- afterwards -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Told:
    """How what was found was found: the way of testing, whether the tester was proved before and after, and by whom."""

    way: str = ""
    tester_before: bool = False
    tester_after: bool = False
    who: str = ""


def to_test(findings: Findings, boxes: Iterable[int]) -> tuple[FeedPlace, ...]:
    """Return the feeds of the picked boxes, in the order of the pick, and those that somebody saw in them besides.

    What is only planned is left out.
    """
    places = {place.feed.id: place for place in existing_feeds(findings.home)}
    found: dict[int, FeedPlace] = {}
    for box in boxes:
        found |= {feed: place for feed, place in places.items() if place.box.id == box}
        seen = findings.boxes[box].seen if box in findings.boxes else ()
        found |= {cable.feed: places[cable.feed] for cable in seen if cable.feed is not None and cable.feed in places}
    return tuple(found.values())


def found(home: Home, off: Iterable[int], readings: Sequence[tuple[int, str]], told: Told, date: str) -> Edited:
    """Record in one round what feeds showed with these handles off.

    Raises `Refused` where nothing was off, where the way of testing is not said, and as recording does.
    """
    handles = frozenset(off)
    if not handles:
        raise Refused(NOTHING_OFF)
    if not told.way:
        raise Refused("Say how you tested.")
    return record_round(
        home,
        handles,
        readings,
        method=told.way,
        tester_before=told.tester_before,
        tester_after=told.tester_after,
        date=date,
        who=told.who,
    )


def stop_sentence(home: Home, off: Iterable[int], readings: Iterable[tuple[int, str]]) -> str:
    """Return what to say where something was found live with handles off; nothing where nothing was."""
    live = {feed for feed, says in readings if says == "live"}
    places = [place for place in existing_feeds(home) if place.feed.id in live]
    if not places:
        return ""
    called = " and ".join(feed_called(place) for place in places)
    boxes = " and ".join(dict.fromkeys(place.box.mark for place in places))
    was, off_too = "was" if len(places) == 1 else "were", _named(home, off)
    state = f" with {off_too} off" if off_too else ""
    return (
        f"Stop: {called} {was} found live{state}. Keep out of {boxes} and treat it as live whatever is off. "
        "Find out what feeds it, or call a licensed electrician."
    )


def changed(home: Home, boxes: Sequence[int], what: str, date: str, who: str) -> Edited:
    """Record that something changed in these boxes: what was tested there before expires. Raises `Refused` for none."""
    if not boxes:
        raise Refused(NOTHING_PICKED)
    marks = [there(home.boxes, box, "box") for box in boxes]
    return record_change(home, [box.id for box in marks], (), CHANGES.get(what, "unknown work"), date=date, who=who)
