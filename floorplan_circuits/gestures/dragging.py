"""Dragging: corners and walls of a selected room, and things; where they would go, and the edit when let go."""

from dataclasses import dataclass
from math import cos, hypot, radians

from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.edits.moving import move, place_box
from floorplan_circuits.edits.openings import move_opening
from floorplan_circuits.edits.walls import (
    Reshaped,
    corner_moved,
    longest_wall,
    move_corner,
    move_wall,
    touched,
    wall_moved,
)
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.geometry.snapping import edges, foot, snap
from floorplan_circuits.geometry.wall_spots import WallSpot, faces_into, on_wall, wall_spot
from floorplan_circuits.gestures.carrying import gang_taken, gang_target
from floorplan_circuits.gestures.events import Context
from floorplan_circuits.gestures.putting_openings import opening_line
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Opening, Room
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.record import Point
from floorplan_circuits.view import Draft

TABLE_OF = {"room": "rooms", "box": "boxes", "panel": "panels", "opening": "openings", "stair": "stairs"}
"""What can be dragged, and where it is kept."""
ON_WALL = ("wall", "outdoor")
CROSS_MM = 100


@dataclass(frozen=True, slots=True)
class Drag:
    """What a drag takes along: one corner, the two ends of a wall, or things. `start` is where the button went down.

    `gang` is the device that was taken hold of in a selected box: over another gang or another box it goes there, and
    anywhere else the whole box moves.
    """

    start: XY
    grabbed: tuple[Point, ...] = ()
    things: tuple[Subject, ...] = ()
    gang: int | None = None


def begun(start: XY, on: Subject | None, context: Context, bend: bool = False) -> Drag | None:
    """Return what is dragged from here: a wall of a selected room, or what is there with all selected; None: nothing.

    A room is dragged by its name. Its bare floor is not part of it, so that boxes there can be gathered. `bend` puts a
    corner on the wall there, and drags that.
    """
    grabbed = _grabbed(start, context)
    if bend and len(grabbed) == 2:
        grabbed = (on_wall(_whole(start), *grabbed),)
    if grabbed and (on is None or on.kind == "room"):
        return Drag(start, grabbed)
    gang = gang_taken(on, context)
    if gang is not None:
        return Drag(start, things=context.selected, gang=gang)
    if on is None or on.kind not in TABLE_OF:
        return None
    return Drag(start, things=context.selected if on in context.selected else (on,))


def _grabbed(at: XY, context: Context) -> tuple[Point, ...]:
    """Return the corner (one point) or wall (two) of a selected room that is under the pointer."""
    outlines = [room.outline for room in _rooms(context.selected, context)]
    near = [corner for outline in outlines for corner in outline if _apart(corner, at) <= context.reach]
    if near:
        return (min(near, key=lambda corner: _apart(corner, at)),)
    walls = [(_apart(foot(at, a, b), at), a, b) for a, b in edges(outlines)]
    nearest = min(walls, default=None)
    if nearest is None or nearest[0] > context.reach:
        return ()
    return longest_wall(nearest[1], nearest[2], [(a, b) for _, a, b in walls])


def _apart(a: XY, b: XY) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


def _rooms(subjects: tuple[Subject, ...], context: Context) -> list[Room]:
    found = (context.home.rooms.get(one.id) for one in subjects if one.kind == "room")
    return [room for room in found if room is not None and room.level == context.level]


# --- where it goes --------------------------------------------------------------------------------------------------


def _shift(drag: Drag, at: XY, context: Context) -> Point:
    """Return how far a drag goes, in whole millimetres, snapped where a corner, a wall or a room is dragged."""
    raw = at[0] - drag.start[0], at[1] - drag.start[1]
    dragged = _rooms(drag.things, context)
    if not drag.grabbed and not dragged:
        return round(raw[0]), round(raw[1])
    anchor = drag.grabbed[0] if drag.grabbed else dragged[0].outline[0]
    ids = set(_reshaped(drag, (0, 0), context)) if drag.grabbed else {room.id for room in dragged}
    taken = [room for room in context.home.rooms if room.id in ids]
    still = [one.outline for one in context.home.rooms if one.level == context.level and one.id not in ids]
    lines = [corner for room in taken for corner in room.outline if drag.grabbed and corner not in drag.grabbed]
    to = snap((anchor[0] + raw[0], anchor[1] + raw[1]), still, context.reach, lines).at
    return _square(drag.grabbed, (to[0] - anchor[0], to[1] - anchor[1]))


def _square(grabbed: tuple[Point, ...], shift: Point) -> Point:
    """Keep a level or upright wall's move square to it."""
    if len(grabbed) < 2:
        return shift
    (ax, ay), (bx, by) = grabbed
    return (0 if ay == by else shift[0]), (0 if ax == bx else shift[1])


