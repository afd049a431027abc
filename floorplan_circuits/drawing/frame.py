"""The frame of a plan: one level of one home at one scale, in one theme."""

from dataclasses import dataclass

from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import XY, Findings
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Room


@dataclass(frozen=True, slots=True)
class Frame:
    """What is drawn and how: `scale` is house millimetres a paper millimetre."""

    findings: Findings
    level: int
    scale: float
    theme: Theme

    def mm(self, point: tuple[float, float]) -> XY:
        """Return the paper place of a house place."""
        return point[0] / self.scale, point[1] / self.scale

    def rooms(self) -> list[Room]:
        """Return the level's rooms."""
        return [room for room in self.findings.home.rooms if room.level == self.level]

    def boxes(self) -> list[Box]:
        """Return the level's boxes that have a place."""
        return [box for box in self.findings.home.boxes if box.level == self.level and box.at is not None]
