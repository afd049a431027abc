"""The panel's photo in the window: its four corners to be dragged while it is as taken, its numbers once straight."""

from collections.abc import Mapping
from math import dist

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from floorplan_circuits.desktop.camera import PX_PER_MM
from floorplan_circuits.desktop.ink_painter import NO_PICTURES, compiled, paint
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.drawing.panel_photo import (
    PhotoDrawn,
    Tag,
    grid_lines,
    panel_photo,
    photo_as_taken,
    photo_grid,
    tag_at,
    tag_bounds,
)
from floorplan_circuits.findings import XY, Findings, Subject
from floorplan_circuits.home.power import Panel
from floorplan_circuits.home.record import change

INSET, REACH, GRIP, RING_OUT = 16, 24, 8, 3
FIRST_GUESS = ((0.28, 0.15), (0.72, 0.15), (0.72, 0.85), (0.28, 0.85))
"""Where the corners lie before anybody marked them, in parts of the photo."""
STEPS = {Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1)}
FAR = 10
"""How many pixels of the photo an arrow moves a corner with Shift held."""


OUTLINE = (LIGHT.paper, 5.0), (LIGHT.ink, 2.0)
"""A light line under a dark one: whatever the photo shows, one of them stands out."""


class PhotoCanvas(QWidget):
    """Paints the photo of one panel, and tells what the hand does to it. `marking`: its corners are being marked."""

    corners_marked = Signal(object)
    tag_moved = Signal(int, object, object)
    breaker_clicked = Signal(object)

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName("Photo of the panel")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(200, 160)
        self.theme: Theme = LIGHT
        self.marking = False
        self.ringed: frozenset[Subject] = frozenset()
        self._findings: Findings | None = None
        self._panel: Panel | None = None
        self._pictures: Mapping[str, bytes] = NO_PICTURES
        self._corners: list[XY] = []
        self._grip: int | None = None
        self._chosen = 0
        """The corner that the arrow keys move."""
        self._tag: Tag | None = None
        self._pressed = self._at = QPointF()

    def show_panel(self, findings: Findings, panel: Panel, pictures: Mapping[str, bytes], marking: bool) -> None:
        """Show the photo of a panel."""
        self._findings, self._panel, self._pictures, self.marking = findings, panel, pictures, marking
        wide, high = panel.photo_fit.pixels
        marked = panel.photo_fit.corners or tuple((x * wide, y * high) for x, y in FIRST_GUESS)
        self._corners = [(float(x), float(y)) for x, y in marked]
        self._grip = self._tag = None
        self.update()

    # --- places -----------------------------------------------------------------------------------------------------

    def drawn(self) -> PhotoDrawn | None:
        """Return the photo as it is drawn now."""
        if self._findings is None or self._panel is None or self._panel.id not in self._findings.panels:
            return None
        room = (self.width() - 2 * INSET) / PX_PER_MM, (self.height() - 2 * INSET) / PX_PER_MM
        if min(room) <= 1:
            return None
        if self.marking:
            return photo_as_taken(self._panel, room)
        return panel_photo(self._findings, self._panel, room)

    def _origin(self, drawn: PhotoDrawn) -> QPointF:
        return QPointF((self.width() - drawn.width * PX_PER_MM) / 2, (self.height() - drawn.height * PX_PER_MM) / 2)

    def _mm(self, at: QPointF, drawn: PhotoDrawn) -> XY:
        off = at - self._origin(drawn)
        return off.x() / PX_PER_MM, off.y() / PX_PER_MM

    def place_of(self, pixel: XY) -> QPointF:
        """Return where in the widget a pixel of the photo is shown, while corners are being marked."""
        drawn = self.drawn()
        assert drawn is not None
        assert self._panel is not None
        per = drawn.width * PX_PER_MM / self._panel.photo_fit.pixels[0]
        return self._origin(drawn) + QPointF(pixel[0] * per, pixel[1] * per)

    def place_of_tag(self, breaker: int) -> QPointF | None:
        """Return where in the widget the number of a breaker stands."""
        drawn = self.drawn()
        tags = {tag.breaker: tag for tag in drawn.tags} if drawn is not None else {}
        if drawn is None or breaker not in tags:
            return None
        x, y = tags[breaker].at
        return self._origin(drawn) + QPointF(x, y) * PX_PER_MM

    def _pixel(self, at: QPointF, drawn: PhotoDrawn) -> XY:
        assert self._panel is not None
        x, y = self._mm(at, drawn)
        wide, high = self._panel.photo_fit.pixels
        return min(max(x / drawn.width, 0.0), 1.0) * wide, min(max(y / drawn.height, 0.0), 1.0) * high

    # --- painting ---------------------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802  # Qt's name
        """Paint the photo, then its corners or the rings of what is selected."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self.theme.furniture))
        drawn = self.drawn()
        if drawn is None:
            return
        at = self._origin(drawn)
        paint(painter, compiled(drawn.ink, self._pictures).ops, PX_PER_MM, at.x(), at.y())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if self.marking:
            self._paint_corners(painter)
        for tag in drawn.tags:
            if Subject("breaker", tag.breaker) in self.ringed:
                self._ring(painter, tag, at)
        if self._tag is not None:
            self._ring(painter, self._tag, at + self._at - self._pressed)

    def _paint_corners(self, painter: QPainter) -> None:
        """Draw the outline of the breakers and a ring at each corner, dark on light, so that any photo shows it."""
        places = [self.place_of(corner) for corner in self._corners]
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(LIGHT.paper), 1.0))
        for a, b in self._grid():
            painter.drawLine(self.place_of(a), self.place_of(b))
        for colour, wide in OUTLINE:
            painter.setPen(QPen(QColor(colour), wide))
            painter.drawPolygon(QPolygonF(places))
            for nth, place in enumerate(places):
                grown = GRIP + 3 if nth == self._chosen else GRIP
                painter.drawEllipse(place, grown, grown)

    def _grid(self) -> list[tuple[XY, XY]]:
        """Return the lines between the spaces, for the corners as they are held now."""
        assert self._findings is not None
        assert self._panel is not None
        grid = self._findings.panels[self._panel.id]
        corners = tuple((max(round(x), 0), max(round(y), 0)) for x, y in self._corners)
        return grid_lines(change(self._panel.photo_fit, corners=corners), *photo_grid(self._panel, grid))

    def _ring(self, painter: QPainter, tag: Tag, at: QPointF) -> None:
        left, top, right, bottom = (edge * PX_PER_MM for edge in tag_bounds(tag))
        ring = QRectF(left, top, right - left, bottom - top).translated(at)
        ring.adjust(-RING_OUT, -RING_OUT, RING_OUT, RING_OUT)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for colour, wide in OUTLINE:
            painter.setPen(QPen(QColor(colour), wide))
            painter.drawRoundedRect(ring, ring.height() / 2, ring.height() / 2)

    # --- the hand ---------------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """Take hold of the nearest corner, or of a number."""
        drawn = self.drawn()
        if drawn is None or event.button() != Qt.MouseButton.LeftButton:
            return
        self._pressed = self._at = event.position()
        if self.marking:
            away = [dist(self.place_of(one).toTuple(), self._at.toTuple()) for one in self._corners]
            near = min(range(4), key=lambda nth: away[nth])
            if away[near] <= REACH:
                self._grip = self._chosen = near
        else:
            self._tag = tag_at(drawn, self._mm(self._at, drawn), 1.0)
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """Drag what is held."""
        drawn = self.drawn()
        self._at = event.position()
        if drawn is not None and self._grip is not None:
            self._corners[self._grip] = self._pixel(self._at, drawn)
        self.update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """Let go: corners are told as they lie now, a number as it was put, one that was not moved as clicked."""
        drawn, tag, grip = self.drawn(), self._tag, self._grip
        self._tag = self._grip = None
        if drawn is None:
            return
        if grip is not None and event.position() != self._pressed:
            self.corners_marked.emit(tuple(self._corners))
        elif tag is not None:
            by = (event.position() - self._pressed) / PX_PER_MM
            if by.manhattanLength() * PX_PER_MM < 4:
                self.breaker_clicked.emit(Subject("breaker", tag.breaker))
            else:
                self.tag_moved.emit(tag.space, tag.half, drawn.part((tag.at[0] + by.x(), tag.at[1] + by.y())))
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802  # Qt's name
        """Choose a corner by 1 to 4, clockwise from the top left, and move it by the arrow keys."""
        key = Qt.Key(event.key())
        if self.marking and event.text() in ("1", "2", "3", "4"):
            self._chosen = int(event.text()) - 1
            self.update()
        elif self.marking and key in STEPS:
            far = FAR if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1
            x, y = self._corners[self._chosen]
            self._corners[self._chosen] = (x + STEPS[key][0] * far, y + STEPS[key][1] * far)
            self.corners_marked.emit(tuple(self._corners))
        else:
            super().keyPressEvent(event)
