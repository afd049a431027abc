"""The form for afterwards: what each feed of the picked boxes showed with the handles off, and that wiring changed."""

from collections.abc import Sequence
from typing import NamedTuple

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QLineEdit, QVBoxLayout, QWidget

from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.desktop.pieces import button, label
from floorplan_circuits.gestures.finding_out import choices
from floorplan_circuits.gestures.shutting_off import CHANGES, Told
from floorplan_circuits.home.called import feed_called
from floorplan_circuits.home.home import FeedPlace
from floorplan_circuits.home.ways import way_named

NOT_TESTED, NOT_CHOSEN, LONGEST = "not tested", "– choose", 120
ANSWERS = (NOT_TESTED, "dead", "live")
DEAD_IS_NO_PROOF = "‘Dead’ is written down as seen today. It proves nothing of the map, and nothing of tomorrow."
Readings = tuple[tuple[int, str], ...]


class Asked(NamedTuple):
    """What the answers are about: other feeds or other handles ask afresh."""

    feeds: tuple[int, ...]
    off: frozenset[int]


class AfterwardsForm(QWidget):
    """Asks of each feed whether it was dead or live, how it was tested, and by whom."""

    recorded = Signal(object, object, object)
    """The handles that were off, the readings, and how they were taken."""
    changed = Signal(str, str)
    """What changed, and who says so."""

    def __init__(self) -> None:
        super().__init__()
        self._asked = Asked((), frozenset())
        self.answers: dict[int, Choice] = {}
        self._labels = {way.label: way.name for way in choices()}
        self.state, self.cannot = label("", "caption"), label("", "caption")
        self.way = Choice("How you tested", (NOT_CHOSEN, *self._labels), NOT_CHOSEN, narrow=True)
        self.before, self.after = QCheckBox("Tester proved before"), QCheckBox("Tester proved after")
        self.who = QLineEdit()
        self.who.setAccessibleName("Who tested")
        self.who.setPlaceholderText("who tested")
        self.who.setMaxLength(LONGEST)
        self.what = Choice("What changed", tuple(CHANGES), next(iter(CHANGES)), narrow=True)
        self.record, self.record_change = button("Record it", "action"), button("Something changed", "plain")
        self._rows = QVBoxLayout()
        self._rows.setSpacing(4)
        self._lay_out()
        self.way.currentTextChanged.connect(self._on_way)
        self.record.clicked.connect(
            lambda _checked=False: self.recorded.emit(self._asked.off, self.readings(), self.told())
        )
        self.record_change.clicked.connect(
            lambda _checked=False: self.changed.emit(self.what.currentText(), self.who.text())
        )
        self._on_way(NOT_CHOSEN)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        above = (label("What I found", "section"), self.state, label("How you tested", "caption"), self.way)
        for shown in (*above, self.cannot, self.before, self.after):
            column.addWidget(shown)
        column.addLayout(self._rows)
        below = (self.who, self.record, label(DEAD_IS_NO_PROOF, "caption"))
        change = (label("Did you change anything in these boxes?", "caption"), self.what, self.record_change)
        for widget in (*below, *change):
            column.addWidget(widget)

    def _on_way(self, words: str) -> None:
        name = self._labels.get(words, "")
        way = way_named(name)
        self.cannot.setText(f"{way.cannot} {way.caution}" if name else "")
        self.cannot.setVisible(bool(name))

    # --- what is asked ----------------------------------------------------------------------------------------------

    def ask(self, places: Sequence[FeedPlace], off: frozenset[int], with_off: str) -> None:
        """Ask about these feeds with these handles off; answers about others, or with other handles off, are gone."""
        self.state.setText(with_off)
        asked = Asked(tuple(place.feed.id for place in places), off)
        if asked == self._asked:
            return
        self._asked = asked
        self._drop_rows()
        for place in places:
            called = feed_called(place)
            answer = Choice(f"{called} was", ANSWERS, NOT_TESTED, narrow=True)
            self.answers[place.feed.id] = answer
            self._rows.addWidget(label(called, "body"))
            self._rows.addWidget(answer)

    def ask_nothing(self) -> None:
        """Forget what was asked: another home is at work."""
        self._asked = Asked((), frozenset())
        self._drop_rows()

    def ask_again(self) -> None:
        """Take the answers back: they are recorded, or count no more."""
        for answer in self.answers.values():
            answer.setCurrentIndex(0)
        for tick in (self.before, self.after):
            tick.setChecked(False)

    def _drop_rows(self) -> None:
        self.answers = {}
        while (item := self._rows.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for tick in (self.before, self.after):
            tick.setChecked(False)

    # --- what is answered -------------------------------------------------------------------------------------------

    def readings(self) -> Readings:
        """Return what was said to be dead or live; what was not tested is left out."""
        said = ((feed, answer.currentText()) for feed, answer in self.answers.items())
        return tuple((feed, says) for feed, says in said if says != NOT_TESTED)

    def told(self) -> Told:
        """Return how it was tested, and by whom."""
        way = self._labels.get(self.way.currentText(), "")
        return Told(way, self.before.isChecked(), self.after.isChecked(), self.who.text())
