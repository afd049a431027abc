"""The hand on the picture under a level: mark a known length, mark a wall that is level or upright, move it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.underlays import LOCKED, NO_PICTURE, move_underlay, set_known_length, straighten
from floorplan_circuits.findings import XY
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press, Release
from floorplan_circuits.gestures.lengths_typed import ONE_LENGTH, typed_further
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.home.lengths import NotALength, Units, parse_length, show_length
from floorplan_circuits.home.placement import corners, lean
from floorplan_circuits.view import Draft

LENGTH_SAYS = "Click one end of a length that you know on the picture, the longer the better. Esc leaves it."
OTHER_END = "Click its other end."
TYPE_IT: Mapping[Units, str] = {
    "metric": "Type how long that is in the house, such as 4.2 m, then Enter.",
    "feet and inches": "Type how long that is in the house, such as 13' 9\" or 4.2 m, then Enter.",
}
SCALE_SET = "The whole picture is {} wide now. If its walls lean, straighten it; else lock it and draw: press N."
ABOVE = "The whole picture is {} wide now. Move it onto the pale walls of the level below, then lock it and draw."
WALL_SAYS = "Click one end of a long wall on the picture that is level or upright in the house. Esc leaves it."
STRAIGHT = "The picture is straight. Lock it and draw: press N."
STRAIGHT_ALREADY = "That wall is straight already."
MOVE_SAYS = "Drag the picture to where it belongs. What is drawn stays. Esc leaves it."


@dataclass(frozen=True, slots=True)
class MarkLength:
    """The tool that sets the picture's scale: the two ends marked so far, and the length being typed."""

    first: XY | None = None
    second: XY | None = None
    typed: str = ""

    @property
    def is_typing(self) -> bool:
        """Whether letters are a length now, and take no other tool."""
        return self.second is not None


@dataclass(frozen=True, slots=True)
class MarkWall:
    """The tool that straightens the picture: the one end of a wall marked so far."""

    first: XY | None = None


@dataclass(frozen=True, slots=True)
class MovePicture:
    """The tool that moves the picture: where it was taken hold of."""

    start: XY | None = None


PictureTool = MarkLength | MarkWall | MovePicture


