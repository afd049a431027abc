"""The small pieces that pages are built of: words that wrap, buttons, and what scrolls down but never across."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QLabel, QPushButton, QScrollArea, QWidget

INSET = 16
"""How far the words of a pane stand off its edge, in px."""


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
