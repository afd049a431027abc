"""Printing: the real PDF of a sheet, previewed page by page, saved where the person says."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice
from PySide6.QtPdf import QPdfDocument
from PySide6.QtPdfWidgets import QPdfView
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from floorplan_circuits.desktop.fields import Choice
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.drawing.palette import GREY, PAPER
from floorplan_circuits.drawing.sheet import Sheet
from floorplan_circuits.sheets.paper import PAPERS

PAPER_WORDS = {"letter": "Letter", "legal": "Legal", "tabloid": "Tabloid", "a4": "A4", "a3": "A3"}


def wall_map_sheet(session: Session, paper: str, grey: bool) -> Sheet:
    """Return the wall map of the home as it is now, computed to the end."""
    from floorplan_circuits.sheets.wall_map import wall_map

    return wall_map(session.find_now(), PAPERS[paper], date.today().isoformat(), GREY if grey else PAPER)


def pdf_bytes(session: Session, sheet: Sheet) -> bytes:
    """Return the sheet as a PDF."""
    from floorplan_circuits.surfaces.pdf import pdf_of  # late: the PDF library must not delay the first frame

    return pdf_of(sheet, session.pictures)


class PrintView(QWidget):
    """The preview: paper and colour above, the PDF itself below."""

    def __init__(self, say: Callable[[str], None]) -> None:
        super().__init__()
        self.setObjectName("first")
        self._say = say
        self._session: Session | None = None
        self._bytes = b""
        self._data = QByteArray()
        self._buffer = QBuffer(self)
        self.document = QPdfDocument(self)
        self.view = QPdfView(self)
        self.view.setDocument(self.document)
        self.view.setPageMode(QPdfView.PageMode.MultiPage)
        self.view.setZoomMode(QPdfView.ZoomMode.FitInView)
        self.view.setAccessibleName("The printed pages")
        self.paper, self.colour = Choice("Paper"), Choice("Colour or grey", ("Colour", "Grey"), "Colour")
        for key, words in PAPER_WORDS.items():
            self.paper.addItem(words, key)
        self.save_button = QPushButton("Save as PDF…")
        self.save_button.setObjectName("action")
        self.notes = QLabel()
        self.notes.setObjectName("caption")
        self.notes.setWordWrap(True)
        row = QHBoxLayout()
        row.setContentsMargins(16, 10, 16, 10)
        for widget in (self.paper, self.colour, self.notes):
            row.addWidget(widget, 1 if widget is self.notes else 0)
        row.addWidget(self.save_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(row)
        column.addWidget(self.view, 1)
        self.paper.activated.connect(self.refresh)
        self.colour.activated.connect(self.refresh)
        self.save_button.clicked.connect(self.ask_where)

    def show_home(self, session: Session) -> None:
        """Preview a home's wall map, on the paper of its part of the world."""
        if session is not self._session:
            self.paper.setCurrentText("A4" if session.home.units == "metric" else "Letter")
        self._session = session
        self.refresh()

    def refresh(self) -> None:
        """Make the PDF anew and show it."""
        session = self._session
        if session is None:
            return
        sheet = wall_map_sheet(session, self.paper.currentData(), self.colour.currentText() == "Grey")
        self.document.close()
        self._buffer.close()
        self.save_button.setEnabled(bool(sheet.pages))
        if not sheet.pages:
            self.notes.setText("Nothing to print yet. Draw a room or fill the panel.")
            self._bytes = b""
            return
        self._bytes = pdf_bytes(session, sheet)
        self._data = QByteArray(self._bytes)
        self._buffer.setData(self._data)
        self._buffer.open(QIODevice.OpenModeFlag.ReadOnly)
        self.document.load(self._buffer)
        self.notes.setText(_notes(sheet))

    def ask_where(self) -> None:
        """Let the person choose where the PDF goes."""
        name, _ = QFileDialog.getSaveFileName(self, "Save the wall map", "wall-map.pdf", "PDF (*.pdf)")
        if name:
            self.save(Path(name))

    def save(self, path: Path) -> None:
        """Write the PDF that is shown."""
        from floorplan_circuits.files.atomic import WRITE_FAULTS, write_whole

        try:
            write_whole(path, self._bytes)
        except WRITE_FAULTS as error:
            self._say(f"{path.name} can’t be written: {error}. Choose another folder or name.")
            return
        self._say(f"Wall map saved: {path.name}. A map can be wrong: test before you touch.")


def _notes(sheet: Sheet) -> str:
    """Return what the page could not say in full."""
    notes = [f"Shortened: {', '.join(sheet.shortened)}."] if sheet.shortened else []
    notes += [f"No room for the labels of {', '.join(sheet.not_placed)}."] if sheet.not_placed else []
    return " ".join(notes) or ("1 page." if len(sheet.pages) == 1 else f"{len(sheet.pages)} pages.")
