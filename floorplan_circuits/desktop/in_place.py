"""Typing in place: one line over the plan or the panel, Enter takes it, Escape drops it."""

from collections.abc import Callable

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QFocusEvent, QKeyEvent
from PySide6.QtWidgets import QLineEdit, QWidget

Took = Callable[[str], None]


class InPlace(QLineEdit):
    """A line that asks for one text where it belongs, and goes when it has it."""

    def __init__(self, parent: QWidget, area: QRect, words: str, took: Took, label: str, hint: str = "") -> None:
        super().__init__(words, parent)
        self._took: Took | None = took
        self.setGeometry(area)
        self.setAccessibleName(label)
        self.setPlaceholderText(hint)
        self.selectAll()
        self.show()
        self.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802  # Qt's name
        """Take the text with Enter or Down, drop it with Escape."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Down):
            self._finish(take=True)
        elif event.key() == Qt.Key.Key_Escape:
            self._finish(take=False)
        else:
            super().keyPressEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802  # Qt's name
        """Take what was typed when the person goes elsewhere."""
        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self._finish(take=True, go_back=False)

    def _finish(self, take: bool, go_back: bool = True) -> None:
        took, self._took = self._took, None
        if took is None:
            return
        parent = self.parentWidget()
        self.hide()
        self.deleteLater()
        if go_back and parent is not None:
            parent.setFocus()
        if take:
            took(self.text())
