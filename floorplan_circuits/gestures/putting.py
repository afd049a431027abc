"""Putting devices: a click on a wall makes a box that turns to it, a click on a box adds the next gang."""

from dataclasses import dataclass, replace
from math import cos, hypot, radians

from floorplan_circuits.edits.boxes import MOUNTS, join_box, put_device
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.geometry.wall_spots import WallSpot, faces_into, wall_spot
from floorplan_circuits.gestures.events import Context, Event, Key, Outcome, Press, Release
from floorplan_circuits.home.boxes import Box, Mount
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.record import Point
from floorplan_circuits.view import Draft

ON_WALL = ("wall", "outdoor")
WALL_REACH_MM = 700
JOIN_REACH_MM = 180


@dataclass(frozen=True, slots=True)
class PutDevice:
    """The tool that puts devices of one kind, one a click, until Escape. `pressed`: the button went down with it."""

    kind: str
    pressed: bool = False


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a click would put the device: into a box that is there, or a new one facing some way."""

    at: Point
    angle: int
    mount: Mount
    joins: Box | None = None


def step_put(tool: PutDevice, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with a device in hand."""
    label = kind_named(tool.kind).label
    if isinstance(event, Key):
        return Outcome(None if event.name == "escape" else tool, says=_says(label, None))
    spot = _spot(tool.kind, event.at, context)
    draft = _draft(tool, spot, event.at)
    if isinstance(event, Release) and tool.pressed:
        return _put(replace(tool, pressed=False), spot, draft, context)
    pressed = isinstance(event, Press) or (tool.pressed and not isinstance(event, Release))
    return Outcome(replace(tool, pressed=pressed), draft=draft, says=_says(label, spot))


def _put(tool: PutDevice, spot: Spot | None, draft: Draft, context: Context) -> Outcome:
    if spot is None:
        return Outcome(tool, draft=draft, says=f"Click nearer to a wall to put a {kind_named(tool.kind).label}.")
    try:
        edit = _edit(tool.kind, spot, context)
    except Refused as error:
        return Outcome(tool, draft=draft, says=str(error))
    box = Subject("box", spot.joins.id if spot.joins is not None else edit.made[0])
    return Outcome(tool, edit, says=f"{edit.says}. Its circuit is unknown until you tie or test it.", selected=(box,))


def _edit(kind: str, spot: Spot, context: Context) -> Edited:
    if spot.joins is not None:
        return join_box(context.home, spot.joins.id, kind)
    return put_device(context.home, context.level, spot.at, spot.angle, kind, spot.mount)


def _says(label: str, spot: Spot | None) -> str:
    if spot is None:
        return f"Click a wall to place a {label}. Esc leaves the tool."
    if spot.joins is not None:
        return f"Click to add a {label} to box {spot.joins.mark}. Esc leaves the tool."
    return f"Click to place a {label}. Its circuit stays unknown until you tell or test it. Esc leaves the tool."


# --- where it goes --------------------------------------------------------------------------------------------------


def _spot(kind: str, at: XY, context: Context) -> Spot | None:
    mount: Mount = MOUNTS.get(kind_named(kind).mount, "wall")
    reach = max(WALL_REACH_MM, 3 * context.reach)
    wall = wall_spot(at, context.outlines(), reach) if mount in ON_WALL else None
    box = _box_at(at, mount, wall, context)
    if box is not None and box.at is not None:
        return Spot(box.at, box.angle, box.mount, box)
    if mount not in ON_WALL:
        return Spot((round(at[0]), round(at[1])), 90, mount)
    if wall is None:
        return None
    indoors = faces_into(wall.at, wall.angle, context.outlines())
    return Spot(wall.at, wall.angle, "wall" if indoors else "outdoor")


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


def _draft(tool: PutDevice, spot: Spot | None, at: XY) -> Draft:
    symbol = kind_named(tool.kind).symbol
    if spot is None:
        return Draft(symbol=symbol, at=at, angle=90)
    turn = spot.angle if spot.mount in ON_WALL else 0
    return Draft(symbol=symbol, at=spot.at, angle=turn, joins=spot.joins is not None)
