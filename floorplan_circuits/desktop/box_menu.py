"""What the right button offers for boxes: what is planned, what is guessed, and arranging several."""

from collections.abc import Callable, Iterator
from functools import partial

from floorplan_circuits.desktop.session import Session
from floorplan_circuits.edits.arranging import align, distribute
from floorplan_circuits.edits.boxes import set_boxes, set_devices
from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.home.home import Home

ACROSS, DOWN, SPACED = "Line up across the sheet", "Line up down the sheet", "Space out evenly"
PLANNED, BUILT = "It is only planned, not built yet", "It is built now"
GUESSED, SEEN = "Its place is a guess", "Its place was seen"

Act = Callable[[Home], Edited]


def rows(session: Session, box: int) -> Iterator[tuple[str, Callable[[], object]]]:
    """Yield what can be done with a box, and with all boxes that are selected if it is one of them."""
    chosen = boxes_selected(session)
    boxes = chosen if box in chosen else [box]
    found = [session.home.boxes[one] for one in boxes]
    planned = all(device.planned for one in found for device in one.devices)
    guessed = all(one.placed == "guessed" for one in found)
    if any(one.devices for one in found):
        act = partial(set_devices, things=boxes, planned=not planned)
        yield (BUILT if planned else PLANNED), partial(session.attempt, act)
    place = partial(set_boxes, boxes=boxes, placed="seen" if guessed else "guessed")
    yield (SEEN if guessed else GUESSED), partial(session.attempt, place)
    if len(boxes) > 1:
        yield from ((words, partial(session.attempt, act)) for words, act in arrangements(boxes))


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
