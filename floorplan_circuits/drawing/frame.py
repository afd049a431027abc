"""The frame of a plan: one level of one home at one scale, in one theme."""

from dataclasses import dataclass, field

from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import XY, Findings, WhatIf
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Room


@dataclass(frozen=True, slots=True)
class Frame:
    """What is drawn and how: `scale` is house millimetres a paper millimetre, `only` the one breaker shown alone.

    With `what_if` it is drawn as with those handles off; `picked` are the boxes chosen for work; `pale` are boxes that
    stand without their labels for another reason.
    """

    findings: Findings
    level: int
    scale: float
    theme: Theme
    only: int | None = None
    what_if: WhatIf | None = None
    picked: frozenset[int] = field(default_factory=frozenset)
    pale: frozenset[int] = frozenset()

    def shows(self, box: Box) -> bool:
        """Tell whether a box is drawn with its labels: all are but the pale, or those that the one breaker enters."""
        if box.id in self.pale:
            return False
        found = self.findings.boxes.get(box.id)
        return self.only is None or (found is not None and self.only in found.breakers)

    def mm(self, point: tuple[float, float]) -> XY:
        """Return the paper place of a house place."""
        return point[0] / self.scale, point[1] / self.scale

    def rooms(self) -> list[Room]:
        """Return the level's rooms."""
        return [room for room in self.findings.home.rooms if room.level == self.level]

    def boxes(self) -> list[Box]:
        """Return the level's boxes that have a place and are built."""
        home = self.findings.home
        return [box for box in home.boxes if box.level == self.level and box.at is not None and is_built(box)]


def is_built(box: Box) -> bool:
    """Tell whether there is anything of a box yet: one that only holds planned devices is never on the map."""
    return not box.devices or bool(box.passing) or any(not device.planned for device in box.devices)
