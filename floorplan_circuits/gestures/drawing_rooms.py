"""Drawing rooms: a rectangle in one drag, or corner by corner; lengths typed while drawing."""

from dataclasses import dataclass, replace
from math import hypot

from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.rooms import add_room
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.geometry.snapping import snap
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press, Release
from floorplan_circuits.gestures.lengths_typed import TYPING, typed_further
from floorplan_circuits.gestures.overlapping import OVER_KEY, Offer, offer_for, taken
from floorplan_circuits.home.insides import inside_area
from floorplan_circuits.home.lengths import NotALength, parse_length, show_area, show_length
from floorplan_circuits.home.record import Point
from floorplan_circuits.view import Draft

SAYS = "Drag a rectangle, or click corner by corner. Type a length and Enter for an exact wall. Esc leaves the tool."
GOING_ON = "Click the next corner, the first one to close. Type a length for this wall. Esc drops it."
ONE_LENGTH = "Type one length for this wall; two (4 x 3) make a rectangle from its first corner."


@dataclass(frozen=True, slots=True)
class DrawRoom:
    """The tool to draw rooms with: corners put so far, where the pointer is, what is being typed.

    `pressed` is where the first corner was pressed, while a drag from there would still draw a rectangle. `closing`:
    the button went down where it closes the outline. `offer`: it lies over other rooms, and waits for what to do.
    """

    corners: tuple[Point, ...] = ()
    pointer: XY = (0.0, 0.0)
    held: bool = False
    pressed: XY | None = None
    typed: str = ""
    closing: bool = False
    offer: Offer | None = None

    @property
    def is_rectangle(self) -> bool:
        """Whether what is drawn now is a rectangle from the first corner."""
        return self.held and len(self.corners) == 1


