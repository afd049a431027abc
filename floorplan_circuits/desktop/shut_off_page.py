"""The rail's page for shutting off: what to turn off and why, what each box would be, and what goes dark."""

from collections.abc import Callable, Iterable
from functools import partial

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from floorplan_circuits.desktop.afterwards_form import AfterwardsForm
from floorplan_circuits.desktop.cutter import Answer
from floorplan_circuits.desktop.pieces import button, label
from floorplan_circuits.drawing.close_up_what_if import NEUTRAL, with_off
from floorplan_circuits.drawing.phrases import listed
from floorplan_circuits.findings import BoxWhenOff, Findings, ShutOff, ToTurnOff, WhatIf
from floorplan_circuits.gestures.shutting_off import NOTHING_PICKED, to_test
from floorplan_circuits.home.handling import FUSE_CARE, any_fuse, to_open
from floorplan_circuits.home.trade_words import home_words
from floorplan_circuits.reports.shutoff import (
    CAUTION,
    NOTHING_TO_TURN_OFF,
    around_lines,
    choice_line,
    dark_lines,
    named,
    stay_shut_lines,
)

CHECKING = "Checking …"
SECTION_AIR = 8
MOST_LISTED = 6
"""So many picked boxes stand in a row each; of more their marks stand together."""
AS_FOUND = "With nothing turned off"
ALL_ON = "Nothing is off on the screen: treat everything as live."
ONLY_THE_MAIN = "Nothing short of the {main} will do."
NOT_WHOLE = "Even with all of that off, this is not known to be dead: {}. Test every wire, and treat it as live."


