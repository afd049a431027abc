"""From the PDF that is shown to a printer, to pictures, and to files: the very pages of the preview."""

from collections.abc import Callable, Mapping
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMarginsF, QRectF, QSize, QSizeF, Qt
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter
from PySide6.QtPdf import QPdfDocument
from PySide6.QtPrintSupport import QPrinter

from floorplan_circuits.desktop.sheet_maker import Made
from floorplan_circuits.sheet_files import files_of, numbered

POINTS_AN_INCH = 72.0
PICTURE_DPI, MOST_PRINTED_DPI = 200, 300
LARGEST_PX = 10_000
"""Most pixels along a page's edge: past it a picture of a plotter's sheet would not fit the memory."""
FILTERS = "PDF (*.pdf);;SVG, a file a page (*.svg);;PNG, a file a page (*.png)"


def page_picture(document: QPdfDocument, page: int, dpi: float) -> QImage:
    """Return one page as a picture on white, at `dpi` or as many as fit."""
    size = document.pagePointSize(page)
    pixels = min(dpi / POINTS_AN_INCH, LARGEST_PX / max(size.width(), size.height(), 1.0))
    drawn = document.render(page, QSize(round(size.width() * pixels), round(size.height() * pixels)))
    picture = QImage(drawn.size(), QImage.Format.Format_RGB32)
    picture.fill(Qt.GlobalColor.white)
    painter = QPainter(picture)
    painter.drawImage(0, 0, drawn)
    painter.end()
    per_metre = round(pixels * POINTS_AN_INCH / 0.0254)
    picture.setDotsPerMeterX(per_metre)
    picture.setDotsPerMeterY(per_metre)
    return picture


def print_pages(document: QPdfDocument, printer: QPrinter) -> bool:
    """Print every page at its true size, each on its own paper; return whether the printer took them."""
    printer.setFullPage(True)
    painter = QPainter()
    for page in range(document.pageCount()):
        printer.setPageLayout(_layout(document.pagePointSize(page)))
        if page == 0:
            if not painter.begin(printer):
                return False
        elif not printer.newPage():
            painter.end()
            return False
        picture = page_picture(document, page, min(printer.resolution(), MOST_PRINTED_DPI))
        size = document.pagePointSize(page)
        pixels = printer.resolution() / POINTS_AN_INCH
        painter.drawImage(QRectF(0, 0, size.width() * pixels, size.height() * pixels), picture)
    return painter.end() if painter.isActive() else False


def _layout(size: QSizeF) -> QPageLayout:
    """Return the paper of a page this large in points, without margins: the page has its own."""
    lies = size.width() > size.height()
    paper = QPageSize(
        size.transposed() if lies else size, QPageSize.Unit.Point, "", QPageSize.SizeMatchPolicy.FuzzyMatch
    )
    way = QPageLayout.Orientation.Landscape if lies else QPageLayout.Orientation.Portrait
    return QPageLayout(paper, way, QMarginsF(0, 0, 0, 0))


def files_to_write(
    made: Made, document: QPdfDocument, path: Path, pictures: Mapping[str, bytes]
) -> list[tuple[Path, bytes]]:
    """Return the files for the chosen name and what is in them. Raises `CannotPrint` for an ending of another kind."""
    ways: dict[str, Callable[[], list[tuple[Path, bytes]]]] = {
        ".pdf": lambda: [(path, made.pdf)],
        ".png": lambda: [
            (name, _png(page_picture(document, page, PICTURE_DPI)))
            for page, name in enumerate(numbered(path, document.pageCount()))
        ],
    }
    return ways.get(path.suffix.lower(), lambda: files_of(made.sheet, path, pictures))()


def _png(picture: QImage) -> bytes:
    data = QByteArray()
    buffer = QBuffer(data)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    picture.save(buffer, "PNG")  # type: ignore[call-overload]  # a buffer is a device, which Qt's stubs leave out
    return bytes(data.data())
