"""Afterwards: what was found in the picked boxes goes to the log, and what was found live says stop."""

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
        page.afterwards.recorded.connect(self._record)
        page.afterwards.changed.connect(self._record_change)

    def _record(self, readings: Readings, told: Told) -> None:
        session, today = self._area.session, date.today().isoformat()
        if session is None:
            return
        off = session.view.flipped
        self._page.say_stop(stop_sentence(session.home, off, readings))  # whether or not it can be written down
        self._area.shutting.hold()
        edited = session.attempt(lambda home: found(home, off, readings, told, today))
        if edited is not None and not session.read_only:
            self._page.afterwards.ask_again()

    def _record_change(self, what: str, who: str) -> None:
        session, today = self._area.session, date.today().isoformat()
        if session is not None:
            boxes = session.view.picked
            session.attempt(lambda home: changed(home, boxes, what, today, who))
