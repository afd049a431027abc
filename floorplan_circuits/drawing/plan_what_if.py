"""The plan while handles are off: plates tell liveness instead of evidence, and floors that should be dead go bare.

Nothing here is stronger than the findings: what is not proved keeps its look, what nobody knows gets the caution.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Group, Mark, Text
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plates import PLATE_GAP, UNKNOWN_WORD, Liveness, Plate, plate, plate_of, row_width
from floorplan_circuits.findings import WORST_FIRST, BoxFinding, BoxState, Findings, WhatIf, state_in_words
from floorplan_circuits.home.boxes import Box, Feed

STATE_OF: dict[Liveness, BoxState] = {
    "live": "live",
    "unknown": "unknown",
    "caution": "not proved",
    "not proved": "not proved",
    "should be dead": "should be dead",
}
NOT_OPENED = Plate("", "proved", liveness="not opened")
"""The leaf beside the plates of a box that nobody has looked into."""
KEY: tuple[tuple[Plate, BoxState], ...] = (
    (Plate("5", "proved", liveness="live"), "live"),
    (Plate("?", "unknown", liveness="unknown"), "unknown"),
    (Plate("5", "claimed", liveness="not proved"), "not proved"),
    (NOT_OPENED, "not opened"),
    (Plate("5", "proved", liveness="should be dead"), "should be dead"),
)
KEY_SIZE, KEY_PITCH, KEY_GAP = 8.2, 5.0, 4.0
Entering = tuple[int | None, Plate]
"""A feed that enters a box, None for what is not recorded, and its plate."""


def liveness(feed: int | None, box: int, what_if: WhatIf, picked: frozenset[int]) -> Liveness:
    """Return what the plate of a feed tells in a box; what nobody recorded is unknown."""
    found = what_if.feeds.get(feed) if feed is not None else None
    if found is None or found.state == "unknown":
        return "unknown"
    if found.state == "not proved":
        return "caution" if box in picked else "not proved"
    return found.state


def plates_when_off(box: Box, entering: Iterable[Entering], frame: Frame, what_if: WhatIf) -> tuple[Plate, ...]:
    """Return the plates of a box while handles are off, each kind once: never better than the box's own state.

    A cable that somebody saw in it and that is none of its feeds has a plate too, and what makes the box worse than
    all of them a question mark. The leaf of a box that nobody has looked into stands last.
    """
    every = [*entering, *_strange(box, frame.findings)]
    shown = [replace(one, liveness=liveness(feed, box.id, what_if, frame.picked)) for feed, one in every]
    state = what_if.boxes.get(box.id)
    if state is None:
        return tuple(dict.fromkeys(shown))
    rank = WORST_FIRST.index(state.state)
    told = min((WORST_FIRST.index(STATE_OF[one.liveness]) for one in shown), default=len(WORST_FIRST))
    if told > rank and state.state in ("live", "unknown", "not proved"):
        shown.append(Plate(UNKNOWN_WORD, "unknown", liveness="unknown"))
    if state.state == "not opened":
        shown.append(NOT_OPENED)
    return tuple(dict.fromkeys(shown))


def room_when_off(plates: Sequence[Plate], found: BoxFinding | None) -> float:
    """Return how wide in mm the row of these plates may come to be, whatever handles are flipped."""
    lasting = [one for one in plates if one != NOT_OPENED]
    may_be_left = found is None or not found.opened
    with_leaf = may_be_left and all(one.standing == "proved" for one in lasting)
    return row_width([*(_widest(one) for one in lasting), *([NOT_OPENED] if with_leaf else [])])


def room_when_live(plates: Sequence[Plate]) -> float:
    """Return how wide in mm the row of these plates is while all of them are live."""
    return row_width([replace(one, liveness="live") for one in plates if one != NOT_OPENED])


def _widest(shown: Plate) -> Plate:
    """Return a plate as wide as it may come to be: what was tested may get its box to tick, all else bold words."""
    can_be: tuple[Liveness, ...] = ("live", "should be dead") if shown.standing == "proved" else ("live",)
    return max((shown, *(replace(shown, liveness=one) for one in can_be)), key=lambda one: one.width)


def _strange(box: Box, findings: Findings) -> Iterator[Entering]:
    """Yield the cables that somebody saw in a box and that are feeds of another."""
    found, own = findings.boxes.get(box.id), {feed.id for feed in box.feeds()}
    for cable in found.seen if found is not None else ():
        known = findings.conclusions.get(cable.feed) if cable.feed is not None else None
        if known is not None and known.feed not in own:
            yield known.feed, plate_of(known, findings.marks, passing=True)


def is_dead(feeds: Iterable[Feed], frame: Frame) -> bool:
    """Tell whether all these feeds should be dead while handles are off; none of them is never said to be."""
    off = frame.what_if
    if off is None:
        return False
    states = [off.feeds[feed.id].state if feed.id in off.feeds else "unknown" for feed in feeds]
    return bool(states) and all(state == "should be dead" for state in states)


def bare_floors(frame: Frame) -> frozenset[tuple[int, int]]:
    """Return the rooms with the breakers whose floor there is bare: all that hangs on them there should be dead."""
    off, findings = frame.what_if, frame.findings
    if off is None:
        return frozenset()
    every, kept = set[tuple[int, int]](), set[tuple[int, int]]()
    for one in findings.conclusions.values():
        room = findings.room_of.get(one.box)
        if room is not None:
            every |= (here := {(room, breaker) for breaker in one.breakers})
            kept |= here if one.feed not in off.feeds or off.feeds[one.feed].state != "should be dead" else set()
    return frozenset(every - kept)


# --- the key --------------------------------------------------------------------------------------------------------


def what_if_key(wide: float, theme: Theme) -> tuple[Group, float]:
    """Draw what the plates mean while handles are off, in rows of this width in mm; return how high they are."""
    marks: list[Mark] = []
    x, y = 0.0, KEY_PITCH / 2
    for shown, state in KEY:
        words = state_in_words(state)
        taken = shown.width + 3 * PLATE_GAP + width(words, KEY_SIZE)
        if x > 0 and x + taken > wide:
            x, y = 0.0, y + KEY_PITCH
        marks.append(plate(shown, (x + shown.width / 2, y), theme))
        at = (x + shown.width + 3 * PLATE_GAP, y + cap_height(KEY_SIZE) / 2)
        marks.append(Text(at, words, KEY_SIZE, False, theme.ink))
        x += taken + KEY_GAP
    return Group(tuple(marks), None, "; ".join(state_in_words(state) for _, state in KEY)), y + KEY_PITCH / 2
