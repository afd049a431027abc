"""What the work area shows of a session: the level's plan, and what belongs to what is pointed at or selected."""

from dataclasses import replace
from typing import TYPE_CHECKING

from floorplan_circuits.desktop.belonging import belonging, levels_lit, sentence
from floorplan_circuits.desktop.rail import FIND_OUT, SHUT_OFF
from floorplan_circuits.drawing.arranged import Arrangement
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plan import Plan, plan
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.selecting import Select

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

EMPTY_LEVEL = (
    "Draw the first room: press N, then drag a rectangle or click its corners.\n"
    "Or drag in a picture of the floor, to draw over it."
)


class Showing:
    """Draws the plan anew where it must be, and lets what belongs together stand out on plan and panel."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area
        self._fitted_for: int | None = None
        self._switching = False
        self._arrangement = Arrangement()

    def begin(self) -> None:
        """Forget what was shown: another home is at work."""
        self._fitted_for = None
        self._area.canvas.show_level(None)

    def plan(self) -> None:
        """Draw the level that is looked at; one that was not shown before is fitted into the canvas."""
        session, canvas = self._area.session, self._area.canvas
        if session is None or session.findings is None or session.view.level is None:
            return
        findings, level, theme = session.findings, session.view.level, on_canvas(self._area.theme)
        if level not in findings.home.levels:
            return  # it was added just now: what is on it is still being found
        only = session.view.only if session.view.only in findings.home.breakers else None
        home = findings.home
        traced = self._area.tracing.shows()
        drawn = any(room.level == level for room in home.rooms) or any(box.level == level for box in home.boxes)
        drawn = drawn or (traced and home.levels[level].underlay is not None)
        canvas.empty_words = "" if drawn else EMPTY_LEVEL

        self._switching = switching = session.shows_switching
        what_if, picked = self._area.shutting.shown(), self._area.shutting.picked()

        def make(scale: float) -> Plan:
            return plan(
                findings, level, scale, theme, only, what_if, picked,
                traced=traced, switching=switching, with_planned=what_if is None,
                arrangement=self._arrangement,
            )  # fmt: skip

        keep, building = self._fitted_for == level, self._area.building
        over = not drawn and self._fitted_for is not None and building.has_lower(findings, level)
        self._fitted_for = level
        shown = building.made(make, findings, level, theme)
        canvas.show_level(shown, keep_view=keep or not drawn, pictures=session.pictures)
        building.hold()
        if not drawn and not keep and not over:
            canvas.begin_empty()

    def switching(self) -> None:
        """Draw the level anew if what switches work is to be shown now and was not, or the other way round."""
        session = self._area.session
        if session is not None and session.shows_switching != self._switching:
            self.plan()

    def panel(self) -> None:
        """Draw the face of the panel that is shown, and its mains where they may be flipped."""
        area = self._area
        findings = area.session.findings if area.session else None
        shown = area.panel()
        if findings is not None and shown is not None and shown.id not in findings.panels:
            return  # it was just added: it is drawn once the findings are about it
        shutting = area.shutting
        what_if = shutting.shown()
        area.side.show_panel(findings, shown, what_if)
        off = what_if.off if what_if is not None else frozenset[int]()
        area.side.flip_mains(shown if shutting.is_open else None, off, shutting.wanted())

    def on_hover(self, subject: Subject | None) -> None:
        """Show what belongs to what is pointed at, and say it; pointing at nothing shows what is selected again."""
        session = self._area.session
        if session is None:
            return
        pointed = subject is not None and subject.kind in ("box", "breaker")
        self.belonging((subject,) if pointed and subject is not None else session.view.selected)
        words = self._area.shutting.sentence(session.findings, subject) or sentence(session.findings, subject)
        if words and isinstance(session.tool, Select) and self._area.rail.stage != FIND_OUT:
            self._area.say(words)

    def belonging(self, subjects: tuple[Subject, ...]) -> None:
        """Let what belongs to these subjects keep its ink, and ring it."""
        area = self._area
        findings = area.session.findings if area.session else None
        found = belonging(findings, subjects)
        ringed, breakers = found.ringed, area.finding.rings(found.breakers)
        if area.rail.stage == SHUT_OFF:
            ringed = frozenset(Subject("box", box) for box in area.shutting.picked())
            breakers = frozenset(Subject("breaker", handle) for handle in area.shutting.wanted())
        ringed -= {Subject("room", room.id) for room in area.building.held()}
        area.canvas.light(found.lit)
        area.canvas.ring(ringed)
        area.side.view.ring(breakers)
        area.building.hold()
        area.strip.show_counts(levels_lit(findings, found.lit))


def on_canvas(theme: Theme) -> Theme:
    """Return the theme for the plan itself: in the dark, symbols are filled with the canvas."""
    return replace(theme, paper=theme.canvas) if theme.name == "dark" else theme
