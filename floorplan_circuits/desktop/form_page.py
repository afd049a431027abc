"""A page of forms that is filled anew: words, rows to type in, buttons, each making one edit of the session's home."""

from collections.abc import Callable, Mapping
from typing import Any

from PySide6.QtWidgets import QFormLayout, QGridLayout, QLabel, QVBoxLayout, QWidget

from floorplan_circuits.desktop.fields import Choice, Line
from floorplan_circuits.desktop.pieces import button, label
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
        shown = label(words, name)
        self._column.addWidget(shown)
        return shown

    def _caption(self, form: QFormLayout, words: str) -> None:
        """Add a row of words over the form's whole width."""
        form.addRow(label(words))

    def _form(self) -> QFormLayout:
        holder = QWidget()
        form = QFormLayout(holder)
        form.setContentsMargins(0, 0, 0, 0)
        form.setVerticalSpacing(4)
        self._column.addWidget(holder)
        return form

    def _line(self, form: QFormLayout, label: str, words: str, make: MakeEdit, hint: str = "") -> None:
        field = Line(words)
        field.setPlaceholderText(hint)
        field.setAccessibleName(label)
        field.editingFinished.connect(lambda: self._attempt(make(field.text())) if field.text() != words else None)
        form.addRow(label, field)

    def _pick(
        self,
        form: QFormLayout,
        label: str,
        ways: Mapping[str, object],
        now: object,
        make: Callable[[Any], Callable[[Home], Edited]],
        above: bool = False,
    ) -> Choice:
        """Add a row that offers values by their words. `above`: its label stands over it, since its words are long."""
        words_now = next((words for words, value in ways.items() if value == now), "")
        field = Choice(label, ways, words_now, narrow=True)
        field.setToolTip(words_now)

        def chosen(words: str) -> None:
            if words != words_now and self._attempt(make(ways[words])) is None:
                field.setCurrentIndex(field.findText(words_now))  # refused: it says again what is so

        field.textActivated.connect(chosen)
        if above:
            form.addRow(QLabel(label))
            form.addRow(field)
        else:
            form.addRow(label, field)
        return field

    def _button(self, words: str, act: Callable[[], object], name: str = "plain") -> None:
        self._column.addWidget(button(words, name, act))

    def _buttons(self, acts: Mapping[str, Callable[[], object]]) -> None:
        """Add buttons, two in a row."""
        holder = QWidget()
        grid = QGridLayout(holder)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(4)
        for at, (words, act) in enumerate(acts.items()):
            grid.addWidget(button(words, act=act), *divmod(at, 2))
        self._column.addWidget(holder)

    def _attempt(self, edit: Callable[[Home], Edited]) -> Edited | None:
        return self._session.attempt(edit) if self._session is not None else None
