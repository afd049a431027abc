"""The form that takes what a plug-in receptacle tester showed at one of the receptacles of a box."""

from datetime import date
from typing import get_args

from PySide6.QtWidgets import QFormLayout, QLineEdit, QVBoxLayout, QWidget

from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.desktop.pieces import button, label
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.recording import record_receptacle_test
from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.kinds import kind_named
from floorplan_circuits.home.log import ReceptacleTest
from floorplan_circuits.home.ways import way_named

SHOWS = get_args(ReceptacleTest.model_fields["shows"].annotation)
HINT = (
    "Its lamps are a hint: “correct” proves neither the ground nor the wires behind, and dark lamps prove no wire dead."
)


class PlugTesterForm(QWidget):
    """Shown for a box with a receptacle that such a tester fits; hidden for all others."""

    def __init__(self) -> None:
        super().__init__()
        self._session: Session | None = None
        self._box: Box | None = None
        self.which = Choice("Which receptacle", narrow=True)
        self.shows = Choice("The plug-in tester shows", SHOWS, SHOWS[0], narrow=True)
        self.who, self.note = QLineEdit(), QLineEdit()
        self.record = button("Record what it shows", "plain", self._record)
        self._form = QFormLayout()
        self._form.setContentsMargins(0, 0, 0, 0)
        self._form.setVerticalSpacing(4)
        self._form.addRow("At", self.which)
        self._form.addRow("It shows", self.shows)
        for called, field in (("Who", self.who), ("Note", self.note)):
            field.setAccessibleName(f"{called} of the plug-in tester")
            self._form.addRow(called, field)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(label("Plug-in tester", "section"))
        told = label(HINT)
        told.setToolTip(way_named("receptacle tester").cannot)
        column.addWidget(told)
        column.addLayout(self._form)
        column.addWidget(self.record)

    def show_box(self, session: Session, box: Box) -> None:
        """Ask about the receptacles of a box; the one chosen stays chosen while it is there."""
        if session is self._session and box == self._box:
            return
        self._session, self._box = session, box
        fitting, kept = [device for device in box.devices if _takes_one(device)], self.which.currentData()
        self.which.clear()
        for device in fitting:
            self.which.addItem(_called(device, len(box.devices)), device.id)
        self.which.setCurrentIndex(max(0, self.which.findData(kept)))
        self._form.setRowVisible(self.which, len(fitting) > 1)
        self.setVisible(bool(fitting))

    def _record(self) -> None:
        session, device, shows = self._session, self.which.currentData(), self.shows.currentText()
        if session is None or device is None:
            return
        day, who, note = date.today().isoformat(), self.who.text(), self.note.text()
        edited = session.attempt(lambda home: record_receptacle_test(home, device, shows, date=day, who=who, note=note))
        if edited is not None:
            self.note.clear()


def _takes_one(device: Device) -> bool:
    kind = kind_named(device.kind)
    return kind.group == "receptacle" and kind.hots == 1 and not device.planned


def _called(device: Device, gangs: int) -> str:
    name = device.name or kind_named(device.kind).label
    return f"{device.slot}: {name}" if gangs > 1 else name
