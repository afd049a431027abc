"""What the hand does, what a tool may look at, and what comes of it."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from floorplan_circuits.edits.edited import Edited
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
    room_of: Mapping[int, int | None] = field(default_factory=dict)
    marks: Mapping[int, str] = field(default_factory=dict)

    def outlines(self) -> list[tuple[Point, ...]]:
        """Return the outlines of the level's rooms."""
        return [room.outline for room in self.home.rooms if room.level == self.level]

    def boxes_in(self, rooms: set[int]) -> list[int]:
        """Return the boxes that lie in these rooms."""
        return [box for box, room in self.room_of.items() if room in rooms]


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
