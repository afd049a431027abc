"""Printing: the real PDF of a sheet, previewed page by page, printed, or saved where the person says."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QTimer
from PySide6.QtPdf import QPdfDocument
from PySide6.QtPdfWidgets import QPdfView
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from floorplan_circuits.desktop.print_choices import PrintChoices
from floorplan_circuits.desktop.session import Session
from floorplan_circuits.desktop.sheet_maker import Made, SheetMaker
from floorplan_circuits.drawing.sheet import Sheet
from floorplan_circuits.printing import SHEETS, CannotPrint

SHOW_PROGRESS_MS = 1000
"""A sheet that takes longer says which page is at hand, and can be stopped."""
NOTHING = "Nothing to print yet. Draw a room or fill the panel."


class PrintView(QWidget):
    """The preview: what to print above, the PDF itself below."""

    def __init__(self, say: Callable[[str], None]) -> None:
        super().__init__()
        self.setObjectName("first")
        self._say = say
        self._session: Session | None = None
        self._handles: frozenset[int] = frozenset()
        self._shown: Made | None = None
        self._page = ""
        self._data = QByteArray()
        self._buffer = QBuffer(self)
        self.document = QPdfDocument(self)
        self.view = QPdfView(self)
        self.view.setDocument(self.document)
        self.view.setPageMode(QPdfView.PageMode.MultiPage)
        self.view.setZoomMode(QPdfView.ZoomMode.FitInView)
        self.view.setAccessibleName("The printed pages")
        self.choices, self.maker = PrintChoices(), SheetMaker(self)
        self.save_button, self.print_button = QPushButton("Save…"), QPushButton("Print…")
        self.save_button.setObjectName("action")
        self.print_button.setObjectName("action")
        self.cancel_button = QPushButton("Cancel")
        self.cancel_button.setObjectName("plain")
        self.notes = QLabel()
        self.notes.setObjectName("caption")
        self.notes.setWordWrap(True)
        self._slow = QTimer(self)
        self._slow.setSingleShot(True)
        self._slow.setInterval(SHOW_PROGRESS_MS)
        self._lay_out()
        self.choices.changed.connect(self.refresh)
        self.save_button.clicked.connect(self.ask_where)
        self.print_button.clicked.connect(self.ask_printer)
        self.cancel_button.clicked.connect(self.cancel)
        self.maker.made.connect(self._on_made)
        self.maker.refused.connect(self._on_refused)
        self.maker.began.connect(self._on_began)
        self._slow.timeout.connect(self._show_progress)
        self._settled()

    def _lay_out(self) -> None:
        row, under = QHBoxLayout(), QHBoxLayout()
        row.setContentsMargins(16, 10, 16, 0)
        row.addWidget(self.choices, 1)
        row.addWidget(self.print_button)
        row.addWidget(self.save_button)
        under.setContentsMargins(16, 4, 16, 8)
        under.addWidget(self.notes, 1)
        under.addWidget(self.cancel_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(row)
        column.addLayout(under)
        column.addWidget(self.view, 1)

    def show_home(self, session: Session, handles: frozenset[int] = frozenset()) -> None:
        """Preview a sheet of a home, on the paper of its part of the world; a shut-off with these handles if any."""
        self._handles = handles
        self.choices.show_home(session.home, anew=session is not self._session)
        self._session = session
        self.refresh()

    # --- making -------------------------------------------------------------------------------------------------------

    @property
    def is_making(self) -> bool:
        """Whether a sheet is on its way."""
        return not self._is_settled

    def refresh(self) -> None:
        """Have the sheet made anew; it is shown once it is there."""
        session = self._session
        if session is None:
            return
        self._is_settled, self._page = False, ""
        self.save_button.setEnabled(False)
        self.print_button.setEnabled(False)
        self._slow.start()
        pictures = dict(session.pictures)
        wanted = replace(self.choices.wanted(), boxes=session.view.picked, handles=self._handles)
        self.maker.ask(session.home, session.view.layer, session.findings, pictures, wanted)

    def cancel(self) -> None:
        """Stop what is being made: nothing is shown that is not about what is chosen."""
        self.maker.stop()
        self._show_nothing("Stopped. Choose what to print again to make it.")

    def _settled(self) -> None:
        self._is_settled = True
        self._slow.stop()
        self.cancel_button.hide()

    def _on_began(self, page: str) -> None:
        self._page = page
        if self.cancel_button.isVisible():
            self._show_progress()

    def _show_progress(self) -> None:
        """Say which page is at hand, and let it be stopped."""
        if self.is_making:
            self.cancel_button.show()
            self.notes.setText(f"Making {self._page}…" if self._page else "Finding out what is known…")

    def _on_refused(self, why: str) -> None:
        self._show_nothing(why)

    def _on_made(self, made: Made) -> None:
        if not made.sheet.pages:
            self._show_nothing(NOTHING)
            return
        self._settled()
        self._shown = made
        self._load(made.pdf)
        self.save_button.setEnabled(True)
        self.print_button.setEnabled(True)
        self.notes.setText(_notes(made.sheet))

    def _show_nothing(self, why: str) -> None:
        self._settled()
        self._shown = None
        self._load(b"")
        self.notes.setText(why)

    def _load(self, pdf: bytes) -> None:
        self.document.close()
        self._buffer.close()
        if pdf:
            self._data = QByteArray(pdf)
            self._buffer.setData(self._data)
            self._buffer.open(QIODevice.OpenModeFlag.ReadOnly)
            self.document.load(self._buffer)

    # --- out ----------------------------------------------------------------------------------------------------------

    def ask_where(self) -> None:
        """Let the person choose where it goes, and as what."""
        from floorplan_circuits.desktop.paper_out import FILTERS

        name = self._shown.wanted.sheet if self._shown is not None else "sheet"
        path, chosen = QFileDialog.getSaveFileName(self, "Save the sheet", f"{name}.pdf", FILTERS)
        if path:
            ending = chosen.rpartition("*")[2].rstrip(")") or ".pdf"
            self.save(Path(path) if Path(path).suffix else Path(path + ending))

    def save(self, path: Path) -> None:
        """Write what is shown, as a PDF, an SVG or a PNG by the ending of the name."""
        from floorplan_circuits.desktop.paper_out import files_to_write
        from floorplan_circuits.files.atomic import WRITE_FAULTS, write_whole

        if self._shown is None or self._session is None:
            return
        try:
            files = files_to_write(self._shown, self.document, path, self._session.pictures)
            for name, content in files:
                write_whole(name, content)
        except CannotPrint as error:
            self._say(str(error))
            return
        except WRITE_FAULTS as error:
            self._say(f"{path.name} can’t be written: {error}. Choose another folder or name.")
            return
        what = SHEETS[self._shown.wanted.sheet]
        names = files[0][0].name + (f" to {files[-1][0].name}" if len(files) > 1 else "")
        self._say(f"{what} saved: {names}. A map can be wrong: test before you touch.")

    def ask_printer(self) -> None:
        """Let the person choose a printer, then print what is shown."""
        from PySide6.QtPrintSupport import QPrintDialog, QPrinter  # late: it looks for printers

        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        if QPrintDialog(printer, self).exec() == QPrintDialog.DialogCode.Accepted:
            self.print_on(printer)

    def print_on(self, printer: object) -> None:
        """Print what is shown, at its true size."""
        from PySide6.QtPrintSupport import QPrinter

        from floorplan_circuits.desktop.paper_out import print_pages

        assert isinstance(printer, QPrinter)
        if self._shown is None:
            return
        what = SHEETS[self._shown.wanted.sheet]
        if print_pages(self.document, printer):
            self._say(f"{what} sent to the printer. Print it at 100 %, or its scale is not what it says.")
        else:
            self._say("The printer did not take it. Look whether it is on, or save a PDF and print that.")


def _notes(sheet: Sheet) -> str:
    """Return what the pages could not say in full."""
    notes = list(sheet.notes)
    notes += [f"Shortened: {', '.join(sheet.shortened)}."] if sheet.shortened else []
    notes += [f"No room for the labels of {', '.join(sheet.not_placed)}."] if sheet.not_placed else []
    return " ".join(notes) or ("1 page." if len(sheet.pages) == 1 else f"{len(sheet.pages)} pages.")
