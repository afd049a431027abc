"""Tying: a breaker in hand, then devices, one a click or many in a marquee, until Escape."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.ties import feeds_of, tie, untie
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press
from floorplan_circuits.home.boxes import FromBreaker, Supplied
from floorplan_circuits.supply.numbering import mark
from floorplan_circuits.view import Draft

NO_BREAKER = "Click a breaker on the panel, then the devices it feeds. Esc leaves the tool."
TIED = "A tie is what somebody says: test it to be sure of it."
TAKES_POWER = ("box", "device")


@dataclass(frozen=True, slots=True)
class TieDevices:
    """The tool that ties what is clicked to the breaker in hand; clicking what hangs on it already unties it."""

    breaker: int | None = None
    start: XY | None = None
    on: Subject | None = None
    dragging: bool = False


def step_tie(tool: TieDevices, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with a breaker in hand."""
    if tool.breaker is not None and tool.breaker not in context.home.breakers:
        tool = replace(tool, breaker=None)
    if isinstance(event, Key):
        return Outcome(None if event.name == "escape" else tool, says=_says(tool, context))
    if isinstance(event, Press):
        return Outcome(TieDevices(tool.breaker, event.at, event.subject), says=_says(tool, context))
    if isinstance(event, Move):
        return _move(tool, event, context)
    idle = TieDevices(tool.breaker)
    if tool.start is None:
        return Outcome(idle, says=_says(tool, context))
    if tool.dragging:
        return _tied(idle, context.boxes_between(tool.start, event.at), context, toggle=False)
    return _clicked(idle, tool.on, context)


def _says(tool: TieDevices, context: Context) -> str:
    breaker = context.home.breakers.get(tool.breaker)
    if breaker is None:
        return NO_BREAKER
    called = mark(context.home.panels.get(breaker.panel), breaker)
    return f"Click or drag round what {called} feeds; click again to untie. Esc leaves the tool."


def _move(tool: TieDevices, event: Move, context: Context) -> Outcome:
    if not event.held or tool.start is None:
        return Outcome(TieDevices(tool.breaker), says=_says(tool, context))
    far = hypot(event.at[0] - tool.start[0], event.at[1] - tool.start[1])
    if not tool.dragging and far < context.reach:
        return Outcome(tool, says=_says(tool, context))
    draft = Draft(marquee=(tool.start, event.at))
    return Outcome(replace(tool, dragging=True), draft=draft, says="Let go to tie what is inside.")


def _clicked(idle: TieDevices, on: Subject | None, context: Context) -> Outcome:
    if on is not None and on.kind == "breaker":
        taken = TieDevices(on.id)
        return Outcome(taken, says=_says(taken, context), selected=(on,))
    if on is None or on.kind not in TAKES_POWER:
        return Outcome(idle, says=_says(idle, context))
    return _tied(idle, [on.id], context, toggle=True)


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
