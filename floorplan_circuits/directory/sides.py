"""On which side of its room a box is, as a person who stands in the room would say: by what is behind that wall."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import hypot
from typing import NamedTuple

from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point

ON_A_WALL_MM = 600
"""A box further than this from every wall of its room hangs on none."""
BEYOND_MM = 250
"""How far behind a wall to look for the room on its other side: past a thick wall's middle, short of a closet."""


class _Wall(NamedTuple):
    """A stretch of a room's wall, and what a person in the room calls it."""

    a: Point
    b: Point
    called: str


class _Extent(NamedTuple):
    """A room with the bounds of its outline, so that most rooms are passed by at a glance."""

    room: Room
    left: int
    top: int
    right: int
    bottom: int

    def is_near(self, left: float, top: float, right: float, bottom: float, far: float) -> bool:
        """Tell whether the bounds lie within `far` mm of other bounds."""
        across = self.left - far <= right and left <= self.right + far
        return across and self.top - far <= bottom and top <= self.bottom + far

    def holds(self, x: float, y: float) -> bool:
        """Tell whether a place is inside the room: how often a ray to the right crosses its outline."""
        if not self.is_near(x, y, x, y, 0):
            return False
        inside = False
        for (ax, ay), (bx, by) in _edges(self.room):
            if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
                inside = not inside
        return inside


@dataclass
class Sides:
    """Knows on which wall of its room a box is; `names` are those of the rooms. What was found once is kept."""

    home: Home
    names: Mapping[int, str]
    _walls: dict[int, list[_Wall]] = field(default_factory=dict)
    _extents: dict[int, list[_Extent]] = field(default_factory=dict)

    def of(self, box: Box, room: int | None) -> str:
        """Return 'on the wall to Hall', 'in the ceiling', 'by Kitchen' for what is in no room; '' where none tells."""
        if room is None or room not in self.home.rooms:
            return self._nearest_room(box)
        if box.mount in ("ceiling", "floor"):
            return f"in the {box.mount}"
        if box.at is None:
            return ""
        walls = self._walls_of(self.home.rooms[room])
        far, side = min(((_from_wall(box.at, wall.a, wall.b), wall.called) for wall in walls), default=(0.0, ""))
        return side if far <= ON_A_WALL_MM else ""

    def _nearest_room(self, box: Box) -> str:
        """Return 'by Kitchen' for what is outdoors: the room behind the wall it is on."""
        if box.at is None:
            return ""
        x, y = box.at
        near = [one.room for one in self._on(box.level) if one.is_near(x, y, x, y, ON_A_WALL_MM)]
        far = {room.id: min(_from_wall(box.at, a, b) for a, b in _edges(room)) for room in near}
        best = min(far, key=lambda room: far[room], default=None)
        return f"by {self.names[best]}" if best is not None and far[best] <= ON_A_WALL_MM else ""

    def _walls_of(self, room: Room) -> list[_Wall]:
        if room.id not in self._walls:
            beside = self._beside(room)
            self._walls[room.id] = [_Wall(a, b, self._behind(room, a, b, beside)) for a, b in _edges(room)]
        return self._walls[room.id]

    def _beside(self, room: Room) -> list[_Extent]:
        """Return the rooms that may be behind one of a room's walls."""
        on = self._on(room.level)
        own = next((one for one in on if one.room.id == room.id), None)
        if own is None:
            return []
        return [one for one in on if one is not own and one.is_near(*own[1:], BEYOND_MM)]

    def _behind(self, room: Room, a: Point, b: Point, beside: Sequence[_Extent]) -> str:
        """Return what a person calls this wall: after the room behind it, or its window, or as an outer one."""
        long = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
        middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        aside = (-(b[1] - a[1]) / long * BEYOND_MM, (b[0] - a[0]) / long * BEYOND_MM)
        for way in (1, -1):
            x, y = middle[0] + way * aside[0], middle[1] + way * aside[1]
            for other in beside:
                if other.holds(x, y):
                    return f"on the wall to {self.names[other.room.id]}"
        windows = (one for one in self.home.openings if one.kind == "window" and one.level == room.level)
        if any(_from_wall(window.at, a, b) <= BEYOND_MM for window in windows):
            return "on the window wall"
        return "on the outer wall"

    def _on(self, level: int | None) -> list[_Extent]:
        """Return the rooms of a level that have an outline."""
        if not self._extents:
            for room in self.home.rooms:
                if room.outline:
                    xs, ys = zip(*room.outline, strict=True)
                    extent = _Extent(room, min(xs), min(ys), max(xs), max(ys))
                    self._extents.setdefault(room.level, []).append(extent)
        return self._extents.get(level, []) if level is not None else []


def _edges(room: Room) -> Iterator[tuple[Point, Point]]:
    return pairwise((*room.outline, *room.outline[:1]))


def _from_wall(at: Point, a: Point, b: Point) -> float:
    """Return how far a place is from a stretch of wall, in mm."""
    (ax, ay), (bx, by) = a, b
    long = (bx - ax) ** 2 + (by - ay) ** 2
    along = 0.0 if not long else max(0.0, min(1.0, ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / long))
    return float(hypot(at[0] - ax - along * (bx - ax), at[1] - ay - along * (by - ay)))
