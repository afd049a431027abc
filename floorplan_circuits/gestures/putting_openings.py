"""Putting openings: a click in a wall each, as wide as was typed, or a drag; a click on a door turns it over."""

from dataclasses import dataclass, replace
from math import cos, hypot, radians, sin

from floorplan_circuits.edits.edited import Edited, Refused, counted
from floorplan_circuits.edits.openings import WIDTHS, a_kind, put_opening, put_openings, turn_over
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.geometry.wall_spots import WallSpot, wall_spot
from floorplan_circuits.gestures.events import Context, Event, Key, Outcome, Press, Release
from floorplan_circuits.gestures.lengths_typed import TYPING, typed_further
from floorplan_circuits.gestures.opening_drags import Opened, openings_of
from floorplan_circuits.home.building import Opening
from floorplan_circuits.home.lengths import NotALength, parse_length, show_length
from floorplan_circuits.view import Draft

WALL_REACH_MM = 400
HALF_END_MM = 150
"""How far the end of an opening stands off its wall in the draft, to either side."""
MOST_STEPS = 600
"""So many places of a drag are kept: the last ones, where it goes on and on."""
DRAGS = {
    "door": "Drag the way you walk for one in each wall you cross, or along a wall for its width.",
    "window": "Drag along a wall for its width, past its corners for one in each room’s wall.",
    "open way": "Drag the way you walk for one in each wall you cross, or along a wall for its width.",
}


@dataclass(frozen=True, slots=True)
class PutOpening:
    """The tool that puts doors, windows or open ways, one a click, until Escape.

    `width` is in mm, 0 for the usual one; `typed` is what is being typed of the next; `pressed`: the button went down;
    `path`: where it was dragged since.
    """

    kind: str
    width: int = 0
    typed: str = ""
    pressed: bool = False
    path: tuple[XY, ...] = ()


