"""Drawing rooms: a rectangle in one drag, or corner by corner; lengths typed while drawing."""

from dataclasses import dataclass, replace
from math import hypot

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.geometry.snapping import snap
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press, Release
from floorplan_circuits.home.lengths import NotALength, parse_length, show_length
from floorplan_circuits.home.record import Point
from floorplan_circuits.view import Draft

SAYS = "Drag a rectangle, or click corner by corner. Type a length and Enter for an exact wall. Esc leaves the tool."
GOING_ON = "Click the next corner, the first one to close. Type a length for this wall. Esc drops it."
TYPING = "0123456789.,'\" /mcftinx×"


@dataclass(frozen=True, slots=True)
class DrawRoom:
    """The tool to draw rooms with: corners put so far, where the pointer is, what is being typed."""

    corners: tuple[Point, ...] = ()
    pointer: XY = (0.0, 0.0)
    held: bool = False
    pressed: XY | None = None
    typed: str = ""


def step_room(tool: DrawRoom, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with the room tool in hand."""
    if isinstance(event, Key):
        return _key(tool, event, context)
    at = snap(event.at, context.outlines(), context.reach, tool.corners[-1] if tool.corners else None).at
    if isinstance(event, Press):
        return _press(tool, event, at, context)
    if isinstance(event, Move):
        moved = replace(tool, pointer=at, held=event.held)
        return Outcome(moved, draft=_draft(moved, context), says=_says(moved))
    return _release(tool, event, at, context)


def _press(tool: DrawRoom, event: Press, at: Point, context: Context) -> Outcome:
    if not tool.corners:
        started = DrawRoom((at,), at, held=True, pressed=event.at)
        return Outcome(started, draft=_draft(started, context), says=SAYS)
    if _is_first(at, tool, context) and len(tool.corners) >= 3:
        return _finish(tool.corners, context)
    grown = replace(tool, corners=(*tool.corners, at), pointer=at, pressed=None, typed="")
    return Outcome(grown, draft=_draft(grown, context), says=GOING_ON)


def _is_first(at: Point, tool: DrawRoom, context: Context) -> bool:
    first = tool.corners[0]
    return hypot(first[0] - at[0], first[1] - at[1]) <= context.reach


def _release(tool: DrawRoom, event: Release, at: Point, context: Context) -> Outcome:
    if tool.pressed is None or not tool.corners:
        return Outcome(tool, draft=_draft(tool, context), says=_says(tool))
    pulled = hypot(event.at[0] - tool.pressed[0], event.at[1] - tool.pressed[1])
    if pulled >= 2 * context.reach and len(tool.corners) == 1:
        return _finish(_rectangle(tool.corners[0], at), context)
    going = replace(tool, pressed=None, held=False)
    return Outcome(going, draft=_draft(going, context), says=GOING_ON)


def _rectangle(a: Point, b: Point) -> tuple[Point, ...]:
    return a, (b[0], a[1]), b, (a[0], b[1])


def _finish(corners: tuple[Point, ...], context: Context) -> Outcome:
    """Make the room, and ask for its name where it stands."""
    try:
        edit = add_room(context.home, context.level, corners)
    except Refused as error:
        return Outcome(DrawRoom(), says=str(error))
    room = Subject("room", edit.made[-1])
    return Outcome(DrawRoom(), edit, says="Type the room's name, then Enter.", selected=(room,), name=room)


# --- typed lengths --------------------------------------------------------------------------------------------------


def _key(tool: DrawRoom, event: Key, context: Context) -> Outcome:
    if event.name == "escape":
        return Outcome(DrawRoom() if tool.corners else None, says=SAYS)
    if event.name == "enter":
        return _enter(tool, context)
    if event.name == "backspace":
        shorter = replace(tool, typed=tool.typed[:-1]) if tool.typed else replace(tool, corners=tool.corners[:-1])
        return Outcome(shorter, draft=_draft(shorter, context), says=_says(shorter))
    if tool.corners and event.text and all(letter.lower() in TYPING for letter in event.text):
        longer = replace(tool, typed=(tool.typed + event.text)[:30])
        return Outcome(longer, draft=_draft(longer, context), says=f"{longer.typed}, then Enter. Esc drops it.")
    return Outcome(tool, draft=_draft(tool, context), says=_says(tool))


def _enter(tool: DrawRoom, context: Context) -> Outcome:
    if not tool.typed:
        return _finish(tool.corners, context) if len(tool.corners) >= 3 else Outcome(tool, says=_says(tool))
    try:
        lengths = [parse_length(part, context.home.units) for part in tool.typed.replace("×", "x").split("x")]
    except NotALength as error:
        cleared = replace(tool, typed="")
        return Outcome(cleared, draft=_draft(cleared, context), says=str(error))
    if len(lengths) > 1 or tool.held:
        return _finish(_sized(tool, lengths), context)
    corner = _along(tool.corners[-1], tool.pointer, lengths[0])
    grown = replace(tool, corners=(*tool.corners, corner), typed="")
    return Outcome(grown, draft=_draft(grown, context), says=GOING_ON)


def _sized(tool: DrawRoom, lengths: list[int]) -> tuple[Point, ...]:
    """Return the rectangle of the typed width and depth, on the side of its first corner that the pointer is."""
    (x, y), (px, py) = tool.corners[0], tool.pointer
    wide = lengths[0] if px >= x else -lengths[0]
    deep = (lengths[1] if py >= y else -lengths[1]) if len(lengths) > 1 else round(py - y)
    return _rectangle((x, y), (x + wide, y + deep))


def _along(start: Point, towards: XY, length: int) -> Point:
    dx, dy = towards[0] - start[0], towards[1] - start[1]
    far = hypot(dx, dy)
    if far == 0:
        return start[0] + length, start[1]
    return round(start[0] + dx / far * length), round(start[1] + dy / far * length)


# --- what is drawn meanwhile ----------------------------------------------------------------------------------------


def _says(tool: DrawRoom) -> str:
    return GOING_ON if len(tool.corners) > 1 or (tool.corners and not tool.held) else SAYS


def _draft(tool: DrawRoom, context: Context) -> Draft | None:
    units = context.home.units
    if not tool.corners:
        return Draft(at=tool.pointer)
    if tool.held and len(tool.corners) == 1:
        corners = _rectangle(tool.corners[0], (round(tool.pointer[0]), round(tool.pointer[1])))
        wide, deep = abs(corners[2][0] - corners[0][0]), abs(corners[2][1] - corners[0][1])
        words = tool.typed or f"{show_length(wide, units)} × {show_length(deep, units)}"
        return Draft(lines=((*corners, corners[0]),), at=tool.pointer, words=words)
    last = tool.corners[-1]
    length = round(hypot(tool.pointer[0] - last[0], tool.pointer[1] - last[1]))
    return Draft(
        lines=((*tool.corners, tool.pointer),), at=tool.pointer, words=tool.typed or show_length(length, units)
    )
