"""The guide in the window: it shows what comes next, and hands the session each answer at once."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QWidget

from floorplan_circuits.desktop.guide_opens import AskingOpens
from floorplan_circuits.desktop.guide_page import GuidePage, button, text
from floorplan_circuits.desktop.guide_screens import SetUpForm, done_pieces, set_up_pieces
from floorplan_circuits.desktop.handles_off import HandlesOff
from floorplan_circuits.desktop.rail import SHUT_OFF
from floorplan_circuits.desktop.rounds_wanted import RoundsWanted
from floorplan_circuits.edits.edited import counted
from floorplan_circuits.edits.guiding import answer, take_back, tie_found, to_tie
from floorplan_circuits.edits.one_box import boxes_alone
from floorplan_circuits.findings import Findings, Subject
from floorplan_circuits.rounds.course import Course
from floorplan_circuits.rounds.guide_words import guide_words, to_turn
from floorplan_circuits.rounds.steps import DONE, GuideStep, Manner
from floorplan_circuits.rounds.wording import not_watched

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

HOW_IT_GOES = "The guide asks for one thing after another. Each answer is in the log at once."
BACK_ON = "Back on for a while"
STOP_FIRST = "The guide has breakers off. Stop it first, and turn them back on."
NOTHING = "There is nothing to look at in rounds: put devices on the plan and breakers in the panel, or name one box."


class Guiding:
    """One evening with the guide. All that counts is in the log; this holds only what the hand did since."""

    def __init__(self, area: "WorkArea", page: GuidePage) -> None:
        self._area, self.page = area, page
        self._course: Course | None = None
        self._step: GuideStep | None = None
        self._manner = Manner()
        self._skipped: set[tuple[tuple[str, int], int]] = set()
        self._given: list[tuple[int, ...]] = []
        """The entries of each answer in this sitting, the newest last."""
        self.wanted = RoundsWanted()
        self.off, self.opens = HandlesOff(page, self.show), AskingOpens(area, page, self.show)
        self._is_stopping = False
        page.answered.connect(self._on_answered)
        page.turned.connect(self._on_turned)
        page.left_out.connect(self._on_left_out)
        page.back_wanted.connect(self._take_back)
        page.leaving.connect(self._stop)

    @property
    def is_open(self) -> bool:
        """Whether the guide stands in the plan's place."""
        return self._area.plan_or_guide.currentWidget() is self.page

    def begin(self, boxes: Sequence[int] = ()) -> None:
        """Show the first screen. Only `boxes` are asked about, else what is selected, else all.

        Where nothing is drawn, the boxes that somebody named are meant, and not the lamps that their switches work.
        """
        session = self._area.session
        if session is None:
            return
        self.forget()
        self._manner = replace(self._manner, tried=False, each_hot=False)  # promised anew in each sitting
        selected = (one.id for one in session.view.selected if one.kind == "box")
        self.wanted = replace(self.wanted, boxes=tuple(boxes or selected) or boxes_alone(session.home))
        findings = session.find_now()
        plan = self.wanted.plan(findings)
        self._open()
        if not plan.feeds or not (plan.handles or plan.apart):
            unseen = (text(words, "guide_words") for words in not_watched(plan, findings))
            self.page.show_pieces(text(NOTHING, "guide_words"), *unseen, self._leave_button())
            return
        form = SetUpForm(self._manner, findings, self.wanted)
        of_what = (
            "this box alone"
            if len(self.wanted.boxes) == 1
            else counted(len(plan.feeds), "device or part", "devices and parts")
        )
        about = (
            f"{of_what[:1].upper()}{of_what[1:]}, {counted(len(plan.handles), 'breaker')}, "
            f"{counted(len(plan.rounds), 'round')}, then each breaker found is tried alone. Stop at any time: every "
            "answer is kept, and the guide goes on from there."
        )
        start = partial(self._start, form)
        about = "\n".join((about, *not_watched(plan, findings)))
        self.page.show_pieces(*set_up_pieces(form, findings, about, start), act=start)
        form.way.setFocus()

    def _open(self) -> None:
        self._area.plan_or_guide.setCurrentWidget(self.page)
        self._area.say(HOW_IT_GOES)
        self._area.rail.find_out_page.show_guided(is_guided=True)

    def show_instead(self, *shown: QWidget) -> None:
        """Show something else in the guide's place; what was under way goes on from the log."""
        if self.off.now:
            self._area.say(STOP_FIRST)
            return
        wanted = self.wanted
        self.forget()
        self.wanted = wanted
        self._open()
        self.page.show_pieces(*shown)

    def _start(self, form: SetUpForm) -> None:
        self._manner, self.wanted = form.manner(), form.wanted(self.wanted)
        self._begin_course(anew=False)

    def _begin_course(self, anew: bool) -> None:
        session = self._area.session
        if session is None:
            return
        findings = session.find_now()
        self._skipped.clear()
        fresh = Course(self.wanted.plan(findings), len(session.home.log)) if anew else None
        self._course = fresh or self.wanted.course(findings)
        self.show()

    def _stop(self) -> None:
        """Have everything back on first: nobody walks away from a dark freezer."""
        session, course = self._area.session, self._course
        if not self.off.now or session is None or course is None:
            self.leave()
            return
        self._step, self._is_stopping = DONE, True
        findings = session.find_now()
        words = replace(guide_words(DONE, course.plan, findings), head="Before you stop")
        self._area.side.view.ring(self.rings())
        self.page.show_turning(words, to_turn(self.off.now, DONE, findings))

    def leave(self) -> None:
        """Give the place back to the plan; the answers stay in the log."""
        if not self.is_open:
            return
        still_off, session = self.off.now, self._area.session
        self.forget()
        if session is not None and still_off:
            marks = session.find_now().marks
            words = f"Turn back on before you go: {', '.join(marks.get(one, '') for one in still_off)}."
            QTimer.singleShot(0, lambda: self._area.say(words))  # after what the next stage says

    def forget(self) -> None:
        """Show the plan; another home may be at work."""
        self._course = self._step = None
        self._is_stopping = False
        self.wanted = replace(self.wanted, boxes=())
        self.off.forget()
        self._skipped.clear()
        self.opens.forget()
        self._given.clear()
        self._area.plan_or_guide.setCurrentIndex(0)
        self._area.rail.find_out_page.show_guided(is_guided=False)
        self._area.side.view.ring(frozenset())

    # --- what comes next --------------------------------------------------------------------------------------------

    def show(self) -> None:
        """Show what comes next."""
        from floorplan_circuits.find import next_step

        session, course = self._area.session, self._course
        if session is None or course is None:
            return
        findings = session.find_now()
        course = self._renewed(findings, course)
        step = self._step = next_step(findings, course, self._manner, date.today().isoformat(), self._skipped)
        if step.stage in ("before alone", "alone") and self.opens.ask(course.plan.feeds, step.off, self._manner):
            return
        self._area.side.view.ring(self.rings())
        words = guide_words(step, course.plan, findings)
        turn = to_turn(self.off.now, step, findings)
        at_most, marks, clock = course.plan.at_most, findings.marks, self.off.clock
        pause = self.off.pause(step, course.plan, is_at_panel=not turn.is_nothing)
        if pause is not None:
            words = replace(guide_words(pause, course.plan, findings), head=BACK_ON)
            self.page.show_turning(words, to_turn(self.off.now, pause, findings))
        elif not turn.is_nothing:
            until = clock.runs_until([one for one in step.off if one not in self.off.now], at_most, marks)
            self.page.show_turning(words, replace(turn, also=" ".join(told for told in (turn.also, until) if told)))
        elif step.stage == "done":
            self._show_done(findings, course)
        else:
            by = clock.back_by(at_most, marks)
            self.page.show_room(replace(words, state=f"{words.state} {by}".strip()))

    def _renewed(self, findings: Findings, course: Course) -> Course:
        """Return the course, its rest planned anew where that is shorter."""
        from floorplan_circuits.find import renewed

        anew = renewed(findings, course, self.wanted.plan)
        if anew is not course:
            self._course = anew
            self._skipped.clear()
            self._area.say(f"What was found leaves less to tell apart: {counted(len(anew.plan.rounds), 'round')} left.")
        return anew

    def rings(self) -> frozenset[Subject]:
        """Return the breakers that are to be off now, which the panel rings."""
        off = self._step.off if self._step is not None else ()
        return frozenset(Subject("breaker", one) for one in off)

    def _show_done(self, findings: Findings, course: Course) -> None:
        feeds = course.plan.feeds
        others: list[QWidget] = []
        if any(findings.conclusions[feed].standing != "proved" for feed in feeds):
            others.append(button("Plan again for what is still open", partial(self._begin_course, anew=True)))
        if self.opens.unsaid(feeds, (), self._manner):
            ask = partial(self.opens.ask, feeds, (), self._manner, anew=True)
            others.append(button("Say which breakers switch the hot wire alone", ask))
        if self.wanted.boxes:
            others.append(button("What to turn off for this box", self._shut_off, "action"))
        others.append(self._leave_button())
        found = to_tie(findings.home, findings.conclusions, feeds)
        self.page.show_pieces(*done_pieces(findings, feeds, found, self._tie, others))

    def _leave_button(self) -> QWidget:
        return button("Back to the plan", self.leave)

    def _shut_off(self) -> None:
        session, boxes = self._area.session, self.wanted.boxes
        self.leave()
        if session is not None:
            session.pick(boxes)
            self._area.show_stage(SHUT_OFF)

    # --- what the person does ---------------------------------------------------------------------------------------

    def _on_turned(self) -> None:
        if self._step is None:
            return
        self.off.turned(self._step)
        if self._is_stopping:
            self.leave()
        else:
            self.show()

    def _on_left_out(self) -> None:
        """Pass by a test that nobody wants tonight; nothing of it is recorded."""
        if self._step is not None and self._course is not None:
            self._skipped |= {(self._step.key, feed) for feed in self._course.plan.feeds}
            self.show()

    def _on_answered(self, feeds: tuple[int, ...], says: str) -> None:
        session, step = self._area.session, self._step
        if session is None or step is None:
            return
        if not says:
            self._skipped |= {(step.key, feed) for feed in feeds}
            self.show()
            return
        today = date.today().isoformat()
        edited = session.attempt(lambda home: answer(home, step, dict.fromkeys(feeds, says), self._manner, today))
        if edited is not None and not session.read_only:
            self._given.append(edited.made)
            self.show()

    def _take_back(self) -> None:
        session = self._area.session
        if session is None or self._course is None:
            return
        if not self._given:
            self._area.say("No answer was given in this sitting. Older ones are struck where they are listed.")
            return
        entries, who, today = self._given.pop(), self._manner.who, date.today().isoformat()
        if session.attempt(lambda home: take_back(home, entries, today, who)) is not None:
            self.show()

    def _tie(self, feeds: Sequence[int]) -> None:
        session = self._area.session
        if session is not None:
            known = session.find_now().conclusions
            if session.attempt(lambda home: tie_found(home, known, feeds)) is not None:
                self.show()
