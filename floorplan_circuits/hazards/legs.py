"""Whether poles are on one leg, and how anybody knows: measured, halves of one space, or the usual layout."""

from collections.abc import Iterable
from itertools import combinations
from typing import Literal, NamedTuple

from floorplan_circuits.hazards.poles import PoleOf
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.supply.legs import LEGS

How = Literal["measured", "halves of one space", "usual layout"]


class OneLeg(NamedTuple):
    """Two poles that are on one leg, and how that is known; by the usual layout alone they only *may* be."""

    first: PoleOf
    second: PoleOf
    how: How


def on_one_leg(poles: Iterable[PoleOf], scene: Scene) -> OneLeg | None:
    """Return two of the poles that are on one leg, the surest of all; None where none are as far as anybody knows."""
    found = [OneLeg(one, other, how) for one, other in combinations(poles, 2) if (how := _how(one, other, scene))]
    surest: tuple[How, ...] = ("measured", "halves of one space", "usual layout")
    return min(found, key=lambda pair: surest.index(pair.how), default=None)


def _how(one: PoleOf, other: PoleOf, scene: Scene) -> How | None:
    """Return how two poles are known to be on one leg.

    Both halves of one space stand on one piece of the bus. The layout of one panel says nothing of another's.
    """
    if one.pole.leg is not None and other.pole.leg is not None:
        return "measured" if one.pole.leg == other.pole.leg else None
    if one.panel != other.panel:
        return None
    if one.pole.space == other.pole.space:
        return "halves of one space" if one.pole.half != other.pole.half else None
    first, second = _leg(one, scene), _leg(other, scene)
    return "usual layout" if first and first == second else None


def _leg(one: PoleOf, scene: Scene) -> str:
    """Return the leg of a pole, measured or by the layout; '' where its panel tells none or is not there."""
    panel = scene.found.panels.get(one.panel)
    return one.pole.leg or ("" if panel is None else panel.legs.get(one.pole.space, ""))


def legs_of_panel(panel: int, scene: Scene) -> int:
    """Return how many legs a panel has by its system; 0 where nobody said which it is."""
    system = scene.system_of(panel)
    return 0 if system == "not known" else len(LEGS.get(system, "A"))