def step_picture(tool: PictureTool, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with a tool for the picture in hand; without a free picture it is laid down."""
    level = context.home.levels.get(context.level)
    laid = level.underlay if level is not None else None
    if laid is None or laid.locked:
        return Outcome(Select(), says=NO_PICTURE if laid is None else LOCKED)
    if isinstance(tool, MarkLength):
        return _length(tool, event, context)
    return _wall(tool, event, context) if isinstance(tool, MarkWall) else _moving(tool, event, context)


# --- a known length -------------------------------------------------------------------------------------------------


def _length(tool: MarkLength, event: Event, context: Context) -> Outcome:
    if isinstance(event, Key):
        return _length_key(tool, event, context)
    units = context.home.units
    if isinstance(event, Press) and (tool.first is None or tool.second is not None):
        return _marked(MarkLength(event.at), event.at, units)
    ends = isinstance(event, Press | Release) and tool.first is not None and tool.second is None
    if ends and lean(tool.first or event.at, event.at).length > context.reach:
        return _marked(replace(tool, second=event.at), event.at, units)
    return _marked(tool, event.at, units)


def _marked(tool: MarkLength, pointer: XY, units: Units) -> Outcome:
    """Draw the line marked so far and say what is wanted next."""
    if tool.first is None:
        return Outcome(tool, draft=Draft(at=pointer), says=LENGTH_SAYS)
    if tool.second is None:
        return Outcome(tool, draft=Draft(lines=_ended(tool.first, pointer), at=pointer), says=OTHER_END)
    words = tool.typed or "how long?"
    says = f"{tool.typed}, then Enter. Esc drops it." if tool.typed else TYPE_IT[units]
    return Outcome(tool, draft=Draft(lines=_ended(tool.first, tool.second), at=tool.second, words=words), says=says)


def _ended(a: XY, b: XY) -> tuple[tuple[XY, ...], ...]:
    """Return a line with a short stroke across either end, where exactly it was marked."""
    long = lean(a, b).length
    if long == 0:
        return ()
    x, y = -(b[1] - a[1]) / long, (b[0] - a[0]) / long
    half = long * 0.03
    ends = tuple(((ex - x * half, ey - y * half), (ex + x * half, ey + y * half)) for ex, ey in (a, b))
    return ((a, b), *ends)


def _length_key(tool: MarkLength, event: Key, context: Context) -> Outcome:
    if event.name == "escape":
        return Outcome(None if tool.first is None else MarkLength(), says=LENGTH_SAYS)
    if tool.first is None or tool.second is None:
        return Outcome(tool, says=LENGTH_SAYS if tool.first is None else OTHER_END)
    units = context.home.units
    if event.name == "backspace":
        return _marked(replace(tool, typed=tool.typed[:-1]), tool.second, units)
    if event.name == "enter" and tool.typed:
        return _sized(tool, tool.first, tool.second, context)
    if event.text and ONE_LENGTH.issuperset(event.text.lower()):
        return _marked(replace(tool, typed=typed_further(tool.typed, event.text)), tool.second, units)
    return _marked(tool, tool.second, units)


def _sized(tool: MarkLength, first: XY, second: XY, context: Context) -> Outcome:
    try:
        length = parse_length(tool.typed, context.home.units)
        edit = set_known_length(context.home, context.level, first, second, length)
    except (NotALength, Refused) as error:
        return replace(_marked(replace(tool, typed=""), second, context.home.units), says=str(error))
    laid = edit.home.levels[context.level].underlay
    wide = show_length(laid.width if laid is not None else length, context.home.units)
    says = (ABOVE if context.below() else SCALE_SET).format(wide)
    return _done(edit, context, says, says)


# --- a wall that is level or upright --------------------------------------------------------------------------------


def _wall(tool: MarkWall, event: Event, context: Context) -> Outcome:
    if isinstance(event, Key):
        if event.name == "escape":
            return Outcome(None if tool.first is None else MarkWall(), says=WALL_SAYS)
        return Outcome(tool, says=WALL_SAYS)
    if tool.first is None:
        marked = MarkWall(event.at) if isinstance(event, Press) else tool
        return Outcome(marked, draft=Draft(at=event.at), says=OTHER_END if marked.first else WALL_SAYS)
    far = lean(tool.first, event.at).length > context.reach
    if not (far and isinstance(event, Release)):
        return Outcome(tool, draft=Draft(lines=_ended(tool.first, event.at), at=event.at), says=OTHER_END)
    try:
        edit = straighten(context.home, context.level, tool.first, event.at)
    except Refused as error:
        return Outcome(MarkWall(), says=str(error))
    return _done(edit, context, STRAIGHT, STRAIGHT_ALREADY)


# --- moving it ------------------------------------------------------------------------------------------------------


def _moving(tool: MovePicture, event: Event, context: Context) -> Outcome:
    if isinstance(event, Key):
        held = tool.start is not None
        return Outcome(MovePicture() if held or event.name != "escape" else None, says=MOVE_SAYS)
    if isinstance(event, Press):
        return Outcome(MovePicture(event.at), says=MOVE_SAYS)
    if tool.start is None:
        return Outcome(tool, says=MOVE_SAYS)
    by = round(event.at[0] - tool.start[0]), round(event.at[1] - tool.start[1])
    if isinstance(event, Move):
        return Outcome(tool, draft=_shifted(context, by, event.at), says=MOVE_SAYS)
    try:
        edit = move_underlay(context.home, context.level, by)
    except Refused as error:
        return Outcome(MovePicture(), says=str(error))
    return replace(_done(edit, context, MOVE_SAYS, MOVE_SAYS), tool=MovePicture())


def _shifted(context: Context, by: tuple[int, int], at: XY) -> Draft:
    """Draw where the picture's edges would lie."""
    laid = context.home.levels[context.level].underlay
    if laid is None:
        return Draft(at=at)
    edge = tuple((x + by[0], y + by[1]) for x, y in corners(laid))
    return Draft(lines=((*edge, edge[0]),), at=at)


def _done(edit: Edited, context: Context, says: str, unchanged: str) -> Outcome:
    """Return the edit with its tool laid down; one that changes nothing is none."""
    if edit.home is context.home:
        return Outcome(Select(), says=unchanged)
    return Outcome(Select(), edit, says=says)
