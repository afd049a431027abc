"""The rescuer: within two seconds of an edit a copy of the home is on disk, written off the window's thread."""

from collections.abc import Mapping
from pathlib import Path

from PySide6.QtCore import QObject, QStandardPaths, QTimer, Signal

from floorplan_circuits.desktop.newest import Newest
from floorplan_circuits.files.cannot import CannotSave
from floorplan_circuits.files.rescue import Rescue, drop_rescue, write_rescue
from floorplan_circuits.files.save import NO_PICTURES
from floorplan_circuits.home.home import Home

WAIT_MS = 700
"""How long edits are gathered before a copy is written."""


def rescue_folder() -> Path:
    """Return the folder of the rescue copies: the system's place for a program's data."""
    place = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.AppDataLocation)
    return Path(place) / "rescue"


class Rescuer(QObject):
    """Writes the newest home to a rescue copy, a moment after each edit. `failed_to` says why if it can't."""

    failed_to = Signal(str)

    def __init__(self, folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.folder = folder
        self.failed = ""
        self._noted: tuple[Home, Path | None, Mapping[str, bytes]] | None = None
        self._written: Rescue | None = None
        self._writing = Newest("rescue", daemon=False)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(WAIT_MS)
        self._timer.timeout.connect(self.write)

    def note(self, home: Home, of: Path | None, unsaved: Mapping[str, bytes] = NO_PICTURES) -> None:
        """Note an edit: its home will be on disk soon, however many more follow, with pictures that no file has yet."""
        self._noted = (home, of, unsaved)
        if not self._timer.isActive():
            self._timer.start()

    def write(self) -> None:
        """Write the newest home now, in a thread of its own."""
        if self._noted is not None:
            (home, of, unsaved), self._noted = self._noted, None
            self._writing.ask(lambda: self._write(home, of, unsaved))

    def _write(self, home: Home, of: Path | None, unsaved: Mapping[str, bytes]) -> None:
        try:
            self._written = write_rescue(self.folder, home, of, unsaved)
            self.failed = ""
        except CannotSave as error:
            self.failed = str(error)
            self.failed_to.emit(f"No rescue copy can be written: {error}")

    def drop(self) -> None:
        """Remove the copy: the home was saved, or closed on purpose."""
        self._timer.stop()
        self._noted = None
        self._writing.stop()
        if self._written is not None:
            drop_rescue(self._written)
            self._written = None
