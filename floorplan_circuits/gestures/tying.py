"""Tying: a breaker in hand, then devices, one a click, many in a marquee or what is left of a room, until Escape."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.moving import contents
from floorplan_circuits.edits.ties import feeds_of, tie, untie
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press
from floorplan_circuits.gestures.selecting import room_at
from floorplan_circuits.home.boxes import FromBreaker, NotKnown, Supplied
from floorplan_circuits.supply.numbering import mark
from floorplan_circuits.view import Draft

NO_BREAKER = "Click a breaker on the panel, or a device that is tied to it; then what it feeds. Esc leaves the tool."
TIED = "A tie is what somebody says: test it to be sure of it."
ALL_TIED = "All that takes power there is tied already. Click a device without Shift to tie it anew."
NO_ROOM = "Shift-click the floor of a room to tie what is not tied yet in it."
TAKES_POWER = ("box", "device")
AT_WALL_MM = 150.0
"""How far in mm beyond a marquee within a room what hangs on the room's walls still counts."""


@dataclass(frozen=True, slots=True)
class TieDevices:
    """The tool that ties what is clicked to the breaker in hand; clicking what hangs on it already unties it.

    `rest`: shift is held, and only what nobody has tied yet is meant: of a marquee, or of the room that is clicked.
    """

    breaker: int | None = None
    start: XY | None = None
    on: Subject | None = None
    dragging: bool = False
    rest: bool = False


def step_tie(tool: TieDevices, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with a breaker in hand."""
    if tool.breaker is not None and tool.breaker not in context.home.breakers:
        tool = replace(tool, breaker=None)
    if isinstance(event, Key):
        return Outcome(None if event.name == "escape" else tool, says=_says(tool, context))
    if isinstance(event, Press):
        pressed = TieDevices(tool.breaker, event.at, event.subject, rest=event.add)
        return Outcome(pressed, says=_says(tool, context))
    if isinstance(event, Move):
        return _move(tool, event, context)
    idle = TieDevices(tool.breaker)
    if tool.start is None:
        return Outcome(idle, says=_says(tool, context))
    if tool.dragging:
        boxes = _boxes_meant(tool.start, event.at, context)
        return _rest_tied(idle, boxes, context) if tool.rest else _tied(idle, boxes, context, toggle=False)
    if tool.rest and (tool.on is None or tool.on.kind not in (*TAKES_POWER, "breaker")):
        return _room_tied(idle, tool.start, context)
    return _clicked(idle, tool.on, context)


def _says(tool: TieDevices, context: Context) -> str:
    breaker = context.home.breakers.get(tool.breaker)
    if breaker is None:
        return NO_BREAKER
    called = mark(context.home.panels.get(breaker.panel), breaker)
    return (
        f"Click or drag round what {called} feeds; click again to untie. Shift-click a room’s floor for all "
        "that is not tied yet. Esc leaves the tool."
    )


def _move(tool: TieDevices, event: Move, context: Context) -> Outcome:
    if not event.held or tool.start is None:
        return Outcome(TieDevices(tool.breaker), says=_says(tool, context))
    far = hypot(event.at[0] - tool.start[0], event.at[1] - tool.start[1])
    if not tool.dragging and far < context.reach:
        return Outcome(tool, says=_says(tool, context))
    draft = Draft(marquee=(tool.start, event.at))
    what = "what is not tied yet inside" if tool.rest else "what is inside"
    return Outcome(replace(tool, dragging=True), draft=draft, says=f"Let go to tie {what}.")


def _clicked(idle: TieDevices, on: Subject | None, context: Context) -> Outcome:
    if on is not None and on.kind == "breaker":
        taken = TieDevices(on.id)
        return Outcome(taken, says=_says(taken, context), selected=(on,))
    if on is None or on.kind not in TAKES_POWER:
        return Outcome(idle, says=_says(idle, context))
    same = _breaker_of(context, on.id) if idle.breaker is None else None
    if same is not None:
        taken = TieDevices(same)
        return Outcome(taken, says=_says(taken, context), selected=(Subject("breaker", same),))
    return _tied(idle, [on.id], context, toggle=True)


def _room_tied(idle: TieDevices, at: XY, context: Context) -> Outcome:
    """Tie what nobody has tied yet in the room at a place."""
    room = room_at(at, context)
    if room is None:
        return Outcome(idle, says=NO_ROOM)
    here = contents(context.home, {room.id})
    return _rest_tied(idle, [box.id for box in context.home.boxes if box.id in here], context)


def _boxes_meant(start: XY, end: XY, context: Context) -> Sequence[int]:
    """Return the boxes in a marquee; begun and let go on one room's floor, it means that room's alone.

    A box on a wall hangs on a line that a hand inside the room can't quite reach, and a hair beyond it hang the next
    room's: those of the room count as inside from a wall's thickness off, those of others not at all.
    """
    room = room_at(start, context)
    if room is None or room_at(end, context) != room:
        return context.boxes_between(start, end)
    (left, right), (top, bottom) = sorted((start[0], end[0])), sorted((start[1], end[1]))
    wide = max(context.reach, AT_WALL_MM)
    near = context.boxes_between((left - wide, top - wide), (right + wide, bottom + wide))
    here = contents(context.home, {room.id})
    return [box for box in near if box in here]


def _rest_tied(idle: TieDevices, boxes: Sequence[int], context: Context) -> Outcome:
    """Tie those feeds in these boxes of which nobody has said what they hang on."""
    found = feeds_of(context.home, boxes)
    untied = [feed.id for feed in found if isinstance(feed.on, NotKnown)]
    if found and not untied:
        return Outcome(idle, says=ALL_TIED)
    return _tied(idle, untied, context, toggle=False)


def _breaker_of(context: Context, thing: int) -> int | None:
    """Return the one breaker that a device or box is tied to, to go on with it."""
    found = {
        one.breaker if isinstance(one, FromBreaker) else None
        for feed in feeds_of(context.home, [thing])
        if isinstance(feed.on, Supplied)
        for one in feed.on.supplies
    }
    return found.pop() if len(found) == 1 else None


def _tied(tool: TieDevices, things: Sequence[int], context: Context, toggle: bool) -> Outcome:
    if tool.breaker is None:
        return Outcome(tool, says=NO_BREAKER)
    try:
        if toggle and _all_on(context, things, tool.breaker):
            edit = untie(context.home, things)
            return Outcome(tool, edit, says=f"{edit.says}.")
        edit = tie(context.home, things, tool.breaker)
    except Refused as error:
        return Outcome(tool, says=str(error))
    if edit.home is context.home:
        return Outcome(tool, says=_says(tool, context))
    return Outcome(tool, edit, says=f"{edit.says}. {TIED}")


def _all_on(context: Context, things: Sequence[int], breaker: int) -> bool:
    """Tell whether all that would be tied hangs on the breaker, and on nothing else, already."""
    found = feeds_of(context.home, things)
    return bool(found) and all(
        isinstance(feed.on, Supplied)
        and all(isinstance(one, FromBreaker) and one.breaker == breaker for one in feed.on.supplies)
        for feed in found
    )
