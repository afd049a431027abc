"""What to print: the sheet, its paper, colour or grey, one panel or all, and what only one sheet asks."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLineEdit, QWidget

from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.home.home import Home
from floorplan_circuits.printing import SHEETS, Wanted

PAPER_WORDS = {
    "letter": "Letter",
    "legal": "Legal",
    "tabloid": "Tabloid",
    "a4": "A4",
    "a3": "A3",
    "ansi-c": "22 × 17 in",
    "ansi-d": "34 × 22 in",
    "a2": "A2",
    "a1": "A1",
}
WITH_SWITCHING = ("wall-map", "plan")
"""Sheets that can show what switches work."""
OF_A_PANEL = ("wall-map", "directory", "photo")
"""Sheets that can be had for one panel alone."""
ALL_PANELS = "All panels"


class PrintChoices(QWidget):
    """A row of choices. `changed` tells that something else is wanted now."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.sheet, self.paper = Choice("Sheet"), Choice("Paper")
        self.colour = Choice("Colour or grey", ("Colour", "Grey"), "Colour")
        self.panel = Choice("Panel", narrow=True)
        self.together = QCheckBox("All levels on one page")
        self.switching = QCheckBox("What switches work")
        self.card_size = QLineEdit(Wanted().size)
        self.card_size.setAccessibleName("Size of the card: width x height in mm")
        self.card_size.setToolTip("Width x height in millimetres, or as 4.75x8in")
        self.card_size.setMaximumWidth(110)
        for key, words in SHEETS.items():
            self.sheet.addItem(words, key)
        for key, words in PAPER_WORDS.items():
            self.paper.addItem(words, key)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        for widget in (self.sheet, self.paper, self.colour, self.panel, self.together, self.switching, self.card_size):
            row.addWidget(widget)
        row.addStretch(1)
        for choice in (self.sheet, self.paper, self.colour, self.panel):
            choice.activated.connect(self._on_change)
        self.together.toggled.connect(self._on_change)
        self.switching.toggled.connect(self._on_change)
        self.card_size.editingFinished.connect(self._on_size)
        self._typed = self.card_size.text()
        self._show_what_counts(1)

    def _on_change(self) -> None:
        self._show_what_counts(self.panel.count() - 1)
        self.changed.emit()

    def _on_size(self) -> None:
        if self.card_size.text() != self._typed:
            self._typed = self.card_size.text()
            self.changed.emit()

    def choose(self, sheet: str) -> None:
        """Choose a sheet by the name it is asked for."""
        self.sheet.setCurrentIndex(self.sheet.findData(sheet))

    def wanted(self) -> Wanted:
        """Return what is chosen."""
        name = self.sheet.currentData()
        of_panel = name in OF_A_PANEL and self.panel.currentIndex() > 0
        return Wanted(
            sheet=name,
            paper=self.paper.currentData(),
            grey=self.colour.currentText() == "Grey",
            together=name == "wall-map" and self.together.isChecked(),
            panel=self.panel.currentText() if of_panel else "",
            size=self.card_size.text(),
            switching=name in WITH_SWITCHING and self.switching.isChecked(),
        )

    def show_home(self, home: Home, anew: bool) -> None:
        """Offer the panels of a home; `anew`: it was just opened, and prints on the paper of its part of the world."""
        chosen = "" if anew else self.panel.currentText()
        names = [panel.name for panel in home.panels]
        self.panel.clear()
        self.panel.addItems([ALL_PANELS, *names])
        self.panel.setCurrentIndex(max(0, self.panel.findText(chosen)))
        if anew:
            self.paper.setCurrentText("A4" if home.units == "metric" else "Letter")
        self._show_what_counts(len(names))

    def _show_what_counts(self, panels: int) -> None:
        name = self.sheet.currentData()
        self.panel.setVisible(panels > 1 and name in OF_A_PANEL)
        self.together.setVisible(name == "wall-map")
        self.switching.setVisible(name in WITH_SWITCHING)
        self.card_size.setVisible(name == "directory")
