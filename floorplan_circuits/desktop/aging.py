"""The question whether the house changed hands, or an electrician was in it: then all that was tested expires."""

from datetime import date
from typing import get_args

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QLineEdit,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.edited import counted
from floorplan_circuits.edits.recording import AGED_BY, Aged, age_everything
from floorplan_circuits.findings import Findings

WIDE = 460
WHAT_IT_DOES = (
    "Anything may have been touched, and nobody can tell what. All that was tested so far expires, and boxes that were "
    "looked into count as not opened, until it is done again. The map stays as it is drawn. This can’t be undone; "
    "the entry can be struck like any other."
)


def expires(findings: Findings) -> str:
    """Return how much would expire, in a sentence."""
    tested = sum(one.standing == "proved" for one in findings.conclusions.values())
    opened = sum(one.opened for one in findings.boxes.values())
    boxes = f" {counted(opened, 'box', 'boxes')} that somebody looked into would count as not opened." if opened else ""
    return f"{counted(tested, 'tested feed')} would expire.{boxes}"


class AgingDialog(QDialog):
    """Says what it does before it is done."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("The house changed hands, or an electrician was here")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self._session = session
        self.reasons: dict[Aged, QRadioButton] = {why: QRadioButton(AGED_BY[why]) for why in get_args(Aged)}
        self.day, self.who, self.refused = QLineEdit(date.today().isoformat()), QLineEdit(), _words(" ")
        self.told = _words(expires(session.find_now()))
        self.told.setObjectName("section")
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 16, 20, 16)
        column.setSpacing(10)
        column.setSizeConstraint(QVBoxLayout.SizeConstraint.SetNoConstraint)
        column.addWidget(_words(WHAT_IT_DOES))
        column.addWidget(self.told)
        for button in self.reasons.values():
            column.addWidget(button)
        next(iter(self.reasons.values())).setChecked(True)
        form = QFormLayout()
        for label, line in (("Day", self.day), ("Who says so", self.who)):
            line.setAccessibleName(label)
            form.addRow(label, line)
        column.addLayout(form)
        column.addWidget(self.refused)
        choices = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        self.let_expire = choices.addButton("Let it all expire", QDialogButtonBox.ButtonRole.AcceptRole)
        column.addWidget(choices)
        choices.accepted.connect(self._record)
        choices.rejected.connect(self.reject)
        session.said.connect(self._refuse)
        self.resize(WIDE, column.heightForWidth(WIDE))

    def _record(self) -> None:
        why = next(why for why, button in self.reasons.items() if button.isChecked())
        day, who = self.day.text().strip(), self.who.text()[:120]
        if self._session.attempt(lambda home: age_everything(home, why, date=day, who=who)) is not None:
            self.accept()

    def _refuse(self, words: str) -> None:
        """Show in the dialog why nothing was recorded."""
        self.refused.setText(words)


def _words(words: str) -> QLabel:
    label = QLabel(words)
    label.setWordWrap(True)
    return label
