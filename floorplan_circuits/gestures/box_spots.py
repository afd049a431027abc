"""Where a click puts a device: into a box that is near and takes it, on the nearest wall, or overhead."""

from dataclasses import dataclass
from math import cos, hypot, radians

from floorplan_circuits.edits.boxes import MOUNTS, Place
from floorplan_circuits.findings import XY
from floorplan_circuits.geometry.wall_spots import WallSpot, faces_into, wall_spot
from floorplan_circuits.gestures.events import Context
from floorplan_circuits.home.boxes import Box, Mount
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.record import Point

ON_WALL = ("wall", "outdoor")
WALL_REACH_MM = 700
JOIN_REACH_MM = 180


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a click would put the device: into a box that is there, or a new one facing some way."""

    at: Point
    angle: int
    mount: Mount
    joins: Box | None = None

    @property
    def place(self) -> Place:
        """Where a new box goes."""
        return Place(self.at, self.angle, self.mount)


def box_spot(kind: str, at: XY, context: Context, overhead: bool = False) -> Spot | None:
    """Return where a click puts a kind; far from any wall nowhere, unless it is meant to be `overhead`."""
    mount: Mount = MOUNTS.get(kind_named(kind).mount, "wall")
    reach = max(WALL_REACH_MM, 3 * context.reach)
    wall = wall_spot(at, context.outlines(), reach) if mount in ON_WALL else None
    box = _box_at(at, mount, wall, context)
    if box is not None and box.at is not None:
        return Spot(box.at, box.angle, box.mount, box)
    if mount not in ON_WALL:
        return Spot((round(at[0]), round(at[1])), _turned(mount, at, context, reach), mount)
    if wall is None:
        return Spot((round(at[0]), round(at[1])), 90, "ceiling") if overhead else None
    indoors = faces_into(wall.at, wall.angle, context.outlines())
    return Spot(wall.at, wall.angle, "wall" if indoors else "outdoor")


def _turned(mount: Mount, at: XY, context: Context, reach: float) -> int:
    """Return which way a thing off the walls is turned: a loose cable end away from the wall beside it."""
    wall = wall_spot(at, context.outlines(), reach) if mount == "loose cable end" else None
    return 90 if wall is None else wall.angle


def _box_at(at: XY, mount: Mount, wall: WallSpot | None, context: Context) -> Box | None:
    """Return the nearest box that takes such a device, if it is near enough to be meant."""
    reach = max(JOIN_REACH_MM, 1.5 * context.reach)
    near = [
        (hypot(box.at[0] - at[0], box.at[1] - at[1]), box.id)
        for box in context.home.boxes
        if box.level == context.level and box.at is not None and _takes(box, mount, wall)
    ]
    nearest = min(near, default=None)
    return context.home.boxes[nearest[1]] if nearest is not None and nearest[0] <= reach else None


def _takes(box: Box, mount: Mount, wall: WallSpot | None) -> bool:
    """Tell whether a device goes into a box: it is mounted alike, and faces the same side of a wall.

    Two boxes stand back to back in one wall more often than not; they are two boxes.
    """
    if mount not in ON_WALL:
        return box.mount == mount
    return box.mount in ON_WALL and (wall is None or cos(radians(box.angle - wall.angle)) > 0)
