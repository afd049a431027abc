"""Selecting: click, marquee, drag what is selected, move corners and walls, nudge, delete."""

from dataclasses import dataclass, replace
from itertools import pairwise
from math import hypot

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.moving import move, place_box
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.rooms import move_corner, move_wall
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.geometry.snapping import is_inside, snap, wall_spot
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press, Release
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point
from floorplan_circuits.view import Draft

SAYS = "Click to select, drag to move or to select many. Delete removes, arrows nudge, Esc lets go."
NUDGE_MM, NUDGE_FAR_MM = 10, 100
ARROWS = {"left": (-1, 0), "right": (1, 0), "up": (0, -1), "down": (0, 1)}
MOVABLE = ("room", "box", "panel", "opening", "stair")


@dataclass(frozen=True, slots=True)
class Select:
    """The tool to select with. While a button is down it remembers where, on what, and what the drag would do."""

    start: XY | None = None
    on: Subject | None = None
    add: bool = False
    drag: str = ""
    grabbed: tuple[Point, ...] = ()


def step_select(tool: Select, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with the select tool in hand."""
    if isinstance(event, Key):
        return _key(tool, event, context)
    if isinstance(event, Press):
        return _press(event, context)
    if isinstance(event, Move):
        return _move(tool, event, context) if event.held and tool.start is not None else Outcome(tool, says=SAYS)
    return _release(tool, event, context)


def _press(event: Press, context: Context) -> Outcome:
    grabbed = _grabbed(event.at, context)
    return Outcome(Select(event.at, event.subject, event.add, "", grabbed), says=SAYS)


def _grabbed(at: XY, context: Context) -> tuple[Point, ...]:
    """Return the corner (one point) or wall (two) of a selected room that is under the pointer."""
    rooms = [
        context.home.rooms[one.id] for one in context.selected if one.kind == "room" and one.id in context.home.rooms
    ]
    for room in rooms:
        for corner in room.outline:
            if hypot(corner[0] - at[0], corner[1] - at[1]) <= context.reach:
                return (corner,)
    for room in rooms:
        for a, b in pairwise((*room.outline, room.outline[0])):
            if _near_edge(at, a, b, context.reach):
                return a, b
    return ()


def _rooms(subjects: tuple[Subject, ...], home: Home) -> list[Room]:
    return [home.rooms[one.id] for one in subjects if one.kind == "room" and one.id in home.rooms]


def _near_edge(at: XY, a: Point, b: Point, reach: float) -> bool:
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = hypot(dx, dy)
    along = ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / length if length else 0.0
    across = abs((at[0] - a[0]) * dy - (at[1] - a[1]) * dx) / length if length else hypot(at[0] - a[0], at[1] - a[1])
    return 0 <= along <= length and across <= reach


# --- dragging -------------------------------------------------------------------------------------------------------


def _move(tool: Select, event: Move, context: Context) -> Outcome:
    assert tool.start is not None
    if not tool.drag and hypot(event.at[0] - tool.start[0], event.at[1] - tool.start[1]) < context.reach / 2:
        return Outcome(tool, says=SAYS)
    drag = tool.drag or _kind_of_drag(tool, context)
    moving = replace(tool, drag=drag)
    if drag == "marquee":
        return Outcome(moving, draft=Draft(marquee=(tool.start, event.at)), says="Let go to select what is inside.")
    return Outcome(
        moving, draft=_draft(moving, event.at, context), says="Let go to put it here. Esc leaves it where it was."
    )


def _kind_of_drag(tool: Select, context: Context) -> str:
    if tool.grabbed and (tool.on is None or tool.on.kind == "room"):
        return "corner" if len(tool.grabbed) == 1 else "wall"
    return "things" if tool.on is not None and tool.on.kind in MOVABLE else "marquee"


def _dragged(tool: Select, context: Context) -> tuple[Subject, ...]:
    """Return what a drag moves: the selection if it began on part of it, else what it began on."""
    return context.selected if tool.on in context.selected or tool.on is None else (tool.on,)


def _shift(tool: Select, at: XY, context: Context) -> Point:
    """Return how far a drag goes, whole millimetres, snapped where one corner, a wall or a room is dragged."""
    assert tool.start is not None
    raw = (at[0] - tool.start[0], at[1] - tool.start[1])
    anchor = (
        tool.grabbed[0] if tool.drag in ("corner", "wall") else _first_corner(_dragged(tool, context), context.home)
    )
    if anchor is None:
        return round(raw[0]), round(raw[1])
    skip = set(tool.grabbed) or _own_corners(_dragged(tool, context), context.home)
    outlines = [[corner for corner in outline if corner not in skip] for outline in context.outlines()]
    to = snap((anchor[0] + raw[0], anchor[1] + raw[1]), outlines, context.reach).at
    shift = to[0] - anchor[0], to[1] - anchor[1]
    return _square(tool.grabbed, shift) if tool.drag == "wall" else shift


def _square(wall: tuple[Point, ...], shift: Point) -> Point:
    """Keep a level or upright wall's move square to it."""
    (ax, ay), (bx, by) = wall
    return (0 if ay == by else shift[0]), (0 if ax == bx else shift[1])


def _first_corner(subjects: tuple[Subject, ...], home: Home) -> Point | None:
    rooms = _rooms(subjects, home)
    return rooms[0].outline[0] if rooms else None


def _own_corners(subjects: tuple[Subject, ...], home: Home) -> set[Point]:
    rooms = _rooms(subjects, home)
    return {corner for room in rooms for corner in room.outline}


def _draft(tool: Select, at: XY, context: Context) -> Draft:
    by = _shift(tool, at, context)
    if tool.drag in ("corner", "wall"):
        moved = {corner: (corner[0] + by[0], corner[1] + by[1]) for corner in tool.grabbed}
        touched = [outline for outline in context.outlines() if not moved.keys().isdisjoint(outline)]
        return Draft(lines=tuple(_closed([moved.get(corner, corner) for corner in outline]) for outline in touched))
    lines, home = [], context.home
    box = _lone_box(_dragged(tool, context), home)
    if box is not None and (spot := _wall_for(box, at, context)) is not None:
        return Draft(symbol="switch", at=spot[0], angle=spot[1])
    for one in _dragged(tool, context):
        if one.kind == "room" and one.id in home.rooms:
            lines.append(_closed([(x + by[0], y + by[1]) for x, y in home.rooms[one.id].outline]))
        elif (place := getattr(getattr(home, _table(one)).get(one.id), "at", None)) is not None:
            lines.append(_cross(place[0] + by[0], place[1] + by[1]))
    return Draft(lines=tuple(lines))


def _closed(outline: list[Point]) -> tuple[XY, ...]:
    return (*outline, outline[0])


def _cross(x: float, y: float) -> tuple[XY, ...]:
    return ((x - 100, y), (x + 100, y), (x, y), (x, y - 100), (x, y + 100))


def _table(subject: Subject) -> str:
    return "boxes" if subject.kind == "box" else f"{subject.kind}s"


def _lone_box(subjects: tuple[Subject, ...], home: Home) -> Box | None:
    """Return the wall box that alone is dragged: it turns to whatever wall it comes to."""
    if len(subjects) != 1 or subjects[0].kind != "box":
        return None
    box = home.boxes.get(subjects[0].id)
    return box if box is not None and box.mount in ("wall", "outdoor") else None


def _wall_for(box: Box, at: XY, context: Context) -> tuple[Point, int] | None:
    spot = wall_spot(at, context.outlines(), max(4 * context.reach, 400))
    return None if spot is None else (spot.at, spot.angle)


# --- letting go -----------------------------------------------------------------------------------------------------


def _release(tool: Select, event: Release, context: Context) -> Outcome:
    if tool.start is None:
        return Outcome(Select(), says=SAYS)
    if not tool.drag:
        return Outcome(Select(), says=SAYS, selected=_clicked(tool, context))
    if tool.drag == "marquee":
        return Outcome(Select(), says=SAYS, selected=_inside(tool, event.at, context))
    by = _shift(tool, event.at, context)
    home, level = context.home, context.level
    subjects = _dragged(tool, context)
    box = _lone_box(subjects, home)
    try:
        if tool.drag == "corner":
            corner = tool.grabbed[0]
            edit = move_corner(home, level, corner, (corner[0] + by[0], corner[1] + by[1]))
        elif tool.drag == "wall":
            edit = move_wall(home, level, tool.grabbed[0], tool.grabbed[1], by)
        elif box is not None and (spot := _wall_for(box, event.at, context)) is not None:
            edit = place_box(home, box.id, spot[0], spot[1])
        else:
            rooms = {one.id for one in subjects if one.kind == "room"}
            edit = move(home, [one.id for one in subjects], by, context.boxes_in(rooms))
    except Refused as error:
        return Outcome(Select(), says=str(error))
    return Outcome(Select(), edit, says=edit.says, selected=subjects)


def _clicked(tool: Select, context: Context) -> tuple[Subject, ...]:
    if tool.on is None:
        return context.selected if tool.add else ()
    if not tool.add:
        return (tool.on,)
    if tool.on in context.selected:
        return tuple(one for one in context.selected if one != tool.on)
    return (*context.selected, tool.on)


def _inside(tool: Select, at: XY, context: Context) -> tuple[Subject, ...]:
    """Return the boxes inside the marquee, with what was selected if shift is held."""
    assert tool.start is not None
    left, right = sorted((tool.start[0], at[0]))
    top, bottom = sorted((tool.start[1], at[1]))
    found = [
        Subject("box", box.id)
        for box in context.home.boxes
        if box.level == context.level and box.at and left <= box.at[0] <= right and top <= box.at[1] <= bottom
    ]
    kept = context.selected if tool.add else ()
    return tuple(dict.fromkeys((*kept, *found)))


# --- keys -----------------------------------------------------------------------------------------------------------


def _key(tool: Select, event: Key, context: Context) -> Outcome:
    if event.name == "escape":
        return Outcome(Select(), says=SAYS, selected=() if tool.start is None else None)
    ids = [one.id for one in context.selected]
    try:
        if event.name in ("delete", "backspace"):
            edit = remove(context.home, ids)
            return Outcome(Select(), edit, says=edit.says, selected=())
        if event.name in ARROWS and ids:
            far = NUDGE_FAR_MM if event.add else NUDGE_MM
            dx, dy = ARROWS[event.name]
            rooms = {one.id for one in context.selected if one.kind == "room"}
            edit = move(context.home, ids, (dx * far, dy * far), context.boxes_in(rooms))
            return Outcome(Select(), edit, says=edit.says, merge=f"nudge {ids}")
    except Refused as error:
        return Outcome(Select(), says=str(error))
    return Outcome(tool, says=SAYS)


def room_at(at: XY, context: Context) -> Subject | None:
    """Return the room that a place lies in, for a click on bare floor."""
    for room in context.home.rooms:
        if room.level == context.level and is_inside(at, room.outline):
            return Subject("room", room.id)
    return None
