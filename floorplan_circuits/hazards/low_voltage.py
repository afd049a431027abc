"""Low voltage and mains in one box: what seems harmless lies beside what is not."""

from collections.abc import Iterator

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.phrases import place_of
from floorplan_circuits.hazards.ranks import BY_A_FAULT
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.home.boxes import Behind, Box
from floorplan_circuits.home.home import FeedPlace
from floorplan_circuits.home.kinds import kind_named

WHY = "Low-voltage wires get worked on with the mains on, and its conductors are beside them."
SOURCE = "Common practice, no source."


def low_voltage_beside_mains(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each box that low voltage and mains enter.

    What a transformer gives out in its own box is none: it is made for that. What may be mains counts as mains.
    """
    for found in scene.boxes.values():
        low, mains = _feeds(scene.box(found.box), scene)
        if low and mains:
            yield scene.in_box(
                "low voltage beside mains",
                found.box,
                f"{place_of(found)}: low voltage and mains are in one box.",
                WHY,
                scene.to_do([found.box]),
                SOURCE,
                BY_A_FAULT,
                breakers=found.breakers,
                about=low,
            )


def _feeds(box: Box, scene: Scene) -> tuple[list[int], list[int]]:
    if all(feed.volts != "low" for feed in box.feeds()):
        return [], []
    there = [scene.feeds[feed.id] for feed in box.feeds() if feed.id in scene.feeds]
    low = [one.feed.id for one in there if one.feed.volts == "low" and not _is_own_secondary(one)]
    return low, [one.feed.id for one in there if one.feed.volts != "low"]


def _is_own_secondary(place: FeedPlace) -> bool:
    on, device = place.feed.on, place.device
    if device is None or kind_named(device.kind).in_series != "transformer" or not isinstance(on, Behind):
        return False
    return on.feed in {feed.id for feed in device.feeds}
