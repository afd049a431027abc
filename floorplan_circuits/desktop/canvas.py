"""The canvas: one widget that paints a level's plan, zooms and pans, and says what a click names."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QColor,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from floorplan_circuits.desktop.ink_painter import Compiled, compiled, paint
from floorplan_circuits.drawing.overlays import draft_ink
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.drawing.plan import Plan, what_hits
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.events import Key, Move, Press, Release
from floorplan_circuits.view import Draft

PX_PER_MM = 96 / 25.4
"""At 96 pixels an inch a paper millimetre is this many pixels, before the screen's own scale."""
BAND = 1.12
"""The plan is made anew for a scale once the view has zoomed this far from the one it was made for."""
NEAREST, FARTHEST = 8.0, 4000.0
VEIL = 0.55
BLINK_MS = 200
MARGIN_PX = 26

REACH_PX = 9
NAMED_KEYS = {
    Qt.Key.Key_Escape: "escape",
    Qt.Key.Key_Return: "enter",
    Qt.Key.Key_Enter: "enter",
    Qt.Key.Key_Delete: "delete",
    Qt.Key.Key_Backspace: "backspace",
    Qt.Key.Key_Left: "left",
    Qt.Key.Key_Right: "right",
    Qt.Key.Key_Up: "up",
    Qt.Key.Key_Down: "down",
}
MakePlan = Callable[[float], Plan]


