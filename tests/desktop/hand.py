"""A hand for tests: mouse and wheel events as Qt sends them, and pixels as the eye sees them."""

from collections.abc import Iterator

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QImage, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QApplication, QWidget

LEFT, MIDDLE, NONE = Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton, Qt.MouseButton.NoButton
PLAIN = Qt.KeyboardModifier.NoModifier
KINDS = {
    "press": QEvent.Type.MouseButtonPress,
    "move": QEvent.Type.MouseMove,
    "release": QEvent.Type.MouseButtonRelease,
}


def mouse(widget: QWidget, kind: str, at: QPointF, button: Qt.MouseButton = LEFT) -> None:
    """Press, move or release at a place of the widget; `button` is the one held or let go."""
    one = NONE if kind == "move" else button
    held = NONE if kind == "release" else button
    event = QMouseEvent(KINDS[kind], at, QPointF(widget.mapToGlobal(at)), one, held, PLAIN)
    QApplication.sendEvent(widget, event)


def drag(widget: QWidget, start: QPointF, end: QPointF, button: Qt.MouseButton) -> None:
    """Drag in two steps."""
    mouse(widget, "press", start, button)
    mouse(widget, "move", (start + end) / 2, button)
    mouse(widget, "move", end, button)
    mouse(widget, "release", end, button)


def click(widget: QWidget, at: QPointF) -> None:
    """Press and release the left button in one place."""
    mouse(widget, "press", at)
    mouse(widget, "release", at)


def wheel(widget: QWidget, at: QPointF, angle: int) -> None:
    """Turn the wheel by so many eighths of a degree; a notch is 120."""
    none, phase = QPoint(), Qt.ScrollPhase.NoScrollPhase
    event = QWheelEvent(at, QPointF(widget.mapToGlobal(at)), none, QPoint(0, angle), NONE, PLAIN, phase, False)
    QApplication.sendEvent(widget, event)


# --- pixels ---------------------------------------------------------------------------------------------------------


def picture_of(widget: QWidget) -> QImage:
    """Return what the widget paints."""
    return widget.grab().toImage()


def is_dark(image: QImage, x: int, y: int) -> bool:
    """Tell whether a pixel is nearer to black than to white."""
    return QColor(image.pixel(x, y)).lightness() < 128


def dark_pixels(image: QImage) -> Iterator[tuple[int, int]]:
    """Yield the dark pixels, row by row."""
    for y in range(image.height()):
        for x in range(image.width()):
            if is_dark(image, x, y):
                yield x, y
