"""The mains over the panel's face: the same ink as on paper. While handles are flipped, buttons stand in its place."""

from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from floorplan_circuits.desktop.camera import PX_PER_MM
from floorplan_circuits.desktop.ink_painter import Compiled, compiled, paint
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.power import Panel
from floorplan_circuits.sheets.mains_band import STAYS_LIVE, mains_band, mains_height

INSET = 16


class MainsBand(QWidget):
    """Paints one row a main: its number, its rating, and that the wires above it stay live."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("mains")
        self.theme: Theme = LIGHT
        self._shown: tuple[Findings, Panel] | None = None
        self._ink: Compiled | None = None
        self._stands_back = False

    def show_mains(self, findings: Findings | None, panel: Panel | None) -> None:
        """Show the mains of a panel; of one without any, nothing."""
        self._shown = (findings, panel) if findings is not None and panel is not None and panel.mains else None
        if self._shown is not None and panel is not None:
            self.setFixedHeight(round(mains_height(panel) * PX_PER_MM) + 2)
        self._draw()

    def stand_back(self, back: bool) -> None:
        """Make room for the buttons that flip the mains, or come back."""
        self._stands_back = back
        self.setVisible(self._shown is not None and not back)

    def _draw(self) -> None:
        self.setVisible(self._shown is not None and not self._stands_back)
        wide = (self.width() - 2 * INSET) / PX_PER_MM
        if self._shown is None or wide <= 0:
            return
        findings, panel = self._shown
        ink, _ = mains_band(findings, panel, wide, self.theme)
        self._ink = compiled(ink)
        called = (findings.marks.get(main.id, "main") for main in panel.mains)
        self.setAccessibleName(f"{', '.join(called)}: {STAYS_LIVE[0]}")
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802  # Qt's name
        """Draw the mains anew for the new width."""
        self._draw()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802  # Qt's name
        """Paint the mains."""
        if self._ink is not None:
            paint(QPainter(self), self._ink.ops, PX_PER_MM, INSET, 1)
