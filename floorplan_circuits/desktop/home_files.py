"""A home and its file: asking which to open or save to, saving, the homes used last, and what can't be done said."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from floorplan_circuits.desktop.session import Session
from floorplan_circuits.files.cannot import CannotOpen, CannotSave
from floorplan_circuits.files.open import Stored, open_home
from floorplan_circuits.files.rescue import Rescue, open_rescue

MOST_RECENT = 8
OPENS, SAVES = "This home can’t be opened", "The home can’t be saved"
HOMES = "Homes (*.json)"


class HomeFiles:
    """Asks over one window. `say` takes a sentence for its status line; what fails is said there and in a box."""

    def __init__(self, window: QWidget, settings: QSettings, say: Callable[[str], None]) -> None:
        self._window, self._settings, self._say = window, settings, say

    def ask(self) -> Path | None:
        """Let the person choose a home's file to open."""
        name, _ = QFileDialog.getOpenFileName(self._window, "Open a home", self._last_folder(), HOMES)
        return Path(name) if name else None

    def stored(self, path: Path) -> Stored | None:
        """Return what a file holds and remember it as used last; None, and why is said, where it can't be opened."""
        try:
            stored = open_home(path)
        except CannotOpen as error:
            self.say_it_failed(OPENS, str(error))
            return None
        self._remember(path)
        return stored

    def rescued(self, rescue: Rescue) -> Stored | None:
        """Return what a rescued copy holds; None, and why is said, where it can't be opened."""
        try:
            return open_rescue(rescue)
        except CannotOpen as error:
            self.say_it_failed("The rescued copy can’t be opened", str(error))
            return None

    def save(self, session: Session) -> bool:
        """Save the home to its file; ask for one if it has none. Return whether it is saved."""
        path = None if session.read_only else session.path
        return self.save_as(session) if path is None else self.save_to(session, path)

    def save_as(self, session: Session) -> bool:
        """Let the person choose the file to save to."""
        start = str(Path(self._last_folder()) / f"{session.home.name or 'home'}.json")
        name, _ = QFileDialog.getSaveFileName(self._window, "Save the home", start, HOMES)
        return bool(name) and self.save_to(session, Path(name).with_suffix(".json"))

    def save_to(self, session: Session, path: Path) -> bool:
        """Save the home to a file; one that can't be written leaves the old file as it was and says why."""
        was_there = path.exists()
        try:
            session.save(path)
        except CannotSave as error:
            self.say_it_failed(SAVES, str(error))
            return False
        self._remember(path)
        kept = " The version before it is kept beside it." if was_there else ""
        self._say(f"Saved: {path.name}.{kept}")
        return True

    def may_leave(self, session: Session | None) -> bool:
        """Ask before anything unsaved is closed; return whether the window may go on to something else."""
        if session is None or not session.may_be_lost:
            return True
        answers = QMessageBox.StandardButton
        box = QMessageBox(self._window)
        box.setIcon(QMessageBox.Icon.Question)
        box.setText(f"Save {session.home.name or 'this home'} before it is closed?")
        box.setStandardButtons(answers.Save | answers.Discard | answers.Cancel)
        answer = box.exec()
        return self.save(session) if answer == answers.Save else answer == answers.Discard

    def recent(self) -> list[Path]:
        """Return the homes opened or saved last, the newest first."""
        found = self._settings.value("recent", [])
        return [Path(str(name)) for name in (found if isinstance(found, list) else [found]) if name]

    def _remember(self, path: Path) -> None:
        names = [str(path.resolve()), *(str(other) for other in self.recent() if other != path.resolve())]
        self._settings.setValue("recent", names[:MOST_RECENT])

    def _last_folder(self) -> str:
        recent = self.recent()
        return str(recent[0].parent if recent else Path.home())

    def say_it_failed(self, title: str, words: str) -> None:
        """Say what could not be done, in the status line and in a box that waits to be closed."""
        self._say(words)
        box = QMessageBox(QMessageBox.Icon.Warning, title, words, QMessageBox.StandardButton.Ok, self._window)
        box.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        box.open()
