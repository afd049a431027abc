"""The rail's page for finding out: which breaker is off, how it is tested, and ticks that mean what they say."""

from dataclasses import replace

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QFormLayout, QLineEdit, QMenu, QVBoxLayout, QWidget

from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.desktop.pieces import button, label
from floorplan_circuits.gestures.finding_out import SetUp, all_choices, back_on, with_way
from floorplan_circuits.gestures.pointing import CLICK_WHAT_IT_POINTS_TO, NO_ADAPTER, adapters
from floorplan_circuits.home.ways import way_named

NOT_CHOSEN = "– choose"
CLICK_A_BREAKER = "Click a breaker on the panel when you have turned it off."
GUIDE_ME = "Guide me, step by step"
TICKS = {
    "tester_before": ("Tester proved before", "It showed live on a point known to be live, before these readings."),
    "tester_after": ("Tester proved after", "It showed live on a point known to be live, after these readings."),
    "live_before": (
        "Seen live before",
        "Each device that you call dead was seen live just before, with all as usual, by this same way.",
    ),
    "live_again": (
        "Seen live again",
        "Each device that you call dead was seen live again with the breaker back on, by this same way.",
    ),
    "each_hot": (
        "Each hot shown",
        "Every hot was read to ground or to another proved reference, in each of these readings.",
    ),
}


class FindOutPage(QWidget):
    """Says what holds for all that is recorded now; `changed` tells that the person said something else."""

    changed = Signal()
    slip_told = Signal()
    guide_wanted = Signal()
    worksheet_wanted = Signal()
    phone_wanted = Signal()
    answers_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.now = SetUp()
        self._filling = False
        self.state, self.last, self.cannot = label("", "section"), label(""), label("")
        self.on_again, self.slip = button("It is back on"), button("That was a slip: strike it")
        self.guide, self.elsewhere = button(GUIDE_ME), button("On paper or a phone")
        self.elsewhere.setMenu(self._ways_elsewhere())
        labels = {way.label: way.name for way in all_choices()}
        self.way = Choice("Tested with", (NOT_CHOSEN, *labels), NOT_CHOSEN, narrow=True)
        self.adapter = Choice("Adapter", (), "", narrow=True)
        self.ticks = {name: _tick(*words) for name, words in TICKS.items()}
        self.who, self.helper = _line("Who", "your name"), _line("Helper", "at the other end")
        self._lay_out()
        self.way.textActivated.connect(lambda words: self._take(with_way(self.now, labels.get(words, ""))))
        self.adapter.textActivated.connect(lambda words: self._take(replace(self.now, adapter=words)))
        self.on_again.clicked.connect(lambda: self._take(back_on(self.now)))
        self.guide.clicked.connect(self.guide_wanted)
        self.slip.clicked.connect(self.slip_told)
        for name, tick in self.ticks.items():
            tick.toggled.connect(lambda on, name=name: self._take(replace(self.now, **{name: on})))
        for name, line in (("who", self.who), ("helper", self.helper)):
            line.textChanged.connect(lambda words, name=name: self._take(replace(self.now, **{name: words[:120]})))
        self.show_set_up(self.now, "All as usual")
        self.show_last("")

    def _lay_out(self) -> None:
        self.by_hand = QWidget()
        column = QVBoxLayout(self.by_hand)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        above = (self.state, self.on_again, label("Tested with"), self.way, self.adapter)
        for widget in (*above, *self.ticks.values(), self.last, self.slip, self.cannot):
            column.addWidget(widget)
        form = QFormLayout()
        form.setVerticalSpacing(4)
        form.addRow("Who", self.who)
        form.addRow("Helper", self.helper)
        column.addLayout(form)
        both = QVBoxLayout(self)
        both.setContentsMargins(0, 0, 0, 0)
        both.addWidget(self.guide)
        both.addWidget(self.elsewhere)
        both.addWidget(self.by_hand)

    def _ways_elsewhere(self) -> QMenu:
        """Return what can be done away from the computer: the rounds taken along, their answers brought back."""
        menu = QMenu(self)
        menu.addAction("Worksheet to fill in …", self.worksheet_wanted.emit)
        menu.addAction("Page for a phone …", self.phone_wanted.emit)
        menu.addAction("Take the answers …", self.answers_wanted.emit)
        return menu

    def _take(self, now: SetUp) -> None:
        if not self._filling and now != self.now:
            self.now = now
            self.changed.emit()

    def show_set_up(self, now: SetUp, headline: str) -> None:
        """Show what holds now; nothing is said to have changed."""
        self.now, self._filling = now, True
        turned = now.breaker is not None
        self.state.setText(headline if turned else f"{headline}. {self._asks_for()}")
        self.on_again.setVisible(turned and not now.points)
        way = way_named(now.way)
        self.way.setCurrentIndex(max(self.way.findText(way.label), 0) if now.way else 0)
        self.way.setToolTip(f"{way.shows} {way.cannot}" if now.way else "")
        self.cannot.setText(f"{way.cannot} {way.caution}" if now.way else "")
        self.cannot.setVisible(bool(now.way))
        self._show_adapters()
        for name, tick in self.ticks.items():
            tick.setChecked(getattr(now, name))
            tick.setVisible(not now.points and (turned or name not in ("live_before", "live_again")))
        self._filling = False

    def _asks_for(self) -> str:
        return CLICK_WHAT_IT_POINTS_TO if self.now.points else CLICK_A_BREAKER

    def _show_adapters(self) -> None:
        offered = adapters(self.now.way)
        self.adapter.setVisible(bool(offered))
        if [self.adapter.itemText(at) for at in range(self.adapter.count())] != list(offered):
            self.adapter.clear()
            self.adapter.addItems(offered)
        self.adapter.setCurrentText(self.now.adapter if offered else NO_ADAPTER)

    def show_guided(self, *, is_guided: bool) -> None:
        """Give way to the guide, which asks for all of this itself."""
        self.by_hand.setVisible(not is_guided)
        self.guide.setText("From the beginning" if is_guided else GUIDE_ME)

    def show_last(self, words: str) -> None:
        """Tell what was recorded last, and offer to strike it."""
        self.last.setText(words)
        for widget in (self.last, self.slip):
            widget.setVisible(bool(words))


def _tick(words: str, meaning: str) -> QCheckBox:
    tick = QCheckBox(words)
    tick.setToolTip(meaning)
    tick.setAccessibleDescription(meaning)
    return tick


def _line(label: str, hint: str) -> QLineEdit:
    line = QLineEdit()
    line.setAccessibleName(label)
    line.setPlaceholderText(hint)
    return line
