"""Putting stairs: one drag from the lowest step to the highest."""

from dataclasses import dataclass
from math import atan2, cos, degrees, hypot, radians, sin

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.stairs import level_above, put_stair
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.gestures.events import Context, Event, Key, Move, Outcome, Press
from floorplan_circuits.home.lengths import show_length
from floorplan_circuits.view import Draft

SAYS = "Drag from the lowest step to the highest. Esc leaves the tool."
GOING = "Let go at the highest step. Esc drops it."
TURN_STEP, WIDTH_MM, ROUND_MM = 15, 900, 50


@dataclass(frozen=True, slots=True)
class PutStairs:
    """The tool that puts flights of stairs. `foot` is where the button went down."""

    foot: XY | None = None


def step_stairs(tool: PutStairs, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with stairs in hand."""
    if isinstance(event, Key):
        leaves = event.name == "escape" and tool.foot is None
        return Outcome(None if leaves else PutStairs(None if event.name == "escape" else tool.foot), says=SAYS)
    if isinstance(event, Press):
        return Outcome(PutStairs(event.at), says=GOING)
    if tool.foot is None:
        return Outcome(tool, says=SAYS)
    angle, run = flight(tool.foot, event.at)
    if isinstance(event, Move):
        if not event.held:
            return Outcome(PutStairs(), says=SAYS)
        return Outcome(tool, draft=_draft(tool.foot, angle, run, context), says=GOING)
    return _put(tool.foot, angle, run, context)


def flight(foot: XY, head: XY) -> tuple[int, int]:
    """Return which way a flight climbs, to 15 degrees, and how long it is, to 50 mm.

    Examples:
        >>> flight((0, 0), (30, -2910))
        (270, 2900)
    """
    dx, dy = head[0] - foot[0], head[1] - foot[1]
    angle = round(degrees(atan2(dy, dx)) / TURN_STEP) * TURN_STEP % 360
    return angle, round(hypot(dx, dy) / ROUND_MM) * ROUND_MM


def _put(foot: XY, angle: int, run: int, context: Context) -> Outcome:
    try:
        edit = put_stair(context.home, context.level, (round(foot[0]), round(foot[1])), angle, run, WIDTH_MM)
    except Refused as error:
        return Outcome(PutStairs(), says=str(error))
    above = level_above(context.home, context.level)
    leads = f"They lead to {context.home.levels[above].name}." if above is not None else "Add the level they lead to."
    stair = (Subject("stair", edit.made[0]),)
    return Outcome(PutStairs(), edit, says=f"{edit.says}. {leads}", selected=stair)


def _draft(foot: XY, angle: int, run: int, context: Context) -> Draft:
    way = cos(radians(angle)), sin(radians(angle))
    across = -way[1] * WIDTH_MM / 2, way[0] * WIDTH_MM / 2
    head = foot[0] + way[0] * run, foot[1] + way[1] * run
    corners = [
        (foot[0] + across[0], foot[1] + across[1]), (head[0] + across[0], head[1] + across[1]),
        (head[0] - across[0], head[1] - across[1]), (foot[0] - across[0], foot[1] - across[1]),
    ]  # fmt: skip
    return Draft(lines=((*corners, corners[0]),), at=head, words=show_length(run, context.home.units))
