"""The canvas: one widget that paints a level's plan, zooms and pans, and hands on what the hand does."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from floorplan_circuits.desktop.camera import Camera
from floorplan_circuits.desktop.ink_painter import NO_PICTURES
from floorplan_circuits.desktop.plan_picture import MakePlan, PlanPicture
from floorplan_circuits.drawing.ink import Group
from floorplan_circuits.drawing.overlays import draft_ink
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.gestures.events import Key, Move, Press, Release
from floorplan_circuits.view import Draft

MakeInk = Callable[[float], Group]
"""Makes ink for a scale."""
BLINK_MS = 200
MARGIN_PX = 26
NEAREST_FIT = 25.0
"""The largest scale that fitting a selection goes to: nearer, a single box fills the window."""
REACH_PX = 9
READABLE_SCALE = 75.0
EMPTY_SCALE = 60.0
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


class PlanCanvas(QWidget):
    """Shows one level. It is given a function that makes the plan for a scale, and asks for as few as it can."""

    hand_did = Signal(object)
    """A gesture's event, in house mm; `reach()` tells how near counts as at."""
    subject_hovered = Signal(object)
    subject_opened = Signal(object)
    """A double click on a subject, or on nothing."""
    menu_wanted = Signal(object, QPoint)
    """A click of the right button on a subject, or on nothing, and where on the screen."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("plan")
        self.setAccessibleName("Plan of the level")
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.theme: Theme = LIGHT
        self.empty_words = ""
        self.camera = Camera()
        self.picture: PlanPicture | None = None
        self.lit: frozenset[Subject] = frozenset()
        self.ringed: frozenset[Subject] = frozenset()
        self._draft: Draft | None = None
        self._over: MakeInk | None = None
        self._blinking = self._space = self._dragged = False
        self._pressed: QPoint | None = None
        self._hovered: Subject | None = None
        self._fitted = True
        self._keyed = False
        """Whether the keys came here by keys: then a frame says so."""

    # --- what is shown ----------------------------------------------------------------------------------------------

    def show_level(
        self, make: MakePlan | None, keep_view: bool = False, pictures: Mapping[str, bytes] = NO_PICTURES
    ) -> None:
        """Show another level (or none). The view is kept, or fitted to the level. `pictures` are bytes by hash."""
        self.picture = None if make is None else PlanPicture(make, pictures)
        if make is not None and not keep_view:
            self.fit()
        self.update()

    def show_draft(self, draft: Draft | None) -> None:
        """Draw what a gesture is about to do."""
        if draft != self._draft:
            self._draft = draft
            self.update()

    def show_over(self, make: MakeInk | None) -> None:
        """Draw something over the plan at its own scale, such as the measures of what is selected; None for nothing."""
        self._over = make
        self.update()

    def light(self, subjects: frozenset[Subject]) -> None:
        """Let these subjects keep their ink while all else pales; none of them restores all."""
        if subjects != self.lit:
            self.lit = subjects
            self.update()

    def ring(self, subjects: frozenset[Subject]) -> None:
        """Draw a ring round these subjects."""
        if subjects != self.ringed:
            self.ringed = subjects
            self.update()

    def go_to(self, subject: Subject) -> None:
        """Bring a subject to the middle, near enough to read, unless it is in sight; blink its ring once."""
        spot = self.picture.spot(subject, self.camera.scale) if self.picture is not None else None
        if spot is None:
            return
        if self.camera.scale > READABLE_SCALE or not self.camera.sees(spot, MARGIN_PX):
            middle = ((spot[0] + spot[2]) / 2, (spot[1] + spot[3]) / 2)
            self._look(replace(self.camera, centre=middle, scale=min(self.camera.scale, READABLE_SCALE)))
        self.ring(frozenset({subject}))
        self._blinking = True
        QTimer.singleShot(BLINK_MS, self._stop_blinking)

    def _stop_blinking(self) -> None:
        self._blinking = False
        self.update()

    def show_bounds(
        self, subjects: Iterable[Subject], corners: Iterable[XY] = (), margin: float = 3 * MARGIN_PX
    ) -> None:
        """Bring subjects and house places into sight, as large as they go but no nearer than reads well."""
        spots = [spot for one in subjects if self.picture is not None
                 for spot in [self.picture.spot(one, self.camera.scale)] if spot is not None]  # fmt: skip
        found = [*((left, top) for left, top, _, _ in spots), *((x, y) for _, _, x, y in spots), *corners]
        if found:
            xs, ys = zip(*found, strict=True)
            mm = self.camera.scale
            bounds = min(xs) / mm, min(ys) / mm, max(xs) / mm, max(ys) / mm
            seen = self.camera.seeing(bounds, mm, margin)
            self._look(replace(seen, scale=max(seen.scale, NEAREST_FIT)))

    # --- the camera -------------------------------------------------------------------------------------------------

    def _look(self, camera: Camera) -> None:
        self.camera, self._fitted = camera, False
        self.update()

    def fit(self) -> None:
        """Show the whole level as large as it goes."""
        if self.picture is None or self.width() < 50:
            return
        for _ in range(3):  # labels outside the walls keep their size, so the fit is found in steps
            drawn = self.picture.plan(self.camera.scale)
            before, self.camera = self.camera, self.camera.seeing(drawn.bounds, drawn.scale, MARGIN_PX)
            if 0.97 < self.camera.scale / before.scale <= 1.0:
                break
        self._fitted = True
        self.update()

    def begin_empty(self) -> None:
        """Look at a level without anything on it: the origin near the upper left, a whole house in view."""
        camera = replace(self.camera, scale=EMPTY_SCALE)
        far = camera.to_house((camera.width, camera.height)), camera.to_house((0.0, 0.0))
        wide, deep = far[0][0] - far[1][0], far[0][1] - far[1][1]
        self._look(replace(camera, centre=(wide * 0.38, deep * 0.38)))

    def zoom(self, factor: float, at: QPointF | None = None) -> None:
        """Zoom by a factor, keeping the house place under `at` (pixels) where it is."""
        self._look(self.camera.zoomed(factor, None if at is None else (at.x(), at.y())))

    def to_house(self, at: QPointF) -> QPointF:
        """Return the house place in mm under a place of the widget in pixels."""
        return QPointF(*self.camera.to_house((at.x(), at.y())))

    def to_pixels(self, house: QPointF) -> QPointF:
        """Return where a house place is shown, in pixels."""
        return QPointF(*self.camera.to_pixels((house.x(), house.y())))

    def subject_at(self, at: QPointF) -> Subject | None:
        """Return what a place of the widget names."""
        if self.picture is None:
            return None
        return self.picture.subject_at(self.camera.to_house((at.x(), at.y())), self.camera.scale)

    def drawn_scale(self) -> float:
        """Return the scale the plan in sight was drawn for: its symbols keep their size on paper at that scale."""
        return self.picture.plan(self.camera.scale).scale if self.picture is not None else self.camera.scale

    def reach(self, wall: int = 0) -> float:
        """Return how near counts as at, in house mm: a few pixels at this zoom.

        Where walls are drawn `wall` mm thick, their faces count as at them, but for at most twice as many pixels.
        """
        few = REACH_PX * self.camera.mm_per_px
        return min(max(few, wall / 2), 2 * few)

    # --- painting ---------------------------------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802  # Qt's name
        """Paint the still picture, then what is lit or ringed over it, then the draft."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(self.theme.canvas))
        picture = self.picture
        if picture is not None:
            picture.paint_still(painter, self.camera, self.theme)
            picture.paint_lit(painter, self.camera, self.theme, self.lit)
            pen = QPen(QColor(self.theme.ink), 4.0 if self._blinking else 2.0)
            picture.paint_rings(painter, self.camera, pen, self.ringed)
            if self._over is not None:
                picture.paint_over(painter, self.camera, self._over(picture.plan(self.camera.scale).scale))
            picture.paint_keys(painter, self.camera, self.theme)
        if self.empty_words:
            self._paint_words(painter)
        if self._keyed:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(self.theme.ink), 2))
            painter.drawRect(self.rect().adjusted(2, 2, -3, -3))
        if picture is not None and self._draft is not None:
            drawn_for = picture.plan(self.camera.scale).scale
            picture.paint_over(painter, self.camera, draft_ink(self._draft, drawn_for, self.theme))

    def _paint_words(self, painter: QPainter) -> None:
        painter.setPen(QColor(self.theme.soft))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self.empty_words)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802  # Qt's name
        """Keep the whole level in view if it was."""
        self.camera = replace(self.camera, width=float(self.width()), height=float(self.height()))
        if self._fitted:
            self.fit()

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
        if key == Qt.Key.Key_Space and not self._is_measuring():
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

    def _is_measuring(self) -> bool:
        """Tell whether a length may be typed now: then the space bar types, as in 12' 6 1/2"."""
        return self._draft is not None and bool(self._draft.words)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:  # noqa: N802  # Qt's name
        """End panning by the space bar."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = False
        super().keyReleaseEvent(event)


def _adds(event: QMouseEvent | QKeyEvent) -> bool:
    return bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
