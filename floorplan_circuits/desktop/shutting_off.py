"""The stage that shuts off: boxes are picked on the plan, handles flipped on the panel, on the screen alone."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer

from floorplan_circuits.desktop.afterwards import Afterwards
from floorplan_circuits.desktop.cutter import Answer, Cutter, Question
from floorplan_circuits.desktop.rail import SHUT_OFF
from floorplan_circuits.desktop.shut_off_page import ShutOffPage
from floorplan_circuits.drawing.close_up_what_if import with_off
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.findings import Findings, ShutOff, Subject, WhatIf
from floorplan_circuits.gestures.events import Event, Key, Press
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.shutting_off import SAYS, asks_for, boxes_of, flipped, picked

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

PATIENCE_MS = 300
"""So long an answer may take before the page says that it is being worked out."""


class ShuttingOff:
    """What clicks mean while somebody plans what to turn off; what is told is always about the home as it is now."""

    def __init__(self, area: "WorkArea", page: ShutOffPage) -> None:
        self._area, self.page = area, page
        self._answer: Answer | None = None
        self._asked: Question | None = None
        self._told_of: tuple[tuple[int, ...], frozenset[int]] = ((), frozenset())
        """The boxes and the choice of which the status line told last."""
        self._follows = True
        """Whether the handles that are off on the screen follow the shut-off: until the hand flips one."""
        self._cutter = Cutter(area)
        self._cutter.worked_out.connect(self._on_answer)
        self._slow = QTimer(area)
        self._slow.setSingleShot(True)
        self._slow.setInterval(PATIENCE_MS)
        self._slow.timeout.connect(page.show_checking)
        page.taken_out.connect(lambda box: self._pick((box,)))
        page.let_go.connect(self.let_go)
        page.handles_wanted.connect(self._flip_to)
        page.sheet_wanted.connect(self._print)
        self.chosen: frozenset[int] = frozenset()
        """The choice that stands on the screen in place of the nearest handles: the sheet is printed of it."""
        self.afterwards = Afterwards(area, page)

    # --- coming and going -------------------------------------------------------------------------------------------

    @property
    def is_open(self) -> bool:
        """Whether it is the stage at hand."""
        return self._area.rail.stage == SHUT_OFF

    def begin(self, anew: bool = True) -> None:
        """Begin with what is selected picked; with nothing selected, with what was picked last.

        Not `anew`, what is selected joins what is picked: so boxes can be picked by keys, from the outline.
        """
        session = self._area.session
        if session is None:
            return
        selected = session.view.selected
        session.take(Select())
        session.select(())
        boxes = (
            ()
            if session.findings is None
            else tuple(dict.fromkeys(box for subject in selected for box in boxes_of(subject, session.findings)))
        )
        self._follows, self._told_of, self.chosen = True, ((), frozenset()), frozenset()
        if boxes:
            session.pick(boxes if anew else tuple(dict.fromkeys((*session.view.picked, *boxes))))
        self._area.say(SAYS)
        self._show_band()
        self._ask()

    def says(self) -> str:
        """Return what is asked for of the boxes that are picked; before that, what a click does."""
        plan = self._answer.leading if self._is_of_now() and self._answer is not None else None
        return SAYS if plan is None or self._answer is None else asks_for(plan, self._answer.question.findings)

    def leave(self) -> None:
        """Turn all back on on the screen, and draw the home as it is; what was picked is kept for the next time."""
        session = self._area.session
        self.afterwards.let_go()
        self._answer = self._asked = None
        self._slow.stop()
        if session is not None:
            session.flip(frozenset())
        self._draw()

    def forget(self) -> None:
        """Forget all: another home is at work."""
        self.chosen = frozenset()
        self._answer = self._asked = None
        self._slow.stop()
        self.afterwards.let_go()
        self.page.afterwards.ask_nothing()
        self.page.show_nothing()
        self._show_band()

    def let_go(self) -> None:
        """Pick nothing, and turn all back on on the screen."""
        session = self._area.session
        if session is not None:
            self._follows, self.chosen = True, frozenset()
            self.afterwards.let_go()
            session.pick(())
            self._ask()

    # --- what the hand does -----------------------------------------------------------------------------------------

    def on_plan(self, event: Event) -> None:
        """Pick what is pressed, or take it out again; Escape lets go of all."""
        session = self._area.session
        if session is None or session.findings is None:
            return
        if isinstance(event, Key):
            if event.name == "escape":
                self.let_go()
                self._area.say(SAYS)
        elif isinstance(event, Press):
            boxes = boxes_of(event.subject, session.findings)
            if boxes:
                self._pick(boxes)
            else:
                self._area.say(SAYS)

    def _pick(self, boxes: tuple[int, ...]) -> None:
        session = self._area.session
        if session is not None:
            self._follows, self.chosen = True, frozenset()
            session.pick(picked(session.view.picked, boxes))
            self.afterwards.let_go(session.view.picked)
            self._ask()

    def on_handle(self, subject: Subject) -> None:
        """Flip a handle on the screen, with all that moves along."""
        session = self._area.session
        if session is None:
            return
        try:
            done = flipped(session.view.flipped, session.home, subject.id)
        except Refused as refused:
            self._area.say(str(refused))
            return
        self._flip_to(done.handles)
        self._told_of = (session.view.picked, self.chosen)  # the hand knows what it flipped: it is told of that alone
        self._area.say(done.says)

    def all_back_on(self) -> None:
        """Turn all back on on the screen."""
        self._flip_to(frozenset())

    def _flip_to(self, handles: frozenset[int]) -> None:
        session = self._area.session
        if session is not None:
            self._follows = False
            choices = self._answer.plan.choices if self._is_of_now() and self._answer and self._answer.plan else ()
            self.chosen = handles if any(frozenset(one.handles) == handles for one in choices) else frozenset()
            session.flip(handles)
            self._ask()

    def _is_of_now(self) -> bool:
        """Tell whether the answer at hand is of the home and the picked boxes as they are now."""
        session = self._area.session
        if self._answer is None or session is None:
            return False
        asked = self._answer.question
        return asked.findings is session.findings and asked.picked == session.view.picked

    def _print(self) -> None:
        self._area.staging.print_shut_off()

    # --- working it out ---------------------------------------------------------------------------------------------

    def on_edited(self) -> None:
        """Tell nothing of the home as it was: what holds now is on its way."""
        self.chosen = frozenset()
        if self.is_open:
            self._answer = self._asked = None
            self.page.show_checking()
            self._draw()

    def on_found(self) -> None:
        """Work it out anew for findings that are new."""
        session = self._area.session
        if self.is_open and session is not None:
            if self._asked is not None and self._asked.findings is session.findings:
                self._show_band()
            else:
                self._ask()

    def _ask(self) -> None:
        session = self._area.session
        if session is None or session.findings is None or session.findings.home is not session.home:
            return  # it is asked once the findings are there
        findings = session.findings
        boxes = tuple(box for box in session.view.picked if box in findings.boxes)
        self._asked = Question(findings, boxes, None if self._follows else session.view.flipped)
        self._slow.start()
        self._cutter.ask(self._asked)

    def _on_answer(self, answer: Answer) -> None:
        session = self._area.session
        if answer.question is not self._asked or session is None or not self.is_open:
            return  # a newer question is on its way
        self._slow.stop()
        self._answer = answer
        self.chosen = answer.chosen
        if session.view.flipped != answer.flipped:
            session.flip(answer.flipped)
        self.page.show_answer(answer)
        asked, plan = (answer.question.picked, answer.chosen), answer.leading
        other, self._told_of = asked != self._told_of, asked
        if other and plan is not None and answer.flipped == plan.handles:
            self._show_panel_of(plan)
            self._area.say(asks_for(plan, answer.question.findings))
        self._draw()

    def _show_panel_of(self, plan: ShutOff) -> None:
        """Show a panel that a handle to turn off is in, if the one that is shown has none."""
        panels = [one.panel for one in plan.off]
        shown = self._area.panel()
        if panels and (shown is None or shown.id not in panels):
            self._area.turn_to_panel(panels[0])

    def _draw(self) -> None:
        area = self._area
        self._show_band()
        area.showing.plan()
        area.showing.panel()
        area.showing.belonging(area.session.view.selected if area.session else ())
        area.inside.refresh()

    def _show_band(self) -> None:
        area = self._area
        findings, shown = area.session.findings if area.session else None, self.shown()
        off = with_off(findings, shown) if findings is not None and shown is not None else ""
        area.band.show_off(off, area.theme)
        area.band.setVisible(self.is_open)

    def hold(self) -> None:
        """Keep what is off on the screen as it is, whatever is found out: it is what somebody turned off."""
        self._follows = False

    # --- what is shown ----------------------------------------------------------------------------------------------

    def shown(self) -> WhatIf | None:
        """Return the home as it would be with what is off on the screen; None where nothing is, or nobody knows yet."""
        session = self._area.session
        if not self.is_open or self._answer is None or session is None:
            return None
        return self._answer.shown if self._answer.question.findings is session.findings else None

    def picked(self) -> tuple[int, ...]:
        """Return the boxes that the plan marks as picked."""
        session = self._area.session
        return session.view.picked if session is not None and self.is_open else ()

    def wanted(self) -> frozenset[int]:
        """Return the handles to turn off for the picked boxes: the panel rings them."""
        plan = self._answer.leading if self._answer is not None and self.is_open else None
        return plan.handles if plan is not None else frozenset()

    def sentence(self, findings: Findings | None, subject: Subject | None) -> str:
        """Return what a box that is pointed at would be, while handles are off on the screen."""
        shown = self.shown()
        if shown is None or findings is None or subject is None or subject.kind != "box":
            return ""
        state = shown.boxes.get(subject.id)
        if state is None:
            return ""
        because = f" ({'; '.join(state.because)})" if state.because else ""
        return f"{with_off(findings, shown)}: {findings.home.boxes[subject.id].mark} {state.says}{because}."
