"""One box, without a drawing: its name, what is in its gangs, the breakers of the panel."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QFormLayout, QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.edits.one_box import EXAMPLE, Gang, counted_handles, is_switch
from floorplan_circuits.home.kinds import catalogue

FIRST_KINDS = ("switch", "three-way switch", "dimmer", "duplex receptacle", "ground-fault receptacle")
"""What is most often in a box that somebody is about to open."""
MOST_SHOWN = 6
WORKS = {
    "It works: nobody knows": "",
    "It works a light I can see": "ceiling light",
    "It works a fan I can see": "ceiling fan",
    "It works a receptacle, with a lamp in it": "duplex receptacle",
}
"""What a switch works, as the person says; nothing is stated where nobody says."""
NOBODY_KNOWS = "Where nobody knows what a switch works, nothing shows from outside: it stays unknown, treat as live."
HOT_ALONE = "Its breakers switch the hot wire alone; none has a test button."
HOT_ALONE_MEANS = (
    "Usual in North America for breakers without a test button. A breaker that switches the neutral too can put a lamp "
    "out and leave the hot live: leave the tick out where one has a test button, or where you do not know. The guide "
    "then asks of each that is tried alone."
)


class OneBoxForm(QWidget):
    """Asks for one box and the panel; `started` tells a name, gangs, handles, and what the breakers open."""

    started = Signal(str, object, str, bool)

    def __init__(self) -> None:
        super().__init__()
        self.name, self.handles = QLineEdit(), QLineEdit()
        self.name.setPlaceholderText("such as: hall, beside the door")
        self.handles.setPlaceholderText(f"how many, or their numbers: {EXAMPLE}")
        labels = {kind.label: kind.name for kind in sorted(catalogue().values(), key=_first_kinds_first)}
        self._labels = labels
        self.gangs = [
            Choice(f"Gang {nth}", labels, next(iter(labels)), narrow=True) for nth in range(1, MOST_SHOWN + 1)
        ]
        self.works = [
            Choice(f"What the switch in gang {nth} works", WORKS, next(iter(WORKS)), narrow=True)
            for nth in range(1, MOST_SHOWN + 1)
        ]
        self.unknown = QLabel(NOBODY_KNOWS)
        self.unknown.setObjectName("caption")
        self.unknown.setWordWrap(True)
        self.hot_alone = QCheckBox(HOT_ALONE)
        self.hot_alone.setToolTip(HOT_ALONE_MEANS)
        self.said = QLabel()
        self.said.setObjectName("caption")
        self.said.setWordWrap(True)
        self.more = QPushButton("One gang more")
        self.more.setObjectName("plain")
        self.start = QPushButton("Find its breakers")
        self.start.setObjectName("action")
        for pressed in (self.more, self.start):
            pressed.setAutoDefault(True)  # Enter presses it, as the space bar does
        self._lay_out()
        self.more.clicked.connect(self._one_more)
        self.handles.textChanged.connect(lambda words: self.said.setText(counted_handles(words) if words else ""))
        self.start.clicked.connect(self._start)
        for field in (*self.gangs, *self.works):
            field.currentTextChanged.connect(self._show_gangs)
        self.handles.returnPressed.connect(self._start)
        self._shown = 1
        self._show_gangs()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        form = QFormLayout()
        for label, field in (("The box", self.name), ("Breakers", self.handles)):
            field.setAccessibleName(label)
        form.addRow("The box", self.name)
        gangs = QWidget()
        inner = QVBoxLayout(gangs)
        inner.setContentsMargins(0, 0, 0, 0)
        for gang, works in zip(self.gangs, self.works, strict=True):
            line = QHBoxLayout()
            line.addWidget(gang, 1)
            line.addWidget(works, 1)
            inner.addLayout(line)
        inner.addWidget(self.unknown)
        form.addRow("In it", gangs)
        form.addRow("", self.more)
        form.addRow("Breakers", self.handles)
        form.addRow("", self.said)
        form.addRow("", self.hot_alone)
        column.addLayout(form)
        row = QHBoxLayout()
        row.addWidget(self.start)
        row.addStretch()
        column.addLayout(row)

    def _one_more(self) -> None:
        self._shown = min(self._shown + 1, MOST_SHOWN)
        self._show_gangs()
        self.gangs[self._shown - 1].setFocus()

    def _show_gangs(self) -> None:
        for place, (gang, works) in enumerate(zip(self.gangs, self.works, strict=True)):
            gang.setVisible(place < self._shown)
            works.setVisible(place < self._shown and is_switch(self._labels[gang.currentText()]))
        self.more.setVisible(self._shown < MOST_SHOWN)
        self.unknown.setVisible(any(is_switch(gang.kind) and not gang.works for gang in self._said()))

    def _said(self) -> tuple[Gang, ...]:
        shown = zip(self.gangs[: self._shown], self.works, strict=False)
        return tuple(Gang(self._labels[kind.currentText()], WORKS[works.currentText()]) for kind, works in shown)

    def _start(self) -> None:
        self.started.emit(self.name.text(), self._said(), self.handles.text(), self.hot_alone.isChecked())

    def clear(self) -> None:
        """Begin with another box: nothing of the last one is carried over."""
        self.name.clear()
        self.handles.clear()
        self.said.clear()
        self.hot_alone.setChecked(False)
        for field in (*self.gangs, *self.works):
            field.setCurrentIndex(0)
        self._shown = 1
        self._show_gangs()

    def refuse(self, words: str) -> None:
        """Say what can't be: the form stays as it is."""
        self.said.setText(words)
        self.handles.setFocus()


def _first_kinds_first(kind: object) -> tuple[int, str]:
    name = str(getattr(kind, "name", ""))
    return (FIRST_KINDS.index(name) if name in FIRST_KINDS else len(FIRST_KINDS), name)
