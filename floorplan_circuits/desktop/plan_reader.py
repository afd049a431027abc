"""Reads drawings off the window's thread, says so in a bar once that takes a while, and can be stopped."""

from dataclasses import dataclass
from pathlib import Path
from threading import Event

from PySide6.QtCore import QObject, Qt, QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from floorplan_circuits.desktop.newest import Newest
from floorplan_circuits.desktop.photos import NoPhoto, Photo
from floorplan_circuits.desktop.plan_files import Unwanted, read_plan
from floorplan_circuits.desktop.session import Session

SHOW_AFTER_MS = 300
"""A drawing that is there sooner needs no word about it."""


@dataclass(frozen=True, slots=True)
class Asked:
    """Which drawing is wanted, and under which level of which open home."""

    path: Path
    session: Session
    level: int


@dataclass(frozen=True, slots=True)
class Answer:
    """What became of it: the picture, or a sentence why there is none."""

    asked: Asked
    plan: Photo | None
    refusal: str = ""


class PlanReader(QObject):
    """Reads the newest drawing that was asked for; `answered` brings an `Answer` to the window's thread."""

    answered = Signal(object)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._reading = Newest("drawing", daemon=True)
        self._stop = Event()

    def ask(self, asked: Asked) -> None:
        """Ask for a drawing; an older one is given up."""
        self.stop()
        self._stop = stop = Event()
        self._reading.ask(lambda: self._read(asked, stop))

    def stop(self) -> None:
        """Give up what is being read: nothing is heard of it any more."""
        self._stop.set()

    def is_stopped(self) -> bool:
        """Tell whether what was asked for last was given up."""
        return self._stop.is_set()

    def _read(self, asked: Asked, stop: Event) -> None:
        try:
            answer = Answer(asked, read_plan(asked.path, stop.is_set))
        except Unwanted:
            return
        except NoPhoto as error:
            answer = Answer(asked, None, str(error))
        if stop.is_set():
            return
        try:
            self.answered.emit(answer)
        except RuntimeError:  # Qt has deleted this object, its window being closed: nobody waits for the drawing
            return


class ReadingBar(QWidget):
    """The bar over the plan while a drawing is on its way: which one, and a way to stop it."""

    stopped = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("asking")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.words = QLabel()
        self.cancel = QPushButton("Cancel")
        self.cancel.setObjectName("plain")
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 6, 16, 6)
        row.setSpacing(10)
        row.addWidget(self.words, 1)
        row.addWidget(self.cancel)
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(SHOW_AFTER_MS)
        self._soon.timeout.connect(self.show)
        self.cancel.clicked.connect(self.stopped)
        self.hide()

    def begin(self, name: str) -> None:
        """Tell soon that a drawing of this name is on its way."""
        self.words.setText(f"Reading {name} … Go on with anything else meanwhile.")
        self._soon.start()

    def end(self) -> None:
        """Have nothing to tell."""
        self._soon.stop()
        self.hide()
