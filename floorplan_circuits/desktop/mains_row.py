"""The main handles of a panel as buttons, where they may be flipped on the screen: the face shows branches alone."""

from collections.abc import Iterable

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QWidget

from floorplan_circuits.findings import Subject
from floorplan_circuits.home.power import Panel


class MainsRow(QWidget):
    """One button a main: pressed in, it is off on the screen."""

    main_clicked = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(0, 0, 0, 0)
        self.hide()

    def show_mains(self, panel: Panel | None, off: Iterable[int], wanted: Iterable[int]) -> None:
        """Show the mains of a panel, those in `off` as off, those in `wanted` ringed; without any, nothing."""
        while (item := self._row.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        opened, ringed = set(off), set(wanted)
        for main in panel.mains if panel is not None else ():
            name = main.name or "Main"
            button = QPushButton(f"{name}: {'off' if main.id in opened else 'on'}")
            button.setObjectName("ringed" if main.id in ringed else "plain")
            button.setAccessibleDescription("A click flips it on the screen alone.")
            button.clicked.connect(lambda _checked=False, one=main.id: self.main_clicked.emit(Subject("main", one)))
            self._row.addWidget(button)
        self._row.addStretch()
        self.setVisible(panel is not None and bool(panel.mains))
