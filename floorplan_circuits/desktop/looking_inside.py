"""Looking inside a box: when its close-up takes the plan's place, and when it gives it back."""

from typing import TYPE_CHECKING

from floorplan_circuits.desktop.session import Session
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.events import Event, Key
from floorplan_circuits.gestures.selecting import Select

if TYPE_CHECKING:
    from floorplan_circuits.desktop.close_up_page import CloseUpPage
    from floorplan_circuits.desktop.work_area import WorkArea

CHOOSE_FIRST = "Select a box first, then look inside it."


class LookingInside:
    """Shows one box in the middle of the work area."""

    def __init__(self, area: "WorkArea") -> None:
        self._area = area
        self.page: CloseUpPage | None = None
        self.box: int | None = None
        self._said = ""
        """The sentence that holds as long as the box is shown."""

    @property
    def is_open(self) -> bool:
        """Whether a box is shown in place of the plan."""
        return self.page is not None and self._area.middle.currentWidget() is self.page

    def look(self, box: int) -> None:
        """Show a box with its plate off."""
        session = self._area.session
        if session is None or box not in session.home.boxes:
            return
        if self.page is None:
            from floorplan_circuits.desktop.close_up_page import CloseUpPage  # late: most sittings open none

            self.page = CloseUpPage()
            self.page.left.connect(self.leave)
            self._area.middle.addWidget(self.page)
        if self.is_open:
            self.page.keeping.take_note()
        self.box = box
        session.take(Select())  # a double click left the tool in the middle of a press
        session.select((Subject("box", box),))
        self._area.middle.setCurrentWidget(self.page)
        self.page.back.setFocus()
        self.refresh()
        self._said = f"{session.home.boxes[box].mark} with the plate off. Esc goes back to the plan."
        self._area.say(self._said)

    def look_at_selected(self) -> None:
        """Show the box that is selected, or that of the device that is."""
        session = self._area.session
        box = None if session is None else box_of(session, session.view.selected)
        if box is None:
            self._area.say(CHOOSE_FIRST)
        else:
            self.look(box)

    def leave(self) -> None:
        """Give the plan its place back; what was typed for the box stays."""
        if self.page is None or not self.is_open:
            return
        self.page.keeping.take_note()
        self._area.middle.setCurrentIndex(0)
        self._area.canvas.setFocus()
        if self._area.status.text() == self._said:
            self._area.say(self._area.staging.says())

    def refresh(self) -> None:
        """Show the box as it is known now; one that is gone is left."""
        session = self._area.session
        if not self.is_open or self.page is None or session is None or session.findings is None:
            return
        if self.box is None or self.box not in session.home.boxes:
            self.leave()
        elif self.box in session.findings.home.boxes:
            shown = self._area.shutting.shown()
            self.page.show_box(session, session.findings, self.box, self._area.theme, shown)

    # --- how it is asked for ------------------------------------------------------------------------------------------

    def on_opened(self, subject: Subject | None) -> bool:
        """Look into a box that was double clicked; tell whether that was meant."""
        session = self._area.session
        if session is None or subject is None or not isinstance(session.tool, Select):
            return False
        box = box_of(session, (subject,))
        if box is not None:
            self.look(box)
        return box is not None

    def on_key(self, event: Event) -> bool:
        """Look into the one box that is selected with Enter; tell whether that was meant."""
        session = self._area.session
        if (
            not isinstance(event, Key)
            or event.name != "enter"
            or session is None
            or not isinstance(session.tool, Select)
        ):
            return False
        box = box_of(session, session.view.selected)
        if box is not None:
            self.look(box)
        return box is not None


def box_of(session: Session, subjects: tuple[Subject, ...]) -> int | None:
    """Return the one box that the subjects are about; None for none or several."""
    ids = {one.id for one in subjects if one.kind in ("box", "device")}
    boxes = [box.id for box in session.home.boxes if box.id in ids or any(device.id in ids for device in box.devices)]
    return boxes[0] if len(boxes) == 1 else None
