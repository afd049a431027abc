"""The panes round the plan: the strip above it, the dangers below it, the panel beside it."""

from collections.abc import Iterable, Mapping

from PySide6.QtCore import QPoint, QRect, QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QFrame, QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.desktop.hazard_list import HazardList
from floorplan_circuits.desktop.look_up import LookUp
from floorplan_circuits.desktop.mains_band import MainsBand
from floorplan_circuits.desktop.mains_row import MainsRow
from floorplan_circuits.desktop.panel_view import PanelView
from floorplan_circuits.desktop.pieces import OneLine
from floorplan_circuits.drawing.panel_body import letters_told
from floorplan_circuits.edits.edited import counted
from floorplan_circuits.findings import Findings, WhatIf
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.power import Panel
from floorplan_circuits.sheets.panel_column import panel_captions, source_notes

STRIP_HIGH, BELOW_HIGH, SIDE_WIDE, INSET = 44, 172, 364, 16
SIDE_LEAST = 330
"""Least width in px of the panel's pane: narrower, its words can't be read."""
COUNTS_BESIDE = 600
"""Width in px from which the numbers over the list of dangers stand beside its title."""
COLOURS_NAMED = 960
"""Width in px from which it is written what the buttons of the floor's colours are."""

NO_PANEL = "How many spaces does your panel have?"
NO_MAIN = "The wires that feed it stay live."
KEY = "One square a feed; the more ink, the better known."


def _label(name: str, words: str = "") -> QLabel:
    label = QLabel(words)
    label.setObjectName(name)
    return label


LAYERS = {"receptacles": "receptacles", "lights": "lights", "both": "receptacles and lights"}


class Strip(QWidget):
    """The strip above the plan: the home's name, its levels, and what the floor is coloured by."""

    level_chosen = Signal(int)
    level_wanted = Signal()
    level_menu_wanted = Signal(int, QPoint)
    """A click of the right button on a level, and where on the screen."""
    layer_chosen = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("strip")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setFixedHeight(STRIP_HIGH)
        self.home_name, self.look_up = OneLine(), LookUp()
        self.home_name.setObjectName("home")
        self._about_colours = _label("caption", "Colour by")
        self._group = QButtonGroup(self)
        self._names: dict[int, str] = {}
        self._levels = QHBoxLayout()
        self._levels.setSpacing(4)
        row = QHBoxLayout(self)
        row.setContentsMargins(INSET, 0, INSET, 0)
        row.setSpacing(20)
        row.addWidget(self.home_name)
        row.addLayout(self._levels)
        self.add_level = QPushButton("+")
        self.add_level.setObjectName("plain")
        self.add_level.setToolTip("Add a level")
        self.add_level.setAccessibleName("Add a level")
        row.addWidget(self.add_level)
        row.addStretch()
        row.addLayout(self._colour_by())
        row.addWidget(self.look_up)
        self.add_level.clicked.connect(self.level_wanted)
        self._group.idClicked.connect(self.level_chosen)

    def _colour_by(self) -> QHBoxLayout:
        """Build the choice of what the floor is divided by."""
        choices = QHBoxLayout()
        choices.setSpacing(4)
        choices.addWidget(self._about_colours)
        group = QButtonGroup(self)
        for layer, words in LAYERS.items():
            button = QPushButton(layer)
            button.setObjectName("layer")
            button.setCheckable(True)
            button.setChecked(layer == "both")
            button.setAccessibleName(f"Colour the rooms by {words}")
            button.clicked.connect(lambda _checked=False, layer=layer: self.layer_chosen.emit(layer))
            group.addButton(button)
            choices.addWidget(button)
        return choices

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802  # Qt's name
        """Leave out what can be missed where there is little room: the buttons say the rest."""
        super().resizeEvent(event)
        self._about_colours.setVisible(self.width() >= COLOURS_NAMED)

    def minimumSizeHint(self) -> QSize:  # noqa: N802  # Qt's name
        """Ask for no more than is needed without what can be missed."""
        least, caption = super().minimumSizeHint(), self._about_colours
        return least if caption.isHidden() else QSize(least.width() - caption.sizeHint().width(), least.height())

    def show_levels(self, levels: list[Level], current: int | None) -> None:
        """Show a button for each level, the lowest first."""
        names = {level.id: level.name for level in levels}
        if list(names.items()) == list(self._names.items()):
            self.choose(current)
            return
        self._names = names
        for button in self._group.buttons():
            self._group.removeButton(button)
            button.hide()
            button.deleteLater()
        for level in levels:
            button = QPushButton(level.name)
            button.setObjectName("level")
            button.setCheckable(True)
            button.setChecked(level.id == current)
            button.setAccessibleName(f"Show {level.name}")
            button.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
            button.customContextMenuRequested.connect(
                lambda at, button=button, level=level.id: self.level_menu_wanted.emit(level, button.mapToGlobal(at))
            )
            self._group.addButton(button, level.id)
            self._levels.addWidget(button)

    def show_counts(self, counts: Mapping[int, int]) -> None:
        """Say on each level's button how much of what is pointed at is there."""
        for button in self._group.buttons():
            number = self._group.id(button)
            name = self._names.get(number, "")
            button.setText(f"{name} · {counts[number]}" if number in counts and len(self._names) > 1 else name)

    def choose(self, level: int | None) -> None:
        """Mark a level as the one shown."""
        button = self._group.button(level) if level is not None else None
        if button is not None:
            button.setChecked(True)


