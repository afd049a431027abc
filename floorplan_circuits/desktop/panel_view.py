"""The panel's face in the window: the same ink as on paper, with what a click or the pointer names."""

from bisect import bisect_right

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, QSizeF, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from floorplan_circuits.desktop.camera import PX_PER_MM
from floorplan_circuits.desktop.ink_painter import Compiled, compiled, paint
from floorplan_circuits.desktop.panel_keys import ARROWS, gone_to
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.drawing.panel_face import NUMBER, Face, FaceStyle, face_rows, panel_face
from floorplan_circuits.findings import Findings, PanelFinding, Subject, WhatIf
from floorplan_circuits.home.power import Panel

INSET, TOP = 16, 4
LEAST_ROW_MM, MOST_ROW_MM = 7.6, 12.0


class PanelView(QWidget):
    """Draws one panel's face as wide as the pane, rows as high as there is room."""

    breaker_clicked = Signal(object)
    breaker_hovered = Signal(object)
    space_clicked = Signal(int, object)
    """A space without a breaker was clicked: its number, and its half or None."""
    breaker_opened = Signal(object)
    """A breaker was double-clicked, to be typed anew."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("panel")
        self.setAccessibleName("Face of the panel")
        self.setAccessibleDescription("Arrows go from space to space, Enter takes or types a breaker.")
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.theme: Theme = LIGHT
        self._findings: Findings | None = None
        self._panel: Panel | None = None
        self._what_if: WhatIf | None = None
        self._face: Face | None = None
        self._drawn_in: Theme | None = None
        self._ink: Compiled | None = None
        self._ringed: frozenset[Subject] = frozenset()
        self._hovered: Subject | None = None
        self._space: int | None = None
        """The space the keys are at."""

    def show_panel(self, findings: Findings | None, panel: Panel | None, what_if: WhatIf | None = None) -> None:
        """Show a panel, as it looks with handles off where there are any, or none."""
        if findings is None or panel is None or what_if is not self._what_if or not self._shows(findings, panel):
            self._face = None
        self._findings, self._panel, self._what_if = findings, panel, what_if
        rows = face_rows(findings, panel) if findings and panel else 1
        self.setMinimumHeight(round(rows * LEAST_ROW_MM * PX_PER_MM) + 8)
        self.update()

    def _shows(self, findings: Findings, panel: Panel) -> bool:
        """Tell whether the face that is drawn would come out the same: an edit of the plan leaves it as it was."""
        was = self._findings
        return (
            was is not None
            and self._panel is panel
            and was.conclusions is findings.conclusions
            and was.home.breakers is findings.home.breakers
            and (was.lines, was.colours) == (findings.lines, findings.colours)
            and self._drawn_in is self.theme
        )

    def ring(self, subjects: frozenset[Subject]) -> None:
        """Draw a ring round these breakers' rows."""
        self._ringed = subjects
        self.update()

    def _drawn(self) -> Face | None:
        if self._face is None and self._findings is not None and self._panel is not None:
            rows = face_rows(self._findings, self._panel)
            row = min(max((self.height() - 8) / PX_PER_MM / rows, LEAST_ROW_MM), MOST_ROW_MM)
            style = FaceStyle((self.width() - 2 * INSET) / PX_PER_MM, row, self.theme, on_screen=True)
            self._face = panel_face(self._findings, self._panel, style, self._what_if)
            self._ink, self._drawn_in = compiled(self._face.ink), self.theme
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
        paint(painter, self._ink.ops, PX_PER_MM, INSET, TOP)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(self.theme.ink), 2.5))
        for (left, top, right, bottom), subject in face.spots:
            if subject in self._ringed:
                corner = QPointF(left * PX_PER_MM + INSET, top * PX_PER_MM + TOP)
                size = QSizeF((right - left) * PX_PER_MM, (bottom - top) * PX_PER_MM)
                painter.drawRoundedRect(QRectF(corner, size), 5, 5)
        if self.hasFocus() and self._space is not None:
            painter.setPen(QPen(QColor(self.theme.ink), 2, Qt.PenStyle.DotLine))
            painter.drawRoundedRect(QRectF(self.area_of(self._space)).adjusted(-3, 0, 2, 0), 5, 5)

    def _at(self, event: QMouseEvent) -> Subject | None:
        face = self._drawn()
        x, y = (event.position().x() - INSET) / PX_PER_MM, (event.position().y() - TOP) / PX_PER_MM
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
        """Tell which breaker, or which empty space, was clicked."""
        subject = self._at(event)
        if subject is not None:
            self.breaker_clicked.emit(subject)
            return
        space = self.space_at(event.position())
        if space is not None:
            self.space_clicked.emit(*space)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """Open a breaker to type it anew."""
        subject = self._at(event)
        if subject is not None:
            self.breaker_opened.emit(subject)

    # --- keys -------------------------------------------------------------------------------------------------------

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802  # Qt's name
        """Begin at the first space."""
        super().focusInEvent(event)
        grid = self._grid()
        if grid is not None and (self._space is None or self._space not in grid.cells):
            self._space = gone_to(grid.cells, None, Qt.Key.Key_Down)
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802  # Qt's name
        """Go by the arrows; Enter does what a click on the space does."""
        grid, key = self._grid(), Qt.Key(event.key())
        if grid is not None and key in ARROWS:
            self._space = gone_to(grid.cells, self._space, key)
            self.breaker_hovered.emit(self._breaker_at_keys(grid))
            self.update()
        elif grid is not None and self._space is not None and key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            subject = self._breaker_at_keys(grid)
            if subject is not None:
                self.breaker_clicked.emit(subject)
            else:
                self.space_clicked.emit(self._space, None)
        else:
            super().keyPressEvent(event)

    def _breaker_at_keys(self, grid: PanelFinding) -> Subject | None:
        taken = (number for (space, _), number in grid.taken.items() if space == self._space)
        number = next(taken, None)
        return Subject("breaker", number) if number is not None else None

    def _grid(self) -> PanelFinding | None:
        if self._findings is None or self._panel is None:
            return None
        return self._findings.panels.get(self._panel.id)

    # --- where spaces are -------------------------------------------------------------------------------------------

    def space_at(self, at: QPointF) -> tuple[int, str | None] | None:
        """Return the empty space under a place of the widget, and its half if its other half is taken."""
        face = self._drawn()
        if face is None or self._findings is None or self._panel is None:
            return None
        grid = self._findings.panels[self._panel.id]
        x, y = (at.x() - INSET) / PX_PER_MM, (at.y() - TOP) / PX_PER_MM
        column = int(grid.columns == 2 and x > (self.width() / 2 - INSET) / PX_PER_MM)
        half_row = bisect_right(face.edges, y) - 1
        wanted = (half_row // 2, column)
        space = next((number for number, cell in grid.cells.items() if cell == wanted), None)
        if space is None:
            return None
        half = "B" if half_row % 2 else "A"
        other = "B" if half == "A" else "A"
        return space, half if (space, other) in grid.taken else None

    def area_of(self, space: int, half: str | None = None) -> QRect:
        """Return where a space's words stand in the widget, in pixels, for typing over them."""
        face = self._drawn()
        if face is None or self._findings is None or self._panel is None:
            return QRect(0, 0, 10, 10)
        grid = self._findings.panels[self._panel.id]
        row, column = grid.cells[space]
        high = (face.edges[2 * row + 2] - face.edges[2 * row]) * PX_PER_MM
        wide = (self.width() - 2 * INSET) / grid.columns
        top = TOP + face.edges[2 * row] * PX_PER_MM + (high / 2 if half == "B" else 0)
        number = round(NUMBER * PX_PER_MM)
        left = INSET + column * wide
        words = wide - number - 28
        x = left + number + 2 if column == 0 else left + 26
        return QRect(round(x), round(top + 1), round(words), round(high / 2 if half else high) - 2)
