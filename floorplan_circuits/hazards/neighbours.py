"""Boxes that stand close: look-alikes beside each other on one wall, and boxes back to back through it."""

from collections.abc import Iterable, Iterator, Mapping
from math import cos, radians, sin

from floorplan_circuits.findings import BoxFinding, Hazard
from floorplan_circuits.geometry.nearness import WITHIN_MM
from floorplan_circuits.hazards.phrases import circuits, listed, place_of
from floorplan_circuits.hazards.ranks import BY_A_FAULT
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.home.boxes import Box

ON_A_WALL = ("wall", "outdoor")
ON_ONE_PLANE_MM = 50
"""How far out of one plane boxes of one wall may be drawn."""
LOOK_ALIKE = "looks like its neighbour"
BACK_TO_BACK = "back to back"
LOOK_ALIKE_WHY = "It is easily taken for the other, which is live with this one's breakers off."
BACK_TO_BACK_WHY = "They share a piece of wall: its cables can be live with this box's breakers off."
LOOK_ALIKE_DO = "Read the mark in the cover before opening, and test every wire."
BACK_TO_BACK_DO = "Mind what is drilled or pulled in that wall, and test every wire."
SOURCE = "Common practice, no source."


def close_boxes(scene: Scene) -> Iterator[Hazard]:
    """Yield, once a box, what stands within 300 mm of it that its own breakers do not make dead: beside, or behind.

    They are told with their box alone: in the list of the whole home they would bury the shared boxes.
    """
    beside: dict[int, list[int]] = {}
    behind: dict[int, list[int]] = {}
    for one, other, _ in scene.found.near:
        if one not in scene.boxes or other not in scene.boxes:
            continue
        place = _placed(scene.box(one), scene.box(other))
        for here, there in ((one, other), (other, one)) if place is not None else ():
            if _stays_live(scene.boxes[there], scene.boxes[here], scene):
                (beside if place == "beside" else behind).setdefault(here, []).append(there)
    yield from _hazards(beside, LOOK_ALIKE, "beside it", LOOK_ALIKE_WHY, LOOK_ALIKE_DO, scene)
    yield from _hazards(behind, BACK_TO_BACK, "behind it through the wall", BACK_TO_BACK_WHY, BACK_TO_BACK_DO, scene)


def _placed(one: Box, other: Box) -> str | None:
    """Return how two near boxes of walls stand to each other: 'beside', 'behind', or None for neither."""
    if one.mount not in ON_A_WALL or other.mount not in ON_A_WALL or one.at is None or other.at is None:
        return None
    dx, dy = other.at[0] - one.at[0], other.at[1] - one.at[1]
    ahead = dx * cos(radians(one.angle)) + dy * sin(radians(one.angle))
    turned = (one.angle - other.angle) % 360
    if turned == 0 and abs(ahead) <= ON_ONE_PLANE_MM:
        return "beside" if _may_be_within(one, other, dx, dy) else None
    return "behind" if turned == 180 and ahead <= ON_ONE_PLANE_MM else None


def _may_be_within(one: Box, other: Box, dx: int, dy: int) -> bool:
    """Tell whether they are within 300 mm of each other on the wall too; a height that nobody recorded may be any."""
    up = 0 if one.height is None or other.height is None else one.height - other.height
    return dx * dx + dy * dy + up * up <= WITHIN_MM**2


def _stays_live(other: BoxFinding, mine: BoxFinding, scene: Scene) -> bool:
    """Tell whether something may enter the other box that this one's breakers do not turn off."""
    if other.unknown or other.others or other.apart:
        return True
    return not set(other.breakers) <= scene.moved_by(mine.breakers)


def _hazards(
    near: Mapping[int, Iterable[int]], kind: str, where: str, why: str, do: str, scene: Scene
) -> Iterator[Hazard]:
    for box in sorted(near):
        others = tuple(near[box])
        each = listed([f"{scene.box(one).mark} ({_what_enters(scene.boxes[one], scene)})" for one in others])
        says = f"{place_of(scene.boxes[box])}: {where} {'is' if len(others) == 1 else 'are'} {each}."
        breakers = dict.fromkeys(breaker for one in others for breaker in scene.boxes[one].breakers)
        yield scene.in_box(kind, box, says, why, do, SOURCE, BY_A_FAULT, breakers=breakers, about=others, listed=False)


def _what_enters(found: BoxFinding, scene: Scene) -> str:
    known = circuits(found, scene.found.marks)
    if not (found.unknown or found.apart):
        return known
    return f"{known} and something nobody knows" if known else "nobody knows what it hangs on"
