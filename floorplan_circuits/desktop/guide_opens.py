"""What the guide asks before a breaker is tried alone by a lamp: whether it switches the hot wire alone."""

from collections.abc import Callable, Collection, Sequence
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFormLayout, QWidget

from floorplan_circuits.desktop.guide_page import GuidePage, button, text
from floorplan_circuits.desktop.guide_screens import tick_named, ticked_line
from floorplan_circuits.edits.guiding import opens_unsaid, say_opens_hot
from floorplan_circuits.findings import Findings
from floorplan_circuits.rounds.steps import Manner

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

ASKS = "Which of these switch the hot wire alone?"
WHY = (
    "A breaker that switches the neutral too puts a lamp out and may leave the hot live: then a lamp proves nothing. "
    "In North America a breaker without a test button switches the hot alone as a rule (common practice, no source); "
    "elsewhere many switch both. Look from outside: the panel’s cover stays on."
)
NOT_KNOWN = "Leave out what has a test button and what you do not know: what is on it is then suggested, not tested."


class OpensForm(QWidget):
    """A tick for each breaker that somebody knows to switch the hot wire alone."""

    def __init__(self, breakers: Sequence[int], findings: Findings) -> None:
        super().__init__()
        self.setObjectName("guide_form")
        form = QFormLayout(self)
        form.setContentsMargins(0, 0, 0, 0)
        self.ticks = {one: tick_named(f"{findings.marks[one]} switches the hot wire alone.") for one in breakers}
        for tick in self.ticks.values():
            form.addRow(ticked_line(tick, text(tick.accessibleName(), "guide_form_words")))

    def tick_all(self) -> None:
        """Tick every breaker; Enter then goes on."""
        for tick in self.ticks.values():
            tick.setChecked(True)
            tick.setFocus()

    def ticked(self) -> tuple[int, ...]:
        """Return the breakers that were ticked."""
        return tuple(one for one, tick in self.ticks.items() if tick.isChecked())


def opens_pieces(form: OpensForm, go_on: Callable[[], object]) -> list[QWidget]:
    """Return the screen that asks what breakers open."""
    every = [button("None of these has a test button: tick all", form.tick_all)] if len(form.ticks) > 1 else []
    words = (text(ASKS, "guide_head"), text(WHY, "guide_words"))
    return [*words, *every, form, text(NOT_KNOWN, "guide_small"), button("Go on (Enter)", go_on, "action")]


class AskingOpens:
    """Asks once in a sitting of each breaker that is about to be tried; `go_on` shows what comes next."""

    def __init__(self, area: "WorkArea", page: GuidePage, go_on: Callable[[], object]) -> None:
        self._area, self._page, self._go_on = area, page, go_on
        self._asked: set[int] = set()

    def forget(self) -> None:
        """Begin another sitting: it is asked again of what is still not known."""
        self._asked.clear()

    def unsaid(self, feeds: Sequence[int], off: Collection[int], manner: Manner) -> list[int]:
        """Return the breakers to ask of: none where each hot is read, and none where nothing can prove anyway."""
        session = self._area.session
        if session is None or not manner.tried or manner.each_hot:
            return []
        return opens_unsaid(session.home, session.find_now().conclusions, feeds, off)

    def ask(self, feeds: Sequence[int], off: Collection[int], manner: Manner, anew: bool = False) -> bool:
        """Ask of those not asked of yet, `anew` of those left out too; tell whether there was anything to ask."""
        session = self._area.session
        ask = [one for one in self.unsaid(feeds, off, manner) if anew or one not in self._asked]
        if session is None or not ask:
            return False
        form = OpensForm(ask, session.find_now())
        go_on = partial(self._say, form)
        self._asked.update(ask)
        self._page.show_pieces(*opens_pieces(form, go_on), act=go_on)
        return True

    def _say(self, form: OpensForm) -> None:
        session, ticked = self._area.session, form.ticked()
        if session is not None and ticked:
            session.attempt(lambda home: say_opens_hot(home, ticked))
        self._go_on()
