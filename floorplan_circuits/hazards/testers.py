"""What a receptacle tester found wrong, and devices that have no ground."""

from collections.abc import Iterator
from typing import NamedTuple

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.phrases import device_called, listed, number, place_of
from floorplan_circuits.hazards.ranks import AT_TIMES, BY_A_FAULT, NOT_KNOWN, OUT_OF_DATE, SECOND_CIRCUIT
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.days import written
from floorplan_circuits.home.log import ReceptacleTest
from floorplan_circuits.survey.log_book import day

SOURCE = "Common practice, no source."
CANNOT = "Such a tester does not see two faults at once, a poor ground, or a neutral joined or swapped with ground."


class _Fault(NamedTuple):
    """What a fault means for a hand, and its rank."""

    means: str
    rank: int


FAULTS = {
    "open ground": _Fault("Nothing may carry a fault away: metal that is touched can become live.", BY_A_FAULT),
    "open neutral": _Fault("It seems dead, and its hot is live.", AT_TIMES),
    "open hot or dead": _Fault("A dark tester is no proof of dead: what else is in the box may be live.", NOT_KNOWN),
    "hot and neutral reversed": _Fault("What is switched off there stays live.", OUT_OF_DATE),
    "hot and ground reversed": _Fault(
        "Metal that is touched may be live; more often it is an open neutral with a load on it.", SECOND_CIRCUIT
    ),
    "other": _Fault("Nobody knows what it means.", NOT_KNOWN),
}
NO_GROUND_WHY = "Against a ground that is not there every reading can be 0 with the hot live."
NO_GROUND_DO = "Test each hot against a reference that was proved, never against the box alone."


def tester_faults(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each device of which the last test that counts showed a fault, and no change came after."""
    last = _last_tests(scene)
    for box, device in _built(scene):
        test = last.get(device.id)
        if test is None or test[1].shows not in FAULTS or _is_older(test[0], box, scene):
            continue
        fault, shown = FAULTS[test[1].shows], test[1]
        told = f"{shown.shows} on {written(day(shown))}" if shown.date else shown.shows
        yield scene.in_box(
            "receptacle tester's fault",
            box.id,
            f"{place_of(scene.boxes[box.id])}: a receptacle tester showed {told} at {device_called(device)}.",
            f"{fault.means} {CANNOT}",
            scene.to_do([box.id]),
            SOURCE,
            fault.rank,
            breakers=scene.breakers_of(feed.id for feed in device.feeds),
            about=[device.id],
        )


def _last_tests(scene: Scene) -> dict[int, tuple[int, ReceptacleTest]]:
    """Return the last test of each device with its place in the log.

    One that a newer program wrote more of may show something else than it says: it takes no earlier fault back.
    """
    found: dict[int, tuple[int, ReceptacleTest]] = {}
    for place, entry in scene.record.entries:
        if isinstance(entry, ReceptacleTest):
            readable = not entry.extras() and entry.id not in scene.record.named_by_unknown
            if readable or entry.shows != "correct":
                found[entry.device] = place, entry
    return found


def _is_older(place: int, box: Box, scene: Scene) -> bool:
    return place < max(scene.record.changed_boxes.get(box.id, -1), scene.record.changed_anything)


def _built(scene: Scene) -> Iterator[tuple[Box, Device]]:
    for found in scene.boxes:
        box = scene.box(found)
        yield from ((box, device) for device in box.devices if not device.planned)


def devices_without_ground(scene: Scene) -> Iterator[Hazard]:
    """Yield one hazard for each room with devices that are said to have no ground; boxes in no room each their own."""
    rooms: dict[tuple[str, int], dict[int, list[int]]] = {}
    for box, device in _built(scene):
        if device.ground == "absent":
            room = scene.boxes[box.id].room
            key = ("box", box.id) if room is None else ("room", room)
            rooms.setdefault(key, {}).setdefault(box.id, []).append(device.id)
    for boxes in rooms.values():
        yield _no_ground(boxes, scene)


def _no_ground(boxes: dict[int, list[int]], scene: Scene) -> Hazard:
    first = scene.boxes[next(iter(boxes))]
    devices = [device for some in boxes.values() for device in some]
    marks = [scene.box(box).mark for box in boxes]
    where = "" if len(boxes) == 1 else f" in {listed(marks)}"
    what = "a device has" if len(devices) == 1 else f"{number(len(devices))} devices have"
    return Hazard(
        "no ground",
        first.box if len(boxes) == 1 else None,
        f"{place_of(first)}: {what} no ground{where}.",
        NO_GROUND_WHY,
        NO_GROUND_DO,
        SOURCE,
        BY_A_FAULT,
        named=marks[0] if len(boxes) == 1 else f"{len(boxes)} boxes",
        room=first.room,
        room_name=first.room_name,
        level_name=first.level_name,
        about=(*boxes, *devices),
    )
