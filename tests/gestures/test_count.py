"""How many gestures a home takes: the first sample drawn, filled and tied by hand, through `step` alone.

A gesture is a click, a drag, a line typed up to Enter, or a tool taken. The aims: two for a room with its name, one for
an opening with its width, one for a device, one for a tie.
"""

from collections.abc import Iterator
from functools import cache
from math import cos, hypot, radians, sin

import pytest

from floorplan_circuits.edits.breakers import add_breaker
from floorplan_circuits.edits.names import rename
from floorplan_circuits.edits.panels import add_panel
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.edits.typed import Typed
from floorplan_circuits.files.open import open_home
from floorplan_circuits.find import find
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.gestures.drawing_rooms import DrawRoom
from floorplan_circuits.gestures.putting import PutDevice
from floorplan_circuits.gestures.putting_openings import PutOpening
from floorplan_circuits.gestures.tying import TieDevices
from floorplan_circuits.home.boxes import Box, Feed, FromBreaker, Supplied
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.resources import folder
from tests.gestures.hand import Hand

IN_FRONT_MM = 80
"""How far in front of its wall a box is clicked: where its symbol stands."""
NEAR_MM = 60


class Drawn:
    """The sample, the hand that drew it anew, what its boxes, devices and breakers are now, and what each part took."""

    def __init__(self) -> None:
        self.sample = open_home(folder("sample_homes") / "cottage.json").home
        self.hand = Hand(new_home(self.sample.name, self.sample.units))
        self.boxes: dict[int, int] = {}
        self.devices: dict[int, int] = {}
        self.breakers: dict[int, int] = {}
        self.took: dict[str, int] = {}

    def counted(self, part: str, before: int) -> None:
        self.took[part] = self.hand.gestures - before

    def take(self, tool) -> None:
        self.hand.tool = tool
        self.hand.gestures += 1


@cache
def drawn() -> Drawn:
    made = Drawn()
    for part, act in (("rooms", rooms), ("openings", openings), ("devices", devices), ("ties", ties)):
        if part == "ties":
            panel(made)
        before = made.hand.gestures
        act(made)
        made.counted(part, before)
    return made


def rooms(made: Drawn) -> None:
    """Drag each room from its first corner to the one across, and type its name."""
    hand = made.hand
    made.take(DrawRoom())
    for room in made.sample.rooms:
        hand.drag(room.outline[0], room.outline[2])
        named = rename(hand.home, "room", hand.asked.id, room.name)
        hand.history = hand.history.done(named.home, named.says)
        hand.gestures += 1


def openings(made: Drawn) -> None:
    """Take each kind once, and drag each from jamb to jamb, which says its place and its width at once."""
    hand = made.hand
    for kind in dict.fromkeys(one.kind for one in made.sample.openings):
        made.take(PutOpening(kind))
        for one in made.sample.openings:
            if one.kind == kind:
                (x, y), along = one.at, radians(one.angle + 90)
                dx, dy = cos(along) * one.width / 2, sin(along) * one.width / 2
                hand.drag((x - dx, y - dy), (x + dx, y + dy))


def devices(made: Drawn) -> None:
    """Take each kind once, and click where each of its devices is."""
    for kind in dict.fromkeys(device.kind for box in made.sample.boxes for device in box.devices):
        made.take(PutDevice(kind))
        for box in made.sample.boxes:
            for device in box.devices:
                if device.kind == kind:
                    outcome = made.hand.click(in_front(box))
                    made.boxes[box.id] = outcome.selected[0].id
                    made.devices[device.id] = outcome.edit.made[-1]


def in_front(box: Box) -> XY:
    (x, y), angle = box.at, radians(box.angle)
    far = IN_FRONT_MM if box.mount in ("wall", "outdoor") else 0
    if box.mount == "loose cable end":  # it stays where it is put, and comes out to the side it is put on
        far = NEAR_MM / 2
    return x + far * cos(angle), y + far * sin(angle)


def panel(made: Drawn) -> None:
    """Set up the panel as it is; what is typed there is counted with the panel, not with the ties."""
    hand = made.hand
    (real,) = made.sample.panels
    edits = [add_panel(hand.home, real.spaces, real.name, real.numbering)]
    for breaker in made.sample.breakers:
        first = breaker.poles[0]
        typed = Typed(breaker.amps, len(breaker.poles), breaker.device == "fuse", 1, breaker.as_found)
        edits.append(add_breaker(edits[-1].home, edits[0].made[0], first.space, typed, first.half))
        made.breakers[breaker.id] = edits[-1].made[0]
    for edited in edits:
        hand.history = hand.history.done(edited.home, edited.says)


