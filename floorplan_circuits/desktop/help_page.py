"""Help: the first evening on one page, in a window of its own beside the work. Nothing is fetched for it."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QTextBrowser, QVBoxLayout, QWidget

from floorplan_circuits.home.resources import folder

if TYPE_CHECKING:
    from floorplan_circuits.desktop.window import Window

WIDE, HIGH, INSET = 620, 720, 18


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
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.page)
        self.resize(WIDE, HIGH)


def add_help(window: "Window") -> None:
    """Add the menu that opens the page; it needs no home."""
    menu = window.menuBar().addMenu("&Help")
    action = menu.addAction("The first &evening")
    action.setShortcut("F1")
    action.triggered.connect(lambda _checked=False: HelpPage(window).show())
