"""A box with the plate off in place of the plan: its picture, and at its side what a person tells of it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from floorplan_circuits.desktop.box_facts import BoxFacts
from floorplan_circuits.desktop.box_keeping import BoxKeeping
from floorplan_circuits.desktop.close_up_canvas import CloseUpCanvas
from floorplan_circuits.desktop.opened_form import OpenedForm
from floorplan_circuits.desktop.pieces import scrolling
from floorplan_circuits.desktop.plug_tester_form import PlugTesterForm
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import Findings, WhatIf

SIDE_WIDE, INSET = 330, 16


class CloseUpPage(QWidget):
    """Shows one box. Escape or its button goes back to the plan."""

    left = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("first")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.canvas, self.opened, self.keeping = CloseUpCanvas(), OpenedForm(), BoxKeeping()
        self.facts, self.plug_tester = BoxFacts(), PlugTesterForm()
        self.back = QPushButton("Back to the plan")
        self.back.setObjectName("plain")
        self.back.clicked.connect(lambda _checked=False: self.left.emit())
        self.escape = QShortcut(QKeySequence(Qt.Key.Key_Escape), self, self.left.emit)
        self.escape.setContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
        picture = scrolling(self.canvas)
        picture.setAccessibleName("The box with the plate off")
        head = QHBoxLayout()
        head.setContentsMargins(INSET, 10, INSET, 4)
        head.addWidget(self.back)
        head.addStretch()
        column = QVBoxLayout()
        column.setSpacing(0)
        column.addLayout(head)
        column.addWidget(picture, 1)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addLayout(column, 1)
        row.addWidget(self._side())

    def _side(self) -> QWidget:
        inner = QWidget()
        column = QVBoxLayout(inner)
        column.setContentsMargins(INSET, 14, INSET, 14)
        column.setSpacing(18)
        column.addWidget(self.opened)
        column.addWidget(self.facts)
        column.addWidget(self.plug_tester)
        column.addWidget(self.keeping)
        column.addStretch()
        side = scrolling(inner)
        side.setObjectName("inside")
        side.setFixedWidth(SIDE_WIDE)
        return side

    def show_box(
        self, session: Session, findings: Findings, box: int, theme: Theme, what_if: WhatIf | None = None
    ) -> None:
        """Show a box as these findings have it, and what it would be with handles off."""
        self.canvas.theme = theme
        self.canvas.show_box(findings, box, what_if)
        found = findings.home.boxes[box]
        self.opened.show_box(session, findings, found)
        self.facts.show_box(session, findings, found)
        self.plug_tester.show_box(session, found)
        self.keeping.show_box(session, found)
