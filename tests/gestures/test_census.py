"""A census of the third sample: drawn from nothing by hand, level by level, through `step` alone, and counted.

A gesture is a click, a drag, or a tool taken; to turn to another level is none. Measured: 216 for 178 devices (1.21:
one each and 38 kinds taken), 189 for 163 feeds tied (one each and 26 breakers taken), 85 for 36 groups of switches,
55 for 24 rooms with their names. Doors and windows are not drawn here.
"""

from collections.abc import Iterator
from functools import cache

from floorplan_circuits.edits.boxes import MOUNTS
from floorplan_circuits.edits.breakers import add_breaker
from floorplan_circuits.edits.names import rename
from floorplan_circuits.edits.panels import add_panel
from floorplan_circuits.edits.rooms import add_level
from floorplan_circuits.edits.starting import new_home
from floorplan_circuits.edits.typed import Typed
from floorplan_circuits.files.open import open_home
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.drawing_rooms import DrawRoom
from floorplan_circuits.gestures.putting import PutDevice
from floorplan_circuits.gestures.switching import DrawSwitching
from floorplan_circuits.gestures.tying import TieDevices
from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.resources import folder
from tests.gestures.hand import Hand
from tests.gestures.test_count import breakers_of, in_front

COMMON = ("duplex receptacle", "switch")
"""Kinds that every level has: they come last on one level and first on the next."""


class Census:
    """The sample, the hand that draws it anew, and what each of its records has become."""

    def __init__(self) -> None:
        self.sample: Home = open_home(folder("sample_homes") / "house.json").home
        self.hand = Hand(new_home(self.sample.name, self.sample.units))
        self.levels: dict[int, int] = {}
        self.devices: dict[int, int] = {}
        self.breakers: dict[int, int] = {}
        self.took: dict[str, int] = {}
        self.put: list[Device] = []

    def take(self, tool) -> None:
        self.hand.tool = tool
        self.hand.gestures += 1

    def done(self, edited) -> None:
        self.hand.history = self.hand.history.done(edited.home, edited.says)


@cache
def census() -> Census:
    made = Census()
    for level in made.sample.levels:
        edited = add_level(made.hand.home, level.name, level.order + 10)
        made.done(edited)
        made.levels[level.id] = edited.made[0]
    for part, act in (("rooms", rooms), ("devices", devices), ("ties", ties), ("switching", switching)):
        if part == "ties":
            panels(made)
        before = made.hand.gestures
        act(made)
        made.took[part] = made.hand.gestures - before
    return made


def rooms(made: Census) -> None:
    """Drag a rectangle, click the corners of any other room, and type its name."""
    hand = made.hand
    made.take(DrawRoom())
    for room in made.sample.rooms:
        hand.level = made.levels[room.level]
        (x, y), *others = room.outline
        if len(others) == 3 and others[1][0] != x and {others[0], others[2]} == {(others[1][0], y), (x, others[1][1])}:
            hand.drag((x, y), others[1])
        else:
            for corner in (*room.outline, room.outline[0]):
                hand.click(corner)
        made.done(rename(hand.home, "room", hand.asked.id, room.name))
        hand.gestures += 1


def placed(made: Census) -> Iterator[tuple[Box, Device]]:
    for box in made.sample.boxes:
        if box.at is not None:
            yield from ((box, device) for device in box.devices if not device.planned)


def devices(made: Census) -> None:
    """Take each kind once a level, the one in hand first, and click where each of its devices is."""
    in_hand = ""
    for level in made.sample.levels:
        made.hand.level = made.levels[level.id]
        here = [(box, device) for box, device in placed(made) if box.level == level.id]
        kinds = dict.fromkeys(device.kind for _, device in here)
        for kind in sorted(kinds, key=lambda kind: (kind != in_hand, kind in COMMON)):
            if kind != in_hand:
                made.take(PutDevice(kind))
                in_hand = kind
            for box, device in here:
                if device.kind == kind:
                    wall_kind = MOUNTS.get(kind_named(kind).mount) == "wall"
                    outcome = made.hand.click(in_front(box), add=wall_kind and box.mount == "ceiling")
                    made.devices[device.id] = outcome.edit.made[-1]
                    made.put.append(device)


