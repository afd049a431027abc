"""Poles with where they stand, and the groups of them that share a neutral."""

from typing import NamedTuple

from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Pole


class PoleOf(NamedTuple):
    """A pole with its breaker and panel."""

    panel: int
    breaker: int
    pole: Pole


def neutral_groups(home: Home) -> list[list[PoleOf]]:
    """Return the groups of two or more poles that are said to share a neutral, in the order of the breakers."""
    groups: dict[int, list[PoleOf]] = {}
    for breaker in home.breakers:
        for pole in breaker.poles:
            if isinstance(pole.neutral, int):
                groups.setdefault(pole.neutral, []).append(PoleOf(breaker.panel, breaker.id, pole))
    return [poles for poles in groups.values() if len(poles) > 1]
