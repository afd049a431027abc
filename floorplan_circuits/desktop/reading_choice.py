"""The small choice at a device on the plan: what was seen, one row a feed, recorded by one click."""

from collections.abc import Sequence

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QPushButton, QVBoxLayout, QWidget

MOST_WIDE = 320
AIR = 12
"""How far from the pointer it opens, in px: what was clicked stays in sight."""


class ReadingChoice(QFrame):
    """Asks what was seen where the hand is; Escape or a click elsewhere leaves it."""

    read = Signal(int, str)
    """The feed, and what it showed."""

    def __init__(
        self, parent: QWidget, title: str, rows: Sequence[tuple[int, str]], answers: Sequence[str], also: str
    ) -> None:
        super().__init__(parent)
        self.setObjectName("choice")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(title)
        column = QVBoxLayout(self)
        column.setContentsMargins(10, 8, 10, 10)
        column.setSpacing(6)
        column.addWidget(_words("section", title))
        grid = QGridLayout()
        grid.setSpacing(6)
        for place, (feed, called) in enumerate(rows):
            if called:
                grid.addWidget(_words("caption", called), place, 0)
            for at, says in enumerate(answers, 1):
                grid.addWidget(self._button(feed, called, says), place, at)
        column.addLayout(grid)
        if also:
            told = _words("caption", also)
            told.setWordWrap(True)
            column.addWidget(told)
        self.setMaximumWidth(MOST_WIDE)

    def _button(self, feed: int, called: str, says: str) -> QPushButton:
        button = QPushButton(says.capitalize())
        button.setObjectName("plain")
        button.setAccessibleName(f"{called} {says}".strip())
        button.clicked.connect(lambda: self.read.emit(feed, says))
        return button

    def open_at(self, at: QPoint) -> None:
        """Open beside a place of the parent, all of it in sight, with the keys on the first answer."""
        self.adjustSize()
        parent = self.parentWidget()
        around = parent.rect() if parent is not None else self.rect()
        x, y = at.x() + AIR, at.y() + AIR
        if x + self.width() > around.right():
            x = at.x() - AIR - self.width()
        if y + self.height() > around.bottom():
            y = at.y() - AIR - self.height()
        self.move(max(x, 0), max(y, 0))
        self.show()
        self.raise_()
        first = self.findChild(QPushButton)
        if isinstance(first, QPushButton):
            first.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802  # Qt's name
        """Leave with Escape; Enter gives the answer that has the keys."""
        has_keys = self.focusWidget()
        if event.key() == Qt.Key.Key_Escape:
            self.close_now()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and isinstance(has_keys, QPushButton):
            has_keys.click()
        else:
            super().keyPressEvent(event)

    def close_now(self) -> None:
        """Go, and give the keys back to the plan."""
        parent = self.parentWidget()
        self.hide()
        self.deleteLater()
        if parent is not None:
            parent.setFocus()


def _words(name: str, words: str) -> QLabel:
    label = QLabel(words)
    label.setObjectName(name)
    return label
