"""How the building is looked at while it is drawn: measures, the level below, and what is held of selected rooms."""

from dataclasses import replace
from typing import TYPE_CHECKING

from floorplan_circuits.desktop.plan_picture import MakePlan
from floorplan_circuits.desktop.rail import DRAW
from floorplan_circuits.drawing.ink import Bounds, Group
from floorplan_circuits.drawing.measures import faint_walls, held_rooms, measured_level
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plan import Plan
from floorplan_circuits.edits.levels import level_below
from floorplan_circuits.findings import Findings
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.home.building import Room

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

MOST_HELD = 6
"""Of so many selected rooms the walls are measured; of more, only their rings are drawn."""


class BuildingView:
    """Two things that can be looked at besides the circuits, and the outlines of selected rooms."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area
        self.measures = False
        self.below = True

    def show_measures(self, shown: bool) -> None:
        """Show each room's area and how long its walls are, in place of the circuits."""
        self.measures = shown
        self._area.showing.plan()
        self._area.say("Areas and walls are shown in place of circuits." if shown else "Circuits are shown again.")

    def show_below(self, shown: bool) -> None:
        """Show the walls of the level below, pale, while drawing."""
        self.below = shown
        self._area.showing.plan()

    def on_stage(self) -> None:
        """Draw anew where another stage shows the level otherwise: measures and the level below are for drawing."""
        session = self._area.session
        findings = session.findings if session is not None else None
        level = session.view.level if session is not None else None
        if findings is None or level is None or level not in findings.home.levels:
            return
        self.hold()
        if self.measures or self.has_lower(findings, level):
            self._area.showing.plan()

    def made(self, make: MakePlan, findings: Findings, level: int, theme: Theme) -> MakePlan:
        """Return how the level is drawn now: as it is, with the level below, or measured."""
        if self._area.rail.stage != DRAW:
            return make
        if self.measures:
            return lambda scale: _inked(make(scale), measured_level(findings, level, scale, theme))
        under = level_below(findings.home, level)
        if not self.below or under is None:
            return make

        def over_the_lower(scale: float) -> Plan:
            drawn = make(scale)
            return _inked(drawn, Group((drawn.ink, faint_walls(findings, under, level, scale, theme))))

        return over_the_lower

    def has_lower(self, findings: Findings, level: int) -> bool:
        """Tell whether a level is drawn over another that has rooms."""
        under = level_below(findings.home, level)
        return self.below and any(room.level == under for room in findings.home.rooms)

    def hold(self) -> None:
        """Show the corners and walls of the rooms that are selected, where they can be taken hold of."""
        session, theme, rooms = self._area.session, self._area.canvas.theme, self.held()
        findings = session.findings if session is not None else None
        if findings is None or not rooms:
            self._area.canvas.show_over(None)
        else:
            self._area.canvas.show_over(lambda scale: held_rooms(findings, rooms, scale, theme, self._labels(scale)))

    def _labels(self, scale: float) -> list[Bounds]:
        """Return where symbols, plates and names stand on the plan that is shown."""
        picture = self._area.canvas.picture
        return [] if picture is None else [spot for spot, on in picture.plan(scale).spots if on.kind != "opening"]

    def held(self) -> list[Room]:
        """Return the rooms whose corners are shown: those selected on this level, unless they are many."""
        session = self._area.session
        if session is None or self._area.rail.stage != DRAW or not isinstance(session.tool, Select):
            return []
        ids = [one.id for one in session.view.selected if one.kind == "room"]
        rooms = [session.home.rooms[one] for one in ids if one in session.home.rooms]
        here = [room for room in rooms if room.level == session.view.level]
        return here if len(here) <= MOST_HELD and session.view.draft is None else []


def _inked(drawn: Plan, ink: Group) -> Plan:
    return replace(drawn, ink=ink)
