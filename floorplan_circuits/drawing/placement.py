"""Placing labels: nothing covers anything, and a label stays on its own side of the wall unless a line leads to it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import dist
from typing import Literal

from floorplan_circuits.drawing.ink import Bounds
from floorplan_circuits.drawing.overlaps import (
    Grid,
    Segment,
    around,
    crosses_box,
    distance,
    drop_segment,
    is_inside,
    overlap,
    put_segment,
    segment_bounds,
    segments_cross,
    trimmed,
)
from floorplan_circuits.findings import XY

CLEAR = 0.15
"""Least room in mm between two labels."""
SEEN = 1.5
"""Least length in mm of a line that leads through a wall: shorter, the label would seem to belong to the next room."""

SQUARE_ON = 0.3
"""A thing looks along a wall, not away from it, if less than this share of its way leads off it."""

Where = Literal["own side", "outside", "anywhere"]
"""On the thing's own side of the walls; outside the building; or in another room, if a line leads there."""
Line = tuple[XY, ...]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A place to try for a label's middle; `led` from a point if it is far enough to need a line."""

    centre: XY
    led_from: XY | None = None
    where: Where = "own side"


class Ground:
    """What is already on the sheet: rectangles, lines and walls; and what a label would rather not cover."""

    def __init__(self, walls: Iterable[Segment] = ()) -> None:
        self._taken: Grid[Bounds] = Grid()
        self._leaders: Grid[Segment] = Grid()
        self._walls: Grid[Segment] = Grid()
        self._shunned: Grid[Bounds] = Grid()
        self._crossed: Grid[Segment] = Grid()
        self._outer: list[Segment] = []
        self._thickest = 0.0
        for wall in walls:
            self._thickest = max(self._thickest, wall.half)
            put_segment(self._walls, wall)
            if wall.outer:
                self._outer.append(wall)

    def take(self, bounds: Bounds) -> None:
        """Note that something stands here."""
        self._taken.put(bounds, bounds)

    def take_line(self, line: Line) -> None:
        """Note that a leader runs here."""
        for a, b in pairwise(line):
            put_segment(self._leaders, Segment(a, b))

    def release(self, bounds: Bounds) -> None:
        """Note that what stood here is gone."""
        self._taken.drop(bounds, bounds)

    def release_line(self, line: Line) -> None:
        """Note that the leader that ran here is gone."""
        for a, b in pairwise(line):
            drop_segment(self._leaders, Segment(a, b))

    def shun(self, bounds: Bounds) -> None:
        """Note something that a name avoids while there is another place: the swing of a door, a stair."""
        self._shunned.put(bounds, bounds)

    def shun_line(self, line: Segment) -> None:
        """Note a line that a name avoids while there is another place: where a circuit's area ends."""
        put_segment(self._crossed, line)

    def is_free(self, bounds: Bounds, clear: float = CLEAR) -> bool:
        """Tell whether nothing that was taken comes within `clear` mm."""
        wide = _widened(bounds, clear)
        for other in self._taken.near(wide):  # asked a hundred thousand times a plan: no generators here
            if overlap(wide, other):
                return False
        return not any(crosses_box(line, wide) for line in self._leaders.near(wide))

    def standing_in(self, bounds: Bounds, clear: float = CLEAR) -> Iterator[Bounds | Segment]:
        """Yield the rectangles and leaders that come within `clear` mm; one may come more than once."""
        wide = _widened(bounds, clear)
        yield from (other for other in self._taken.near(wide) if overlap(wide, other))
        yield from (line for line in self._leaders.near(wide) if crosses_box(line, wide))

    def is_shunned(self, bounds: Bounds, lines: bool = True) -> bool:
        """Tell whether it covers what a name avoids; `lines` counts lines too."""
        if any(overlap(bounds, other) for other in self._shunned.near(bounds)):
            return True
        return lines and any(crosses_box(line, bounds) for line in self._crossed.near(bounds))

    def touches_wall(self, bounds: Bounds) -> bool:
        """Tell whether a wall, in its thickness, reaches into the rectangle."""
        return any(crosses_box(wall, bounds) for wall in self._walls.near(bounds))

    def crosses_taken(self, a: XY, b: XY, own: Sequence[Bounds]) -> bool:
        """Tell whether a line from `a` to `b` runs over anything that was taken, but for the `own` rectangles."""
        return next(self.standing_across(a, b, own), None) is not None

    def standing_across(self, a: XY, b: XY, own: Sequence[Bounds]) -> Iterator[Bounds | Segment]:
        """Yield the rectangles and leaders that a line runs over, but for the `own` rectangles."""
        line = Segment(a, b)
        bounds = segment_bounds(line)
        yield from (other for other in self._taken.near(bounds) if other not in own and crosses_box(line, other))
        yield from (other for other in self._leaders.near(bounds) if segments_cross(a, b, other.a, other.b))

    def wall_between(self, a: XY, b: XY) -> bool:
        """Tell whether a wall stands between two points."""
        bounds = (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
        return any(segments_cross(a, b, wall.a, wall.b) for wall in self._walls.near(bounds))

    def is_outside(self, at: XY) -> bool:
        """Tell whether a point lies outside the building."""
        return not is_inside(at, self._outer)

    def is_near_outside(self, at: XY, reach: float) -> bool:
        """Tell whether a label within `reach` mm could stand outside the building."""
        return not self._outer or any(distance(at, wall) <= reach for wall in self._outer)

    def out_of_wall(self, at: XY, looks: XY, reach: float = 1.5) -> float:
        """Return how far a thing at `at` that looks that way must step out to stand before its wall, in mm.

        Its wall is one it looks away from, no more than `reach` mm off, or as deep as it is thick; 0 where none is.
        """
        far = max(reach, self._thickest)
        near = self._walls.near((at[0] - far, at[1] - far, at[0] + far, at[1] + far))
        its = (wall for wall in near if distance(at, wall) <= max(reach, wall.half))
        steps = (wall.half - before for wall in its if (before := _before(at, looks, wall)) is not None)
        return max((0.0, *steps))


def _before(at: XY, looks: XY, wall: Segment) -> float | None:
    """Return how far before a wall's middle line a place is, as a thing sees it; None if it looks along the wall."""
    (ax, ay), (bx, by) = wall.a, wall.b
    length = dist(wall.a, wall.b)
    nx, ny = ((ay - by) / length, (bx - ax) / length) if length else (0.0, 0.0)
    off = nx * looks[0] + ny * looks[1]
    return None if abs(off) < SQUARE_ON else ((at[0] - ax) * nx + (at[1] - ay) * ny) * (1 if off > 0 else -1)


def _widened(bounds: Bounds, by: float) -> Bounds:
    return bounds[0] - by, bounds[1] - by, bounds[2] + by, bounds[3] + by


@dataclass(frozen=True, slots=True)
class Placed:
    """Where a label went: its middle, the room it takes, and the line that leads to it, if any."""

    centre: XY
    bounds: Bounds
    leader: Line | None = None


def place(
    ground: Ground,
    home_point: XY,
    size: tuple[float, float],
    candidates: Iterable[Candidate],
    own: Sequence[Bounds] = (),
) -> Placed | None:
    """Return the first candidate where a label of this size fits; None where none does.

    `home_point` is in the room the label belongs to; `own` are the rectangles of the thing it is the label of.
    """
    for candidate in candidates:
        bounds = around(candidate.centre, size)
        if not ground.is_free(bounds) or not _may_stand(ground, home_point, candidate, bounds):
            continue
        if candidate.led_from is None:
            return Placed(candidate.centre, bounds)
        for leader in _leaders(candidate.led_from, bounds, own):
            if _may_lead(ground, leader, candidate.where, own):
                return Placed(candidate.centre, bounds, leader or None)
    return None


def places(
    ground: Ground,
    home_point: XY,
    size: tuple[float, float],
    candidates: Iterable[Candidate],
    own: Sequence[Bounds] = (),
) -> Iterator[tuple[Placed, list[Bounds | Segment]]]:
    """Yield every place where the walls let a label stand, with the things and leaders that are in its way."""
    for candidate in candidates:
        bounds = around(candidate.centre, size)
        if not _may_stand(ground, home_point, candidate, bounds):
            continue
        there = list(ground.standing_in(bounds))
        if candidate.led_from is None:
            yield Placed(candidate.centre, bounds), there
            continue
        for leader in _leaders(candidate.led_from, bounds, own):
            if candidate.where == "own side" or _is_seen(leader):
                across = [thing for a, b in pairwise(leader) for thing in ground.standing_across(a, b, own)]
                yield Placed(candidate.centre, bounds, leader or None), there + across


def _may_stand(ground: Ground, home_point: XY, candidate: Candidate, bounds: Bounds) -> bool:
    if ground.touches_wall(bounds):
        return False
    if candidate.where == "outside":
        return ground.is_outside(candidate.centre)
    return candidate.where == "anywhere" or not ground.wall_between(home_point, candidate.centre)


def _may_lead(ground: Ground, leader: Line, where: Where, own: Sequence[Bounds]) -> bool:
    if where != "own side" and not _is_seen(leader):
        return False
    return not any(ground.crosses_taken(a, b, own) for a, b in pairwise(leader))


def _is_seen(leader: Line) -> bool:
    return sum(dist(a, b) for a, b in pairwise(leader)) >= SEEN


def _leaders(start: XY, bounds: Bounds, own: Sequence[Bounds]) -> Iterator[Line]:
    """Yield lines from the thing to the nearest point of the label's edge: level, upright and 45° pieces only."""
    end = max(bounds[0], min(bounds[2], start[0])), max(bounds[1], min(bounds[3], start[1]))
    dx, dy = end[0] - start[0], end[1] - start[1]
    slant = min(abs(dx), abs(dy))
    if slant < 0.05 or abs(abs(dx) - abs(dy)) < 0.05:
        yield trimmed((start, end), own)
        return
    step = slant if dx > 0 else -slant, slant if dy > 0 else -slant
    yield trimmed((start, (end[0] - step[0], end[1] - step[1]), end), own)
    yield trimmed((start, (start[0] + step[0], start[1] + step[1]), end), own)
