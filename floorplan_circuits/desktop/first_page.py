"""The first page: start a home, open one, go on with a recent or rescued one, or look at a sample."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLineEdit, QPushButton, QScrollArea, QVBoxLayout, QWidget

from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.desktop.one_box_form import OneBoxForm
from floorplan_circuits.files.rescue import Rescue
from floorplan_circuits.home.resources import folder

SAMPLE_WORDS = {
    "cottage": "An invented house, mostly tested: boxes that two circuits enter, and tests that disagree.",
    "house": "A large invented house: a basement, two floors, two panels, a borrowed neutral.",
    "flat": "An invented flat on 230 V: much tested, some only said, three devices that nobody knows.",
}
"""What there is to see in each sample, by its file's name."""
UNITS = {"feet and inches": "feet and inches", "metres": "metric"}


class FirstPage(QWidget):
    """What stands in the window while no home is open."""

    started = Signal(str, str)
    open_wanted = Signal()
    path_chosen = Signal(object)
    rescue_chosen = Signal(object)
    rescue_dropped = Signal(object)
    one_box_started = Signal(str, object, str, bool)
    """A name, gangs, handles as typed, and whether the breakers open the hot alone."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("first")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        holder = QWidget()
        holder.setMaximumWidth(560)
        self._column = QVBoxLayout(holder)
        self._column.setSpacing(10)
        self._add_start()
        self._more = QVBoxLayout()
        self._column.addLayout(self._more)
        inner = QWidget()
        row = QHBoxLayout(inner)
        row.addStretch()
        row.addWidget(holder, 1)
        row.addStretch()
        area = QScrollArea()
        area.setWidget(inner)
        area.setWidgetResizable(True)
        area.setFrameShape(QFrame.Shape.NoFrame)
        around = QVBoxLayout(self)
        around.setContentsMargins(0, 0, 0, 0)
        around.addWidget(area)

    def _add_start(self) -> None:
        self._column.addStretch()
        title = QLabel("Which breaker feeds what?")
        title.setObjectName("first_title")
        words = QLabel(
            "Draw the home, tie each device to its breaker, see every box that more than one circuit enters, and hang "
            "the map beside the panel. A map can be wrong: test before you touch."
        )
        words.setWordWrap(True)
        self.name = QLineEdit()
        self.name.setPlaceholderText("Name of the home")
        self.name.setAccessibleName("Name of the home")
        self.units = Choice("Lengths shown in", UNITS, next(iter(UNITS)))
        self.start_button = QPushButton("Start a new home")
        self.start_button.setObjectName("action")
        open_button = QPushButton("Open a home…")
        open_button.setObjectName("plain")
        row = QHBoxLayout()
        for widget in (self.name, self.units, self.start_button):
            row.addWidget(widget, 1 if widget is self.name else 0)
        self._column.addWidget(title)
        self._add_one_box()
        self._column.addWidget(_heading("The whole home"))
        self._column.addWidget(words)
        self._column.addLayout(row)
        self._column.addWidget(open_button)
        self.start_button.clicked.connect(self._start)
        self.name.returnPressed.connect(self._start)
        open_button.clicked.connect(self.open_wanted)

    def _add_one_box(self) -> None:
        """Offer first what somebody needs who stands before one box: no drawing, to its breakers in ten minutes."""
        words = QLabel("One box to open now? Be led to its breakers in about ten minutes, without a drawing.")
        words.setWordWrap(True)
        self.one_box, self.one_box_button = OneBoxForm(), QPushButton("Start with one box")
        self.one_box_button.setAutoDefault(True)
        self.one_box_button.setObjectName("action")
        self.one_box.hide()
        self.one_box_button.clicked.connect(self._open_one_box)
        self.one_box.started.connect(self.one_box_started)
        for part in (words, self.one_box_button, self.one_box):
            self._column.addWidget(part)

    def _open_one_box(self) -> None:
        self.one_box_button.hide()
        self.one_box.show()
        self.one_box.name.setFocus()

    def _start(self) -> None:
        self.started.emit(self.name.text().strip() or "New home", UNITS[self.units.currentText()])

    def show_choices(self, recent: Sequence[Path], rescues: Sequence[Rescue]) -> None:
        """Offer rescued copies, recent homes and the samples."""
        _empty(self._more)
        for rescue in rescues:
            self._offer_rescue(rescue)
        self._offer("Recent", [(path, path.stem, "") for path in recent if path.is_file()][:5])
        samples = sorted(folder("sample_homes").glob("*.json"))
        told = [(path, path.stem.capitalize(), SAMPLE_WORDS.get(path.stem, "")) for path in samples]
        self._offer("Sample homes to look at", told)
        self._more.addStretch()
        self.one_box.hide()
        self.one_box.clear()
        self.one_box_button.show()
        self.name.clear()
        self.name.setFocus()

    def _heading(self, words: str) -> None:
        self._more.addSpacing(8)
        self._more.addWidget(_heading(words))

    def _offer(self, heading: str, homes: Sequence[tuple[Path, str, str]]) -> None:
        """Offer files, each by its name, with a line about what there is to see in it."""
        if not homes:
            return
        self._heading(heading)
        for path, name, words in homes:
            button = QPushButton(name)
            button.setObjectName("plain")
            button.setToolTip(str(path))
            button.setAccessibleDescription(words)
            button.clicked.connect(lambda _checked=False, path=path: self.path_chosen.emit(path))
            self._more.addWidget(button)
            if words:
                told = QLabel(words)
                told.setObjectName("caption")
                told.setWordWrap(True)
                self._more.addWidget(told)

    def _offer_rescue(self, rescue: Rescue) -> None:
        self._heading("The program ended before this was saved")
        name = rescue.of.stem if rescue.of is not None else "a new home"
        row = QHBoxLayout()
        keep, drop = QPushButton(f"Go on with {name}"), QPushButton("Drop the copy")
        keep.setObjectName("action")
        drop.setObjectName("plain")
        keep.clicked.connect(lambda: self.rescue_chosen.emit(rescue))
        drop.clicked.connect(lambda: self.rescue_dropped.emit(rescue))
        row.addWidget(keep, 1)
        row.addWidget(drop)
        self._more.addLayout(row)


def _heading(words: str) -> QLabel:
    label = QLabel(words)
    label.setObjectName("section")
    return label


def _empty(layout: QVBoxLayout | QHBoxLayout) -> None:
    while (item := layout.takeAt(0)) is not None:
        if (widget := item.widget()) is not None:
            widget.hide()
            widget.deleteLater()
        elif (inner := item.layout()) is not None:
            _empty(inner)  # type: ignore[arg-type]  # only boxes are put in it