class ShutOffPage(QWidget):
    """Says what to turn off before the picked boxes are opened."""

    taken_out = Signal(int)
    let_go = Signal()
    handles_wanted = Signal(object)
    """These handles, and no others, are to be off on the screen."""
    sheet_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.stop, self.afterwards = label("", "stop"), AfterwardsForm()
        self.sheet = _button("Print the sheet…", self.sheet_wanted.emit, "Print the sheet of this shut-off")
        self.found = _button("What I found…", self._open_form)
        self._told = QVBoxLayout()
        self._told.setSpacing(4)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(self.stop)
        column.addLayout(self._told)
        column.addWidget(self.sheet)
        column.addWidget(self.found)
        column.addWidget(self.afterwards)
        self.say_stop("")
        self.show_nothing()

    def _open_form(self) -> None:
        self.afterwards.setVisible(not self.afterwards.isVisible())
        if self.afterwards.isVisible():
            self.afterwards.way.setFocus()
            self._bring_into_sight(self.afterwards.record)

    def _bring_into_sight(self, widget: QWidget) -> None:
        """Scroll to a part of the page, once it is laid out."""
        above = self.parentWidget()
        while above is not None and not isinstance(above, QScrollArea):
            above = above.parentWidget()
        if isinstance(above, QScrollArea):
            area = above
            QTimer.singleShot(0, self, lambda: area.ensureWidgetVisible(widget))

    def say_stop(self, words: str) -> None:
        """Say that something was found live with its handles off, until it is said no more."""
        self.stop.setText(words)
        self.stop.setVisible(bool(words))
        if words:
            self._bring_into_sight(self.stop)

    # --- what is told -----------------------------------------------------------------------------------------------

    def show_checking(self) -> None:
        """Say that it is being worked out: nothing old stands beside what is new."""
        self._clear()
        self._line(CHECKING)

    def show_nothing(self) -> None:
        """Say what to do where no box is picked."""
        self._clear()
        self._line(NOTHING_PICKED)
        self.sheet.hide()
        self.found.hide()
        self.afterwards.hide()

    def show_answer(self, answer: Answer) -> None:
        """Tell a shut-off, and what the picked boxes would be with what is off on the screen."""
        findings, plan = answer.question.findings, answer.leading
        if plan is None:
            self.show_nothing()
            return
        told = answer.told or plan
        self._clear()
        self._tell_boxes(plan, findings)
        for words in stay_shut_lines(told, findings):
            self._line(words, "alarm")
        self._tell_turn_off(plan, findings, answer.flipped)
        self._tell_states(plan, answer.shown, findings)
        self._listed("Not known, so live until tested", plan.unknown)
        self._listed("Stays live", told.stays_live)
        turned = listed([findings.marks[handle] for one in told.off for handle in one.handles])
        self._listed(f"Goes dark with {turned} off", list(dark_lines(told.goes_dark)))
        self._listed("Tester and light", list(around_lines(told, findings)))
        self._tell_choices(plan, findings)
        self._line(CAUTION)
        off = with_off(findings, answer.shown) if answer.shown is not None else ""
        self.afterwards.ask(to_test(findings, plan.boxes), answer.flipped, off or ALL_ON)
        self.sheet.show()
        self.found.show()

    def _tell_boxes(self, plan: ShutOff, findings: Findings) -> None:
        boxes = [findings.home.boxes[box] for box in plan.boxes]
        self._section("To open")
        if len(boxes) > MOST_LISTED:
            self._line(", ".join(box.mark for box in boxes), "body")
        else:
            for box in boxes:
                found = findings.boxes.get(box.id)
                where = (found.room_name or found.level_name) if found is not None else ""
                out = _button("×", partial(self.taken_out.emit, box.id), f"Take {box.mark} out")
                self._row(label(f"{box.mark}, {where}" if where else box.mark, "body"), out)
        if len(boxes) > 1:
            self._told.addWidget(_button("Let go of all", self.let_go.emit))

    def _tell_turn_off(self, plan: ShutOff, findings: Findings, flipped: frozenset[int]) -> None:
        if plan.off:
            fuses = any_fuse(findings.home, plan.handles)
            self._section("Turn off, or take out" if fuses else "Turn off")
        elif not plan.keep_off:
            self._line(NOTHING_TO_TURN_OFF, "alarm")
        if plan.only_the_main:
            self._line(ONLY_THE_MAIN.format(main=home_words(findings.home).main), "body")
        for one in plan.off:
            self._tell_movement(one, findings)
        # of a box that stays shut it is told above, and nobody is asked to test its wires
        worst = [one for one in plan.states if one.state in ("live", "unknown") and one.box not in plan.stay_shut]
        if plan.off and worst:
            marks = ", ".join(findings.home.boxes[one.box].mark for one in worst)
            self._line(NOT_WHOLE.format(marks), "alarm")
        if plan.keep_off:
            self._section("Keep off")
        for one in plan.keep_off:
            self._line(f"{named(one, findings)}: it was found so", "body")
        if plan.off and flipped != plan.handles:
            self._told.addWidget(_button("Show these off", partial(self.handles_wanted.emit, plan.handles)))

    def _tell_movement(self, one: ToTurnOff, findings: Findings) -> None:
        self._line(named(one, findings), "panel_title")
        if any_fuse(findings.home, one.handles):
            self._line(f"{to_open(findings.home, one.handles, 'it')}. {FUSE_CARE}", "body")
        for why in one.because:
            self._line(why)
        if one.ask:
            self._line(f"First {one.ask}.", "body")

    def _tell_states(self, plan: ShutOff, shown: WhatIf | None, findings: Findings) -> None:
        self._section(with_off(findings, shown) if shown is not None else AS_FOUND)
        if shown is None and plan.off:
            self._line(ALL_ON, "body")
            return
        states = {one.box: one for one in plan.states} if shown is None else shown.boxes
        for box in plan.boxes:
            if box in states:
                self._tell_state(states[box], findings.home.boxes[box].mark)

    def _tell_state(self, state: BoxWhenOff, mark: str) -> None:
        dead = state.state == "should be dead"
        self._line(f"{mark}: {state.says}", "body" if dead else "alarm")
        if state.because:
            self._line(f"{'; '.join(state.because)}.")
        if not state.neutral_known and state.state != "live":
            self._line(NEUTRAL)

    def _tell_choices(self, plan: ShutOff, findings: Findings) -> None:
        if all(one.state == "live" for one in plan.states):
            return  # nothing else would do: no handle makes these dead
        if plan.choices:
            self._section("Instead")
        for one in plan.choices:
            self._line(choice_line(one, findings), "body")
            marks = " and ".join(findings.marks[handle] for handle in one.handles)
            show = _button("Show it", partial(self.handles_wanted.emit, frozenset(one.handles)))
            show.setAccessibleName(f"Show {marks} off")
            self._told.addWidget(show)

    # --- pieces -----------------------------------------------------------------------------------------------------

    def _clear(self) -> None:
        while (item := self._told.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()

    def _section(self, words: str) -> None:
        head = label(words, "section")
        head.setContentsMargins(0, SECTION_AIR, 0, 0)
        self._told.addWidget(head)

    def _line(self, words: str, name: str = "caption") -> None:
        self._told.addWidget(label(words, name))

    def _listed(self, head: str, lines: Iterable[str]) -> None:
        told = list(lines)
        if told:
            self._section(head)
        for words in told:
            self._line(words)

    def _row(self, label: QLabel, button: QPushButton) -> None:
        holder = QWidget()
        row = QHBoxLayout(holder)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(label, 1)
        row.addWidget(button)
        self._told.addWidget(holder)


def _button(words: str, act: Callable[[], object], called: str = "") -> QPushButton:
    made = button(words, act=act)
    made.setAccessibleName(called)
    return made
