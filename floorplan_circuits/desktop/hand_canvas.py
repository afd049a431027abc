"""What a hand does over a plan: it zooms and pans, and the rest is handed on in house millimetres."""

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QNativeGestureEvent, QWheelEvent
from PySide6.QtWidgets import QWidget

from floorplan_circuits.desktop.camera import Camera
from floorplan_circuits.findings import Subject
from floorplan_circuits.gestures.events import Key, Move, Press, Release

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


class HandCanvas(QWidget):
    """A widget that looks at a level through a camera. What is painted and what a place names, its heirs say."""

    hand_did = Signal(object)
    """A gesture's event, in house mm; `reach()` tells how near counts as at."""
    subject_hovered = Signal(object)
    subject_opened = Signal(object)
    """A double click on a subject, or on nothing."""
    menu_wanted = Signal(object, QPoint)
    """A click of the right button on a subject, or on nothing, and where on the screen."""

    def __init__(self) -> None:
        super().__init__()
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.camera = Camera()
        self._fitted = True
        """Whether the whole level is in view, and is to stay so when the window grows."""
        self._space = self._dragged = False
        self._pressed: QPoint | None = None
        self._hovered: Subject | None = None
        self._keyed = False
        """Whether the keys came here by keys: then a frame says so."""

    def subject_at(self, at: QPointF) -> Subject | None:
        """Return what a place of the widget names."""
        raise NotImplementedError

    @property
    def is_measuring(self) -> bool:
        """Whether a length may be typed now: then the space bar types, as in 12' 6 1/2"."""
        return False

    # --- the camera -------------------------------------------------------------------------------------------------

    def _look(self, camera: Camera) -> None:
        self.camera, self._fitted = camera, False
        self.update()

    def zoom(self, factor: float, at: QPointF | None = None) -> None:
        """Zoom by a factor, keeping the house place under `at` (pixels) where it is."""
        self._look(self.camera.zoomed(factor, None if at is None else (at.x(), at.y())))

    def to_house(self, at: QPointF) -> QPointF:
        """Return the house place in mm under a place of the widget in pixels."""
        return QPointF(*self.camera.to_house((at.x(), at.y())))

    def to_pixels(self, house: QPointF) -> QPointF:
        """Return where a house place is shown, in pixels."""
        return QPointF(*self.camera.to_pixels((house.x(), house.y())))

    def reach(self, wall: int = 0) -> float:
        """Return how near counts as at, in house mm: a few pixels at this zoom.

        Where walls are drawn `wall` mm thick, their faces count as at them, but for at most twice as many pixels.
        """
        few = REACH_PX * self.camera.mm_per_px
        return min(max(few, wall / 2), 2 * few)

    # --- the hand ---------------------------------------------------------------------------------------------------

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

    def _pan_from(self, start: QPoint, at: QPoint) -> None:
        step = at - start
        if self._dragged or step.manhattanLength() >= 4:
            self._dragged, self._pressed = True, at
            self.setCursor(Qt.CursorShape.ClosedHandCursor)
            self._look(self.camera.panned(step.x(), step.y()))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """End the gesture or the pan."""
        self.unsetCursor()
        if event.button() == Qt.MouseButton.LeftButton and not self._space and not self._dragged:
            self.hand_did.emit(Release(*self._place(event), _adds(event)))
        if event.button() == Qt.MouseButton.RightButton and not self._dragged:
            self.menu_wanted.emit(self.subject_at(event.position()), event.globalPosition().toPoint())
        self._pressed = None

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:  # noqa: N802  # Qt's name
        """Open what is under the pointer, or what the first click selected."""
        self.mousePressEvent(event)  # the second of two quick clicks is a click as well
        self.subject_opened.emit(self.subject_at(event.position()))

    def leaveEvent(self, event: QEvent) -> None:  # noqa: N802  # Qt's name
        """Forget what was under the pointer."""
        if self._hovered is not None:
            self._hovered = None
            self.subject_hovered.emit(None)

    def _place(self, event: QMouseEvent) -> tuple[tuple[float, float], Subject | None]:
        at = event.position()
        return self.camera.to_house((at.x(), at.y())), self.subject_at(at)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802  # Qt's name
        """Hand keys to the tool; the space bar pans."""
        key = Qt.Key(event.key())
        if key == Qt.Key.Key_Space and not self.is_measuring:
            self._space = True
        elif key in NAMED_KEYS:
            self.hand_did.emit(Key(NAMED_KEYS[key], "", _adds(event)))
        elif event.text().isprintable() and event.text():
            self.hand_did.emit(Key("", event.text(), _adds(event)))
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802  # Qt's name
        """Show where the keys are, if it was keys that brought them."""
        super().focusInEvent(event)
        self._keyed = event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802  # Qt's name
        """Take the frame away; a space bar let go elsewhere pans no more."""
        super().focusOutEvent(event)
        self._keyed = self._space = False
        self.update()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:  # noqa: N802  # Qt's name
        """End panning by the space bar."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = False
        super().keyReleaseEvent(event)


def _adds(event: QMouseEvent | QKeyEvent) -> bool:
    return bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
