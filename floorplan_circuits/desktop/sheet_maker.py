"""Makes a sheet and its PDF off the window's thread, says which page is at hand, and can be stopped."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from threading import Event

from PySide6.QtCore import QObject, Signal

from floorplan_circuits.desktop.newest import Newest
from floorplan_circuits.drawing.sheet import Sheet
from floorplan_circuits.findings import Findings, Layer
from floorplan_circuits.home.home import Home
from floorplan_circuits.printing import CannotPrint, Wanted


@dataclass(frozen=True, slots=True)
class Made:
    """A sheet as it was wanted, and the PDF of it, empty for a sheet without pages."""

    wanted: Wanted
    sheet: Sheet
    pdf: bytes


class Stopped(Exception):
    """Nobody waits for this sheet any more."""


class SheetMaker(QObject):
    """Makes the newest sheet that was asked for. `made` brings a `Made`, `refused` a sentence why there is none."""

    made = Signal(object)
    refused = Signal(str)
    began = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._making = Newest("sheet", daemon=True)
        self._stop = Event()

    def ask(
        self, home: Home, layer: Layer, findings: Findings | None, pictures: Mapping[str, bytes], wanted: Wanted
    ) -> None:
        """Ask for a sheet of a home; an older request ends at its next page. `findings` serve if they are about it."""
        self.stop()
        self._stop = stop = Event()
        self._making.ask(lambda: self._make(home, layer, findings, pictures, wanted, stop))

    def stop(self) -> None:
        """Let what is being made end at its next page: nothing is heard of it any more."""
        self._stop.set()

    def _make(
        self,
        home: Home,
        layer: Layer,
        findings: Findings | None,
        pictures: Mapping[str, bytes],
        wanted: Wanted,
        stop: Event,
    ) -> None:
        from floorplan_circuits.find import find  # late: neither shapely nor the PDF library may delay the first frame
        from floorplan_circuits.printing import make_sheet
        from floorplan_circuits.surfaces.pdf import pdf_of

        def tell(page: str) -> None:
            if stop.is_set():
                raise Stopped
            self._emit(self.began, page)

        try:
            found = findings if findings is not None and _are_of(findings, home, layer) else find(home, findings, layer)
            sheet = make_sheet(found, wanted, date.today().isoformat(), tell)
            pdf = pdf_of(sheet, pictures) if sheet.pages else b""
        except Stopped:
            return
        except CannotPrint as error:
            if not stop.is_set():
                self._emit(self.refused, str(error))
            return
        if not stop.is_set():
            self._emit(self.made, Made(wanted, sheet, pdf))

    @staticmethod
    def _emit(signal: object, value: object) -> None:
        try:
            signal.emit(value)  # type: ignore[attr-defined]  # Qt's bound signals have no type of their own
        except RuntimeError:  # Qt has deleted this object, its window being closed: nobody waits for the sheet
            return


def _are_of(findings: Findings, home: Home, layer: Layer) -> bool:
    return findings.home is home and findings.layer == layer
