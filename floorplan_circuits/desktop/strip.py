"""The strip above the plan: the home's name, its levels, and what the floor is coloured by."""

from collections.abc import Mapping

from PySide6.QtCore import QPoint, QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QPushButton, QWidget

from floorplan_circuits.desktop.look_up import LookUp
from floorplan_circuits.desktop.pieces import INSET, OneLine, line
from floorplan_circuits.home.building import Level

STRIP_HIGH = 44
COLOURS_NAMED = 960
"""Width in px from which it is written what the buttons of the floor's colours are."""
LAYERS = {"receptacles": "receptacles", "lights": "lights", "both": "receptacles and lights"}


class Strip(QWidget):
    """The strip above the plan: the home's name, its levels, and what the floor is coloured by."""

    level_chosen = Signal(int)
    level_wanted = Signal()
    name_wanted = Signal()
    """The home's name was double-clicked."""
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
        self.home_name.opened.connect(self.name_wanted)
        self._about_colours = line("caption", "Colour by")
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
