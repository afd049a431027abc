"""One yoke on two breakers: a receptacle or switch whose halves hang on different circuits."""

from collections.abc import Iterable, Iterator

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.phrases import device_called, numbers, place_of
from floorplan_circuits.hazards.ranks import SECOND_CIRCUIT
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.kinds import kind_named

ON_A_YOKE = ("receptacle", "switch")
TWO_YOKES = "double duplex receptacle"
WHY = "With one of them off, half of the device is dead and looks it; the other half is live."
RULE = (
    "NEC 2023 210.7: where two or more circuits supply devices on one yoke, their hots are disconnected together "
    "where the circuits start."
)


def yokes_on_two_breakers(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each device with two circuits on one yoke that no one handle turns off."""
    for found in scene.boxes.values():
        for device in scene.box(found.box).devices:
            breakers = () if device.planned else _on_one_yoke(device, scene)
            if breakers:
                on = numbers(breakers, scene.found.marks)
                says = f"{place_of(found)}: {device_called(device)} is on {on}, and no handle turns off both."
                if len(breakers) > 2:
                    says = says.replace("turns off both", "turns off all of them")
                yield scene.in_box(
                    "one yoke on two breakers",
                    found.box,
                    says,
                    WHY,
                    scene.to_do([found.box]),
                    scene.rule(breakers, RULE),
                    SECOND_CIRCUIT,
                    breakers=breakers,
                    about=[device.id],
                )


def _on_one_yoke(device: Device, scene: Scene) -> tuple[int, ...]:
    """Return the breakers that meet on one yoke of the device though no handle moves them together; or nothing."""
    if len(device.feeds) < 2 or kind_named(device.kind).group not in ON_A_YOKE:
        return ()
    for feeds in _yokes(device):
        breakers = scene.breakers_of(feeds)
        if _from_two_feeds(feeds, scene) and not set(breakers) <= scene.moved_by(breakers[:1]):
            return breakers
    return ()


def _from_two_feeds(feeds: Iterable[int], scene: Scene) -> bool:
    """Tell whether two of the feeds are on different breakers: one feed on two is no second circuit on the yoke."""
    found = {frozenset(some) for feed in feeds if (some := scene.breakers_of([feed]))}
    return len(found) > 1


def _yokes(device: Device) -> Iterable[list[int]]:
    """Return the feeds of each yoke: a double receptacle has one left and one right, all else has one."""
    yokes: dict[str, list[int]] = {}
    for feed in device.feeds:
        side = feed.part.rpartition(" ")[2] if device.kind == TWO_YOKES else ""
        yokes.setdefault(side, []).append(feed.id)
    return yokes.values()
