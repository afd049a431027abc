"""The worker of the shut-off: what to turn off for the picked boxes, and the home with handles off, off the thread."""

from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from floorplan_circuits.desktop.newest import Newest
from floorplan_circuits.findings import Findings, ShutOff, WhatIf


class Question(NamedTuple):
    """What is asked: boxes to be opened, and the handles off on the screen; None to let them follow the shut-off."""

    findings: Findings
    picked: tuple[int, ...]
    flipped: frozenset[int] | None


class Answer(NamedTuple):
    """The answer to a question: the shut-off (None without boxes), and the home as it would be (None with all on).

    `told` is the shut-off by what is off on the screen, where that is something else.
    """

    question: Question
    plan: ShutOff | None
    flipped: frozenset[int]
    shown: WhatIf | None
    told: ShutOff | None

    @property
    def chosen(self) -> frozenset[int]:
        """The handles off on the screen, where they are a choice in place of those nearest the load; else none."""
        others = self.plan.choices if self.plan is not None else ()
        return self.flipped if any(frozenset(one.handles) == self.flipped for one in others) else frozenset()

    @property
    def leading(self) -> ShutOff | None:
        """The shut-off to follow: that of the choice which stands on the screen, or of the handles nearest the load."""
        return self.told if self.chosen else self.plan


class Cutter(QObject):
    """Works shut-offs out in a thread of its own. `worked_out` brings the answer back to the window's thread."""

    worked_out = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._last: Answer | None = None
        self._cutting = Newest("shut-off", daemon=True)

    def ask(self, question: Question) -> None:
        """Ask; an older question that nobody has begun on is dropped."""
        self._cutting.ask(lambda: self._work_out(question))

    def _work_out(self, question: Question) -> None:
        answer = self._last = worked_out(question, self._last)
        if not self._cutting.is_overtaken():
            self._tell(answer)

    def _tell(self, answer: Answer) -> None:
        try:
            self.worked_out.emit(answer)
        except RuntimeError:  # Qt has deleted this object with its window: nobody waits for the answer
            return


def worked_out(question: Question, last: Answer | None = None) -> Answer:
    """Return the answer to a question; the shut-off of the last one is kept where the same was asked."""
    from floorplan_circuits.find import shut_off, what_if  # late: shapely must not delay the first frame

    findings, picked, flipped = question
    same = last is not None and last.question.findings is findings and last.question.picked == picked
    plan = last.plan if last is not None and same else shut_off(findings, picked) if picked else None
    nearest = plan.handles if plan is not None else frozenset()
    if flipped is None:
        flipped = nearest
    told = shut_off(findings, picked, flipped) if plan is not None and flipped and flipped != nearest else plan
    return Answer(question, plan, flipped, what_if(findings, flipped) if flipped else None, told)
