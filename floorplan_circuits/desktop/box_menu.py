"""What the right button offers for boxes: what is planned, what is guessed, and arranging several."""

from collections.abc import Callable
from functools import partial

from PySide6.QtWidgets import QMenu

from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.arranging import align, distribute
from floorplan_circuits.edits.boxes import set_boxes, set_devices
from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.home.home import Home

ACROSS, DOWN, SPACED = "Line up across the sheet", "Line up down the sheet", "Space out evenly"
PLANNED, GUESSED = "Only planned, not built yet", "Its place is a guess"

Act = Callable[[Home], Edited]


def fill(menu: QMenu, session: Session, box: int) -> None:
    """Offer what can be done with a box, and with all boxes that are selected if it is one of them."""
    chosen = boxes_selected(session)
    boxes = chosen if box in chosen else [box]
    found = [session.home.boxes[one] for one in boxes]
    planned = all(device.planned for one in found for device in one.devices)
    guessed = all(one.placed == "guessed" for one in found)
    menu.addSeparator()
    if any(one.devices for one in found):
        _ticked(menu, session, PLANNED, planned, lambda home: set_devices(home, boxes, planned=not planned))
    place = "seen" if guessed else "guessed"
    _ticked(menu, session, GUESSED, guessed, lambda home: set_boxes(home, boxes, placed=place))
    if len(boxes) > 1:
        menu.addSeparator()
        for words, act in arrangements(boxes):
            menu.addAction(words, partial(session.attempt, act))


def arrangements(boxes: list[int]) -> tuple[tuple[str, Act], ...]:
    """Return what arranges these boxes, each with its words."""
    return (
        (ACROSS, lambda home: align(home, boxes, "across")),
        (DOWN, lambda home: align(home, boxes, "down")),
        (SPACED, lambda home: distribute(home, boxes)),
    )


def arrange(session: Session, words: str) -> None:
    """Arrange what is selected, or say why not."""
    session.attempt(dict(arrangements(boxes_selected(session)))[words])


def boxes_selected(session: Session) -> list[int]:
    """Return the boxes that are selected, in the order they were."""
    return [one.id for one in session.view.selected if one.kind == "box" and one.id in session.home.boxes]


def _ticked(menu: QMenu, session: Session, words: str, on: bool, act: Act) -> None:
    action = menu.addAction(words)
    action.setCheckable(True)
    action.setChecked(on)
    action.triggered.connect(lambda _checked=False: session.attempt(act))
