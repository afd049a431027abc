"""The pane under the plan: how many dangers there are, and the list of them."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from floorplan_circuits.desktop.hazard_list import HazardList
from floorplan_circuits.desktop.pieces import INSET, line
from floorplan_circuits.edits.edited import counted
from floorplan_circuits.findings import Findings

BELOW_HIGH = 172
COUNTS_BESIDE = 600
"""Width in px from which the numbers over the list of dangers stand beside its title."""


class Below(QWidget):
    """The dangers under the plan."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("below")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.title = line("section", "Know before you open a box")
        self.counts = line("caption")
        self.list = HazardList()
        self.empty = line("caption")
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
