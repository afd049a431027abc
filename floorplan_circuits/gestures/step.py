"""`step`: one event with whatever tool is in hand, to what comes of it. The only door the window uses."""

from floorplan_circuits.gestures.dividing_rooms import SAYS as DIVIDE_SAYS
from floorplan_circuits.gestures.dividing_rooms import DivideRoom, step_divide
from floorplan_circuits.gestures.drawing_rooms import SAYS as DRAW_SAYS
from floorplan_circuits.gestures.drawing_rooms import DrawRoom, step_room
from floorplan_circuits.gestures.events import Context, Event, Key, Outcome
from floorplan_circuits.gestures.notching import SAYS as NOTCH_SAYS
from floorplan_circuits.gestures.notching import NotchRoom, step_notch
from floorplan_circuits.gestures.putting import PutDevice, step_put
from floorplan_circuits.gestures.putting_openings import PutOpening, step_opening
from floorplan_circuits.gestures.putting_panels import SAYS as PANEL_SAYS
from floorplan_circuits.gestures.putting_panels import PutPanel, step_panel
from floorplan_circuits.gestures.putting_stairs import SAYS as STAIR_SAYS
from floorplan_circuits.gestures.putting_stairs import PutStairs, step_stairs
from floorplan_circuits.gestures.selecting import SAYS as SELECT_SAYS
from floorplan_circuits.gestures.selecting import Select, step_select
from floorplan_circuits.gestures.switching import SAYS as SWITCHING_SAYS
from floorplan_circuits.gestures.switching import DrawSwitching, step_switching
from floorplan_circuits.gestures.tracing import (
    MarkLength,
    MarkWall,
    MovePicture,
    PictureTool,
    says_of_picture,
    step_picture,
)
from floorplan_circuits.gestures.tying import NO_BREAKER, TieDevices, step_tie
from floorplan_circuits.home.kinds import catalogue

Building = DrawRoom | DivideRoom | NotchRoom | PutOpening | PutStairs
Tool = Select | Building | PutDevice | PutPanel | TieDevices | DrawSwitching | MarkLength | MarkWall | MovePicture

PUT_SAYS = "Click a wall or a box to put one. Esc leaves the tool."
OPENING_SAYS = "Click a wall to put one, or type its width first. Esc leaves the tool."
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


BUILDING_SAYS = {DrawRoom: DRAW_SAYS, DivideRoom: DIVIDE_SAYS, NotchRoom: NOTCH_SAYS, PutStairs: STAIR_SAYS}


def says_of(tool: Tool) -> str:
    """Return what a tool just taken in hand says of itself."""
    if isinstance(tool, PutOpening):
        return OPENING_SAYS
    for kind, says in BUILDING_SAYS.items():
        if isinstance(tool, kind):
            return says
    if isinstance(tool, TieDevices):
        return NO_BREAKER
    if isinstance(tool, PutPanel):
        return PANEL_SAYS
    if isinstance(tool, DrawSwitching):
        return SWITCHING_SAYS
    if isinstance(tool, PictureTool):
        return says_of_picture(tool)
    return SELECT_SAYS if isinstance(tool, Select) else PUT_SAYS


def at_rest(tool: Tool) -> Tool:
    """Return the same tool with nothing begun: for another level, or when the window loses the hand."""
    if isinstance(tool, PutDevice):
        return PutDevice(tool.kind, spacing=tool.spacing)
    if isinstance(tool, PutPanel):
        return PutPanel(tool.panel)
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
    outcome = _step(tool, event, context)
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


def _step(tool: Tool, event: Event, context: Context) -> Outcome:
    if isinstance(tool, Select):
        return step_select(tool, event, context)
    if isinstance(tool, DrawRoom):
        return step_room(tool, event, context)
    if isinstance(tool, DivideRoom):
        return step_divide(tool, event, context)
    if isinstance(tool, NotchRoom):
        return step_notch(tool, event, context)
    if isinstance(tool, PutOpening):
        return step_opening(tool, event, context)
    if isinstance(tool, PutStairs):
        return step_stairs(tool, event, context)
    if isinstance(tool, PutDevice):
        return step_put(tool, event, context)
    if isinstance(tool, PutPanel):
        return step_panel(tool, event, context)
    if isinstance(tool, DrawSwitching):
        return step_switching(tool, event, context)
    if isinstance(tool, PictureTool):
        return step_picture(tool, event, context)
    return step_tie(tool, event, context)