def _reshaped(drag: Drag, by: Point, context: Context) -> dict[int, Reshaped]:
    """Return the rooms that a drag of a corner or a wall reshapes, before and after."""
    (x, y), *others = drag.grabbed
    if others:
        return touched(context.home, context.level, lambda outline: wall_moved(outline, (x, y), others[0], by))
    return touched(context.home, context.level, lambda outline: corner_moved(outline, (x, y), (x + by[0], y + by[1])))


def _whole(at: XY) -> Point:
    return round(at[0]), round(at[1])


def _lone_opening(drag: Drag, context: Context) -> Opening | None:
    """Return the opening that alone is dragged: it goes along its wall, or to another."""
    one = drag.things[0] if len(drag.things) == 1 else None
    return context.home.openings.get(one.id) if one is not None and one.kind == "opening" else None


def _lone_box(drag: Drag, context: Context) -> Box | None:
    """Return the wall box that alone is dragged: it turns to whatever wall it comes to."""
    if len(drag.things) != 1 or drag.things[0].kind != "box":
        return None
    box = context.home.boxes.get(drag.things[0].id)
    return box if box is not None and box.level == context.level and box.mount in ON_WALL else None


def _wall_for(at: XY, context: Context) -> WallSpot | None:
    return wall_spot(at, context.outlines(), max(4 * context.reach, 400))


# --- the edit, and what is drawn meanwhile ----------------------------------------------------------------------------


def dropped(drag: Drag, at: XY, context: Context, over: Subject | None = None) -> Edited:
    """Return the one edit that a drag let go here, over something or nothing, makes. Raises `Refused`."""
    target = gang_target(drag.gang, over, context.home)
    if drag.gang is not None and target is not None:
        return target.edit(context.home, drag.gang)
    by, home = _shift(drag, at, context), context.home
    if len(drag.grabbed) == 1:
        x, y = drag.grabbed[0]
        return move_corner(home, context.level, (x, y), (x + by[0], y + by[1]))
    if drag.grabbed:
        return move_wall(home, context.level, drag.grabbed[0], drag.grabbed[1], by)
    box, spot = _lone_box(drag, context), _wall_for(at, context)
    if box is not None and spot is not None:
        indoors = faces_into(spot.at, spot.angle, context.outlines())
        return place_box(home, box.id, spot.at, spot.angle, "wall" if indoors else "outdoor")
    opening = _lone_opening(drag, context)
    if opening is not None and spot is not None:
        in_line = abs(cos(radians(spot.angle - opening.angle))) > 0.5
        return move_opening(home, opening.id, spot.at, opening.angle if in_line else spot.angle)
    return move(home, [one.id for one in drag.things], by)


def drag_draft(drag: Drag, at: XY, context: Context, over: Subject | None = None) -> Draft:
    """Return what a drag draws while it goes on."""
    target = gang_target(drag.gang, over, context.home)
    if drag.gang is not None and target is not None:
        return Draft(symbol=target.symbol, at=at, joins=True, words=target.words)
    by = _shift(drag, at, context)
    if drag.grabbed:
        return Draft(lines=tuple(_closed(one.after) for one in _reshaped(drag, by, context).values()))
    box, spot = _lone_box(drag, context), _wall_for(at, context)
    if box is not None and spot is not None:
        return Draft(symbol=_symbol(box), at=spot.at, angle=spot.angle)
    opening = _lone_opening(drag, context)
    if opening is not None and spot is not None:
        return Draft(lines=(opening_line(spot, opening.width),), at=spot.at)
    return Draft(lines=tuple(line for one in drag.things for line in _ghost(one, by, context)))


def _symbol(box: Box) -> str:
    return kind_named(box.devices[0].kind if box.devices else "junction box").symbol


def _ghost(subject: Subject, by: Point, context: Context) -> list[tuple[XY, ...]]:
    """Return the lines that stand for a thing where it would go: a room's outline, or a cross."""
    row = getattr(context.home, TABLE_OF[subject.kind]).get(subject.id) if subject.kind in TABLE_OF else None
    if isinstance(row, Room):
        return [_closed(tuple((x + by[0], y + by[1]) for x, y in row.outline))]
    place = getattr(row, "at", None)
    if place is None:
        return []
    x, y = place[0] + by[0], place[1] + by[1]
    return [((x - CROSS_MM, y), (x + CROSS_MM, y)), ((x, y - CROSS_MM), (x, y + CROSS_MM))]


def _closed(outline: tuple[Point, ...]) -> tuple[XY, ...]:
    return (*outline, outline[0])
