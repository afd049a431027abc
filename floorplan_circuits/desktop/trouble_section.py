"""Trouble with a breaker or main, on the panel's page: what was told of it, and a way to tell more."""

from datetime import date
from typing import get_args

from PySide6.QtWidgets import QVBoxLayout, QWidget

from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.desktop.pieces import label
from floorplan_circuits.desktop.seen_section import Attempt, SeenSection
from floorplan_circuits.edits.recording import record_trouble
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import Trouble
from floorplan_circuits.log_in_words import handle_history

NONE_NEW = "none to tell"
TROUBLES = (NONE_NEW, *get_args(Trouble.model_fields["what"].annotation))
CAUTION = "Keep off a breaker that buzzes, runs hot, will not reset or does not open: call a licensed electrician."


class TroubleSection(QWidget):
    """The troubles of one handle, called so. `attempt` makes an edit of the session's home."""

    def __init__(self, home: Home, handle: int, attempt: Attempt, called: str) -> None:
        super().__init__()
        self._handle, self._attempt = handle, attempt
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        history = handle_history(home, handle)
        if history:
            column.addWidget(SeenSection(f"Trouble with {called}", history, (), attempt, self.updateGeometry))
            column.addWidget(label(CAUTION))
        words = f"{'More trouble' if history else 'Trouble'} with {called}"
        self.what = Choice(words, TROUBLES, NONE_NEW, narrow=True)
        self.what.textActivated.connect(self._record)
        column.addWidget(label(words))
        column.addWidget(self.what)

    def _record(self, what: str) -> None:
        if what != NONE_NEW:
            self._attempt(lambda home: record_trouble(home, self._handle, what, date=date.today().isoformat()))
