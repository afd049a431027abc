"""The pane beside the plan: the panel, its mains, and what stays live."""

from collections.abc import Iterable

from PySide6.QtCore import QRect, Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.desktop.mains_band import MainsBand
from floorplan_circuits.desktop.mains_row import MainsRow
from floorplan_circuits.desktop.panel_view import PanelView
from floorplan_circuits.desktop.pieces import INSET, line
from floorplan_circuits.drawing.panel_body import letters_told
from floorplan_circuits.findings import Findings, WhatIf
from floorplan_circuits.home.power import Panel
from floorplan_circuits.sheets.panel_column import panel_captions, source_notes

SIDE_WIDE = 364
SIDE_LEAST = 330
"""Least width in px of the panel's pane: narrower, its words can't be read."""
NO_PANEL = "How many spaces does your panel have?"
NO_MAIN = "The wires that feed it stay live."
KEY = "One square a feed; the more ink, the better known."


class Side(QWidget):
    """The panel beside the plan; without one, the question that sets it up."""

    panel_wanted = Signal()
    panel_chosen = Signal(int)

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("side")
        self.setMinimumWidth(SIDE_LEAST)
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.title, self.caption, self.key = line("panel_title"), line("caption"), line("caption")
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