class Below(QWidget):
    """The dangers under the plan."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("below")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.title = _label("section", "Know before you open a box")
        self.counts = _label("caption")
        self.list = HazardList()
        self.empty = _label("caption")
        self.counts.setWordWrap(True)
        self.empty.setWordWrap(True)
        self._head = head = QHBoxLayout()
        head.setContentsMargins(INSET, 10, INSET, 4)
        head.addWidget(self.title)
        head.addWidget(self.counts, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(head)
        column.addWidget(self.empty)
        column.addWidget(self.list, 1)
        self.empty.setContentsMargins(INSET, 4, INSET, 4)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802  # Qt's name
        """Put the numbers under the title where they don't fit beside it."""
        super().resizeEvent(event)
        beside = self.width() >= COUNTS_BESIDE
        self._head.setDirection(QHBoxLayout.Direction.LeftToRight if beside else QHBoxLayout.Direction.TopToBottom)
        side = Qt.AlignmentFlag.AlignRight if beside else Qt.AlignmentFlag.AlignLeft
        self.counts.setAlignment(Qt.AlignmentFlag.AlignVCenter | side)

    def show_findings(self, findings: Findings | None) -> None:
        """Say how many dangers there are, in a line above them."""
        if findings is None:
            self.counts.setText("")
            self.empty.setText("Open a home to see its boxes.")
        else:
            self.counts.setText(counts_of(findings) if findings.boxes else "")
            self.empty.setText(nothing_found(findings))
        self.empty.setVisible(findings is None or not any(one.listed for one in findings.hazards))


def nothing_found(findings: Findings) -> str:
    """Return what stands in the list's place while it is empty: never that there is no danger."""
    if not findings.boxes:
        return "Nothing to tell yet: no box is drawn."
    never = len(findings.never_tested)
    told = f" {never} {'feed was' if never == 1 else 'feeds were'} never tested." if never else ""
    return f"No box with two circuits found among what is recorded.{told}"


def counts_of(findings: Findings) -> str:
    """Return the numbers that stand over the list of dangers."""
    shared = sum(found.shared for found in findings.boxes.values())
    unknown = sum(found.unknown > 0 for found in findings.boxes.values())
    parts = [
        "1 shared box" if shared == 1 else f"{shared} shared boxes",
        f"{unknown} with something unknown",
        counted(len(findings.never_tested), "feed") + " never tested",
    ]
    return " · ".join(parts)


