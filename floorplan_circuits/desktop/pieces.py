"""The small pieces that pages are built of: words that wrap, buttons, and what scrolls down but never across."""

from collections.abc import Callable

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QLabel, QPushButton, QScrollArea, QWidget

INSET = 16
"""How far the words of a pane stand off its edge, in px."""
FEW_LETTERS_PX = 64
"""How narrow a line that is cut to what fits may become."""


def label(words: str, name: str = "caption") -> QLabel:
    """Return words that wrap, dressed as the style sheet has it for the name."""
    made = QLabel(words)
    made.setObjectName(name)
    made.setWordWrap(True)
    return made


def line(name: str, words: str = "") -> QLabel:
    """Return words on one line, dressed as the style sheet has it for the name."""
    made = QLabel(words)
    made.setObjectName(name)
    return made


class OneLine(QLabel):
    """Words on one line that end in "…" where there is no room for all of them; the pointer shows them whole."""

    opened = Signal()
    """They were double-clicked."""

    def setText(self, words: str) -> None:  # noqa: N802  # Qt's name
        """Show other words."""
        super().setText(words)
        self.setToolTip(words)

    def mouseDoubleClickEvent(self, _event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """Tell of it."""
        self.opened.emit()

    def minimumSizeHint(self) -> QSize:  # noqa: N802  # Qt's name
        """Ask for room for a few letters."""
        return QSize(min(FEW_LETTERS_PX, super().minimumSizeHint().width()), super().minimumSizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802  # Qt's name
        """Draw as much as there is room for."""
        area = self.contentsRect()
        words = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, area.width())
        QPainter(self).drawText(area, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, words)


def button(words: str, name: str = "plain", act: Callable[[], object] | None = None) -> QPushButton:
    """Return a button, which does one thing if it is told what."""
    made = QPushButton(words)
    made.setObjectName(name)
    if act is not None:
        made.clicked.connect(lambda _checked=False: act())
    return made


def scrolling(inner: QWidget) -> QScrollArea:
    """Return what shows a widget as wide as there is room, and scrolls down to the rest."""
    area = QScrollArea()
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setWidget(inner)
    return area
