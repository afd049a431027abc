"""Putting openings: one click in a wall each, as wide as was typed; a click on a door hangs it the other way."""

from dataclasses import dataclass, replace
from math import cos, radians, sin

from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.openings import WIDTHS, a_kind, put_opening, turn_over
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.geometry.wall_spots import WallSpot, wall_spot
from floorplan_circuits.gestures.events import Context, Event, Key, Outcome, Press, Release
from floorplan_circuits.gestures.lengths_typed import TYPING, typed_further
from floorplan_circuits.home.building import Opening
from floorplan_circuits.home.lengths import NotALength, parse_length, show_length
from floorplan_circuits.view import Draft

WALL_REACH_MM = 400
HALF_END_MM = 150
"""How far the end of an opening stands off its wall in the draft, to either side."""


@dataclass(frozen=True, slots=True)
class PutOpening:
    """The tool that puts doors, windows or open ways, one a click, until Escape.

    `width` is in mm, 0 for the usual one; `typed` is what is being typed of the next; `pressed`: the button went down.
    """

    kind: str
    width: int = 0
    typed: str = ""
    pressed: bool = False


def step_opening(tool: PutOpening, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with an opening in hand."""
    if isinstance(event, Key):
        return _key(tool, event, context)
    spot = wall_spot(event.at, context.outlines(), max(WALL_REACH_MM, 2 * context.reach))
    if isinstance(event, Release) and tool.pressed:
        return _put(replace(tool, pressed=False), spot, event, context)
    held = isinstance(event, Press) or (tool.pressed and not isinstance(event, Release))
    return Outcome(replace(tool, pressed=held), draft=_draft(tool, spot, context), says=says_of_opening(tool, context))


def says_of_opening(tool: PutOpening, context: Context) -> str:
    """Return what a click does now."""
    if tool.typed:
        return f"{tool.typed} wide. Enter or a click takes it; Backspace mends it; Esc drops it."
    wide = show_length(width_of(tool, context), context.home.units)
    again = " Click one again to hang it the other way." if tool.kind == "door" else ""
    return f"Click a wall for {a_kind(tool.kind)} {wide} wide, or type a width.{again} Esc leaves the tool."


def width_of(tool: PutOpening, context: Context) -> int:
    """Return how wide the next opening is, in mm."""
    return tool.width or WIDTHS[context.home.units][tool.kind]


def _key(tool: PutOpening, event: Key, context: Context) -> Outcome:
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


def _put(tool: PutOpening, spot: WallSpot | None, event: Release, context: Context) -> Outcome:
    if tool.typed:
        taken = _typed(tool, context)
        if not isinstance(taken.tool, PutOpening) or taken.tool.width == tool.width:
            return taken
        tool = taken.tool
    try:
        edit = _edit(tool, spot, event.subject, context)
    except Refused as error:
        return _waiting(tool, context, str(error))
    opening = edit.made[-1] if edit.made else event.subject.id if event.subject else 0
    return Outcome(tool, edit, says=f"{edit.says}.", selected=(Subject("opening", opening),))


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
    line, ahead = opening_line(spot, wide), radians(spot.angle)
    dx, dy = HALF_END_MM * cos(ahead), HALF_END_MM * sin(ahead)
    ends = tuple(((x - dx, y - dy), (x + dx, y + dy)) for x, y in line)
    return Draft(lines=(line, *ends), at=spot.at, words=tool.typed or show_length(wide, context.home.units))


def opening_line(spot: WallSpot, width: int) -> tuple[XY, XY]:
    """Return the two ends of an opening in its wall."""
    (x, y), along = spot.at, radians(spot.angle + 90)
    dx, dy = cos(along) * width / 2, sin(along) * width / 2
    return (x - dx, y - dy), (x + dx, y + dy)
