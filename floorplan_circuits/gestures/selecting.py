"""Selecting: click, marquee, drag what is selected, nudge, delete."""

from dataclasses import dataclass, replace
from math import hypot

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.moving import move
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.geometry.wall_spots import is_inside
from floorplan_circuits.gestures.dragging import Drag, begun, drag_draft, dropped
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press, Release, is_between
from floorplan_circuits.home.home import Home
from floorplan_circuits.view import Draft

SAYS = "Click to select, drag to move or to select many. Delete removes, arrows nudge, Esc lets go."
ROOM_SAYS = "Drag a corner or a wall of {}; with Shift a wall bends. The right button shows more. Esc lets go."
GATHERING = "Let go to select what is inside."
DRAGGING = "Let go to put it here. Esc leaves it where it was."
NUDGE_MM, NUDGE_FAR_MM = 10, 100
ARROWS = {"left": (-1, 0), "right": (1, 0), "up": (0, -1), "down": (0, 1)}


@dataclass(frozen=True, slots=True)
class Select:
    """The tool to select with. While a button is down it remembers where, on what, and what the drag takes along.

    `marquee`: the drag began on nothing that can be dragged, and gathers what is inside it.
    """

    start: XY | None = None
    on: Subject | None = None
    add: bool = False
    drag: Drag | None = None
    marquee: bool = False


def step_select(tool: Select, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with the select tool in hand."""
    if isinstance(event, Key):
        return _key(tool, event, context)
    if isinstance(event, Press):
        return Outcome(Select(event.at, event.subject, event.add), says=SAYS)
    if tool.start is None:
        return Outcome(tool, says=_idle(context.selected, context))
    if isinstance(event, Release):
        return _release(tool, tool.start, event, context)
    return _move(tool, tool.start, event, context) if event.held else Outcome(Select(), says=SAYS)


def _idle(selected: tuple[Subject, ...], context: Context) -> str:
    """Return what can be done with what is selected."""
    room = context.home.rooms.get(selected[0].id) if len(selected) == 1 and selected[0].kind == "room" else None
    return SAYS if room is None or room.level != context.level else ROOM_SAYS.format(room.name)


def _move(tool: Select, start: XY, event: Move, context: Context) -> Outcome:
    going = tool.drag is not None or tool.marquee
    if not going and hypot(event.at[0] - start[0], event.at[1] - start[1]) < context.reach / 2:
        return Outcome(tool, says=SAYS)
    drag = tool.drag if going else begun(start, tool.on, context, bend=tool.add)
    if drag is None:
        return Outcome(replace(tool, marquee=True), draft=Draft(marquee=(start, event.at)), says=GATHERING)
    return Outcome(replace(tool, drag=drag), draft=drag_draft(drag, event.at, context, event.subject), says=DRAGGING)


# --- letting go -----------------------------------------------------------------------------------------------------


def _release(tool: Select, start: XY, event: Release, context: Context) -> Outcome:
    if tool.marquee:
        return Outcome(Select(), says=SAYS, selected=_inside(start, event.at, tool.add, context))
    if tool.drag is None:
        selected = _clicked(tool, start, context)
        return Outcome(Select(), says=_idle(selected, context), selected=selected)
    try:
        edit = dropped(tool.drag, event.at, context, event.subject)
    except Refused as error:
        return Outcome(Select(), says=str(error))
    if edit.home is context.home:
        return Outcome(Select(), says=SAYS)
    there = tuple(one for one in tool.drag.things if one.kind != "box" or one.id in edit.home.boxes)
    return Outcome(Select(), edit, says=f"{edit.says}.", selected=there or _carried_to(tool.drag.gang, edit.home))


def _carried_to(device: int | None, home: Home) -> tuple[Subject, ...] | None:
    """Return the box that a device is in now."""
    boxes = (box.id for box in home.boxes if any(one.id == device for one in box.devices))
    return next(((Subject("box", box),) for box in boxes), None)


def _clicked(tool: Select, at: XY, context: Context) -> tuple[Subject, ...]:
    on = _whole_box(tool.on, context) or room_at(at, context)
    if on is None:
        return context.selected if tool.add else ()
    if not tool.add:
        return (on,)
    if on in context.selected:
        return tuple(one for one in context.selected if one != on)
    return (*context.selected, on)


def _whole_box(on: Subject | None, context: Context) -> Subject | None:
    """Return what a click selects: for one gang its box, which is opened, moved and removed as a whole."""
    if on is None or on.kind != "device":
        return on
    boxes = (box.id for box in context.home.boxes if any(one.id == on.id for one in box.devices))
    return next((Subject("box", box) for box in boxes), None)


def room_at(at: XY, context: Context) -> Subject | None:
    """Return the room whose floor a place lies on, the last drawn on top."""
    rooms = (room for room in reversed(context.home.rooms.rows) if room.level == context.level)
    return next((Subject("room", room.id) for room in rooms if is_inside(at, room.outline)), None)


def _inside(start: XY, end: XY, add: bool, context: Context) -> tuple[Subject, ...]:
    """Return the boxes in the marquee and the rooms wholly in it, with what was selected if shift is held."""
    rooms = [room for room in context.home.rooms if room.level == context.level]
    found = [Subject("box", box) for box in context.boxes_between(start, end)]
    found += [Subject("room", one.id) for one in rooms if all(is_between(at, start, end) for at in one.outline)]
    return tuple(dict.fromkeys((*(context.selected if add else ()), *found)))


# --- keys -----------------------------------------------------------------------------------------------------------


def _key(tool: Select, event: Key, context: Context) -> Outcome:
    if event.name == "escape":
        return Outcome(Select(), says=SAYS, selected=() if tool.start is None else None)
    if event.name in ("delete", "backspace") or (event.name in ARROWS and context.selected):
        return _edited(event, context)
    return Outcome(tool, says=SAYS)


def _edited(event: Key, context: Context) -> Outcome:
    """Return what a key does to what is selected; the same arrow key again and again is one edit."""
    ids = [one.id for one in context.selected]
    try:
        if event.name not in ARROWS:
            edit = remove(context.home, ids)
            return Outcome(Select(), edit, says=f"{edit.says}.", selected=())
        far = NUDGE_FAR_MM if event.add else NUDGE_MM
        dx, dy = ARROWS[event.name]
        edit = move(context.home, ids, (dx * far, dy * far))
    except Refused as error:
        return Outcome(Select(), says=str(error))
    return Outcome(Select(), edit, says=f"{edit.says}.", merge=f"nudge {ids}")
