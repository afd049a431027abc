"""The stage that finds out: a breaker clicked on the panel is off, what is clicked on the plan is read and recorded."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF

from floorplan_circuits.desktop.find_out_page import FindOutPage
from floorplan_circuits.desktop.reading_choice import ReadingChoice
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.events import Event, Key, Press
from floorplan_circuits.gestures.finding_out import (
    CHOOSE_A_WAY,
    SAYS,
    SetUp,
    also_recorded,
    headline,
    readable,
    recorded,
    slip_struck,
    taken,
    with_breaker,
)
from floorplan_circuits.gestures.selecting import Select
from floorplan_circuits.home.called import called_there
from floorplan_circuits.home.home import Home
from floorplan_circuits.reading_in_words import what_it_means

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea


class FindingOut:
    """What clicks mean while somebody finds out what hangs on what."""

    def __init__(self, area: "WorkArea", page: FindOutPage) -> None:
        self._area, self.page = area, page
        self._choice: ReadingChoice | None = None
        self._read: tuple[int, tuple[int, ...]] | None = None
        """The feed read last and the entries that tell it, until what they mean was said."""
        self._last: tuple[int, ...] = ()
        page.changed.connect(self._show)
        page.slip_told.connect(self._strike_last)

    def begin(self) -> None:
        """Start with all as usual: who comes back later may have turned everything on again."""
        if self._area.session is not None:
            self._area.session.take(Select())
            self._area.session.select(())
        self._forget()
        self._area.say(SAYS)

    def says(self) -> str:
        """Return what a click means now."""
        session = self._area.session
        return SAYS if session is None or self.page.now.breaker is None else taken(self.page.now, session.home)

    def leave(self) -> None:
        """Close what is open; nothing is said to be off any more, and nothing stays selected to be tied by accident."""
        self._close()
        if self._area.session is not None:
            self._area.session.select(())
        self._forget()

    def _forget(self) -> None:
        self.page.now = SetUp(way=self.page.now.way, who=self.page.now.who, helper=self.page.now.helper)
        self._last = ()
        self.page.show_last("")
        self._show()

    def _show(self) -> None:
        session = self._area.session
        self.page.show_set_up(self.page.now, headline(self.page.now, session.home if session else Home()))

    def rings(self, entering: frozenset[Subject]) -> frozenset[Subject]:
        """Return which breakers the panel rings: the one that is off, where one is, else those that enter a box."""
        if self._area.guiding.is_open:
            return self._area.guiding.rings()
        off = self.page.now.breaker
        return entering if off is None else frozenset({Subject("breaker", off)})

    # --- clicks -----------------------------------------------------------------------------------------------------

    def on_breaker(self, subject: Subject) -> None:
        """Say that a breaker is off now, unless it is one that nobody should turn off for a test."""
        session = self._area.session
        if session is None:
            return
        if self._area.guiding.is_open:
            self._area.say("The guide says which breaker comes next. Stop it to turn another.")
            return
        self._close()
        try:
            self.page.now = with_breaker(self.page.now, session.home, subject.id)
        except Refused as refused:
            self._area.say(str(refused))
            return
        session.select((subject,))
        self._show()
        self._area.say(taken(self.page.now, session.home))

    def on_plan(self, event: Event, device: int | None) -> None:
        """Ask at the box that is pressed what was seen; `device` is the gang meant, None for all of the box."""
        if isinstance(event, Key):
            if event.name == "escape":
                self._close()
        elif isinstance(event, Press):
            self._close()
            self._ask(event, device)

    def _ask(self, event: Press, device: int | None) -> None:
        session, subject = self._area.session, event.subject
        if session is None:
            return
        box = session.home.boxes.get(subject.id) if subject is not None and subject.kind == "box" else None
        if box is None or subject is None:
            session.select(())
            return
        session.select((subject,))
        if not self.page.now.way:
            self._area.say(CHOOSE_A_WAY)
            return
        rows = [(place.feed.id, called_there(place)) for place in readable(box, device, session.home)]
        if not rows:
            self._area.say(f"In {box.mark} nothing takes power that could be read.")
            return
        title = f"{box.mark} · {headline(self.page.now, session.home)}"
        self._choice = ReadingChoice(
            self._area.canvas, title, rows, self.page.now.answers, also_recorded(self.page.now)
        )
        self._choice.read.connect(self._record)
        self._choice.open_at(self._area.canvas.to_pixels(QPointF(*event.at)).toPoint())

    def _close(self) -> None:
        choice, self._choice = self._choice, None
        if choice is not None:
            choice.close_now()

    # --- recording --------------------------------------------------------------------------------------------------

    def _record(self, feed: int, says: str) -> None:
        session, now, today = self._area.session, self.page.now, date.today().isoformat()
        self._close()
        if session is None:
            return
        edited = session.attempt(lambda home: recorded(now, home, feed, says, today))
        if edited is not None and not session.read_only:
            self._read, self._last = (feed, edited.made), edited.made
            self.page.show_last(f"Recorded: {edited.says.removeprefix('Record ')}.")

    def _strike_last(self) -> None:
        session, who, today = self._area.session, self.page.now.who, date.today().isoformat()
        if session is not None:
            struck: Edited | None = session.attempt(lambda home: slip_struck(home, self._last, today, who))
            if struck is not None:
                self._last = ()
                self.page.show_last("")

    def on_found(self) -> None:
        """Say what was read last now means; let go of a breaker that is not there any more."""
        session = self._area.session
        if session is None or session.findings is None:
            return
        if self.page.now.breaker is not None and self.page.now.breaker not in session.home.breakers:
            self._forget()
        if self._read is not None and session.findings.home is session.home:
            feed, entries = self._read
            self._read = None
            self._area.say(what_it_means(session.findings, feed, entries))
