"""The panel's face in the window: the same ink as on paper, with what a click or the pointer names."""

from PySide6.QtCore import QPointF, QRectF, QSize, QSizeF, Qt, Signal
from PySide6.QtGui import QColor, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from floorplan_circuits.desktop.canvas import PX_PER_MM
from floorplan_circuits.desktop.ink_painter import Compiled, compiled, paint
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.drawing.panel_face import Face, FaceStyle, face_rows, panel_face
from floorplan_circuits.findings import Findings, Subject
from floorplan_circuits.home.power import Panel

INSET = 16
LEAST_ROW_MM, MOST_ROW_MM = 7.6, 12.0


class PanelView(QWidget):
    """Draws one panel's face as wide as the pane, rows as high as there is room."""

    breaker_clicked = Signal(object)
    breaker_hovered = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("panel")
        self.setAccessibleName("Face of the panel")
        self.setMouseTracking(True)
        self.theme: Theme = LIGHT
        self._findings: Findings | None = None
        self._panel: Panel | None = None
        self._face: Face | None = None
        self._ink: Compiled | None = None
        self._ringed: frozenset[Subject] = frozenset()
        self._hovered: Subject | None = None

    def show_panel(self, findings: Findings | None, panel: Panel | None) -> None:
        """Show a panel, or none."""
        self._findings, self._panel, self._face = findings, panel, None
        rows = face_rows(findings, panel) if findings and panel else 1
        self.setMinimumHeight(round(rows * LEAST_ROW_MM * PX_PER_MM) + 8)
        self.update()

    def ring(self, subjects: frozenset[Subject]) -> None:
        """Draw a ring round these breakers' rows."""
        self._ringed = subjects
        self.update()

    def _drawn(self) -> Face | None:
        if self._face is None and self._findings is not None and self._panel is not None:
            rows = face_rows(self._findings, self._panel)
            row = min(max((self.height() - 8) / PX_PER_MM / rows, LEAST_ROW_MM), MOST_ROW_MM)
            style = FaceStyle((self.width() - 2 * INSET) / PX_PER_MM, row, self.theme, on_screen=True)
            self._face = panel_face(self._findings, self._panel, style)
            self._ink = compiled(self._face.ink)
        return self._face

    def sizeHint(self) -> QSize:  # noqa: N802  # Qt's name
        """Return the size LOOK gives the pane."""
        return QSize(364, 600)

    def resizeEvent(self, event: object) -> None:  # noqa: N802  # Qt's name
        """Draw the face anew for the new width."""
        self._face = None

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802  # Qt's name
        """Paint the face and the rings."""
        painter = QPainter(self)
        face = self._drawn()
        if face is None or self._ink is None:
            return
        paint(painter, self._ink.ops, PX_PER_MM, INSET, 4)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(self.theme.ink), 2.5))
        for (left, top, right, bottom), subject in face.spots:
            if subject in self._ringed:
                corner = QPointF(left * PX_PER_MM + INSET, top * PX_PER_MM + 4)
                size = QSizeF((right - left) * PX_PER_MM, (bottom - top) * PX_PER_MM)
                painter.drawRoundedRect(QRectF(corner, size), 5, 5)

    def _at(self, event: QMouseEvent) -> Subject | None:
        face = self._drawn()
        x, y = (event.position().x() - INSET) / PX_PER_MM, (event.position().y() - 4) / PX_PER_MM
        spots = face.spots if face is not None else []
        inside = (subject for (left, top, right, bottom), subject in spots if left <= x < right and top <= y < bottom)
        return next(inside, None)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """Tell which breaker the pointer is on."""
        subject = self._at(event)
        if subject != self._hovered:
            self._hovered = subject
            self.breaker_hovered.emit(subject)

    def leaveEvent(self, event: object) -> None:  # noqa: N802  # Qt's name
        """Tell that the pointer left."""
        self._hovered = None
        self.breaker_hovered.emit(None)

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """Tell which breaker was clicked."""
        self.breaker_clicked.emit(self._at(event))
