"""What clicks mean in the stage at hand: a breaker taken, tied to or selected; one gang told from the others."""

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from floorplan_circuits.desktop.belonging import sentence
from floorplan_circuits.desktop.gangs import device_at
from floorplan_circuits.desktop.rail import FIND_OUT, PANEL, SHUT_OFF, TIE
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.events import Event, Key
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.gestures.step import says_of
from floorplan_circuits.gestures.switching import DrawSwitching
from floorplan_circuits.gestures.tying import TieDevices

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

SEVERAL = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier


class Clicks:
    """Hands the session what the hand does on the plan and on the panel."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area

    def on_plan(self, event: Event) -> None:
        """Hand on an event; while tying, one gang of a box of several counts for itself."""
        session = self._area.session
        if session is None:
            return
        if self._area.inside.is_open or self._area.inside.on_key(event):
            return  # the button of the double click that opened a box is let go over it
        if self._area.rail.stage == FIND_OUT:
            self._area.finding.on_plan(event, self._gang(event, session))
            return
        if self._area.rail.stage == SHUT_OFF:
            self._area.shutting.on_plan(event)
            return
        by_gang = isinstance(session.tool, TieDevices | DrawSwitching) or _may_carry(event, session)
        reach = self._area.canvas.reach(session.home.wall)
        session.step(self._with_gang(event, session) if by_gang else event, reach)

    def _with_gang(self, event: Event, session: Session) -> Event:
        device = self._gang(event, session)
        if isinstance(event, Key) or device is None:
            return event
        return replace(event, subject=Subject("device", device))

    def _gang(self, event: Event, session: Session) -> int | None:
        """Return the device whose gang is pointed at, None where a box is meant as a whole, or nothing."""
        if isinstance(event, Key) or event.subject is None or event.subject.kind != "box":
            return None
        box = session.home.boxes.get(event.subject.id)
        scale, wall = self._area.canvas.drawn_scale(), session.home.wall
        device = device_at(box, event.at, scale, wall) if box is not None else None
        return None if device is None else device.id

    def begin_to_tie(self, session: Session) -> None:
        """Go on with the boxes that were selected for it; what a drawing tool left selected is let go."""
        chosen = isinstance(session.tool, Select) and any(one.kind == "box" for one in session.view.selected)
        if not chosen:
            session.select(())
        session.take(Select() if chosen else TieDevices())
        self._area.say("Click the breaker that feeds what is selected." if chosen else says_of(session.tool))

    def on_opened(self, subject: Subject | None) -> None:
        """Look inside a box that was double clicked; of anything else, edit the name.

        While finding out, a double click is two clicks.
        """
        if self._area.rail.stage != FIND_OUT and not self._area.inside.on_opened(subject):
            self._area.naming.ask_for_opened(subject)

    def on_breaker_opened(self, subject: Subject) -> None:
        """Type a breaker anew that was double clicked; while finding out or shutting off nothing is typed."""
        if self._area.rail.stage not in (FIND_OUT, SHUT_OFF):
            self._area.entry.begin_again(subject)

    def on_space(self, space: int, half: str | None) -> None:
        """Type a breaker into an empty space; while shutting off nothing is typed."""
        if self._area.rail.stage != SHUT_OFF:
            self._area.entry.begin(space, half)

    def on_breaker(self, subject: Subject) -> None:
        """Take a breaker in hand to tie, tie what is selected to it, flip it on the screen, or select it."""
        session = self._area.session
        if session is None:
            return
        if self._area.rail.stage == FIND_OUT:
            self._area.finding.on_breaker(subject)
            return
        if self._area.rail.stage == SHUT_OFF:
            self._area.shutting.on_handle(subject)
            return
        boxes = [one.id for one in session.view.selected if one.kind in ("box", "device")]
        if self._area.rail.stage == TIE and boxes and isinstance(session.tool, Select):
            mark = session.findings.marks.get(subject.id, "") if session.findings else ""
            session.attempt(lambda home: tie(home, boxes, subject.id, mark))
        elif self._area.rail.stage == TIE or isinstance(session.tool, TieDevices):
            session.take(TieDevices(subject.id))
            session.select((subject,))
            self._area.say(f"{sentence(session.findings, subject)} Click or drag round what it feeds.")
        elif self._area.rail.stage == PANEL:
            session.select(_with(session.view.selected, subject))
        else:
            session.select((subject,))


def _may_carry(event: Event, session: Session) -> bool:
    """Tell whether one gang may be taken hold of or let go over: its box is selected alone, or is being dragged."""
    if isinstance(event, Key) or not isinstance(session.tool, Select):
        return False
    return session.tool.start is not None or session.view.selected == (event.subject,)


def _with(selected: tuple[Subject, ...], subject: Subject) -> tuple[Subject, ...]:
    """Return a breaker alone; with shift or control held, added to those that are selected or taken from them."""
    breakers = tuple(one for one in selected if one.kind == "breaker")
    if not (QApplication.keyboardModifiers() & SEVERAL) or not breakers:
        return (subject,)
    return tuple(one for one in breakers if one != subject) if subject in breakers else (*breakers, subject)
