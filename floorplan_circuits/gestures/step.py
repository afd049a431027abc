"""`step`: one event with whatever tool is in hand, to what comes of it. The only door the window uses."""

from floorplan_circuits.gestures.drawing_rooms import SAYS as DRAW_SAYS
from floorplan_circuits.gestures.drawing_rooms import DrawRoom, step_room
from floorplan_circuits.gestures.events import Context, Event, Key, Outcome
from floorplan_circuits.gestures.putting import PutDevice, step_put
from floorplan_circuits.gestures.putting_panels import SAYS as PANEL_SAYS
from floorplan_circuits.gestures.putting_panels import PutPanel, step_panel
from floorplan_circuits.gestures.selecting import SAYS as SELECT_SAYS
from floorplan_circuits.gestures.selecting import Select, step_select
from floorplan_circuits.gestures.switching import SAYS as SWITCHING_SAYS
from floorplan_circuits.gestures.switching import DrawSwitching, step_switching
from floorplan_circuits.gestures.tying import NO_BREAKER, TieDevices, step_tie
from floorplan_circuits.home.kinds import catalogue

Tool = Select | DrawRoom | PutDevice | PutPanel | TieDevices | DrawSwitching

PUT_SAYS = "Click a wall or a box to put one. Esc leaves the tool."
ROOM_KEY, TIE_KEY, SWITCHING_KEY = "n", "c", "k"


def tool_for_key(letter: str) -> Tool | None:
    """Return the tool that a letter takes in hand: N a room, C a breaker's ties, K what a switch works, or a kind.

    Examples:
        >>> tool_for_key("r")
        PutDevice(kind='duplex receptacle', pressed=False)
        >>> tool_for_key("%") is None
        True
    """
    if letter.lower() == ROOM_KEY:
        return DrawRoom()
    if letter.lower() == TIE_KEY:
        return TieDevices()
    if letter.lower() == SWITCHING_KEY:
        return DrawSwitching()
    kind = next((kind for kind in catalogue().values() if kind.key.lower() == letter.lower() != ""), None)
    return PutDevice(kind.name) if kind is not None else None


def says_of(tool: Tool) -> str:
    """Return what a tool just taken in hand says of itself."""
    if isinstance(tool, DrawRoom):
        return DRAW_SAYS
    if isinstance(tool, TieDevices):
        return NO_BREAKER
    if isinstance(tool, PutPanel):
        return PANEL_SAYS
    if isinstance(tool, DrawSwitching):
        return SWITCHING_SAYS
    return SELECT_SAYS if isinstance(tool, Select) else PUT_SAYS


def at_rest(tool: Tool) -> Tool:
    """Return the same tool with nothing begun: for another level, or when the window loses the hand."""
    if isinstance(tool, PutDevice):
        return PutDevice(tool.kind, spacing=tool.spacing)
    if isinstance(tool, PutPanel):
        return PutPanel(tool.panel)
    if isinstance(tool, DrawSwitching):
        return DrawSwitching(tool.switches)
    return TieDevices(tool.breaker) if isinstance(tool, TieDevices) else type(tool)()


def step(tool: Tool, event: Event, context: Context) -> Outcome:
    """Return what comes of one event. A letter takes another tool; one that is left lets go of all and selects."""
    typing = bool(tool.corners) if isinstance(tool, DrawRoom) else isinstance(tool, PutDevice) and tool.takes_letters
    if isinstance(event, Key) and event.text and not typing and (taken := tool_for_key(event.text)) is not None:
        return Outcome(taken, says=says_of(taken))
    outcome = _step(tool, event, context)
    if outcome.tool is None:
        return Outcome(Select(), says=SELECT_SAYS, selected=())
    return outcome


def _step(tool: Tool, event: Event, context: Context) -> Outcome:
    if isinstance(tool, Select):
        return step_select(tool, event, context)
    if isinstance(tool, DrawRoom):
        return step_room(tool, event, context)
    if isinstance(tool, PutDevice):
        return step_put(tool, event, context)
    if isinstance(tool, PutPanel):
        return step_panel(tool, event, context)
    if isinstance(tool, DrawSwitching):
        return step_switching(tool, event, context)
    return step_tie(tool, event, context)
