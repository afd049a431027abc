"""From stage to stage: what each begins with, what the last one leaves, and the preview in the plan's place."""

from typing import TYPE_CHECKING

from floorplan_circuits.desktop.rail import DRAW, FIND_OUT, PANEL, PRINT, SHUT_OFF, TIE
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.step import says_of
from floorplan_circuits.home.trade_words import words_of

if TYPE_CHECKING:
    from floorplan_circuits.desktop.print_page import PrintView
    from floorplan_circuits.desktop.work_area import WorkArea

PANEL_SAYS = "Click a {space} of the panel and type what is there; Enter goes to the next one down."
PANEL_ASKS = "Say how many {space}s the panel has, then add it."
PRINT_SAYS = "These are the pages as they print. Choose sheet and paper, then print or save them."


class Staging:
    """Shows one stage after another; any of them at any time."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area
        self.print_view: PrintView | None = None
        self._sheet = ""
        """The sheet to begin printing with; '' for the one that was chosen last."""

    def show(self, stage: int) -> None:
        """Show a stage: its tools, and for printing the preview in place of the plan."""
        area = self._area
        if area.session is None:
            return
        was = area.rail.stage
        area.inside.leave()
        area.photo.leave()
        area.rail.choose(stage)
        if (was == DRAW) != (stage == DRAW):
            area.building.on_stage()
        area.guiding.leave()
        if was == FIND_OUT != stage:
            area.finding.leave()
        elif was == SHUT_OFF != stage:
            area.shutting.leave()
        if stage == PRINT:
            self._show_print()
            return
        area.middle.setCurrentIndex(0)
        area.tracing.refresh()
        area.showing.plan()
        if stage in (DRAW, PANEL) and was != stage:
            area.session.take(Select())
        if stage == TIE:
            area.clicks.begin_to_tie(area.session)
        elif stage == FIND_OUT and was != stage:
            area.finding.begin()
        elif stage == SHUT_OFF:
            area.shutting.begin(anew=was != stage)
        if stage in (DRAW, PANEL):
            area.say(self.says())
        self._give_keys(stage)

    def says(self) -> str:
        """Return what the stage at hand says of itself, for whoever comes back to it."""
        area = self._area
        session, stage = area.session, area.rail.stage
        if session is None:
            return ""
        if stage == PANEL:
            panel = area.panel()
            words = PANEL_SAYS if panel is not None else PANEL_ASKS
            return words.format(space=words_of(session.home, panel).space)
        if stage == FIND_OUT:
            return area.finding.says()
        return area.shutting.says() if stage == SHUT_OFF else says_of(session.tool)

    def _give_keys(self, stage: int) -> None:
        """Give the keys to what the stage works on: the letters of the tools are pressed over the plan."""
        area = self._area
        if stage == PANEL and area.panel() is not None:
            area.side.view.setFocus()
        elif stage != PANEL:
            area.canvas.setFocus()

    def print_shut_off(self) -> None:
        """Preview the sheet of the shut-off that is planned."""
        self._sheet = "shut-off"
        self.show(PRINT)

    def _show_print(self) -> None:
        from floorplan_circuits.desktop.print_page import PrintView  # late: it loads the PDF reader

        assert self._area.session is not None
        if self.print_view is None:
            self.print_view = PrintView(self._area.say)
            self._area.middle.addWidget(self.print_view)
        self._area.middle.setCurrentWidget(self.print_view)
        if self._sheet:
            self.print_view.choices.choose(self._sheet)
            self._sheet = ""
        self.print_view.show_home(self._area.session, self._area.shutting.chosen)
        self._area.say(PRINT_SAYS)
