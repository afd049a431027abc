"""The work area: strip, rail, plan over dangers, panel, status line. It shows a session and hands it what is done."""

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QHBoxLayout, QSplitter, QStackedWidget, QVBoxLayout, QWidget

from floorplan_circuits.desktop.asking_bar import AskingBar
from floorplan_circuits.desktop.belonging import found_sentence, where_found
from floorplan_circuits.desktop.below import BELOW_HIGH, Below
from floorplan_circuits.desktop.building_commands import BuildingCommands
from floorplan_circuits.desktop.building_view import BuildingView
from floorplan_circuits.desktop.canvas import PlanCanvas
from floorplan_circuits.desktop.clicks import Clicks
from floorplan_circuits.desktop.finding_out import FindingOut
from floorplan_circuits.desktop.guide_page import GuidePage
from floorplan_circuits.desktop.guiding import Guiding
from floorplan_circuits.desktop.hand_bar import HandBar
from floorplan_circuits.desktop.hazard_rows import HazardRows
from floorplan_circuits.desktop.looking_inside import LookingInside
from floorplan_circuits.desktop.naming import Naming
from floorplan_circuits.desktop.panel_entry import PanelEntry
from floorplan_circuits.desktop.panel_page import PanelPage
from floorplan_circuits.desktop.photo_page import PanelPhoto
from floorplan_circuits.desktop.plan_menu import PlanMenu
from floorplan_circuits.desktop.rail import DRAW, PANEL, PRINT, Rail
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.desktop.showing import Showing, on_canvas
from floorplan_circuits.desktop.shutting_off import ShuttingOff
from floorplan_circuits.desktop.side import SIDE_WIDE, Side
from floorplan_circuits.desktop.staging import Staging
from floorplan_circuits.desktop.status_line import StatusLine
from floorplan_circuits.desktop.strip import Strip
from floorplan_circuits.desktop.taking_along import TakingAlong
from floorplan_circuits.desktop.tracing import Tracing
from floorplan_circuits.desktop.what_if_band import WhatIfBand
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.findings import Layer, Subject
from floorplan_circuits.gestures.putting import PutDevice
from floorplan_circuits.gestures.step import Tool, says_of
from floorplan_circuits.home.power import Panel
from floorplan_circuits.looking_up import Found, look_up

ALL_SHOWN = "All circuits are shown. To see one alone, select its breaker first."
FINDING = "Finding what is connected to what …"
LOST = "What is known could not be worked out: treat everything as live. Undo the last step, or open another copy."


