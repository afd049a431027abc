"""Help: the first evening on one page, in a window of its own beside the work. Nothing is fetched for it."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QTextCharFormat, QTextCursor, QTextDocument, QTextFormat
from PySide6.QtWidgets import QDialog, QTextBrowser, QVBoxLayout, QWidget

from floorplan_circuits.home.resources import folder

if TYPE_CHECKING:
    from floorplan_circuits.desktop.window import Window

WIDE, HIGH, INSET = 680, 760, 18
OFF_EDGES = 80
"""How much lower than the screen the page is at least, in px: its frame has a title too."""
HEADS, AIR = (15.0, 11.0), 12
"""Sizes of heads by their level, in pt, and the room above one, in px."""


class HelpPage(QDialog):
    """Shows the page; the work goes on beside it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle("The first evening")
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.page = QTextBrowser()
        self.page.setObjectName("page")
        self.page.setAccessibleName("The first evening")
        self.page.document().setDocumentMargin(INSET)
        self.page.setMarkdown((folder("resources") / "help" / "first_evening.md").read_text(encoding="utf-8"))
        _space_heads(self.page.document())
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.page)
        self.resize(WIDE, min(HIGH, self.screen().availableGeometry().height() - OFF_EDGES))


def _space_heads(document: QTextDocument) -> None:
    """Give heads the sizes of the window's own, and some air above."""
    block = document.begin()
    while block.isValid():
        level = block.blockFormat().headingLevel()
        if level:
            cursor = QTextCursor(block)
            cursor.movePosition(QTextCursor.MoveOperation.EndOfBlock, QTextCursor.MoveMode.KeepAnchor)
            letters, spaced = QTextCharFormat(), block.blockFormat()
            letters.setProperty(QTextFormat.Property.FontSizeAdjustment, 0)
            letters.setFontPointSize(HEADS[min(level, len(HEADS)) - 1])
            letters.setFontWeight(QFont.Weight.Bold)
            spaced.setTopMargin(0 if level == 1 else AIR)
            spaced.setBottomMargin(4)
            cursor.mergeCharFormat(letters)
            cursor.setBlockFormat(spaced)
        block = block.next()


def add_help(window: "Window") -> None:
    """Add the menu that opens the page; it needs no home."""
    menu = window.menuBar().addMenu("&Help")
    action = menu.addAction("The first &evening")
    action.setShortcut("F1")
    action.triggered.connect(lambda _checked=False: show_help(window))


def show_help(window: "Window") -> None:
    """Show the page, or bring the one that is open to the front."""
    page = next((page for page in window.findChildren(HelpPage) if page.isVisible()), None) or HelpPage(window)
    page.show()
    page.raise_()
    page.activateWindow()