def step_opening(tool: PutOpening, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with an opening in hand."""
    if isinstance(event, Key):
        return _key(tool, event, context)
    spot = wall_spot(event.at, context.outlines(), _reach(context))
    if isinstance(event, Press):
        tool = replace(tool, pressed=True, path=(event.at,))
    elif tool.pressed:
        tool = _moved(tool, event.at, context)
    dragged = _dragged(tool, context)
    let_go = replace(tool, pressed=False, path=())
    if isinstance(event, Release) and tool.pressed:
        return _put(let_go, spot, event, context, dragged)
    if dragged:
        return Outcome(tool, draft=_drag_draft(tool, dragged, event.at, context), says=_drag_says(tool, dragged))
    kept = tool if tool.pressed else let_go
    return Outcome(kept, draft=_draft(tool, spot, context), says=says_of_opening(tool, context))


def _reach(context: Context) -> float:
    return max(WALL_REACH_MM, 2 * context.reach)


def _moved(tool: PutOpening, at: XY, context: Context) -> PutOpening:
    """Return the tool a step on; the hand's trembling is no step."""
    last = tool.path[-1]
    if hypot(at[0] - last[0], at[1] - last[1]) < (2 * context.reach if len(tool.path) == 1 else 1):
        return tool
    return replace(tool, path=(*tool.path, at)[-MOST_STEPS:])


def _dragged(tool: PutOpening, context: Context) -> list[Opened]:
    """Return the openings that the drag means so far, each with its width."""
    if len(tool.path) < 2:
        return []
    found = openings_of(tool.path, tool.kind, context.outlines(), _reach(context), context.home.units)
    wide = width_of(tool, context)
    return [one if one.width and not tool.typed else one._replace(width=wide) for one in found]


def says_of_taken_opening(tool: PutOpening) -> str:
    """Return what the tool says of itself when it is taken in hand."""
    return f"Click a wall to put {a_kind(tool.kind)}. {DRAGS[tool.kind]} Type a width first. Esc leaves the tool."


def says_of_opening(tool: PutOpening, context: Context) -> str:
    """Return what a click does now."""
    if tool.typed:
        return f"{tool.typed} wide. Enter or a click takes it; Backspace mends it; Esc drops it."
    wide = show_length(width_of(tool, context), context.home.units)
    return f"Click a wall for {a_kind(tool.kind)} {wide} wide, or type a width. {DRAGS[tool.kind]} Esc leaves the tool."


def width_of(tool: PutOpening, context: Context) -> int:
    """Return how wide the next opening is, in mm."""
    return tool.width or WIDTHS[context.home.units][tool.kind]


def _key(tool: PutOpening, event: Key, context: Context) -> Outcome:
    if event.name == "escape" and tool.pressed:
        return _waiting(replace(tool, pressed=False, path=(), typed=""), context)
    if event.name == "escape" and not tool.typed:
        return Outcome(None, says=says_of_opening(tool, context))
    if event.name == "escape":
        return _waiting(replace(tool, typed=""), context)
    if event.name == "backspace":
        return _waiting(replace(tool, typed=tool.typed[:-1]), context)
    if event.name == "enter" and tool.typed:
        return _typed(tool, context)
    if event.text and TYPING.issuperset(event.text.lower()):
        return _waiting(replace(tool, typed=typed_further(tool.typed, event.text)), context)
    return _waiting(tool, context)


def _waiting(tool: PutOpening, context: Context, says: str = "") -> Outcome:
    return Outcome(tool, says=says or says_of_opening(tool, context))


def _typed(tool: PutOpening, context: Context) -> Outcome:
    """Take the width that was typed, for this opening and those that come."""
    try:
        width = parse_length(tool.typed, context.home.units)
    except NotALength as error:
        return _waiting(replace(tool, typed=""), context, str(error))
    return _waiting(replace(tool, width=width, typed=""), context)


def _put(tool: PutOpening, spot: WallSpot | None, event: Release, context: Context, dragged: list[Opened]) -> Outcome:
    if tool.typed:
        taken = _typed(tool, context)
        if not isinstance(taken.tool, PutOpening) or taken.tool.width == tool.width:
            return taken
        tool = taken.tool
        dragged = [one._replace(width=tool.width) for one in dragged]
    try:
        edit = _edit(tool, spot, event.subject, context) if not dragged else _edit_many(tool, dragged, context)
    except Refused as error:
        return _waiting(tool, context, str(error))
    made = edit.made or ((event.subject.id,) if event.subject else ())
    again = " Click it to hang it the other way." if tool.kind == "door" and len(edit.made) == 1 else ""
    return Outcome(tool, edit, says=f"{edit.says}.{again}", selected=tuple(Subject("opening", one) for one in made))


def _edit_many(tool: PutOpening, dragged: list[Opened], context: Context) -> Edited:
    return put_openings(context.home, context.level, tool.kind, [(one.at, one.angle, one.width) for one in dragged])


def _edit(tool: PutOpening, spot: WallSpot | None, on: Subject | None, context: Context) -> Edited:
    found = context.home.openings.get(on.id) if on is not None and on.kind == "opening" else None
    if isinstance(found, Opening) and found.kind == tool.kind == "door":
        return turn_over(context.home, found.id)
    if spot is None:
        raise Refused(f"Click nearer to a wall to put {a_kind(tool.kind)}.")
    return put_opening(context.home, context.level, tool.kind, spot.at, spot.angle, width_of(tool, context))


def _draft(tool: PutOpening, spot: WallSpot | None, context: Context) -> Draft | None:
    """Draw the opening's line on the wall and its two ends, with its width."""
    if spot is None:
        return None
    wide = width_of(tool, context)
    return Draft(lines=_lines(spot, wide), at=spot.at, words=tool.typed or show_length(wide, context.home.units))


def _drag_draft(tool: PutOpening, dragged: list[Opened], at: XY, context: Context) -> Draft:
    """Draw the way that was gone and all that the drag would put, with the width of one or how many there are."""
    lines = (tool.path, *(_frame(WallSpot(one.at, one.angle), one.width) for one in dragged))
    words = show_length(dragged[0].width, context.home.units) if len(dragged) == 1 else counted(len(dragged), tool.kind)
    return Draft(lines=lines, at=at, words=tool.typed or words)


def _drag_says(tool: PutOpening, dragged: list[Opened]) -> str:
    return f"Let go to put {counted(len(dragged), tool.kind)}. Type another width, or Esc drops the drag."


def _lines(spot: WallSpot, wide: int) -> tuple[tuple[XY, XY], ...]:
    line, ahead = opening_line(spot, wide), radians(spot.angle)
    dx, dy = HALF_END_MM * cos(ahead), HALF_END_MM * sin(ahead)
    return (line, *(((x - dx, y - dy), (x + dx, y + dy)) for x, y in line))


def _frame(spot: WallSpot, wide: int) -> tuple[XY, ...]:
    """Return a frame round an opening, so that it is seen where walls are dark."""
    _, (a, b), (c, d) = _lines(spot, wide)
    return a, b, d, c, a


def opening_line(spot: WallSpot, width: int) -> tuple[XY, XY]:
    """Return the two ends of an opening in its wall."""
    (x, y), along = spot.at, radians(spot.angle + 90)
    dx, dy = cos(along) * width / 2, sin(along) * width / 2
    return (x - dx, y - dy), (x + dx, y + dy)
