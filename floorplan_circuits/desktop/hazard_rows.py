"""What a row of the list of dangers leads to: the place it is about, and setting it aside with a reason."""

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QMenu

from floorplan_circuits.desktop.belonging import found_sentence
from floorplan_circuits.desktop.in_place import InPlace
from floorplan_circuits.edits.recording import dismiss
from floorplan_circuits.edits.setting_aside import tell_again
from floorplan_circuits.findings import Hazard, Subject

if TYPE_CHECKING:
    from floorplan_circuits.desktop.work_area import WorkArea

SET_ASIDE, TELL_AGAIN = "Set aside …", "Tell it again"
ASKS = "Why is it set aside? The reason is printed with it. Enter takes it, Esc leaves it as it was."
LONGEST = 120


class HazardRows:
    """What is done with the rows of the list."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area

    def go_to(self, hazard: Hazard) -> None:
        """Show the box of a danger in the middle of the plan; else light the boxes, or what is on the breakers."""
        session = self._area.session
        if session is None or session.findings is None:
            return
        home = session.home
        boxes = [Subject("box", one) for one in (hazard.box, *hazard.about) if one in home.boxes and one is not None]
        breakers = [Subject("breaker", one) for one in hazard.breakers if one in home.breakers]
        if boxes:
            self._area.go_to(boxes[0])
            if hazard.box is None:
                session.select(tuple(boxes))
        elif breakers:
            self._area.show_panel(home.breakers[breakers[0].id].panel)
            session.select(tuple(breakers))
            self._area.say(found_sentence(session.findings, breakers[0]))
        else:
            for panel in [one for one in hazard.about if one in home.panels][:1]:
                self._area.show_panel(panel)
                self._area.say(found_sentence(session.findings, Subject("panel", panel)))

    def offer(self, hazard: Hazard, place: QPoint) -> None:
        """Offer at a place of the screen to set a danger aside, or to tell one again that was."""
        if self._area.session is None:
            return
        menu = QMenu(self._area)
        if hazard.set_aside:
            menu.addAction(TELL_AGAIN, lambda: self.tell_again(hazard))
        else:
            menu.addAction(SET_ASIDE, lambda: self.ask(hazard))
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(place)

    def ask(self, hazard: Hazard) -> InPlace:
        """Ask for the reason over the danger's row; nothing typed leaves it as it was."""
        rows = self._area.below.list
        self._area.say(ASKS)
        where = rows.row_of(hazard)
        return InPlace(rows.viewport(), where, "", lambda why: self._took(hazard, why), ASKS, "Why, then Enter")

    def _took(self, hazard: Hazard, why: str) -> None:
        session, today = self._area.session, date.today().isoformat()
        if session is not None and why.strip():
            session.attempt(lambda home: dismiss(home, hazard.kind, hazard.about, why[:LONGEST], date=today))

    def tell_again(self, hazard: Hazard) -> None:
        """Tell a danger again that was set aside."""
        session, today = self._area.session, date.today().isoformat()
        if session is not None:
            session.attempt(lambda home: tell_again(home, hazard.kind, hazard.about, date=today))
