"""Switches and what they work: on different circuits, or several switches of one group on different circuits."""

from collections.abc import Iterator
from itertools import combinations
from typing import NamedTuple

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.phrases import device_called, listed, numbers, place_of, thing_called
from floorplan_circuits.hazards.ranks import SECOND_CIRCUIT
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.home.boxes import Box, Control, Device
from floorplan_circuits.home.home import FeedPlace

SWITCH_WHY = "With the circuit off of what it works, the switch is still live; the other way round likewise."
SWITCHES_WHY = "With one of these circuits off, wires between the switches can be live from the other."
SOURCE = (
    "Common practice, no source; BS 7671 (18th edition) 314.4, where it applies: each circuit is electrically "
    "separate from every other. Local code governs."
)


class _Switch(NamedTuple):
    """A switch of a group, and the breakers that it is on."""

    box: Box
    device: Device
    breakers: tuple[int, ...]


def switches_on_other_circuits(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazards of each switching group that joins circuits: its switches apart, else a switch and its loads.

    A group worked by radio shares no wire and is left out, as is what is low voltage or of which nobody knows.
    """
    devices = {device.id: (box, device) for box in scene.home.boxes for device in box.devices if not device.planned}
    for control in scene.home.controls:
        if control.by == "radio":
            continue
        switches = [_switch(*devices[one], scene) for one in control.switches if one in devices]
        pair = next((two for two in combinations(switches, 2) if _are_apart(*two, scene)), None)
        if pair is not None:
            yield _switches_apart(control, switches, scene)
            continue
        for switch in switches:
            loads = [place for place in _loads(control, scene) if _is_elsewhere(place, switch, scene)]
            if loads:
                yield _loads_apart(switch, loads, scene)
                break


def _switch(box: Box, device: Device, scene: Scene) -> _Switch:
    return _Switch(box, device, scene.breakers_of(feed.id for feed in device.feeds if feed.volts != "low"))


def _are_apart(one: _Switch, other: _Switch, scene: Scene) -> bool:
    return scene.are_apart(one.breakers, other.breakers)


def _loads(control: Control, scene: Scene) -> list[FeedPlace]:
    places = (scene.feeds.get(feed) for feed in control.feeds)
    return [place for place in places if place is not None and place.feed.volts != "low"]


def _is_elsewhere(place: FeedPlace, switch: _Switch, scene: Scene) -> bool:
    return place.box.id in scene.boxes and scene.are_apart(switch.breakers, scene.breakers_of([place.feed.id]))


def _switches_apart(control: Control, switches: list[_Switch], scene: Scene) -> Hazard:
    known = [one for one in switches if one.breakers]
    marks, breakers = scene.found.marks, scene.in_order(breaker for one in known for breaker in one.breakers)
    first = known[0].box.id
    named = f"the switches of ‘{control.name}’" if control.name else "the switches of one group"
    each = listed([f"{numbers(one.breakers, marks)} ({one.box.mark})" for one in known])
    return scene.in_box(
        "switches on two circuits",
        first,
        f"{place_of(scene.boxes[first])}: {named} are on {each}.",
        SWITCHES_WHY,
        scene.to_do([one.box.id for one in known], breakers),
        SOURCE,
        SECOND_CIRCUIT,
        breakers=breakers,
        about=[number for one in known for number in (one.box.id, one.device.id)],
    )


def _loads_apart(switch: _Switch, loads: list[FeedPlace], scene: Scene) -> Hazard:
    marks, load, box = scene.found.marks, loads[0], switch.box.id
    on = scene.breakers_of(place.feed.id for place in loads)
    more = f" and {len(loads) - 1} more" if len(loads) > 1 else ""
    says = (
        f"{place_of(scene.boxes[box])}: {device_called(switch.device)} is on {numbers(switch.breakers, marks)}, "
        f"what it works ({thing_called(load)} in {load.box.mark}{more}) on {numbers(on, marks)}."
    )
    return scene.in_box(
        "switch on another circuit",
        box,
        says,
        SWITCH_WHY,
        scene.to_do([box], on),
        SOURCE,
        SECOND_CIRCUIT,
        breakers=scene.in_order((*switch.breakers, *on)),
        about=[switch.device.id, *(number for place in loads for number in (place.box.id, place.feed.id))],
    )
