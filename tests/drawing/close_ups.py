"""Boxes drawn with the plate off, and what the tests measure in them."""

from collections.abc import Iterable, Iterator

from floorplan_circuits.drawing.close_up import CloseUp, close_up
from floorplan_circuits.drawing.ink import Group, Mark, Text, flat
from floorplan_circuits.drawing.palette import LIGHT, Theme
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings, Subject
from floorplan_circuits.home.boxes import Box, Feed
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from tests.drawing.drawn import breaker, fed, home, room

WIDE = 206.0
BREAKERS = tuple(breaker(100 + space, space) for space in range(1, 13))
"""A breaker in every space of the panel: 103 is in space 3."""


def part(number: int, name: str, *breakers: int) -> Feed:
    """A feed of one part of a device."""
    return change(fed(number, *breakers), part=name)


def home_of(*boxes: Box, log: Iterable[dict[str, object]] = (), **fields: object) -> Home:
    """A home of these boxes in a kitchen, with a log."""
    made = home(boxes, BREAKERS, (room(4000, "Kitchen", -100, -100, 20_000, 4000),), **fields)
    raw = {**made.model_dump(), "log": [{"id": 5000 + nth, **entry} for nth, entry in enumerate(log)]}
    return Home.model_validate(raw, strict=False)


def opened(box: int, *cables: tuple[str, int | None], **fields: object) -> dict[str, object]:
    """An entry in which somebody looked in a box and told each cable: where it enters, and its feed."""
    told = [{"enters": enters, "feed": feed} for enters, feed in cables]
    return {"kind": "opened", "date": "2026-03-02", "box": box, "cables": told} | fields


def findings_of(*boxes: Box, **fields: object) -> Findings:
    return find(home_of(*boxes, **fields))  # type: ignore[arg-type]


def drawn(box: Box, wide: float = WIDE, theme: Theme = LIGHT, **fields: object) -> CloseUp:
    """A box drawn by itself."""
    return close_up(findings_of(box, **fields), box.id, wide, theme)


# --- pieces ---------------------------------------------------------------------------------------------------------


def groups(mark: Mark, name: str) -> Iterator[Group]:
    """Every group of this name, outer ones first."""
    if isinstance(mark, Group):
        if mark.name == name:
            yield mark
        for inner in mark.marks:
            yield from groups(inner, name)


def piece(one: CloseUp, name: str) -> Group:
    """The head, the picture or the table."""
    (found,) = groups(one.ink, name)
    return found


def plates_in_picture(one: CloseUp) -> list[Group]:
    """The plates of cables and of feeds in the picture."""
    shown = piece(one, "picture")
    return [*groups(shown, "feed"), *groups(shown, "cable")]


def subjects(mark: Mark, kind: str) -> list[int]:
    """What the groups in a mark are about, in the order drawn."""
    found = []
    if isinstance(mark, Group):
        found += [mark.subject.id] if isinstance(mark.subject, Subject) and mark.subject.kind == kind else []
        for inner in mark.marks:
            found += subjects(inner, kind)
    return found


def texts(mark: Mark) -> list[Text]:
    return [one for one in flat(mark) if isinstance(one, Text) and one.words]
