"""A clip put down where somebody points: moved there, turned, mirrored, a lone box turned to its wall."""

from math import cos, hypot, radians, sin

from floorplan_circuits.edits.edited import Edited, Refused, edit
from floorplan_circuits.edits.moving import shifted
from floorplan_circuits.edits.pasting import Clip, paste
from floorplan_circuits.edits.turning import mirror, turn
from floorplan_circuits.findings import XY
from floorplan_circuits.geometry.snapping import snap
from floorplan_circuits.geometry.wall_spots import WallSpot, faces_into, wall_spot
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point, change
from floorplan_circuits.home.table import Table

ON_WALL = ("wall", "outdoor")
LONE_REACH_MM, GROUP_REACH_MM = 700, 300
"""How far from its wall a lone box is put down on it, and how far a group is moved so that its boxes meet theirs."""

ONE_LEVEL = 1
"""The level that all of a clip is on while it is turned."""


@edit
def stamp(home: Home, clip: Clip, level: int, at: XY, reach: float) -> Edited:
    """Put a copy of a clip with its middle at a place of a level; nobody knows what it hangs on.

    Raises `Refused` for a clip of which nothing has a place, and for a lone wall box far from any wall.
    """
    return paste(home, settled(home, clip, level, at, reach), level, (0, 0))


def settled(home: Home, clip: Clip, level: int, at: XY, reach: float) -> Clip:
    """Return a clip moved so that its middle is at a place, as near as its walls allow. Raises `Refused` as `stamp`."""
    if not _places(clip):
        raise Refused("Nothing of what was copied has a place on the plan.")
    outlines = [room.outline for room in home.rooms if room.level == level]
    lone = clip.boxes[0] if len(clip.boxes) == 1 and not clip.rooms else None
    if lone is not None and lone.mount in ON_WALL:
        spot = wall_spot(at, outlines, max(LONE_REACH_MM, 3 * reach))
        if spot is None:
            raise Refused("Click nearer to a wall: this box goes on one.")
        mount = "wall" if faces_into(spot.at, spot.angle, outlines) else "outdoor"
        return Clip(boxes=(change(lone, at=spot.at, angle=spot.angle, mount=mount),))
    x, y = _middle(clip)
    raw = _moved(clip, (round(at[0] - x), round(at[1] - y)))
    return _moved(raw, _corner_snap(raw, outlines, reach) if clip.rooms else _wall_snap(raw, outlines))


def _corner_snap(clip: Clip, outlines: list[tuple[Point, ...]], reach: float) -> Point:
    """Return how far the first room's first corner goes to meet what is there."""
    corner = clip.rooms[0].outline[0]
    to = snap(corner, outlines, reach).at
    return to[0] - corner[0], to[1] - corner[1]


def _wall_snap(clip: Clip, outlines: list[tuple[Point, ...]]) -> Point:
    """Return how far a group goes so that wall boxes meet the nearest walls they face off: across, and down."""
    across, down = list[int](), list[int]()
    for box in clip.boxes:
        spot = _own_wall(box, outlines)
        if box.at is not None and spot is not None:
            if abs(cos(radians(box.angle))) > 0.5:
                across.append(spot.at[0] - box.at[0])
            else:
                down.append(spot.at[1] - box.at[1])
    return min(across, key=abs, default=0), min(down, key=abs, default=0)


def _own_wall(box: Box, outlines: list[tuple[Point, ...]]) -> WallSpot | None:
    """Return the place on the wall that a box would stand on: near, and facing as it does."""
    if box.at is None or box.mount not in ON_WALL:
        return None
    (x, y), ahead = box.at, radians(box.angle)
    for far in (0, GROUP_REACH_MM):  # a box just behind its wall still means it
        front = x + far * cos(ahead), y + far * sin(ahead)
        spot = wall_spot(front, outlines, GROUP_REACH_MM + far)
        near = spot is not None and hypot(spot.at[0] - x, spot.at[1] - y) <= GROUP_REACH_MM
        if spot is not None and near and spot.angle == box.angle:
            return spot
    return None


def _moved(clip: Clip, by: Point) -> Clip:
    return Clip(
        tuple(change(room, outline=tuple(shifted(one, by) for one in room.outline)) for room in clip.rooms),
        tuple(box if box.at is None else change(box, at=shifted(box.at, by)) for box in clip.boxes),
        tuple(change(one, at=shifted(one.at, by)) for one in clip.openings),
    )


def _places(clip: Clip) -> list[Point]:
    boxes = [box.at for box in clip.boxes if box.at is not None]
    return [*(corner for room in clip.rooms for corner in room.outline), *boxes]


def _middle(clip: Clip) -> XY:
    xs, ys = zip(*_places(clip), strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


# --- turned and mirrored ----------------------------------------------------------------------------------------------


def clip_turned(clip: Clip, quarters: int = 1) -> Clip:
    """Return a clip turned clockwise by quarters, round its middle. Raises `Refused` where nothing has a place."""
    return _held(turn(_holding(clip), _ids(clip), quarters).home)


def clip_mirrored(clip: Clip) -> Clip:
    """Return a clip mirrored left to right. Raises `Refused` where nothing has a place."""
    return _held(mirror(_holding(clip), _ids(clip)).home)


def _holding(clip: Clip) -> Home:
    """Return a home with nothing in it but the clip, all of it on one level."""
    rooms = Table([change(room, level=ONE_LEVEL) for room in clip.rooms])
    boxes = Table([change(box, level=ONE_LEVEL) for box in clip.boxes])
    return Home(rooms=rooms, boxes=boxes, openings=Table([change(one, level=ONE_LEVEL) for one in clip.openings]))


def _held(home: Home) -> Clip:
    return Clip(home.rooms.rows, home.boxes.rows, home.openings.rows)


def _ids(clip: Clip) -> list[int]:
    return [row.id for rows in clip for row in rows]