def panels(made: Census) -> None:
    """Set up the panels as they are; what is typed there is counted with the panels, not with the ties."""
    for real in made.sample.panels:
        panel = add_panel(made.hand.home, real.spaces, real.name, real.numbering)
        made.done(panel)
        for breaker in made.sample.breakers:
            if breaker.panel == real.id:
                first, fuse = breaker.poles[0], breaker.device == "fuse"
                typed = Typed(breaker.amps, len(breaker.poles), fuse, 1, breaker.as_found)
                edited = add_breaker(made.hand.home, panel.made[0], first.space, typed, first.half)
                made.done(edited)
                made.breakers[breaker.id] = edited.made[0]


def ties(made: Census) -> None:
    """Take each breaker, and click each device that hangs on it and on nothing else."""
    for breaker, now in made.breakers.items():
        fed = [
            device
            for _, device in placed(made)
            if device.id in made.devices and device.feeds and all(breakers_of(one) == {breaker} for one in device.feeds)
        ]
        if fed:
            made.hand.tool = TieDevices()
            made.hand.click(on=Subject("breaker", now))
            for box in dict.fromkeys(box_now(made, device) for device in fed):
                here = [device for device in fed if box_now(made, device) == box]
                whole = len(here) == len(made.hand.home.boxes[box].devices)
                targets = [Subject("box", box)] if whole else [Subject("device", made.devices[one.id]) for one in here]
                for subject in targets:
                    made.hand.click(on=subject)


def box_now(made: Census, device: Device) -> int:
    number = made.devices[device.id]
    return next(box.id for box in made.hand.home.boxes if any(one.id == number for one in box.devices))


def switching(made: Census) -> None:
    """Click the switches of each group, then what they work."""
    made.take(DrawSwitching())
    of_feed = {feed.id: device.id for _, device in placed(made) for feed in device.feeds}
    for group in made.sample.controls:
        switches = [one for one in group.switches if one in made.devices]
        loads = dict.fromkeys(of_feed[feed] for feed in group.feeds if of_feed.get(feed) in made.devices)
        for nth, one in enumerate(switches):
            made.hand.click(on=Subject("device", made.devices[one]), add=nth > 0)
        for one in loads if switches else ():
            made.hand.click(on=Subject("device", made.devices[one]))


# --- what came of it ------------------------------------------------------------------------------------------------


def test_a_device_takes_one_gesture_and_a_kind_one_more_on_each_level():
    made = census()

    assert len(made.devices) == len(made.put) >= 100
    assert made.took["devices"] <= 1.22 * len(made.devices)


def test_a_tie_takes_one_gesture():
    made = census()
    tied = {feed.id for box in made.hand.home.boxes for feed in box.feeds() if breakers_of(feed)}

    assert len(tied) >= 100
    assert made.took["ties"] <= 1.2 * len(tied)


def test_what_a_switch_works_takes_a_click_a_switch_and_a_click_a_light():
    made = census()
    groups = made.hand.home.controls
    clicks = sum(len(group.switches) + len(group.feeds) for group in groups)

    assert len(groups) >= 30
    assert made.took["switching"] <= clicks + 1
    assert any(len(group.switches) == 2 for group in groups)


def test_a_room_with_its_name_takes_two_gestures_if_it_is_a_rectangle():
    made = census()

    assert len(made.hand.home.rooms) == len(made.sample.rooms)
    corners = sum(len(room.outline) + 2 for room in made.sample.rooms if len(room.outline) != 4)
    plain = sum(len(room.outline) == 4 for room in made.sample.rooms)
    assert made.took["rooms"] <= 1 + 2 * plain + corners


def test_what_came_of_it_is_sound():
    assert problems(census().hand.home) == ()
