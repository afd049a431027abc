"""One box and a panel, without any drawing: what somebody needs who stands before a box with a screwdriver.

All of it stays in the home and waits for the drawing: the box lies in no room until somebody puts it on the plan.
"""

import re
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from floorplan_circuits.edits.breakers import add_breaker, set_breaker
from floorplan_circuits.edits.edited import Edited, Refused, counted, edit
from floorplan_circuits.edits.numbering import Counter, counter, marks_given, next_mark
from floorplan_circuits.edits.panels import MOST_SPACES, add_panel
from floorplan_circuits.edits.typed import Typed
from floorplan_circuits.home.boxes import Box, Control, Device, Feed
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.record import change

WORKED = ("ceiling light", "ceiling fan", "duplex receptacle")
"""What somebody may say that a switch works, where it can be looked at with the box shut."""
ONE_HANDLE = re.compile(r"^(\d{1,3})(?:([AB])|[-·/+](\d{1,3}))?$", re.IGNORECASE | re.ASCII)
EXAMPLE = "1, 3, 5, 6, 7A, 7B, 2·4"


class Gang(NamedTuple):
    """What is in one gang of the box: a kind of device; for a switch, what somebody sees it work by hand.

    `works` is one of `WORKED`, or '' where nobody said: then nothing is stated of it, and nothing shows from outside.
    """

    kind: str
    works: str = ""


class Handle(NamedTuple):
    """A handle as somebody types it: its first space, its last for a wider one, and its half of a space."""

    first: int
    last: int
    half: str | None = None


def read_handles(words: str) -> tuple[Handle, ...]:
    """Read the handles of a panel as they are numbered on it, or how many there are.

    Raises `Refused` with the word that can't be read.

    Examples:
        >>> read_handles("1, 3 15a 2·4")
        (Handle(first=1, last=1, half=None), Handle(first=3, last=3, half=None), Handle(first=15, last=15, half='A'), \
Handle(first=2, last=4, half=None))
        >>> len(read_handles("20"))
        20
    """
    tokens = [token for token in re.split(r"[\s,;]+", words) if token]
    if not tokens:
        raise Refused(f"Say how many breakers the panel has, or type their numbers: {EXAMPLE}.")
    if len(tokens) == 1 and tokens[0].isdecimal():
        return _numbered(int(tokens[0]))
    return tuple(_handle(token) for token in tokens)


def _numbered(count: int) -> tuple[Handle, ...]:
    if not 1 <= count <= MOST_SPACES:
        raise Refused(f"A panel has between 1 and {MOST_SPACES} breakers.")
    return tuple(Handle(number, number) for number in range(1, count + 1))


def _handle(token: str) -> Handle:
    found = ONE_HANDLE.match(token)
    if found is None or not 1 <= int(found[1]) <= MOST_SPACES:
        raise Refused(f"{token!r} is no breaker’s number. Type them as they stand on the panel: {EXAMPLE}.")
    first, half, last = int(found[1]), found[2], found[3]
    return Handle(first, int(last) if last else first, half.upper() if half else None)


@edit
def start_one_box(home: Home, name: str, gangs: Sequence[Gang], handles: str, *, opens_hot_alone: bool) -> Edited:
    """Put a box with these devices, and a panel with these handles if the home has none; nothing is drawn.

    `opens_hot_alone`: somebody knows that the breakers open the hot and no neutral, as usual in North America.
    `made` is the box. Raises `Refused` for no devices, and for handles that can't be read or do not fit the panel.
    """
    if not gangs:
        raise Refused("Say what is in the box: a gang for each device.")
    after = home if len(home.breakers) else _with_panel(home, read_handles(handles), opens_hot_alone=opens_hot_alone)
    called = " ".join(name.split())
    after, box = _with_box(after, called, gangs)
    return Edited(after, f"Name {box.mark}{f', {called}' if called else ''}", (box.id,))


