"""Putting down what was copied, once a click, until Escape: a box with its gangs, a group, a room with all in it."""

from dataclasses import dataclass, field, replace

from floorplan_circuits.edits.edited import Refused, counted
from floorplan_circuits.edits.pasting import Clip
from floorplan_circuits.edits.stamping import clip_mirrored, clip_turned, settled, stamp
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.gestures.events import Context, Event, Key, Outcome, Press, Release
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.view import Draft

SAYS = "Click to put a copy down, again and again. Left and right turn it, up and down mirror it. Esc leaves the tool."
UNKNOWN = "Nobody knows what it hangs on until you tie or test it."
TURNS = {"left": 3, "right": 1}
MIRRORS = ("up", "down")
CROSS_MM = 100


@dataclass(frozen=True, slots=True)
class StampClip:
    """The tool that puts copies down. `at` is where the pointer is; `pressed`: the button went down with it."""

    clip: Clip = field(default_factory=Clip, repr=False)
    at: XY | None = None
    pressed: bool = False


def step_stamp(tool: StampClip, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with a clip in hand."""
    if isinstance(event, Key):
        return _key(tool, event, context)
    moved = replace(tool, at=event.at)
    if isinstance(event, Press):
        return _shown(replace(moved, pressed=True), context)
    if isinstance(event, Release) and tool.pressed:
        return _put(replace(moved, pressed=False), event.at, context)
    return _shown(moved, context)


def _key(tool: StampClip, event: Key, context: Context) -> Outcome:
    if event.name == "escape":
        return Outcome(None, says=SAYS)
    try:
        if event.name in TURNS:
            return _shown(replace(tool, clip=clip_turned(tool.clip, TURNS[event.name])), context)
        if event.name in MIRRORS:
            return _shown(replace(tool, clip=clip_mirrored(tool.clip)), context)
    except Refused as error:
        return Outcome(tool, says=str(error))
    return _shown(tool, context)


def _put(tool: StampClip, at: XY, context: Context) -> Outcome:
    try:
        edit = stamp(context.home, tool.clip, context.level, at, context.reach)
    except Refused as error:
        return Outcome(tool, says=str(error))
    rooms = set(edit.home.rooms.ids())
    made = tuple(Subject("room" if one in rooms else "box", one) for one in edit.made)
    return Outcome(tool, edit, says=f"{edit.says}. {UNKNOWN} Click for another, or Esc.", selected=made)


def _shown(tool: StampClip, context: Context) -> Outcome:
    """Draw where the copy would go: a lone box as its symbol, of a group rooms and places."""
    if tool.at is None:
        return Outcome(tool, says=SAYS)
    try:
        clip = settled(context.home, tool.clip, context.level, tool.at, context.reach)
    except Refused as error:
        return Outcome(tool, says=f"{error} Esc leaves the tool.")
    boxes = [box for box in clip.boxes if box.at is not None]
    if len(boxes) == 1 and not clip.rooms and boxes[0].at is not None:
        symbol = kind_named(boxes[0].devices[0].kind if boxes[0].devices else "junction box").symbol
        turn = boxes[0].angle if boxes[0].mount in ("wall", "outdoor") else 0
        words = f"{boxes[0].gangs} gangs" if boxes[0].gangs > 1 else ""
        return Outcome(tool, draft=Draft(symbol=symbol, at=boxes[0].at, angle=turn, words=words), says=SAYS)
    outlines = [(*room.outline, room.outline[0]) for room in clip.rooms]
    crosses = [line for box in boxes if box.at is not None for line in _cross(box.at)]
    words = counted(len(boxes), "box", "boxes")
    return Outcome(tool, draft=Draft(lines=(*outlines, *crosses), at=tool.at, words=words), says=SAYS)


def _cross(at: XY) -> tuple[tuple[XY, XY], tuple[XY, XY]]:
    x, y = at
    return ((x - CROSS_MM, y), (x + CROSS_MM, y)), ((x, y - CROSS_MM), (x, y + CROSS_MM))
