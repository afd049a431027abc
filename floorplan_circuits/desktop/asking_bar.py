"""The bar under the strip that asks, once what was tested is edited: was the map wrong, or did the wiring change."""

from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.asking import Touched, touched_evidence
from floorplan_circuits.edits.edited import counted
from floorplan_circuits.edits.recording import record_change
from floorplan_circuits.home.home import Home

MOST_NAMED = 3


class AskingBar(QWidget):
    """Asks without being in the way: left alone, it goes once the edit is undone or the next home is opened."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("asking")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._session: Session | None = None
        self._before = Home()
        self._touched = Touched()
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.map_wrong, self.changed = QPushButton("The map was wrong"), QPushButton("The wiring changed")
        self.map_wrong.setToolTip("What was tested still counts.")
        self.changed.setToolTip("What was tested there before expires, and is to be tested again.")
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 6, 16, 6)
        row.setSpacing(10)
        row.addWidget(self.words, 1)
        for button in (self.map_wrong, self.changed):
            button.setObjectName("plain")
            row.addWidget(button)
        self.map_wrong.clicked.connect(self._settle)
        self.changed.clicked.connect(self._record)
        self.hide()

    def watch(self, session: Session) -> None:
        """Ask about the edits of a session from now on."""
        self._session = session
        session.edited.connect(self._look)
        self._settle()

    def _settle(self) -> None:
        """Take the home as it is now for what nothing need be asked about."""
        if self._session is not None:
            self._before = self._session.home
        self._touched = Touched()
        self.hide()

    def _look(self) -> None:
        if self._session is None:
            return
        self._touched = touched_evidence(self._before, self._session.home)
        if not (self._touched.boxes or self._touched.panels):
            self._settle()
            return
        self.words.setText(
            f"What was seen of {_named(self._session.home, self._touched)} was seen before this edit. "
            "Was the map wrong, or did the wiring change?"
        )
        self.show()

    def _record(self) -> None:
        session, touched = self._session, self._touched
        if session is not None:
            what = "rewired" if touched.boxes else "panel work"
            today = date.today().isoformat()
            session.attempt(lambda home: record_change(home, touched.boxes, touched.panels, what, date=today))
        self._settle()


def _named(home: Home, touched: Touched) -> str:
    names = [home.boxes[box].mark for box in touched.boxes] + [home.panels[one].name for one in touched.panels]
    more = len(names) - MOST_NAMED
    return ", ".join(names[:MOST_NAMED]) + (f" and {counted(more, 'more', 'more')}" if more > 0 else "")
