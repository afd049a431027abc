"""Ratings that do not match: a receptacle against its breaker, a conductor against its breaker."""

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.phrases import device_called, place_of
from floorplan_circuits.hazards.ranks import BY_HEAT
from floorplan_circuits.hazards.scene import AMERICAN, Scene
from floorplan_circuits.home.boxes import Device
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.power import Breaker

RECEPTACLES_ON: Mapping[int, tuple[int, ...]] = {15: (15,), 20: (15, 20), 30: (30,), 40: (40, 50), 50: (50,)}
"""Amperes of a circuit -> amperes of the receptacles on it, where there are two or more: Table 210.21(B)(3)."""
LEAST = 15
"""The smallest circuit of the table: on it a receptacle may be of less, too."""
MOST: Mapping[str, Mapping[int, int]] = {
    "copper": {14: 15, 12: 20, 10: 30},
    "aluminium": {12: 15, 10: 25},
    "copper-clad aluminium": {12: 15, 10: 25},
}
"""Metal -> AWG -> the largest breaker in amperes: 240.4(D). Rows of which we are not sure are left out."""
AWG = re.compile(r"\s*#?\s*(\d{1,2})(?:\s*(?:awg|ga|gauge))?\s*", re.IGNORECASE)

SINGLE_WHY = "The breaker lets through more than the receptacle is made for."
SEVERAL_WHY = "The breaker lets through more than one of them is made for, or a plug fits that draws too much."
RECEPTACLE_DO = "Have the wire and the breaker looked at before either is changed."
SINGLE_SOURCE = "NEC 2023 210.21(B)(1): a single receptacle alone on a circuit. Local code governs."
SEVERAL_SOURCE = "NEC 2023 Table 210.21(B)(3): two or more receptacles on a circuit. Local code governs."
CONDUCTOR_WHY = "If not, the wire can overheat before the breaker opens."
CONDUCTOR_DO = "Keep the panel's cover on and ask a licensed electrician."
CONDUCTOR_SOURCE = "NEC 2023 240.4(D), with exceptions in 240.4(E) and (G). Local code governs."


# --- receptacles ----------------------------------------------------------------------------------------------------


class _Misfit(NamedTuple):
    """What a rating does not go with, in words; why it matters; where the rule stands."""

    says: str
    why: str
    source: str


def receptacles_against_breakers(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each receptacle whose stamped rating does not go with its breaker's.

    Only where both are known, and it is on one breaker alone. A duplex counts as two.
    """
    built = [(found, device) for found in scene.boxes.values() for device in scene.box(found.box).devices]
    stamped = [(found, device, device.rated) for found, device in built if device.rated is not None]
    if not stamped:
        return
    counts = _on_each_breaker(scene)
    for found, device, rated in stamped:
        breaker = _its_breaker(device, scene)
        misfit = None if breaker is None else _misfit(_sockets(device), rated, breaker, counts)
        if breaker is not None and misfit is not None:
            on = f"{device_called(device)} is stamped {rated} A and is on circuit {scene.mark(breaker.id)}"
            yield scene.in_box(
                "receptacle and breaker",
                found.box,
                f"{place_of(found)}: {on} of {breaker.amps} A{misfit.says}.",
                misfit.why,
                RECEPTACLE_DO,
                misfit.source,
                BY_HEAT,
                breakers=[breaker.id],
                about=[device.id],
            )


def _misfit(sockets: int, rated: int, breaker: Breaker, counts: "_Counts") -> _Misfit | None:
    """Return what is wrong with a receptacle on its breaker; None for nothing that the rules tell."""
    amps = breaker.amps
    if amps is None:
        return None
    if sockets == 1 and counts.feeds[breaker.id] == 1:
        alone = ", alone: there it is not less as a rule"
        return _Misfit(alone, SINGLE_WHY, SINGLE_SOURCE) if rated < amps else None
    if counts.sockets[breaker.id] > 1 and not _goes_with(rated, amps):
        listed = " or ".join(map(str, RECEPTACLES_ON[amps]))
        most = "at most " if amps == LEAST else ""
        return _Misfit(f", for which the table lists {most}{listed} A", SEVERAL_WHY, SEVERAL_SOURCE)
    return None


def _goes_with(rated: int, amps: int) -> bool:
    """Tell whether the table lists such a receptacle on such a circuit; true where it tells nothing of the circuit."""
    return amps not in RECEPTACLES_ON or rated in RECEPTACLES_ON[amps] or (amps == LEAST and rated < LEAST)


class _Counts(NamedTuple):
    """Breaker -> how many receptacles are on it, and how many feeds of any kind."""

    sockets: Counter[int]
    feeds: Counter[int]


def _on_each_breaker(scene: Scene) -> _Counts:
    sockets, feeds = Counter[int](), Counter[int]()
    for place in scene.feeds.values():
        for breaker in scene.breakers_of([place.feed.id]):
            feeds[breaker] += 1
            if place.device is not None and kind_named(place.device.kind).group == "receptacle":
                sockets[breaker] += _sockets(place.device) if len(place.device.feeds) == 1 else 1
    return _Counts(sockets, feeds)


def _sockets(device: Device) -> int:
    return max(1, len(kind_named(device.kind).parts))


def _its_breaker(device: Device, scene: Scene) -> Breaker | None:
    """Return the breaker of a receptacle that is on one alone, in a panel that the tables are made for."""
    if device.planned or kind_named(device.kind).group != "receptacle":
        return None
    found = scene.breakers(scene.breakers_of(feed.id for feed in device.feeds))
    return found[0] if len(found) == 1 and _is_american(found[0], scene) else None


def _is_american(breaker: Breaker, scene: Scene) -> bool:
    """Tell whether the NEC's tables are made for its panel; where nobody said of what system it is, none is applied."""
    return scene.system_of(breaker.panel) in AMERICAN


# --- conductors -----------------------------------------------------------------------------------------------------


def conductors_against_breakers(scene: Scene) -> Iterator[Hazard]:
    """Yield a question for each breaker that is larger than the small conductor on it goes with as a rule."""
    for breaker in scene.home.breakers:
        most = largest_breaker(breaker.conductor.size, breaker.conductor.metal)
        if most is None or breaker.amps is None or breaker.amps <= most or not _is_american(breaker, scene):
            continue
        mark, metal = scene.mark(breaker.id), breaker.conductor.metal
        wire = f"{_gauge(breaker.conductor.size)} AWG{'' if metal == 'not known' else f' {metal}'}"
        says = (
            f"breaker {mark} of {breaker.amps} A stands on {wire}, for which the rule lists at most {most} A: "
            "does it feed a motor, an air conditioner or a welder, for which others hold?"
        )
        yield scene.at_panel(
            "conductor and breaker",
            mark,
            f"{scene.panel_name(breaker.panel)}: {says}",
            CONDUCTOR_WHY,
            CONDUCTOR_DO,
            CONDUCTOR_SOURCE,
            BY_HEAT,
            breakers=[breaker.id],
        )


def largest_breaker(size: str, metal: str) -> int | None:
    """Return the largest breaker in amperes for a small conductor; None for sizes of which this tells nothing.

    A metal that nobody knows is taken for copper, which allows most: what is too much for that is so for any.

    Examples:
        >>> [largest_breaker(size, "copper") for size in ("12 AWG", "#10", "2.5 mm²")]
        [20, 30, None]
    """
    return MOST.get(metal, MOST["copper"]).get(_gauge(size) or 0)


def _gauge(size: str) -> int | None:
    found = AWG.fullmatch(size)
    return int(found[1]) if found else None