def ties(made: Drawn) -> None:
    """Take each breaker, and click what hangs on it: a box, or one device of a box that two breakers enter."""
    for breaker, now in made.breakers.items():
        meant = list(clicks(made, breaker))
        if meant:
            made.hand.tool = TieDevices()
            made.hand.click(on=Subject("breaker", now))
            for subject in meant:
                made.hand.click(on=subject)


def clicks(made: Drawn, breaker: int) -> Iterator[Subject]:
    for box in made.sample.boxes:
        hangs = [all(breakers_of(feed) == {breaker} for feed in device.feeds) for device in box.devices]
        fed = [device for device, on in zip(box.devices, hangs, strict=True) if on and device.feeds]
        if fed and len(fed) == len(box.devices):
            yield Subject("box", made.boxes[box.id])
        elif fed:
            yield from (Subject("device", made.devices[device.id]) for device in fed)


def breakers_of(feed: Feed) -> set[int]:
    on = feed.on
    return {one.breaker for one in on.supplies if isinstance(one, FromBreaker)} if isinstance(on, Supplied) else set()


# --- what came of it ------------------------------------------------------------------------------------------------


def test_a_room_with_its_name_takes_two_gestures():
    made = drawn()

    assert made.took["rooms"] == 1 + 2 * len(made.sample.rooms)
    for ours, theirs in zip(made.hand.home.rooms, made.sample.rooms, strict=True):
        assert ours.name == theirs.name
        assert all(hypot(x - p, y - q) <= NEAR_MM for (x, y), (p, q) in zip(ours.outline, theirs.outline, strict=True))


def test_rooms_that_share_walls_in_the_sample_share_them_here():
    made = drawn()
    inner = [len([wall for wall in find(home).walls if not wall.outer]) for home in (made.hand.home, made.sample)]

    assert inner[0] == inner[1]


def test_an_opening_takes_one_gesture_and_a_kind_one_more():
    made = drawn()

    assert made.took["openings"] == len(made.sample.openings) + 3
    for ours, theirs in zip(_by_place(made.hand.home), _by_place(made.sample), strict=True):
        assert (ours.kind, ours.width) == (theirs.kind, pytest.approx(theirs.width, abs=1))
        assert hypot(ours.at[0] - theirs.at[0], ours.at[1] - theirs.at[1]) <= NEAR_MM


def _by_place(home: Home):
    return sorted(home.openings, key=lambda one: (round(one.at[0], -2), round(one.at[1], -2)))


def test_a_device_takes_one_gesture_and_a_kind_one_more():
    made = drawn()
    put = [device for box in made.sample.boxes for device in box.devices]

    assert made.took["devices"] == len(put) + len({device.kind for device in put})
    assert len(made.boxes) == len(made.hand.home.boxes) == len(made.sample.boxes)


def test_devices_are_where_they_are_in_the_sample():
    made = drawn()
    for theirs in made.sample.boxes:
        ours = made.hand.home.boxes[made.boxes[theirs.id]]
        assert hypot(ours.at[0] - theirs.at[0], ours.at[1] - theirs.at[1]) <= NEAR_MM
        assert (ours.angle == theirs.angle) or theirs.mount not in ("wall", "outdoor")
        assert {device.kind for device in ours.devices} == {device.kind for device in theirs.devices}
        assert room_name(made.hand.home, ours.id) == room_name(made.sample, theirs.id)


@cache
def room_name(home: Home, box: int) -> str:
    room = find(home).room_of[box]
    return "" if room is None else home.rooms[room].name


def test_a_tie_takes_one_gesture_and_a_breaker_one_more():
    made = drawn()
    tied = {feed.id for box in made.hand.home.boxes for feed in box.feeds() if breakers_of(feed)}
    used = {one for box in made.hand.home.boxes for feed in box.feeds() for one in breakers_of(feed)}

    assert made.took["ties"] <= len(tied) + len(used)
    assert len(tied) >= 40


def test_what_came_of_it_is_sound_and_undoes_to_nothing():
    made = drawn()
    history = made.hand.history
    assert problems(history.now) == ()
    assert all(step.says for step in history.past)

    while history.past:
        history = history.undone()
    assert (len(history.now.rooms), len(history.now.boxes)) == (0, 0)
