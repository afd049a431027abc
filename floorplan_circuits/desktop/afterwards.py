"""Afterwards: what was found in the picked boxes goes to the log, and what was found live says stop."""

from collections.abc import Iterable
from datetime import date
from typing import TYPE_CHECKING

from floorplan_circuits.desktop.afterwards_form import Readings
from floorplan_circuits.desktop.shut_off_page import ShutOffPage
from floorplan_circuits.gestures.shutting_off import Told, changed, found, stop_sentence

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea


class Afterwards:
    """Records one round with what is off on the screen, and a change of what was picked."""

    def __init__(self, area: "WorkArea", page: ShutOffPage) -> None:
        self._area, self._page = area, page
        self._live: frozenset[int] = frozenset()
        """The boxes in which something was found live: the page says stop while one of them is picked."""
        page.afterwards.recorded.connect(self._record)
        page.afterwards.changed.connect(self._record_change)

    def let_go(self, picked: Iterable[int] = ()) -> None:
        """Say stop no more, unless a box in which something was found live is still picked."""
        self._live &= frozenset(picked)
        if not self._live:
            self._page.say_stop("")

    def _record(self, off: frozenset[int], readings: Readings, told: Told) -> None:
        session, today = self._area.session, date.today().isoformat()
        if session is None:
            return
        says = stop_sentence(session.home, off, readings)
        if says:  # whether or not it can be written down
            self._live = frozenset(session.view.picked)
            self._page.say_stop(says)
        self._area.shutting.hold()
        edited = session.attempt(lambda home: found(home, off, readings, told, today))
        if edited is None:
            return  # the status line says why; the page says stop
        if says:
            self._area.say(says)
        if not session.read_only:
            self._page.afterwards.ask_again()

    def _record_change(self, what: str, who: str) -> None:
        session, today = self._area.session, date.today().isoformat()
        if session is not None:
            boxes = session.view.picked
            session.attempt(lambda home: changed(home, boxes, what, today, who))