class Side(QWidget):
    """The panel beside the plan; without one, the question that sets it up."""

    panel_wanted = Signal()
    panel_chosen = Signal(int)

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("side")
        self.setMinimumWidth(SIDE_LEAST)
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.title, self.caption, self.key = _label("panel_title"), _label("caption"), _label("caption")
        for label in (self.key, self.caption):
            label.setWordWrap(True)
        self.caption.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.view, self.mains, self.band = PanelView(), MainsRow(), MainsBand()
        self.chooser = Choice("Panel shown")
        self.chooser.activated.connect(lambda place: self.panel_chosen.emit(self.chooser.itemData(place)))
        self._scroll = QScrollArea()
        self._scroll.setWidget(self.view)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.set_up = QPushButton("Set up the panel")
        self.set_up.setObjectName("plain")
        self.set_up.clicked.connect(self.panel_wanted)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 4, 0, 10)
        column.setSpacing(8)
        column.addLayout(_row(self.title, self.chooser, self.caption))
        column.addLayout(_row(self.mains))
        column.addWidget(self.band)
        column.addWidget(self._scroll, 1)
        column.addLayout(_row(self.key, self.set_up))
        self._rest = QWidget()
        column.addWidget(self._rest, 1)

    def show_panel(self, findings: Findings | None, panel: Panel | None, what_if: WhatIf | None = None) -> None:
        """Show a panel with its title; of several, a choice in the title's place; as with handles off, if any are."""
        self.title.setText(panel.name if panel else "The panel")
        captions = panel_captions(findings.home, panel) if findings and panel else ()
        self.caption.setText(captions[-1] if captions else "")
        self.view.show_panel(findings, panel, what_if)
        self.key.setText(" ".join(_notes(findings, panel)) if findings is not None and panel is not None else NO_PANEL)
        self.band.show_mains(findings, panel)
        self._offer(list(findings.home.panels) if findings else [], panel)
        for widget, shown in ((self._scroll, panel is not None), (self._rest, panel is None)):
            widget.setVisible(shown)
        self.set_up.setVisible(panel is None)

    def bring_into_sight(self, area: QRect) -> None:
        """Scroll so that a part of the face is seen."""
        middle = area.center()
        self._scroll.ensureVisible(middle.x(), middle.y(), 0, area.height())

    def flip_mains(self, panel: Panel | None, off: Iterable[int], wanted: Iterable[int]) -> None:
        """Show the mains as buttons to flip on the screen, in place of their picture; without a panel the picture."""
        self.mains.show_mains(panel, off, wanted)
        self.band.stand_back(panel is not None)

    def _offer(self, panels: list[Panel], shown: Panel | None) -> None:
        self.chooser.clear()
        for panel in panels:
            self.chooser.addItem(panel.name, panel.id)
        self.chooser.setCurrentIndex(self.chooser.findData(shown.id) if shown is not None else -1)
        self.chooser.setVisible(len(panels) > 1)
        self.title.setVisible(len(panels) < 2)


def _notes(findings: Findings, panel: Panel) -> list[str]:
    """Return what stands under the face: what stays live, sources that the main does not stop, what signs mean."""
    letters = letters_told(one for one in findings.home.breakers if one.panel == panel.id)
    stays_live = [] if panel.mains else [NO_MAIN]  # the band over the face says it of a main
    return [*stays_live, KEY, *source_notes(findings.home), *([letters] if letters else [])]


def _row(*widgets: QWidget) -> QHBoxLayout:
    """Return a row of widgets with the pane's insets; labels that wrap take what is left."""
    row = QHBoxLayout()
    row.setContentsMargins(INSET, 0, INSET, 0)
    for widget in widgets:
        row.addWidget(widget, int(isinstance(widget, QLabel) and widget.wordWrap()))
    return row
