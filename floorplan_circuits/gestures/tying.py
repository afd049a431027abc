"""Tying: a breaker in hand, then devices, one a click or many in a marquee, until Escape."""

from dataclasses import dataclass, replace
from math import hypot

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.ties import feeds_of, tie, untie
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press
from floorplan_circuits.home.boxes import FromBreaker, Supplied
from floorplan_circuits.view import Draft

NO_BREAKER = "Click a breaker on the panel, then the devices it feeds. Esc leaves the tool."


@dataclass(frozen=True, slots=True)
class TieDevices:
    """The tool that ties what is clicked to the breaker in hand; clicking what hangs on it already unties it."""

    breaker: int | None = None
    start: XY | None = None
    on: Subject | None = None
    dragging: bool = False


def step_tie(tool: TieDevices, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with a breaker in hand."""
    if isinstance(event, Key):
        return Outcome(None if event.name == "escape" else tool, says=_says(tool, context))
    if isinstance(event, Press):
        return Outcome(replace(tool, start=event.at, on=event.subject, dragging=False), says=_says(tool, context))
    if isinstance(event, Move):
        return _move(tool, event, context)
    idle = TieDevices(tool.breaker)
    if tool.start is None:
        return Outcome(idle, says=_says(tool, context))
    if tool.dragging:
        return _tied(idle, _boxes_between(tool.start, event.at, context), context, toggle=False)
    if tool.on is not None and tool.on.kind == "breaker":
        return Outcome(TieDevices(tool.on.id), says=_says(TieDevices(tool.on.id), context), selected=(tool.on,))
    if tool.on is None or tool.on.kind != "box":
        return Outcome(idle, says=_says(tool, context))
    return _tied(idle, [tool.on.id], context, toggle=True)


def _says(tool: TieDevices, context: Context) -> str:
    if tool.breaker is None:
        return NO_BREAKER
    mark = context.marks.get(tool.breaker, "")
    return f"Click or drag round what {mark} feeds; click again to untie. Esc leaves the tool."


def _move(tool: TieDevices, event: Move, context: Context) -> Outcome:
    if not event.held or tool.start is None:
        return Outcome(tool, says=_says(tool, context))
    far = hypot(event.at[0] - tool.start[0], event.at[1] - tool.start[1])
    dragging = tool.dragging or far >= context.reach
    draft = Draft(marquee=(tool.start, event.at)) if dragging else None
    return Outcome(replace(tool, dragging=dragging), draft=draft, says="Let go to tie what is inside.")


def _boxes_between(start: XY, end: XY, context: Context) -> list[int]:
    left, right = sorted((start[0], end[0]))
    top, bottom = sorted((start[1], end[1]))
    return [
        box.id
        for box in context.home.boxes
        if box.level == context.level and box.at and left <= box.at[0] <= right and top <= box.at[1] <= bottom
    ]


def _tied(tool: TieDevices, boxes: list[int], context: Context, toggle: bool) -> Outcome:
    if tool.breaker is None:
        return Outcome(tool, says=NO_BREAKER)
    try:
        if toggle and _all_on(context, boxes, tool.breaker):
            edit = untie(context.home, boxes)
        else:
            edit = tie(context.home, boxes, tool.breaker, context.marks.get(tool.breaker, ""))
    except Refused as error:
        return Outcome(tool, says=str(error))
    if edit.home is context.home:
        return Outcome(tool, says=_says(tool, context))
    return Outcome(tool, edit, says=f"{edit.says}. A tie is what somebody says: test it to be sure of it.")


def _all_on(context: Context, boxes: list[int], breaker: int) -> bool:
    """Tell whether all that would be tied hangs on the breaker already."""
    found = feeds_of(context.home, boxes)
    return bool(found) and all(
        isinstance(feed.on, Supplied)
        and {supply.breaker for supply in feed.on.supplies if isinstance(supply, FromBreaker)} == {breaker}
        for feed in found
    )
