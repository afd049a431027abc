"""The form that tells what somebody saw in an open box: every cable, where it enters, and the feed it is, if known."""

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFormLayout, QFrame, QGridLayout, QLineEdit, QPushButton, QVBoxLayout, QWidget

from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.desktop.pieces import button, label
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.drawing.close_up_facts import PLACES, contents_of
from floorplan_circuits.edits.recording import record_opened
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Box

NOT_KNOWN = "not known"
LONGEST = 120
CAUTION = (
    "Open the box only with its circuits off and tested. Then tell every cable you saw in it, known or not: "
    "what nobody saw counts as live."
)
NO_CABLE = "Add each cable that you saw first."
Cable = tuple[str, int | None]


def feed_choices(findings: Findings, box: Box) -> tuple[tuple[str, int], ...]:
    """Return the feeds of a box in plain words, gang by gang, then what passes through."""
    contents = contents_of(findings, box)
    own = {feed.id for feed in box.feeds()}
    found = [
        (f"{gang.slot}: {one.what} ({one.plate.words})", one.feed) for gang in contents.gangs for one in gang.strands
    ]
    found += [
        (f"passes: {lane.words or 'a cable'} ({lane.strand.plate.words})", lane.strand.feed) for lane in contents.lanes
    ]
    return tuple((words, feed) for words, feed in found if feed is not None and feed in own)


class CableRow(QFrame):
    """One cable: where it enters, which feed it is, and a button that takes the line away."""

    removed = Signal(object)
    changed = Signal()

    def __init__(self, cable: Cable, choices: tuple[tuple[str, int], ...]) -> None:
        super().__init__()
        self.setObjectName("cable")
        enters, feed = cable
        self.enters = Choice("Where it enters", PLACES, "", narrow=True)
        self.enters.setEditable(True)
        line = self.enters.lineEdit()
        assert line is not None
        line.setMaxLength(LONGEST)
        line.setPlaceholderText("where it enters")
        self.enters.setEditText(enters)
        self.feed = Choice("Which feed it is", (), "", narrow=True)
        self.gone = QPushButton("×")
        self.gone.setObjectName("plain")
        self.gone.setAccessibleName("Remove this cable")
        self.gone.setToolTip("Remove this cable")
        self.gone.setFixedWidth(30)
        self.gone.clicked.connect(lambda _checked=False: self.removed.emit(self))
        self.enters.editTextChanged.connect(lambda _words: self.changed.emit())
        self.feed.currentIndexChanged.connect(self._on_feed)
        grid = QGridLayout(self)
        grid.setContentsMargins(8, 8, 8, 8)
        grid.setSpacing(4)
        grid.addWidget(self.enters, 0, 0)
        grid.addWidget(self.gone, 0, 1)
        grid.addWidget(self.feed, 1, 0, 1, 2)
        grid.setColumnStretch(0, 1)
        self.offer(choices, feed)

    def offer(self, choices: tuple[tuple[str, int], ...], feed: int | None) -> None:
        """Offer these feeds, one of them chosen; one that is gone becomes not known."""
        self.feed.blockSignals(True)
        self.feed.clear()
        self.feed.addItem(NOT_KNOWN, None)
        for words, number in choices:
            self.feed.addItem(words, number)
        self.feed.setCurrentIndex(max(0, self.feed.findData(feed)) if feed is not None else 0)
        self.feed.blockSignals(False)
        self.feed.setToolTip(self.feed.currentText())

    def cable(self) -> Cable:
        """Return what the line says."""
        return self.enters.currentText().strip(), self.feed.currentData()

    def _on_feed(self, _at: int) -> None:
        self.feed.setToolTip(self.feed.currentText())
        self.changed.emit()


class OpenedForm(QWidget):
    """Gathers what was seen in one box after another; what was typed for a box waits for it until it is recorded."""

    def __init__(self) -> None:
        super().__init__()
        self._session: Session | None = None
        self._box: int | None = None
        self._choices: tuple[tuple[str, int], ...] = ()
        self._begun: dict[int, list[Cable]] = {}
        self.rows: list[CableRow] = []
        self.who, self.date, self.note = QLineEdit(), QLineEdit(date.today().isoformat()), QLineEdit()
        self.lines = QVBoxLayout()
        self.lines.setSpacing(6)
        self.missing = label("", "caption")
        self.add = button("Add a cable", "plain", lambda: self.add_cable(("", None)))
        self.record = button("Record what I saw", "action", self._record)
        self._lay_out()

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setContentsMargins(0, 0, 0, 0)
        form.setVerticalSpacing(4)
        for called, field in (("Who", self.who), ("Date", self.date), ("Note", self.note)):
            field.setAccessibleName(f"{called} of looking inside")
            form.addRow(called, field)
        self.who.setPlaceholderText("who looked")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(8)
        column.addWidget(label("I looked inside today", "section"))
        column.addWidget(label(CAUTION, "caption"))
        column.addLayout(self.lines)
        column.addWidget(self.add)
        column.addLayout(form)
        column.addWidget(self.missing)
        column.addWidget(self.record)

    # --- which box --------------------------------------------------------------------------------------------------

    def show_box(self, session: Session, findings: Findings, box: Box) -> None:
        """Ask about a box; lines begun for it stay as they are."""
        if session is not self._session:
            self._begun.clear()
            self._drop_rows()
        self._choices = feed_choices(findings, box)
        if session is self._session and box.id == self._box:
            for row in self.rows:
                row.offer(self._choices, row.cable()[1])
        else:
            self._keep()
            self._drop_rows()
            self._session, self._box = session, box.id
            for cable in self._begun.pop(box.id, []):
                self.add_cable(cable, focus=False)
        self._show_missing()

    def _keep(self) -> None:
        if self._box is not None and self.rows:
            self._begun[self._box] = self.cables()

    def _drop_rows(self) -> None:
        for row in self.rows:
            row.hide()
            row.deleteLater()
        self.rows = []

    # --- cables -----------------------------------------------------------------------------------------------------

    def cables(self) -> list[Cable]:
        """Return what the lines say, in their order."""
        return [row.cable() for row in self.rows]

    def add_cable(self, cable: Cable, focus: bool = True) -> None:
        """Add a line for one more cable."""
        row = CableRow(cable, self._choices)
        row.removed.connect(self._remove)
        row.changed.connect(self._show_missing)
        self.rows.append(row)
        self.lines.addWidget(row)
        self._show_missing()
        if focus:
            row.enters.setFocus()

    def _remove(self, row: CableRow) -> None:
        self.rows.remove(row)
        row.hide()
        row.deleteLater()
        self.add.setFocus()
        self._show_missing()

    def _show_missing(self) -> None:
        """Say which feeds of the box no line names yet: nobody has to have seen them, but they may be forgotten."""
        named = {feed for _, feed in self.cables()}
        left = [words for words, feed in self._choices if feed not in named]
        self.missing.setText(f"Not among these cables: {'; '.join(left)}." if self.rows and left else "")
        self.missing.setVisible(bool(self.missing.text()))

    def _record(self) -> None:
        session, box = self._session, self._box
        if session is None or box is None:
            return
        if not self.rows:
            session.said.emit(NO_CABLE)
            return
        cables, day, who, note = self.cables(), self.date.text().strip(), self.who.text(), self.note.text()
        edited = session.attempt(lambda home: record_opened(home, box, cables, date=day, who=who, note=note))
        if edited is not None and not session.read_only:
            self._drop_rows()
            self.note.clear()
            self._show_missing()