def _with_panel(home: Home, handles: Sequence[Handle], *, opens_hot_alone: bool) -> Home:
    spaces = max(handle.last for handle in handles)
    made = add_panel(home, max(spaces, 2))
    panel, after = made.made[0], made.home
    for handle in handles:
        apart = handle.last - handle.first
        poles = 1 if not apart else apart // 2 + 1
        if apart < 0 or apart % 2:
            raise Refused(f"{handle.first}·{handle.last}: a breaker of two takes spaces of one column, such as 2·4.")
        put = add_breaker(after, panel, handle.first, Typed(None, poles, False, 1, ""), handle.half)
        after = put.home
        if opens_hot_alone:
            for breaker in put.made:
                after = set_breaker(after, breaker, opens="hot" if poles == 1 else "both hots").home
    return after


def _names(name: str, gangs: Sequence[Gang]) -> Iterator[str]:
    """Yield a name for what is in each gang: the box's, with as much more as tells one from the other."""
    kinds = [gang.kind for gang in gangs]
    for nth, kind in enumerate(kinds, 1):
        repeats = kinds.count(kind) > 1
        label = kind_named(kind).label if repeats or (name and len(kinds) > 1) else ""
        yield " ".join(word for word in (name, label, str(nth) if repeats else "") if word)


def is_switch(kind: str) -> bool:
    """Tell whether a kind is a switch, of which it is asked what it works."""
    return kind_named(kind).group == "switch"


def _with_box(home: Home, name: str, gangs: Sequence[Gang]) -> tuple[Home, Box]:
    ids = counter(home)
    devices = tuple(
        Device(id=ids.new(), slot=slot, kind=gang.kind, name=called, feeds=(Feed(id=ids.new()),))
        for slot, (gang, called) in enumerate(zip(gangs, _names(name, gangs), strict=True), 1)
    )
    box = Box(id=ids.new(), mark=next_mark(home), gangs=max(len(gangs), 1), devices=devices)
    boxes, controls, given = home.boxes.put(box), home.controls, marks_given(home) + 1
    for device, gang in zip(devices, gangs, strict=True):
        if is_switch(gang.kind) and gang.works:
            load = _worked_by(device, gang.works, box, next_mark(home, after=given - marks_given(home)), ids)
            boxes, given = boxes.put(load), given + 1
            worked = tuple(feed.id for feed in load.feeds())
            controls = controls.put(Control(id=ids.new(), switches=(device.id,), feeds=worked, by="hand"))
    after = change(home, boxes=boxes, controls=controls, next_id=ids.next_id, marks_given=given)
    return after, box


def _worked_by(device: Device, kind: str, box: Box, mark: str, ids: Counter) -> Box:
    """Return what a switch is said to work: it tells, with the box shut, whether the switch's hot is dead."""
    if kind not in WORKED:
        raise Refused(f"What a switch works is one of: {', '.join(WORKED)}.")
    where = f"gang {device.slot} of {box.mark}" if box.gangs > 1 else box.mark
    load = Device(id=ids.new(), kind=kind, name=f"what {where} works", feeds=(Feed(id=ids.new()),))
    is_receptacle = kind_named(kind).group == "receptacle"
    return Box(id=ids.new(), mark=mark, mount="wall" if is_receptacle else "ceiling", devices=(load,))


def counted_handles(words: str) -> str:
    """Return how many handles were typed, or what can't be read: for the line below the field."""
    try:
        return f"{counted(len(read_handles(words)), 'breaker')}."
    except Refused as refused:
        return str(refused)


def boxes_alone(home: Home) -> tuple[int, ...]:
    """Return the boxes that somebody named in a home without a drawing: not the lamps; none where rooms are drawn."""
    if home.rooms:
        return ()
    worked = {feed for control in home.controls for feed in control.feeds}
    return tuple(box.id for box in home.boxes if not {feed.id for feed in box.feeds()} <= worked)
