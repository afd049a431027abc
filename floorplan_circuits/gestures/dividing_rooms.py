"""Dividing a room: a line from one of its walls to another, in one drag or corner by corner."""

from dataclasses import dataclass, replace
from math import hypot

from floorplan_circuits.edits.dividing import split_room
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.geometry.snapping import edges, foot, snap
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press, Release
from floorplan_circuits.gestures.selecting import room_at
from floorplan_circuits.home.lengths import show_length
from floorplan_circuits.home.record import Point
from floorplan_circuits.view import Draft

SAYS = "Drag from one wall of a room to another to make two rooms of it. Esc leaves the tool."
GOING_ON = "Click the next corner of the line, a wall to end it. Esc drops it."
START_ON_WALL = "Begin on a wall of the room that you divide."
ENDS = ("corner", "crossing", "edge")
"""What a point snapped to that lies on a wall."""


@dataclass(frozen=True, slots=True)
class DivideRoom:
    """The tool that divides rooms: the corners of the line so far; `pressed` is where its first one was pressed."""

    corners: tuple[Point, ...] = ()
    pressed: XY | None = None


def step_divide(tool: DivideRoom, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with the dividing tool in hand."""
    if isinstance(event, Key):
        return _key(tool, event)
    at, on_wall = _where(tool, event.at, context)
    if isinstance(event, Move):
        return _going(tool, at, context)
    if isinstance(event, Press) and not tool.corners:
        begun = DivideRoom((at,), event.at) if on_wall else DivideRoom()
        return _going(begun, at, context, "" if on_wall else START_ON_WALL)
    if isinstance(event, Release):
        return _let_go(tool, event.at, at, on_wall, context)
    return _put(tool, at, on_wall, context)


def _where(tool: DivideRoom, at: XY, context: Context) -> tuple[Point, bool]:
    """Return where the pointer means to be, and whether that is on a wall."""
    last = tool.corners[-1:]
    snapped = snap(at, context.outlines(), context.reach, tool.corners)
    if snapped.why in ENDS and _is_on_a_wall(snapped.at, context):
        return snapped.at, snapped.at not in last
    return snapped.at, False


def _is_on_a_wall(at: Point, context: Context) -> bool:
    return any(hypot(x - at[0], y - at[1]) <= 1 for a, b in edges(context.outlines()) for x, y in [foot(at, a, b)])


def _let_go(tool: DivideRoom, raw: XY, at: Point, on_wall: bool, context: Context) -> Outcome:
    """End a drag: on a wall the room is divided; a click only began the line."""
    if tool.pressed is None or hypot(raw[0] - tool.pressed[0], raw[1] - tool.pressed[1]) < 2 * context.reach:
        lost = not tool.corners and not on_wall
        return _going(replace(tool, pressed=None), at, context, START_ON_WALL if lost else "")
    return _put(replace(tool, pressed=None), at, on_wall, context)


def _put(tool: DivideRoom, at: Point, on_wall: bool, context: Context) -> Outcome:
    if not tool.corners or at == tool.corners[-1]:
        return _going(tool, at, context)
    longer = replace(tool, corners=(*tool.corners, at))
    return _divided(longer, context) if on_wall else _going(longer, at, context)


def _divided(tool: DivideRoom, context: Context) -> Outcome:
    """Divide the room that the line goes through, and ask for the new one's name."""
    room = _room_through(tool.corners, context)
    try:
        if room is None:
            raise Refused(SAYS)
        edit = split_room(context.home, room, tool.corners)
    except Refused as error:
        return Outcome(DivideRoom(), says=str(error))
    new = Subject("room", edit.made[0])
    says = f"{edit.says}. Type the new room's name, then Enter."
    return Outcome(DivideRoom(), edit, says=says, selected=(new,), name=new)


def _room_through(path: tuple[Point, ...], context: Context) -> int | None:
    """Return the room that the middle of a line's first part lies in."""
    (ax, ay), (bx, by) = path[0], path[1]
    room = room_at(((ax + bx) / 2, (ay + by) / 2), context)
    return None if room is None else room.id


def _key(tool: DivideRoom, event: Key) -> Outcome:
    if event.name == "escape":
        return Outcome(DivideRoom() if tool.corners else None, says=SAYS)
    if event.name == "backspace":
        return Outcome(DivideRoom(tool.corners[:-1]), says=SAYS)
    return Outcome(tool, says=GOING_ON if tool.corners else SAYS)


def _going(tool: DivideRoom, at: Point, context: Context, says: str = "") -> Outcome:
    if not tool.corners:
        return Outcome(tool, draft=Draft(at=at), says=says or SAYS)
    length = hypot(at[0] - tool.corners[-1][0], at[1] - tool.corners[-1][1])
    words = show_length(round(length), context.home.units)
    return Outcome(tool, draft=Draft(lines=((*tool.corners, at),), at=at, words=words), says=says or GOING_ON)
