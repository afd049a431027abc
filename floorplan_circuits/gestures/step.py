"""`step`: one event with whatever tool is in hand, to what comes of it. The only door the window uses."""

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from floorplan_circuits.gestures.dividing_rooms import SAYS as DIVIDE_SAYS
from floorplan_circuits.gestures.dividing_rooms import DivideRoom, step_divide
from floorplan_circuits.gestures.drawing_rooms import SAYS as DRAW_SAYS
from floorplan_circuits.gestures.drawing_rooms import DrawRoom, step_room
from floorplan_circuits.gestures.events import Context, Event, Key, Outcome
from floorplan_circuits.gestures.notching import SAYS as NOTCH_SAYS
from floorplan_circuits.gestures.notching import NotchRoom, step_notch
from floorplan_circuits.gestures.putting import PutDevice, put_at_rest, says_of_put, step_put
from floorplan_circuits.gestures.putting_openings import PutOpening, says_of_taken_opening, step_opening
from floorplan_circuits.gestures.putting_panels import SAYS as PANEL_SAYS
from floorplan_circuits.gestures.putting_panels import PutPanel, step_panel
from floorplan_circuits.gestures.putting_stairs import SAYS as STAIR_SAYS
from floorplan_circuits.gestures.putting_stairs import PutStairs, step_stairs
from floorplan_circuits.gestures.selecting import SAYS as SELECT_SAYS
from floorplan_circuits.gestures.selecting import Select, step_select
from floorplan_circuits.gestures.stamping import SAYS as STAMP_SAYS
from floorplan_circuits.gestures.stamping import StampClip, step_stamp
from floorplan_circuits.gestures.switching import SAYS as SWITCHING_SAYS
from floorplan_circuits.gestures.switching import DrawSwitching, step_switching
from floorplan_circuits.gestures.tracing import (
    LENGTH_SAYS,
    MOVE_SAYS,
    WALL_SAYS,
    MarkLength,
    MarkWall,
    MovePicture,
    step_picture,
)
from floorplan_circuits.gestures.tying import NO_BREAKER, TieDevices, step_tie
from floorplan_circuits.home.kinds import catalogue

Building = DrawRoom | DivideRoom | NotchRoom | PutOpening | PutStairs
Putting = PutDevice | PutPanel | StampClip
Tool = Select | Building | Putting | TieDevices | DrawSwitching | MarkLength | MarkWall | MovePicture

TIE_KEY, SWITCHING_KEY = "c", "h"
BUILDING_KEYS: dict[str, Building] = {
    "n": DrawRoom(),
    "k": DivideRoom(),
    "b": NotchRoom(),
    "o": PutOpening("door"),
    "i": PutOpening("window"),
    "y": PutOpening("open way"),
    "u": PutStairs(),
}
"""The keys of the tools that the building is drawn with."""


def tool_for_key(letter: str) -> Tool | None:
    """Return the tool that a letter takes in hand: building, connecting to a breaker, switching, a kind of device.

    Examples:
        >>> tool_for_key("r")
        PutDevice(kind='duplex receptacle', pressed=False)
        >>> tool_for_key("%") is None
        True
    """
    if letter.lower() in BUILDING_KEYS:
        return BUILDING_KEYS[letter.lower()]
    if letter.lower() == TIE_KEY:
        return TieDevices()
    if letter.lower() == SWITCHING_KEY:
        return DrawSwitching()
    kind = next((kind for kind in catalogue().values() if kind.key.lower() == letter.lower() != ""), None)
    return PutDevice(kind.name) if kind is not None else None


def says_of(tool: Tool) -> str:
    """Return what a tool just taken in hand says of itself."""
    if isinstance(tool, PutOpening):
        return says_of_taken_opening(tool)
    if isinstance(tool, PutDevice):
        return says_of_put(tool)
    return _TOOLS[type(tool)].says


def at_rest(tool: Tool) -> Tool:
    """Return the same tool with nothing begun: for another level, or when the window loses the hand."""
    if isinstance(tool, PutDevice):
        return put_at_rest(tool)
    if isinstance(tool, PutPanel):
        return PutPanel(tool.panel)
    if isinstance(tool, StampClip):
        return StampClip(tool.clip)
    if isinstance(tool, DrawSwitching):
        return DrawSwitching(tool.switches)
    if isinstance(tool, PutOpening):
        return PutOpening(tool.kind, tool.width)
    return TieDevices(tool.breaker) if isinstance(tool, TieDevices) else type(tool)()


def step(tool: Tool, event: Event, context: Context) -> Outcome:
    """Return what comes of one event. A letter takes another tool; one that is left lets go of all and selects."""
    letter = event.text if isinstance(event, Key) else ""
    if letter and not _types(tool, letter) and (taken := tool_for_key(letter)) is not None:
        return Outcome(taken, says=says_of(taken))
    outcome = _TOOLS[type(tool)].step(tool, event, context)
    if outcome.tool is None:
        return Outcome(Select(), says=SELECT_SAYS, selected=())
    return outcome


def _types(tool: Tool, letter: str) -> bool:
    """Tell whether a letter belongs to what is being drawn or typed, and takes no other tool."""
    if isinstance(tool, PutOpening):
        return bool(tool.typed) or letter.isdigit()
    if isinstance(tool, MarkLength):
        return tool.is_typing
    if isinstance(tool, PutDevice):
        return tool.takes_letters
    return isinstance(tool, DrawRoom) and bool(tool.corners)


class _Hand(NamedTuple):
    """What is done with one kind of tool, and what it says of itself when it is taken in hand."""

    step: Callable[[Any, Event, Context], Outcome]
    says: str = ""
    """Empty where it depends on the tool: then `says_of` asks it."""


_TOOLS: Mapping[type, _Hand] = {
    Select: _Hand(step_select, SELECT_SAYS),
    DrawRoom: _Hand(step_room, DRAW_SAYS),
    DivideRoom: _Hand(step_divide, DIVIDE_SAYS),
    NotchRoom: _Hand(step_notch, NOTCH_SAYS),
    PutOpening: _Hand(step_opening),
    PutStairs: _Hand(step_stairs, STAIR_SAYS),
    PutDevice: _Hand(step_put),
    PutPanel: _Hand(step_panel, PANEL_SAYS),
    StampClip: _Hand(step_stamp, STAMP_SAYS),
    DrawSwitching: _Hand(step_switching, SWITCHING_SAYS),
    MarkLength: _Hand(step_picture, LENGTH_SAYS),
    MarkWall: _Hand(step_picture, WALL_SAYS),
    MovePicture: _Hand(step_picture, MOVE_SAYS),
    TieDevices: _Hand(step_tie, NO_BREAKER),
}