class WorkArea(QWidget):
    """Everything about one open home."""

    def __init__(self) -> None:
        super().__init__()
        self.theme: Theme = LIGHT
        self.session: Session | None = None
        self._panel: int | None = None
        self.strip, self.canvas, self.below, self.side = Strip(), PlanCanvas(), Below(), Side()
        self.foot, self.band = StatusLine(), WhatIfBand()
        self.status = self.foot.says
        self.rail = Rail(PanelPage(self.show_panel, self.take))
        self.entry, self.naming, self.clicks = PanelEntry(self), Naming(self), Clicks(self)
        self.finding = FindingOut(self, self.rail.find_out_page)
        self.asking, self.hands = AskingBar(), HandBar()
        self.shutting = ShuttingOff(self, self.rail.shut_off_page)
        self.inside, self.staging, self.showing = LookingInside(self), Staging(self), Showing(self)
        self.front = QStackedWidget()
        self.tracing, self.photo = Tracing(self), PanelPhoto(self)
        self.building, self.commands = BuildingView(self), BuildingCommands(self)
        self.plan_menu = PlanMenu(self)
        self.hazard_rows = HazardRows(self)
        self.splitters = QSplitter(Qt.Orientation.Vertical), QSplitter(Qt.Orientation.Horizontal)
        self.middle, self.plan_or_guide = QStackedWidget(), QStackedWidget()
        self.guiding = Guiding(self, GuidePage())
        self.taking = TakingAlong(self, self.guiding)
        self._lay_out()
        self._connect()
        self.rail.choose(DRAW)

    def _lay_out(self) -> None:
        drawing, across = self.splitters
        self.front.addWidget(_under(self.tracing.waiting, _under(self.tracing.band, _under(self.band, self.canvas))))
        self.front.addWidget(self.photo.page)
        drawing.addWidget(self.front)
        drawing.addWidget(self.below)
        drawing.setStretchFactor(0, 1)
        drawing.setSizes([560, BELOW_HIGH])
        self.plan_or_guide.addWidget(drawing)
        self.plan_or_guide.addWidget(self.guiding.page)
        across.addWidget(self.plan_or_guide)
        across.addWidget(self.side)
        across.setStretchFactor(0, 1)
        across.setSizes([700, SIDE_WIDE])
        for splitter in self.splitters:
            splitter.setHandleWidth(1)
            splitter.setChildrenCollapsible(False)
        self.middle.addWidget(across)
        row = QHBoxLayout()
        row.setSpacing(0)
        row.addWidget(self.rail)
        row.addWidget(self.middle, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.strip)
        column.addWidget(self.asking)
        column.addWidget(self.hands)
        column.addLayout(row, 1)
        column.addWidget(self.foot)

    def _connect(self) -> None:
        self.strip.level_chosen.connect(self._on_level_chosen)
        self.strip.layer_chosen.connect(self.colour_by)
        self.strip.name_wanted.connect(self.naming.ask_for_home)
        self.strip.level_wanted.connect(self.naming.ask_for_level)
        self.strip.level_menu_wanted.connect(self.plan_menu.offer_level)
        self.strip.look_up.look = self._look_up
        self.strip.look_up.chosen.connect(self.go_to)
        self.strip.look_up.left.connect(self.canvas.setFocus)
        self.canvas.hand_did.connect(self.clicks.on_plan)
        self.canvas.subject_hovered.connect(self.showing.on_hover)
        self.canvas.subject_opened.connect(self.clicks.on_opened)
        self.canvas.menu_wanted.connect(self.plan_menu.offer)
        self.side.view.breaker_clicked.connect(self.clicks.on_breaker)
        self.side.view.breaker_hovered.connect(self.showing.on_hover)
        self.side.view.space_clicked.connect(self.clicks.on_space)
        self.side.view.breaker_opened.connect(self.clicks.on_breaker_opened)
        self.side.mains.main_clicked.connect(self.shutting.on_handle)
        self.band.all_on_wanted.connect(self.shutting.all_back_on)
        self.side.panel_wanted.connect(lambda: self.show_stage(PANEL))
        self.side.panel_chosen.connect(self.show_panel)
        self.below.list.hazard_chosen.connect(self.hazard_rows.go_to)
        self.below.list.menu_wanted.connect(self.hazard_rows.offer)
        self.rail.find_out_page.guide_wanted.connect(self.guiding.begin)
        self.rail.find_out_page.worksheet_wanted.connect(self.taking.ask_for_worksheet)
        self.rail.find_out_page.phone_wanted.connect(self.taking.ask_for_phone_page)
        self.rail.find_out_page.answers_wanted.connect(self.taking.show)
        self.rail.stage_chosen.connect(self.show_stage)
        self.rail.palette_page.tool_taken.connect(self.take)
        self.rail.panel_page.photo_wanted.connect(self.photo.show)
        self.rail.panel_page.added.connect(lambda: QTimer.singleShot(0, self.entry.begin_first))
        self.rail.inspector.inside_wanted.connect(self.inside.look)

    # --- a session --------------------------------------------------------------------------------------------------

    def show_session(self, session: Session) -> None:
        """Work on another home."""
        if self.session is not None:
            self.session.deleteLater()
        self.session, self._panel = session, None
        session.setParent(self)
        session.edited.connect(self._on_edited)
        session.found.connect(self._on_found)
        session.lost.connect(self._on_lost)
        session.looked.connect(self._on_looked)
        session.said.connect(self.say)
        session.tried.connect(lambda: self.rail.refresh(session, self.theme))
        session.name_wanted.connect(lambda subject: QTimer.singleShot(0, lambda: self.naming.ask(subject)))
        self.asking.watch(session)
        self.hands.watch(session)
        self.rail.choose(DRAW)  # a home that is opened begins there, whatever was done with the last one
        self.middle.setCurrentIndex(0)
        self.finding.leave()
        self.guiding.forget()
        self.shutting.forget()
        self.inside.leave()
        self.photo.leave()
        self.tracing.begin()
        self.showing.begin()
        self._on_edited()
        self.say(FINDING)

    def say(self, words: str) -> None:
        """Say one sentence in the status line."""
        self.status.setText(words)

    def _on_edited(self) -> None:
        session = self.session
        if session is None:
            return
        self.strip.home_name.setText(session.home.name or "Unnamed home")
        self.strip.show_levels(sorted(session.home.levels, key=lambda level: level.order), session.view.level)
        self.foot.show_saved(session.is_saved, session.saved_at)
        if session.findings is None or session.findings.home is not session.home:
            self.below.counts.setText("Checking …")
        self.rail.refresh(session, self.theme)
        self.tracing.refresh()
        self.shutting.on_edited()

    def _on_lost(self) -> None:
        """Take away what was shown: it speaks of the home as it was, and nobody knows what holds now."""
        session = self.session
        if session is None:
            return
        self.below.show_findings(None)
        self.below.empty.setText(LOST)
        self.below.list.show_findings(None, self.theme)
        self.showing.begin()
        self.inside.leave()
        self.side.show_panel(None, self.panel())
        self.rail.refresh(session, self.theme)
        self.say(LOST)

    def _on_found(self) -> None:
        session = self.session
        if session is None or session.findings is None:
            return
        self.below.show_findings(session.findings)
        self.below.list.show_findings(session.findings, self.theme)
        self.showing.panel()
        self.rail.panel_page.show_panel(session, self.panel())
        self.rail.show_selection(session)
        self.rail.refresh(session, self.theme)
        self.showing.plan()
        self.showing.belonging(session.view.selected)
        if self.status.text() == FINDING:
            self.say(says_of(session.tool))
        if self.rail.stage == PRINT:
            self.show_stage(PRINT)
        self.inside.refresh()
        self.photo.refresh()
        self.finding.on_found()
        self.shutting.on_found()

    def _on_looked(self) -> None:
        session = self.session
        if session is None:
            return
        self.canvas.show_draft(session.view.draft)
        self.strip.choose(session.view.level)
        self.rail.refresh(session, self.theme)
        self.tracing.refresh()
        if isinstance(session.tool, PutDevice):
            self.rail.palette_page.used(session.tool.kind)
        self.showing.switching()
        self.showing.belonging(session.view.selected)
        if session.view.draft is None:
            self.rail.show_selection(session)
            self.rail.panel_page.show_panel(session, self.panel())
            self.photo.refresh()

    # --- looking about ------------------------------------------------------------------------------------------------

    def panel(self) -> Panel | None:
        """Return the panel shown: the one chosen, else the first."""
        home = self.session.home if self.session else None
        if home is None:
            return None
        return home.panels.get(self._panel) or next(iter(home.panels), None)

    def show_panel(self, panel: int) -> None:
        """Show another panel's face."""
        self._panel = panel
        self._on_found()

    def turn_to_panel(self, panel: int) -> None:
        """Let another panel be the one shown; whoever asks draws it."""
        self._panel = panel

    def show_level(self, level: int) -> None:
        """Look at another level."""
        self.inside.leave()
        self.photo.leave()
        if self.session is not None:
            self.session.show_level(level)
            self.showing.plan()

    def _on_level_chosen(self, level: int) -> None:
        """Look at the level whose tab was clicked, and give the keys to its plan: what comes next is drawn there."""
        self.show_level(level)
        self.canvas.setFocus()

    def colour_by(self, layer: Layer) -> None:
        """Divide the floor by lights, by receptacles, or by both."""
        if self.session is not None:
            self.session.colour_by(layer)

    def show_only_selected(self) -> None:
        """Show the breaker that is selected alone; with none, or the one shown already, show all again."""
        session = self.session
        if session is None:
            return
        chosen = next((one.id for one in session.view.selected if one.kind == "breaker"), None)
        only = None if chosen == session.view.only else chosen
        session.show_only(only)
        mark = session.findings.marks.get(only, "") if session.findings is not None and only is not None else ""
        self.say(f"Only {mark} is shown. Choose it again in the View menu to show all." if mark else ALL_SHOWN)

    def show_stage(self, stage: int) -> None:
        """Show a stage."""
        self.staging.show(stage)

    def set_theme(self, theme: Theme) -> None:
        """Draw everything in a theme."""
        self.theme = theme
        self.canvas.theme, self.side.view.theme = on_canvas(theme), on_canvas(theme)
        self.photo.set_theme(theme)
        self.side.band.theme = on_canvas(theme)
        self._on_found()
        self.canvas.update()

    def _look_up(self, words: str) -> tuple[Found, ...]:
        return look_up(self.session.find_now(), words) if self.session is not None else ()

    def go_to(self, subject: Subject) -> None:
        """Select something and bring it to the middle of the plan."""
        self.inside.leave()
        self.photo.leave()
        session = self.session
        if session is None or session.findings is None:
            return
        home = session.findings.home
        box = home.boxes.get(subject.id) if subject.kind == "box" else None
        session.select((subject,))
        if box is not None and (box.level is None or box.at is None):
            self.say(f"{box.mark} has no place on the plan yet.")
            return
        level, at = where_found(session.findings, subject, session.view.level)
        if level is not None and level != session.view.level:
            self.show_level(level)
        self.canvas.go_to(at)
        self.say(found_sentence(session.findings, subject))

    # --- the hand -----------------------------------------------------------------------------------------------------

    def take(self, tool: Tool) -> None:
        """Take a tool in hand and give the keys to the plan."""
        self.inside.leave()
        self.photo.leave()
        if self.session is not None:
            self.session.take(tool)
            self.say(says_of(tool))
            self.canvas.setFocus()


def _under(above: QWidget, below: QWidget) -> QWidget:
    """Return a pane of two widgets, the lower of which takes what room there is."""
    pane = QWidget()
    column = QVBoxLayout(pane)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(0)
    column.addWidget(above)
    column.addWidget(below, 1)
    return pane