def step_room(tool: DrawRoom, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with the room tool in hand."""
    if tool.offer is not None:
        return _answered(tool, tool.offer, event, context)
    if isinstance(event, Key):
        return _key(tool, event, context)
    at = _where(tool, event.at, context)
    if isinstance(event, Press):
        return _press(tool, event, at, context)
    if isinstance(event, Move):
        return _going(replace(tool, pointer=at, held=event.held, closing=tool.closing and event.held), context)
    return _release(tool, event, at, context)


def _where(tool: DrawRoom, at: XY, context: Context) -> Point:
    """Return where the pointer means to be: the first corner if that closes the outline, else where it snaps to."""
    corners = tool.corners
    if len(corners) >= 3 and _apart(corners[0], at) <= context.reach:
        return corners[0]
    wall = (corners[-2], corners[-1]) if len(corners) >= 2 and not tool.is_rectangle else None
    return snap(at, [*context.outlines(), *context.below()], context.reach, corners, wall).at


def _apart(a: XY, b: XY) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


def _going(tool: DrawRoom, context: Context, says: str = "") -> Outcome:
    going_on = len(tool.corners) > 1 or (tool.corners and not tool.held)
    return Outcome(tool, draft=_draft(tool, context), says=says or (GOING_ON if going_on else SAYS))


def _press(tool: DrawRoom, event: Press, at: Point, context: Context) -> Outcome:
    """Put a corner; on the first one, or twice in one place, close the outline once the button is let go."""
    if not tool.corners:
        return _going(DrawRoom((at,), at, held=True, pressed=event.at), context)
    if at in (tool.corners[0], tool.corners[-1]):
        return _going(replace(tool, pressed=None, closing=len(tool.corners) >= 3), context)
    return _going(replace(tool, corners=(*tool.corners, at), pointer=at, pressed=None, typed=""), context, GOING_ON)


def _release(tool: DrawRoom, event: Release, at: Point, context: Context) -> Outcome:
    let_go = replace(tool, pressed=None, held=False, closing=False)
    if tool.closing:
        return _finish(let_go, tool.corners, context)
    if tool.pressed is None or len(tool.corners) != 1:
        return _going(let_go, context)
    if _apart(event.at, tool.pressed) >= 2 * context.reach:
        return _finish(let_go, _rectangle(tool.corners[0], at), context)
    return _going(let_go, context)


def _rectangle(a: Point, b: Point) -> tuple[Point, ...]:
    return a, (b[0], a[1]), b, (a[0], b[1])


def _finish(tool: DrawRoom, corners: tuple[Point, ...], context: Context) -> Outcome:
    """Make the room, unless it lies over others. Corners put one by one stay where it can't be made."""
    try:
        offer = offer_for(corners, context)
        if offer is not None:
            return _offered(replace(tool, offer=offer, typed=""), offer)
        edit = add_room(context.home, context.level, corners)
    except Refused as error:
        return _going(replace(tool, typed=""), context, str(error)) if len(tool.corners) > 1 else _none(str(error))
    return _made(edit)


def _made(edit: Edited) -> Outcome:
    """Ask for the name of a room just made, where it stands."""
    room = Subject("room", edit.made[-1])
    return Outcome(DrawRoom(), edit, says="Type the room's name, then Enter.", selected=(room,), name=room)


def _offered(tool: DrawRoom, offer: Offer) -> Outcome:
    shown = (*offer.shown, offer.shown[0])
    return Outcome(tool, draft=Draft(lines=(shown,), at=tool.pointer), says=offer.says)


def _answered(tool: DrawRoom, offer: Offer, event: Event, context: Context) -> Outcome:
    """Do with a room that lies over others what the next key says; anything else asks again."""
    if event == Key("escape"):
        return _none(SAYS)
    over = isinstance(event, Key) and event.text.lower() == OVER_KEY
    if not over and not (isinstance(event, Key) and event.name == "enter"):
        return _offered(tool, offer)
    try:
        return _made(taken(offer, context, over))
    except Refused as error:
        return _none(str(error))


def _none(says: str) -> Outcome:
    return Outcome(DrawRoom(), says=says)


# --- keys -----------------------------------------------------------------------------------------------------------


def _key(tool: DrawRoom, event: Key, context: Context) -> Outcome:
    if event.name == "escape":
        return _none(SAYS) if tool.corners else Outcome(None, says=SAYS)
    if event.name == "enter":
        return _enter(tool, context)
    if event.name == "backspace":
        return _going(_shorter(tool), context)
    if tool.corners and event.text and TYPING.issuperset(event.text.lower()):
        longer = replace(tool, typed=typed_further(tool.typed, event.text))
        return _going(longer, context, f"{longer.typed}, then Enter. Esc drops it.")
    return _going(tool, context)


def _shorter(tool: DrawRoom) -> DrawRoom:
    """Return the tool one step back: a letter less typed, else a corner less put."""
    if tool.typed:
        return replace(tool, typed=tool.typed[:-1])
    return replace(tool, corners=tool.corners[:-1], pressed=None)


def _enter(tool: DrawRoom, context: Context) -> Outcome:
    if not tool.typed:
        return _finish(tool, tool.corners, context) if len(tool.corners) >= 3 else _going(tool, context)
    untyped = replace(tool, typed="")
    try:
        parts = tool.typed.lower().replace("×", "x").split("x")
        lengths = [parse_length(part, context.home.units) for part in parts]
    except NotALength as error:
        return _going(untyped, context, str(error))
    if len(tool.corners) == 1 and (len(lengths) == 2 or (len(lengths) == 1 and tool.held)):
        return _finish(untyped, _sized(tool, [length + context.home.wall for length in lengths]), context)
    if len(lengths) > 1:
        return _going(untyped, context, ONE_LENGTH)
    corner = _along(tool.corners[-1], tool.pointer, lengths[0] + context.home.wall if lengths[0] else 0)
    if corner == tool.corners[-1]:
        return _going(untyped, context, "A wall has a length. Type it again.")
    return _going(replace(untyped, corners=(*tool.corners, corner), pressed=None), context, GOING_ON)


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


def _draft(tool: DrawRoom, context: Context) -> Draft:
    units = context.home.units
    if not tool.corners:
        return Draft(at=tool.pointer)
    if tool.is_rectangle:
        corners = _rectangle(tool.corners[0], (round(tool.pointer[0]), round(tool.pointer[1])))
        wide, deep = abs(corners[2][0] - corners[0][0]), abs(corners[2][1] - corners[0][1])
        wide, deep = (max(0, length - context.home.wall) for length in (wide, deep))
        measure = f"{show_length(wide, units)} × {show_length(deep, units)}, {show_area(wide * deep, units)}"
        words = tool.typed or measure
        return Draft(lines=((*corners, corners[0]),), at=tool.pointer, words=words)
    length = max(0, round(_apart(tool.pointer, tool.corners[-1])) - context.home.wall)
    words = tool.typed or show_length(length, units)
    if not tool.typed and len(tool.corners) > 2 and tool.pointer == tool.corners[0]:
        words = f"{words}, {show_area(inside_area(tool.corners, context.home.wall), units)}"
    return Draft(lines=((*tool.corners, tool.pointer),), at=tool.pointer, words=words)
