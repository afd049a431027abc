"""Putting a panel on the plan: one click on the wall it hangs on."""

from dataclasses import dataclass

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.panels import set_panel
from floorplan_circuits.findings import Subject
from floorplan_circuits.geometry.wall_spots import wall_spot
from floorplan_circuits.gestures.events import Context, Event, Key, Outcome, Release
from floorplan_circuits.gestures.putting import WALL_REACH_MM
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.view import Draft

SAYS = "Click the wall that the panel hangs on. Esc leaves the tool."


@dataclass(frozen=True, slots=True)
class PutPanel:
    """The tool that puts one panel on the plan."""

    panel: int


def step_panel(tool: PutPanel, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with a panel in hand."""
    if isinstance(event, Key):
        return Outcome(None if event.name == "escape" else tool, says=SAYS)
    spot = wall_spot(event.at, context.outlines(), max(WALL_REACH_MM, 3 * context.reach))
    if spot is None:
        return Outcome(tool, draft=Draft(symbol="panel", at=event.at, angle=90), says="Go nearer to a wall.")
    if not isinstance(event, Release):
        return Outcome(tool, draft=Draft(symbol="panel", at=spot.at, angle=spot.angle), says=SAYS)
    try:
        edit = set_panel(context.home, tool.panel, at=spot.at, angle=spot.angle, level=context.level)
    except Refused as error:
        return Outcome(tool, says=str(error))
    return Outcome(Select(), edit, says=edit.says, selected=(Subject("panel", tool.panel),))