class PlanCanvas(QWidget):
    """Shows one level. It is given a function that makes the plan for a scale, and asks for as few as it can."""

    hand_did = Signal(object)
    """A gesture's event, in house mm; `reach()` tells how near counts as at."""
    subject_hovered = Signal(object)
    subject_opened = Signal(object)
    """A double click on a subject."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("plan")
        self.setAccessibleName("Plan of the level")
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.theme: Theme = LIGHT
        self.empty_words = ""
        self.scale = 50.0
        self.centre = QPointF(0, 0)
        self._make: MakePlan | None = None
        self._plan: Plan | None = None
        self._ink: Compiled | None = None
        self._still: QPixmap | None = None
        self._still_at = QPointF()
        self._draft: Draft | None = None
        self._space = False
        self._lit: frozenset[Subject] = frozenset()
        self._ringed: frozenset[Subject] = frozenset()
        self._blinking = False
        self._pressed: QPoint | None = None
        self._dragged = False
        self._hovered: Subject | None = None
        self._fitted = True

    # --- what is shown ----------------------------------------------------------------------------------------------

    def show_level(self, make: MakePlan | None, keep_view: bool = False) -> None:
        """Show another level (or none). The view is kept, or fitted to the level."""
        self._make, self._plan, self._ink, self._still = make, None, None, None
        if make is not None and not keep_view:
            self.fit()
        self.update()

    def show_draft(self, draft: Draft | None) -> None:
        """Draw what a gesture is about to do."""
        if draft != self._draft:
            self._draft = draft
            self.update()

    def light(self, subjects: frozenset[Subject]) -> None:
        """Let these subjects keep their ink while all else pales; none of them restores all."""
        if subjects != self._lit:
            self._lit = subjects
            self.update()

    def ring(self, subjects: frozenset[Subject]) -> None:
        """Draw a ring round these subjects."""
        if subjects != self._ringed:
            self._ringed = subjects
            self.update()

    def go_to(self, subject: Subject) -> None:
        """Bring a subject to the middle, near enough to read, and blink its ring once."""
        spot = self._spot(subject)
        if spot is None:
            return
        at = spot.center() * self._made_scale()
        if self.scale > 75:
            self.scale = 50.0
        self.centre = at
        self._fitted = False
        self.ring(frozenset({subject}))
        self._blinking = True
        QTimer.singleShot(BLINK_MS, self._stop_blinking)
        self._changed()

    def _stop_blinking(self) -> None:
        self._blinking = False
        self.update()

    def _spot(self, subject: Subject) -> QRectF | None:
        found = None
        for (left, top, right, bottom), about in self._plan_now().spots if self._make else ():
            if about == subject:
                rect = QRectF(left, top, right - left, bottom - top)
                found = rect if found is None else found.united(rect)
        return found

    # --- scale ------------------------------------------------------------------------------------------------------

    def _mm(self) -> float:
        """Return pixels a millimetre of the plan's ink, for the scale the view is at now."""
        return PX_PER_MM * self._made_scale() / self.scale

    def _made_scale(self) -> float:
        return self._plan.scale if self._plan is not None else self.scale

    def _plan_now(self) -> Plan:
        """Return the plan made for about this scale, made now if the last one is too far off."""
        assert self._make is not None
        if self._plan is None or not 1 / BAND <= self._plan.scale / self.scale <= BAND:
            self._plan = self._make(self.scale)
            self._ink = compiled(self._plan.ink)
        return self._plan

    def fit(self) -> None:
        """Show the whole level as large as it goes."""
        if self._make is None or self.width() < 50:
            return
        self.scale = 75.0
        for _ in range(3):  # labels outside the walls keep their size, so the fit is found in steps
            self._plan = None
            left, top, right, bottom = self._plan_now().bounds
            made = self._plan_now().scale
            room_x, room_y = self.width() - 2 * MARGIN_PX, self.height() - 2 * MARGIN_PX
            need = max((right - left) * PX_PER_MM / room_x, (bottom - top) * PX_PER_MM / room_y)
            self.scale = min(max(made * need, NEAREST), FARTHEST)
            self.centre = QPointF((left + right) / 2, (top + bottom) / 2) * made
            if 0.97 < need <= 1.0:
                break
        self._fitted = True
        self._changed()

    def zoom(self, factor: float, at: QPointF | None = None) -> None:
        """Zoom by a factor, keeping the house place under `at` (pixels) where it is."""
        pin = at if at is not None else QPointF(self.width() / 2, self.height() / 2)
        before = self.to_house(pin)
        self.scale = min(max(self.scale / factor, NEAREST), FARTHEST)
        self.centre += before - self.to_house(pin)
        self._fitted = False
        self._changed()

    def to_house(self, at: QPointF) -> QPointF:
        """Return the house place in mm under a place of the widget in pixels."""
        middle = QPointF(self.width() / 2, self.height() / 2)
        return self.centre + (at - middle) * (self.scale / PX_PER_MM)

    def to_pixels(self, house: QPointF) -> QPointF:
        """Return where a house place is shown, in pixels."""
        middle = QPointF(self.width() / 2, self.height() / 2)
        return middle + (house - self.centre) * (PX_PER_MM / self.scale)

    def subject_at(self, at: QPointF) -> Subject | None:
        """Return what a place of the widget names."""
        if self._make is None:
            return None
        drawn = self._plan_now()
        house = self.to_house(at)
        return what_hits(drawn, (house.x() / drawn.scale, house.y() / drawn.scale))

    # --- painting ---------------------------------------------------------------------------------------------------

    def _changed(self) -> None:
        self._still = None
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802  # Qt's name
        """Paint the still picture, then what is lit or ringed over it."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self.theme.canvas))
        if self._make is None:
            self._paint_words(painter)
            return
        self._plan_now()
        if self._still is None:
            self._render_still()
        assert self._still is not None
        painter.drawPixmap(self._offset_of_still(), self._still)
        if self.empty_words:
            self._paint_words(painter)
        self._paint_lit(painter)
        self._paint_rings(painter)
        self._paint_draft(painter)

    def _paint_words(self, painter: QPainter) -> None:
        painter.setPen(QColor(self.theme.soft))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self.empty_words)

    def _render_still(self) -> None:
        """Paint the level once, with a margin all round, so that panning only moves the picture."""
        assert self._ink is not None
        ratio = self.devicePixelRatioF()
        spare = self._spare()
        wide, high = self.width() + 2 * spare, self.height() + 2 * spare
        self._still = QPixmap(round(wide * ratio), round(high * ratio))
        self._still.setDevicePixelRatio(ratio)
        self._still.fill(QColor(self.theme.canvas))
        painter = QPainter(self._still)
        mm, origin = self._mm(), self.to_pixels(QPointF(0, 0))
        dx, dy = origin.x() + spare, origin.y() + spare
        shown = QRectF(-dx / mm, -dy / mm, wide / mm, high / mm)
        paint(painter, self._ink.ops, mm, dx, dy, shown)
        painter.end()
        self._still_at = QPointF(self.centre)

    def _spare(self) -> int:
        return min(self.width(), self.height()) // 4

    def _offset_of_still(self) -> QPointF:
        moved = (self._still_at - self.centre) * (PX_PER_MM / self.scale)
        spare = self._spare()
        return QPointF(moved.x() - spare, moved.y() - spare)

    def _paint_lit(self, painter: QPainter) -> None:
        if not self._lit or self._ink is None:
            return
        veil = QColor(self.theme.canvas)
        veil.setAlphaF(VEIL)
        painter.fillRect(self.rect(), veil)
        origin = self.to_pixels(QPointF(0, 0))
        for subject in self._lit:
            paint(painter, self._ink.about.get(subject, ()), self._mm(), origin.x(), origin.y())

    def _paint_draft(self, painter: QPainter) -> None:
        if self._draft is None:
            return
        ink = compiled(draft_ink(self._draft, self._made_scale(), self.theme))
        origin = self.to_pixels(QPointF(0, 0))
        paint(painter, ink.ops, self._mm(), origin.x(), origin.y())

    def _paint_rings(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(self.theme.ink), 4.0 if self._blinking else 2.0))
        for subject in self._ringed:
            spot = self._spot(subject)
            if spot is not None:
                made = self._made_scale()
                corners = (self.to_pixels(spot.topLeft() * made), self.to_pixels(spot.bottomRight() * made))
                painter.drawRoundedRect(QRectF(*corners).adjusted(-5, -5, 5, 5), 6, 6)

    # --- the hand ---------------------------------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802  # Qt's name
        """Keep the whole level in view if it was."""
        if self._fitted:
            self.fit()
        self._changed()

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802  # Qt's name
        """Zoom at the pointer."""
        self.zoom(1.0015 ** event.angleDelta().y(), event.position())
        event.accept()

    def event(self, event: QEvent) -> bool:
        """Zoom by a pinch on a touch pad; all else goes its way."""
        if isinstance(event, QNativeGestureEvent) and event.gestureType() == Qt.NativeGestureType.ZoomNativeGesture:
            self.zoom(1 + event.value(), event.position())
            return True
        return super().event(event)

    def reach(self) -> float:
        """Return how near counts as at, in house mm: a few pixels at this zoom."""
        return REACH_PX * self.scale / PX_PER_MM

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """Begin a gesture; the middle or right button, or the space bar, begins to pan."""
        self._pressed, self._dragged = event.position().toPoint(), False
        if event.button() == Qt.MouseButton.LeftButton and not self._space:
            self.hand_did.emit(Press(*self._place(event), _adds(event)))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """Go on with the gesture or the pan; tell what is under the pointer."""
        left = bool(event.buttons() & Qt.MouseButton.LeftButton)
        if self._pressed is not None and (self._space or not left) and event.buttons() != Qt.MouseButton.NoButton:
            self._pan_from(self._pressed, event.position().toPoint())
            return
        at, subject = self._place(event)
        self.hand_did.emit(Move(at, subject, left))
        if subject != self._hovered and not left:
            self._hovered = subject
            self.subject_hovered.emit(subject)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """End the gesture or the pan."""
        self.unsetCursor()
        if event.button() == Qt.MouseButton.LeftButton and not self._space and not self._dragged:
            self.hand_did.emit(Release(*self._place(event), _adds(event)))
        self._pressed = None

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """Open what is under the pointer: a room's or a device's name is edited in place."""
        self.mousePressEvent(event)
        self.subject_opened.emit(self.subject_at(event.position()))

    def leaveEvent(self, event: QEvent) -> None:  # noqa: N802  # Qt's name
        """Forget what was under the pointer."""
        if self._hovered is not None:
            self._hovered = None
            self.subject_hovered.emit(None)

    def _place(self, event: QMouseEvent) -> tuple[tuple[float, float], Subject | None]:
        house = self.to_house(event.position())
        return (house.x(), house.y()), self.subject_at(event.position())

    def _pan_from(self, start: QPoint, at: QPoint) -> None:
        step = at - start
        if not self._dragged and step.manhattanLength() < 4:
            return
        self._dragged, self._pressed = True, at
        self.setCursor(Qt.CursorShape.ClosedHandCursor)
        self._pan(QPointF(step))

    def _pan(self, step: QPointF) -> None:
        self._fitted = False
        self.centre -= step * (self.scale / PX_PER_MM)
        gone = (self.centre - self._still_at) * (PX_PER_MM / self.scale)
        if max(abs(gone.x()), abs(gone.y())) > self._spare():
            self._still = None
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802  # Qt's name
        """Hand keys to the tool; + and − zoom, 0 shows all, the space bar pans."""
        key = Qt.Key(event.key())
        if key == Qt.Key.Key_Space:
            self._space = True
        elif key in NAMED_KEYS:
            self.hand_did.emit(Key(NAMED_KEYS[key], "", _adds(event)))
        elif event.text().isprintable() and event.text():
            self.hand_did.emit(Key("", event.text(), _adds(event)))
        else:
            super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:  # noqa: N802  # Qt's name
        """End panning by the space bar."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = False
        super().keyReleaseEvent(event)


def _adds(event: QMouseEvent | QKeyEvent) -> bool:
    return bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
