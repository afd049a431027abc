"""Putting a panel on the plan: one click on the wall it hangs on."""

from dataclasses import dataclass, replace

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.panels import set_panel
from floorplan_circuits.findings import Subject
from floorplan_circuits.geometry.wall_spots import WallSpot, wall_spot
from floorplan_circuits.gestures.box_spots import WALL_REACH_MM
from floorplan_circuits.gestures.events import Context, Event, Key, Outcome, Press, Release
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.view import Draft

SAYS = "Click the wall that the panel hangs on. Esc leaves the tool."
NEARER = "Go nearer to the wall that the panel hangs on. Esc leaves the tool."


@dataclass(frozen=True, slots=True)
class PutPanel:
    """The tool that puts one panel on the plan. `pressed`: the button went down with it."""

    panel: int
    pressed: bool = False


def step_panel(tool: PutPanel, event: Event, context: Context) -> Outcome:
    """Return what comes of one event with a panel in hand."""
    if isinstance(event, Key):
        return Outcome(None if event.name == "escape" else tool, says=SAYS)
    spot = wall_spot(event.at, context.outlines(), max(WALL_REACH_MM, 3 * context.reach))
    if isinstance(event, Release) and tool.pressed and spot is not None:
        return _put(tool, spot, context)
    held = isinstance(event, Press) or (tool.pressed and not isinstance(event, Release))
    draft = Draft(symbol="panel", at=event.at, angle=90)
    if spot is None:
        return Outcome(
            PutPanel(tool.panel, held),
            draft=draft,
            says=NEARER,
        )
    return Outcome(PutPanel(tool.panel, held), draft=replace(draft, at=spot.at, angle=spot.angle), says=SAYS)


def _put(tool: PutPanel, spot: WallSpot, context: Context) -> Outcome:
    panel = (Subject("panel", tool.panel),)
    try:
        edit = set_panel(context.home, tool.panel, at=spot.at, angle=spot.angle, level=context.level)
    except Refused as error:
        return Outcome(Select(), says=str(error))
    if edit.home is context.home:
        return Outcome(Select(), says="It is there already.", selected=panel)
    name = edit.home.panels[tool.panel].name
    return Outcome(
        Select(), edit, says=f"{name} stands on the plan. Tie devices to its breakers: press C.", selected=panel
    )
