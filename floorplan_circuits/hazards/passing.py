"""Conductors passing: a circuit runs through a box, and no device in it shows that it is there."""

from collections.abc import Iterator

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.phrases import numbers, place_of
from floorplan_circuits.hazards.ranks import NOT_KNOWN
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.survey.boxes import cables

WHY = "No device in the box shows that circuit: with the devices dead it is still live."
SOURCE = "Common practice, no source."


def conductors_passing(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each box through which circuits pass that none of its devices is on.

    A shared box tells of them itself, so there it is told with the box alone.
    """
    for found in scene.boxes.values():
        through = passing_alone(found.box, scene)
        if through:
            verb = "passes" if len(through) == 1 else "pass"
            says = f"{place_of(found)}: {numbers(through, scene.found.marks)} {verb} through, beside its devices."
            yield scene.in_box(
                "conductors passing",
                found.box,
                says,
                WHY,
                scene.to_do([found.box]),
                SOURCE,
                NOT_KNOWN,
                breakers=through,
                listed=not found.shared,
            )


def passing_alone(box: int, scene: Scene) -> tuple[int, ...]:
    """Return the breakers whose conductors only pass through a box that has devices on something else.

    Cables that somebody saw in it count, whatever box the map has them in. Nothing for a box without devices: there
    all of it passes.
    """
    there = scene.box(box)
    if not there.passing and box not in scene.record.opened:
        return ()
    used = [feed.id for device in there.devices if not device.planned for feed in device.feeds]
    if not used:
        return ()
    seen = (feed for feed in cables(there, scene.record) if feed is not None and feed not in used)
    through = dict.fromkeys((*(feed.id for feed in there.passing), *seen))
    own, entering = scene.breakers_of(used), scene.boxes[box].breakers
    return tuple(one for one in scene.breakers_of(through) if one in entering and one not in own)
