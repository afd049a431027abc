"""A page of forms that is filled anew: words, rows to type in, buttons, each making one edit of the session's home."""

from collections.abc import Callable

from PySide6.QtWidgets import QFormLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.home.home import Home

MakeEdit = Callable[[str], Callable[[Home], Edited]]
"""From what was typed or chosen to the edit it means."""


class FormPage(QWidget):
    """What the inspector and the panel's page share: a column of pieces, and the session that their edits go to."""

    def __init__(self) -> None:
        super().__init__()
        self._session: Session | None = None
        self._told: tuple[object, ...] = ()
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(6)

    def _clear(self) -> None:
        while (item := self._column.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()

    def _words(self, words: str, name: str = "caption") -> QLabel:
        label = QLabel(words)
        label.setObjectName(name)
        label.setWordWrap(True)
        self._column.addWidget(label)
        return label

    def _form(self) -> QFormLayout:
        holder = QWidget()
        form = QFormLayout(holder)
        form.setContentsMargins(0, 0, 0, 0)
        form.setVerticalSpacing(4)
        self._column.addWidget(holder)
        return form

    def _line(self, form: QFormLayout, label: str, words: str, make: MakeEdit, hint: str = "") -> None:
        field = QLineEdit(words)
        field.setCursorPosition(0)  # of long words the beginning is seen
        field.setPlaceholderText(hint)
        field.setAccessibleName(label)
        field.editingFinished.connect(lambda: self._attempt(make(field.text())) if field.text() != words else None)
        form.addRow(label, field)

    def _button(self, words: str, act: Callable[[], object], name: str = "plain") -> None:
        button = QPushButton(words)
        button.setObjectName(name)
        button.clicked.connect(lambda _checked=False: act())
        self._column.addWidget(button)

    def _attempt(self, edit: Callable[[Home], Edited]) -> Edited | None:
        return self._session.attempt(edit) if self._session is not None else None
