"""The panes round the plan: the strip above it, the dangers below it, the panel beside it, the status line."""

from collections.abc import Mapping

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QFrame, QHBoxLayout, QLabel, QPushButton, QScrollArea, QVBoxLayout, QWidget

from floorplan_circuits.desktop.hazard_list import HazardList
from floorplan_circuits.desktop.panel_view import PanelView
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.power import Panel
from floorplan_circuits.sheets.panel_column import panel_captions

STRIP_HIGH, BELOW_HIGH, SIDE_WIDE, STATUS_HIGH, INSET = 44, 172, 364, 28, 16


KEY = "Wires above the main stay live. One square a feed; the more ink, the better known."


def _label(name: str, words: str = "") -> QLabel:
    label = QLabel(words)
    label.setObjectName(name)
    return label


class Strip(QWidget):
    """The strip above the plan: the home's name and its levels."""

    level_chosen = Signal(int)
    level_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("strip")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setFixedHeight(STRIP_HIGH)
        self.home_name = _label("home")
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
        self.add_level.clicked.connect(self.level_wanted)
        self._group.idClicked.connect(self.level_chosen)

    def show_levels(self, levels: list[Level], current: int | None) -> None:
        """Show a button for each level, the lowest first."""
        names = {level.id: level.name for level in levels}
        if names == self._names:
            self.choose(current)
            return
        self._names = names
        for button in self._group.buttons():
            self._group.removeButton(button)
            button.deleteLater()
        for level in levels:
            button = QPushButton(level.name)
            button.setObjectName("level")
            button.setCheckable(True)
            button.setChecked(level.id == current)
            button.setAccessibleName(f"Show {level.name}")
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
        head = QHBoxLayout()
        head.setContentsMargins(INSET, 10, INSET, 4)
        head.addWidget(self.title)
        head.addStretch()
        head.addWidget(self.counts)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(head)
        column.addWidget(self.empty)
        column.addWidget(self.list, 1)
        self.empty.setContentsMargins(INSET, 4, INSET, 4)

    def show_findings(self, findings: Findings | None) -> None:
        """Say how many dangers there are, in a line above them."""
        if findings is None:
            self.counts.setText("")
            self.empty.setText("Open a home to see its boxes.")
        else:
            self.counts.setText(counted(findings) if findings.boxes else "")
            never = len(findings.never_tested)
            words = f"No box with two circuits found among what is recorded. {never} feeds were never tested."
            self.empty.setText(words)
        self.empty.setVisible(findings is None or not findings.hazards)


def counted(findings: Findings) -> str:
    """Return the numbers that stand over the list of dangers."""
    shared = sum(found.shared for found in findings.boxes.values())
    unknown = sum(found.unknown > 0 for found in findings.boxes.values())
    parts = [
        "1 shared box" if shared == 1 else f"{shared} shared boxes",
        f"{unknown} with something unknown",
        f"{len(findings.never_tested)} feeds never tested",
    ]
    return " · ".join(parts)


class Side(QWidget):
    """The panel beside the plan; without one, the question that sets it up."""

    panel_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("side")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.title, self.caption, self.key = _label("panel_title"), _label("caption"), _label("caption")
        self.key.setWordWrap(True)
        self.view = PanelView()
        self._scroll = QScrollArea()
        self._scroll.setWidget(self.view)
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        head = QHBoxLayout()
        head.setContentsMargins(INSET, 0, INSET, 0)
        head.addWidget(self.title)
        head.addStretch()
        head.addWidget(self.caption)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 10)
        column.setSpacing(8)
        column.addSpacing(4)
        column.addLayout(head)
        column.addWidget(self._scroll, 1)
        foot = QHBoxLayout()
        foot.setContentsMargins(INSET, 0, INSET, 0)
        foot.addWidget(self.key)
        column.addLayout(foot)
        self.set_up = QPushButton("Set up the panel")
        self.set_up.setObjectName("plain")
        self.set_up.clicked.connect(self.panel_wanted)
        foot.addWidget(self.set_up)

    def show_panel(self, findings: Findings | None, panel: Panel | None) -> None:
        """Show a panel with its title."""
        self.title.setText(panel.name if panel else "")
        captions = panel_captions(findings.home, panel) if findings and panel else ()
        self.caption.setText(captions[-1] if captions else "")
        self.view.show_panel(findings, panel)
        self.key.setText(KEY if panel is not None else "How many spaces does your panel have?")
        self.set_up.setVisible(panel is None)


def status_line() -> QLabel:
    """Return the line at the foot of the window that says what a click will do."""
    label = _label("status")
    label.setFixedHeight(STATUS_HIGH)
    label.setAccessibleName("Status")
    return label
