"""Notches and bays: a rectangle dragged over a wall takes a piece from the room, or with shift adds one to it."""

from dataclasses import dataclass

from floorplan_circuits.edits.dividing import add_on, cut_out
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.geometry.snapping import snap
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press
from floorplan_circuits.gestures.selecting import room_at
from floorplan_circuits.home.lengths import show_length
from floorplan_circuits.home.record import Point
from floorplan_circuits.view import Draft

SAYS = "Drag a rectangle over a wall to cut a notch out of the room; with shift it adds a bay. Esc leaves the tool."
GOING = "Let go to cut it out, with shift to add it. Esc drops it."
NO_ROOM = "Drag over a wall of the room; select the room first where two could be meant."


@dataclass(frozen=True, slots=True)
class NotchRoom:
    """The tool that cuts notches and adds bays. `start` is where the button went down."""

    start: Point | None = None


def step_notch(tool: NotchRoom, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with the notching tool in hand."""
    if isinstance(event, Key):
        leaves = event.name == "escape" and tool.start is None
        return Outcome(None if leaves else NotchRoom(None if event.name == "escape" else tool.start), says=SAYS)
    at = snap(event.at, context.outlines(), context.reach).at
    if isinstance(event, Press):
        return Outcome(NotchRoom(at), says=GOING)
    if tool.start is None or (isinstance(event, Move) and not event.held):
        return Outcome(NotchRoom(), says=SAYS)
    piece = rectangle(tool.start, at)
    if isinstance(event, Move):
        return Outcome(tool, draft=_draft(piece, at, context), says=GOING)
    return _let_go(piece, event.add, context)


def rectangle(a: Point, b: Point) -> tuple[Point, ...]:
    """Return the corners of the rectangle between two of them."""
    return a, (b[0], a[1]), b, (a[0], b[1])


def _let_go(piece: tuple[Point, ...], add: bool, context: Context) -> Outcome:
    room = _meant(piece, context)
    if room is None:
        return Outcome(NotchRoom(), says=NO_ROOM)
    try:
        edit = (add_on if add else cut_out)(context.home, room, piece)
    except Refused as error:
        return Outcome(NotchRoom(), says=str(error))
    if edit.home is context.home:
        return Outcome(NotchRoom(), says=NO_ROOM)
    return Outcome(NotchRoom(), edit, says=f"{edit.says}.", selected=(Subject("room", room),))


def _meant(piece: tuple[Point, ...], context: Context) -> int | None:
    """Return the one room that is selected, else the one that a place just inside a corner of the piece lies in."""
    rooms = [one.id for one in context.selected if one.kind == "room"]
    if len(rooms) == 1 and rooms[0] in context.home.rooms and context.home.rooms[rooms[0]].level == context.level:
        return rooms[0]
    found = (room_at(place, context) for place in _probes(piece))
    return next((room.id for room in found if room is not None), None)


def _probes(piece: tuple[Point, ...]) -> list[XY]:
    """Return the middle of a piece and places just inside its corners."""
    (ax, ay), _, (bx, by), _ = piece
    middle = (ax + bx) / 2, (ay + by) / 2
    return [middle, *((x + (middle[0] - x) / 20, y + (middle[1] - y) / 20) for x, y in piece)]


def _draft(piece: tuple[Point, ...], at: Point, context: Context) -> Draft:
    units = context.home.units
    wide, deep = abs(piece[2][0] - piece[0][0]), abs(piece[2][1] - piece[0][1])
    words = f"{show_length(wide, units)} × {show_length(deep, units)}"
    return Draft(lines=((*piece, piece[0]),), at=at, words=words)
