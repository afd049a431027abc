"""Which field of a form has the keys, and how far it is scrolled: so that a form filled anew is where it was."""

from collections.abc import Callable
from typing import NamedTuple

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import QScrollArea, QWidget


class Place(NamedTuple):
    """A field's accessible name or words, and how many like it stand before it."""

    name: str
    nth: int


def _fields(form: QWidget) -> list[QWidget]:
    found = form.findChildren(QWidget)
    return [one for one in found if one.focusPolicy() != Qt.FocusPolicy.NoFocus and _name(one)]


def _name(field: QWidget) -> str:
    words = getattr(field, "text", None)
    return field.accessibleName() or (str(words()) if callable(words) else "")


def focused_place(form: QWidget) -> Place | None:
    """Return the place of the field that has the keys, None if none of the form's has them."""
    before: list[str] = []
    for field in _fields(form):
        if field.hasFocus():
            return Place(_name(field), before.count(_name(field)))
        before.append(_name(field))
    return None


def focus_place(form: QWidget, place: Place | None) -> None:
    """Give the keys to the field at a place, if it is still there, once the form is laid out."""
    if place is not None:
        QTimer.singleShot(0, form, lambda: _focus(form, place))


def _focus(form: QWidget, place: Place) -> None:
    alike = [field for field in _fields(form) if _name(field) == place.name and field.isVisible()]
    if alike:
        alike[min(place.nth, len(alike) - 1)].setFocus(Qt.FocusReason.OtherFocusReason)


def scrolled_to(form: QWidget) -> int:
    """Return how far, in pixels, the area that holds a form is scrolled down."""
    area = _area(form)
    return area.verticalScrollBar().value() if area is not None else 0


def scroll_to(form: QWidget, down: int, then: Callable[[], None]) -> None:
    """Scroll the area that holds a form, once the form is laid out, since emptying one lets Qt scroll; tell `then`."""

    def scroll() -> None:
        area = _area(form)
        if area is not None:
            area.horizontalScrollBar().setValue(0)
            area.verticalScrollBar().setValue(down)
        then()

    QTimer.singleShot(0, form, scroll)


def _area(form: QWidget) -> QScrollArea | None:
    above = form.parentWidget()
    while above is not None and not isinstance(above, QScrollArea):
        above = above.parentWidget()
    return above if isinstance(above, QScrollArea) else None
