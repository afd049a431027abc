"""Tables from and to a spreadsheet: the panels' schedule and the list of devices, by the menu."""

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QFileDialog, QMessageBox

from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.exchange.device_list import devices_csv, take_devices
from floorplan_circuits.exchange.schedule import schedule_csv, take_schedule
from floorplan_circuits.exchange.sheet_of_rows import CannotTake
from floorplan_circuits.exchange.taking import RowsRefused
from floorplan_circuits.files.atomic import WRITE_FAULTS, write_whole
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.home import Home

if TYPE_CHECKING:
    from floorplan_circuits.desktop.window import Window

CSV = "Tables for a spreadsheet (*.csv)"
Make = Callable[[Findings], bytes]
Take = Callable[[Home, bytes], Edited]


class Tables:
    """Asks for a file, writes or takes a table, and says what came of it."""

    def __init__(self, window: "Window") -> None:
        self._window = window

    def write_schedule(self) -> None:
        """Write a row for each breaker."""
        self._ask_and_write("schedule.csv", schedule_csv)

    def write_devices(self) -> None:
        """Write a row for each feed of each device."""
        self._ask_and_write("devices.csv", devices_csv)

    def take_schedule(self) -> None:
        """Take a table of breakers."""
        self._ask_and_take(take_schedule)

    def take_devices(self) -> None:
        """Take a table of devices."""
        self._ask_and_take(take_devices)

    def _ask_and_write(self, name: str, make: Make) -> None:
        chosen, _ = QFileDialog.getSaveFileName(self._window, "Write a table", name, CSV)
        if chosen:
            self.write(Path(chosen), make)

    def write(self, path: Path, make: Make) -> None:
        """Write a table to a file; the home's own file is never written over."""
        session = self._window.session
        if session is None:
            return
        if session.path is not None and path.resolve() == session.path.resolve():
            session.said.emit("That is the home itself. Choose another name for the table.")
            return
        try:
            write_whole(path, make(session.find_now()))
        except WRITE_FAULTS as error:
            session.said.emit(f"{path.name} can't be written ({error}). Choose another folder or name.")
            return
        session.said.emit(f"{path.name} is written.")

    def _ask_and_take(self, take: Take) -> None:
        chosen, _ = QFileDialog.getOpenFileName(self._window, "Take a table", "", CSV)
        if chosen:
            self.take(Path(chosen), take)

    def take(self, path: Path, take: Take) -> None:
        """Take a table as one edit; where rows can't be taken, show which and why, and change nothing."""
        session = self._window.session
        if session is None:
            return
        try:
            edited = take(session.history.ground, path.read_bytes())
        except RowsRefused as error:
            session.said.emit(f"{path.name}: nothing was taken.")
            self._report(path.name, str(error))
        except (CannotTake, Refused) as error:
            session.said.emit(f"{path.name}: {error}")
        except OSError as error:
            session.said.emit(f"{path.name} can't be read: {error.strerror}.")
        else:
            session.attempt(lambda _home: edited)

    def _report(self, name: str, words: str) -> None:
        box = QMessageBox(self._window)
        box.setWindowTitle(name)
        box.setText(words)
        box.open()
