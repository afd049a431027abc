"""What the hand does, what a tool may look at, and what comes of it."""

from dataclasses import dataclass

from floorplan_circuits.edits.edited import Edited
from floorplan_circuits.edits.levels import level_below
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point
from floorplan_circuits.view import Draft


@dataclass(frozen=True, slots=True)
class Press:
    """A button went down at a house place, on a subject or on nothing. `add`: shift is held."""

    at: XY
    subject: Subject | None = None
    add: bool = False


@dataclass(frozen=True, slots=True)
class Move:
    """The pointer moved. `held`: the button is down."""

    at: XY
    subject: Subject | None = None
    held: bool = False


@dataclass(frozen=True, slots=True)
class Release:
    """The button went up."""

    at: XY
    subject: Subject | None = None
    add: bool = False


@dataclass(frozen=True, slots=True)
class Key:
    """A key: `name` is 'escape', 'enter', 'delete', 'backspace', an arrow, or empty; `text` what it types."""

    name: str = ""
    text: str = ""
    add: bool = False


Event = Press | Move | Release | Key


@dataclass(frozen=True, slots=True)
class Context:
    """What a tool may look at. `reach` is how near counts as at, in mm: a few pixels at the present zoom."""

    home: Home
    level: int
    selected: tuple[Subject, ...] = ()
    reach: float = 100.0

    def outlines(self) -> list[tuple[Point, ...]]:
        """Return the outlines of the level's rooms."""
        return [room.outline for room in self.home.rooms if room.level == self.level]

    def below(self) -> list[tuple[Point, ...]]:
        """Return the outlines of the rooms on the next level down, which a level is often drawn over."""
        if self.level not in self.home.levels:
            return []
        under = level_below(self.home, self.level)
        return [room.outline for room in self.home.rooms if room.level == under]

    def boxes_between(self, a: XY, b: XY) -> list[int]:
        """Return the boxes of the level in the rectangle between two places."""
        boxes = (box for box in self.home.boxes if box.level == self.level)
        return [box.id for box in boxes if box.at is not None and is_between(box.at, a, b)]


def is_between(at: XY, a: XY, b: XY) -> bool:
    """Tell whether a place lies in the rectangle with these corners."""
    return all(min(ends) <= value <= max(ends) for value, *ends in zip(at, a, b, strict=True))


@dataclass(frozen=True, slots=True)
class Outcome:
    """What comes of one event.

    `tool` is the next tool in hand; `edit` at most one; `draft` what to draw meanwhile; `says` the sentence for the
    status line; `selected` the new selection, None to leave it; `merge` the kind of edit it joins, empty for none;
    `name` asks for the name of what was just made.
    """

    tool: object
    edit: Edited | None = None
    draft: Draft | None = None
    says: str = ""
    selected: tuple[Subject, ...] | None = None
    merge: str = ""
    name: Subject | None = None
