"""Which part of a room's receptacles or lights hangs on a breaker, where others serve the rest.

By what a person sees in the room: a kind that the rest has not, then the wall; at last the boxes' marks, with
the half where it is one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import hypot
from typing import NamedTuple

from floorplan_circuits.directory.loads import Load
from floorplan_circuits.directory.room_names import names_of_rooms
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point

ON_A_WALL_MM = 600
"""A box further than this from every wall of its room hangs on none."""
BEYOND_MM = 250
"""How far behind a wall to look for the room on its other side: past a thick wall's middle, short of a closet."""
MOST_MARKS = 3
PLAIN = ("receptacle", "ceiling light", "light")
"""Kinds that a person would not tell from the rest by their name."""


def part_words(loads: Sequence[Load], rest: Sequence[Load], sides: "Sides") -> str:
    """Return the words for these loads of one group in one place; `rest` are the others there, on other circuits."""
    word = loads[0].group if len(loads) == 1 else f"{loads[0].group}s"
    if not rest:
        return _one(loads[0]) if len(loads) == 1 else word
    if len(loads) == 1 and loads[0].named and loads[0].called not in {one.called for one in rest}:
        return loads[0].called
    by_kind = _kind(loads, rest)
    if by_kind:
        return by_kind
    by_side = sides.tell(loads, rest)
    if by_side:
        return f"{word} {by_side}"
    return f"{word} {_marks(loads, rest)}"


def _one(load: Load) -> str:
    return load.group if load.kind in PLAIN and not load.named else load.called


def _kind(loads: Sequence[Load], rest: Sequence[Load]) -> str:
    kinds = {load.kind for load in loads}
    if len(kinds) > 1 or kinds & {load.kind for load in rest} or kinds & set(PLAIN):
        return ""
    return loads[0].kind if len(loads) == 1 else loads[0].plural


def _marks(loads: Sequence[Load], rest: Sequence[Load]) -> str:
    """Return the marks of the boxes; with the half where the other half of the same device is among the rest."""
    halved = {load.device for load in rest}
    return marks_in_words([f"{load.box.mark} {load.part if load.device in halved else ''}".strip() for load in loads])


def marks_in_words(marks: Sequence[str]) -> str:
    """Return the marks of boxes in few words: 'B3, B5', 'B3, B5 and 4 more'."""
    each = list(dict.fromkeys(marks))
    if len(each) <= MOST_MARKS:
        return ", ".join(each)
    return f"{', '.join(each[: MOST_MARKS - 1])} and {len(each) - MOST_MARKS + 1} more"


# --- walls ----------------------------------------------------------------------------------------------------------


class _Wall(NamedTuple):
    """A stretch of a room's wall, and what a person in the room calls it."""

    a: Point
    b: Point
    called: str


@dataclass
class Sides:
    """Knows on which wall of its room a box is: what is behind that wall. What was found once is kept."""

    home: Home
    _walls: dict[int, list[_Wall]] = field(default_factory=dict)
    _names: dict[int, str] = field(default_factory=dict)
    _found: dict[int, str] = field(default_factory=dict)

    def tell(self, loads: Sequence[Load], rest: Sequence[Load]) -> str:
        """Return 'on the wall to Hall' where none of the rest is on that wall; '' where walls do not tell."""
        mine = {self._side(load) for load in loads}
        if len(mine) != 1 or "" in mine or mine & {self._side(load) for load in rest}:
            return ""
        return mine.pop()

    def _side(self, load: Load) -> str:
        if load.box.id not in self._found:
            self._found[load.box.id] = self._seek(load)
        return self._found[load.box.id]

    def _seek(self, load: Load) -> str:
        box = load.box
        if load.room is None or load.room not in self.home.rooms:
            return self._nearest_room(box)
        if box.at is None or box.mount in ("ceiling", "floor"):
            return f"in the {box.mount}" if box.mount in ("ceiling", "floor") else ""
        walls = self._walls_of(self.home.rooms[load.room])
        far, side = min(((_from_wall(box.at, wall.a, wall.b), wall.called) for wall in walls), default=(0.0, ""))
        return side if far <= ON_A_WALL_MM else ""

    def _nearest_room(self, box: Box) -> str:
        """Return 'by Kitchen' for what is outdoors: the room behind the wall it is on."""
        if box.at is None:
            return ""
        rooms = [room for room in self.home.rooms if room.level == box.level and room.outline]
        far = {room.id: min(_from_wall(box.at, a, b) for a, b in _edges(room)) for room in rooms}
        best = min(far, key=lambda room: far[room], default=None)
        return f"by {self._name(best)}" if best is not None and far[best] <= ON_A_WALL_MM else ""

    def _walls_of(self, room: Room) -> "list[_Wall]":
        if room.id not in self._walls:
            self._walls[room.id] = [_Wall(a, b, self._behind(room, a, b)) for a, b in _edges(room)]
        return self._walls[room.id]

    def _behind(self, room: Room, a: Point, b: Point) -> str:
        """Return what a person calls this wall: after the room behind it, or its window, or as an outer one."""
        long = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        aside = (-(b[1] - a[1]) / long * BEYOND_MM, (b[0] - a[0]) / long * BEYOND_MM)
        for way in (1, -1):
            x, y = middle[0] + way * aside[0], middle[1] + way * aside[1]
            for other in self.home.rooms:
                if other.id != room.id and other.level == room.level and _holds(other, x, y):
                    return f"on the wall to {self._name(other.id)}"
        windows = (one for one in self.home.openings if one.kind == "window" and one.level == room.level)
        if any(_from_wall(window.at, a, b) <= BEYOND_MM for window in windows):
            return "on the window wall"
        return "on the outer wall"

    def _name(self, room: int) -> str:
        if not self._names:
            self._names = names_of_rooms(self.home)
        return self._names[room]


def _edges(room: Room) -> Iterator[tuple[Point, Point]]:
    return pairwise((*room.outline, *room.outline[:1]))


def _from_wall(at: Point, a: Point, b: Point) -> float:
    """Return how far a place is from a stretch of wall, in mm."""
    (ax, ay), (bx, by) = a, b
    long = (bx - ax) ** 2 + (by - ay) ** 2
    along = 0.0 if not long else max(0.0, min(1.0, ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / long))
    return float(hypot(at[0] - ax - along * (bx - ax), at[1] - ay - along * (by - ay)))


def _holds(room: Room, x: float, y: float) -> bool:
    """Tell whether a place is inside a room: how often a ray to the right crosses its outline."""
    inside = False
    for (ax, ay), (bx, by) in _edges(room):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            inside = not inside
    return inside
