"""Placing labels: nothing covers anything, and a label stays on its own side of the wall unless a line leads to it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import dist
from typing import Literal, NamedTuple

from floorplan_circuits.drawing.ink import Bounds
from floorplan_circuits.drawing.layers import Labels, Line, Piece, Things, pieces_of
from floorplan_circuits.drawing.overlaps import (
    CELL,
    Grid,
    Segment,
    along,
    around,
    crosses_box,
    distance,
    is_inside,
    meet,
    overlap,
    put_segment,
    rows_of,
    segment_bounds,
    segments_cross,
    trimmed,
    widened,
)
from floorplan_circuits.findings import XY

CLEAR = 0.15
"""Least room in mm between two labels."""
SEEN = 1.5
"""Least length in mm of a line that leads through a wall: shorter, the label would seem to belong to the next room."""

SQUARE_ON = 0.3
"""A thing looks along a wall, not away from it, if less than this share of its way leads off it."""

Where = Literal["own side", "outside", "anywhere"]
"""On the thing's own side of the walls; outside the building; or anywhere in it, if a line leads there."""


class Candidate(NamedTuple):
    """A place to try for a label's middle; `led` from a point if it is far enough to need a line."""

    centre: XY
    led_from: XY | None = None
    where: Where = "own side"


@dataclass(frozen=True, slots=True)
class Placed:
    """Where a label went: its middle, the room it takes, and the line that leads to it, if any.

    `away`: in another room than its thing, so that only the line tells whose it is.
    """

    centre: XY
    bounds: Bounds
    leader: Line | None = None
    away: bool = False
    pieces: tuple[Piece, ...] = field(init=False, compare=False, repr=False)

    def __post_init__(self) -> None:
        """Cut the leader into its pieces, once: they are asked about at every try."""
        object.__setattr__(self, "pieces", pieces_of(self.leader or ()))


class Ground:
    """What is already on the sheet: things that stay, labels that may move, walls; and what a label rather avoids."""

    def __init__(self, walls: Iterable[Segment] = ()) -> None:
        self._things, self._labels = Things(), Labels()
        self._walls: Grid[tuple[Bounds, Segment]] = Grid()
        self._outer_beside: dict[int, list[Segment]] = {}
        self._shunned: Grid[Bounds] = Grid()
        self._crossed: Grid[Segment] = Grid()
        self._outer: list[Segment] = []
        self._thickest = 0.0
        for wall in walls:
            self._thickest = max(self._thickest, wall.half)
            for bounds in along(wall):
                self._walls.put(bounds, (segment_bounds(wall), wall))
            if wall.outer:
                self._outer.append(wall)
                for row in rows_of(wall):
                    self._outer_beside.setdefault(row, []).append(wall)

    @property
    def fixed(self) -> int:
        """How many things have come to stay: where a label may stand is as it was while the number is."""
        return len(self._things)

    def take(self, bounds: Bounds) -> None:
        """Note that something stands here and stays."""
        self._things.put(bounds)

    def put(self, label: int, placed: Placed) -> None:
        """Note where a label stands that may move."""
        self._labels.put(label, placed.bounds, placed.pieces)

    def lift(self, label: int, placed: Placed) -> None:
        """Note that a label no longer stands where it was put."""
        self._labels.lift(label, placed.bounds, placed.pieces)

    def shun(self, bounds: Bounds) -> None:
        """Note something that a name avoids while there is another place: the swing of a door, a stair."""
        self._shunned.put(bounds, bounds)

    def shun_line(self, line: Segment) -> None:
        """Note a line that a name avoids while there is another place: where a circuit's area ends."""
        put_segment(self._crossed, line)

    def is_free(self, bounds: Bounds, clear: float = CLEAR) -> bool:
        """Tell whether nothing comes within `clear` mm."""
        wide = widened(bounds, clear)
        return self._things.is_free(wide) and self._labels.is_free(wide)

    def is_bare(self, bounds: Bounds) -> bool:
        """Tell whether nothing that stays comes within `CLEAR` mm."""
        return self._things.is_free(widened(bounds, CLEAR))

    def runs_bare(self, line: Line, own: Sequence[Bounds]) -> bool:
        """Tell whether a leader runs over nothing that stays, but for the `own` rectangles."""
        return not self._things.is_crossed(pieces_of(line), own)

    def is_unlabelled(self, bounds: Bounds) -> bool:
        """Tell whether no label comes within `CLEAR` mm."""
        return self._labels.is_free(widened(bounds, CLEAR))

    def is_led_clear(self, placed: Placed) -> bool:
        """Tell whether the line that leads to a label, if any, runs over no other label."""
        return not self._labels.is_crossed(placed.pieces)

    def in_the_way(self, placed: Placed) -> Iterator[int]:
        """Yield the labels in a label's way; one may come more than once."""
        yield from self._labels.owners_in(widened(placed.bounds, CLEAR))
        yield from self._labels.owners_across(placed.pieces)

    def is_shunned(self, bounds: Bounds, lines: bool = True) -> bool:
        """Tell whether it covers what a name avoids; `lines` counts lines too."""
        if any(overlap(bounds, other) for other in self._shunned.near(bounds)):
            return True
        return lines and any(crosses_box(line, bounds) for line in self._crossed.near(bounds))

    def touches_wall(self, bounds: Bounds) -> bool:
        """Tell whether a wall, in its thickness, reaches into the rectangle."""
        for walls in self._walls.under(bounds):
            for taken, wall in walls:
                if overlap(taken, bounds) and crosses_box(wall, bounds):
                    return True
        return False

    def wall_between(self, a: XY, b: XY) -> bool:
        """Tell whether a wall stands between two points."""
        bounds = (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
        for walls in self._walls.under(bounds):
            for taken, wall in walls:
                if meet(taken, bounds) and segments_cross(a, b, wall.a, wall.b):
                    return True
        return False

    def is_outside(self, at: XY) -> bool:
        """Tell whether a point lies outside the building."""
        return not is_inside(at, self._outer_beside.get(int(at[1] // CELL), ()))

    def is_near_outside(self, at: XY, reach: float) -> bool:
        """Tell whether a label within `reach` mm could stand outside the building."""
        return not self._outer or any(distance(at, wall) <= reach for wall in self._outer)

    def out_of_wall(self, at: XY, looks: XY, reach: float = 1.5) -> float:
        """Return how far a thing at `at` that looks that way must step out to stand before its wall, in mm.

        Its wall is one it looks away from, no more than `reach` mm off, or as deep as it is thick; 0 where none is.
        """
        far = max(reach, self._thickest)
        near = self._walls.near((at[0] - far, at[1] - far, at[0] + far, at[1] + far))
        its = (wall for _, wall in near if distance(at, wall) <= max(reach, wall.half))
        steps = (wall.half - before for wall in its if (before := _before(at, looks, wall)) is not None)
        return max((0.0, *steps))


def _before(at: XY, looks: XY, wall: Segment) -> float | None:
    """Return how far before a wall's middle line a place is, as a thing sees it; None if it looks along the wall."""
    (ax, ay), (bx, by) = wall.a, wall.b
    length = dist(wall.a, wall.b)
    nx, ny = ((ay - by) / length, (bx - ax) / length) if length else (0.0, 0.0)
    off = nx * looks[0] + ny * looks[1]
    return None if abs(off) < SQUARE_ON else ((at[0] - ax) * nx + (at[1] - ay) * ny) * (1 if off > 0 else -1)


@dataclass(slots=True)
class Spot:
    """A place where walls and what stays let a label stand, and the lines that may lead there, found when asked for."""

    centre: XY
    bounds: Bounds
    away: bool = False
    _lines: Iterator[Line] | None = None
    _placed: tuple[Placed, ...] | None = None

    def ways(self) -> tuple[Placed, ...]:
        """Return the ways to stand here: one for each line that may lead here, or the one without."""
        if self._placed is None:
            lines = ((),) if self._lines is None else self._lines
            self._placed = tuple(Placed(self.centre, self.bounds, line or None, self.away) for line in lines)
        return self._placed


def place(
    ground: Ground,
    home_point: XY,
    size: tuple[float, float],
    candidates: Iterable[Candidate],
    own: Sequence[Bounds] = (),
) -> Placed | None:
    """Return the first place, of those that `spots` yields, where no other label is in the way; None where none is."""
    return first_clear(ground, spots(ground, home_point, size, candidates, own))


def first_clear(ground: Ground, found: Iterable[Spot]) -> Placed | None:
    """Return the first way to stand where no other label is in the way; None where there is none."""
    for spot in found:
        if ground.is_unlabelled(spot.bounds):
            for placed in spot.ways():
                if ground.is_led_clear(placed):
                    return placed
    return None


def spots(
    ground: Ground,
    home_point: XY,
    size: tuple[float, float],
    candidates: Iterable[Candidate],
    own: Sequence[Bounds] = (),
) -> Iterator[Spot]:
    """Yield every place where walls and what stays let a label of this size stand, whatever labels stand there.

    `home_point` is in the room the label belongs to; `own` are the rectangles of the thing it is the label of.
    """
    for candidate in candidates:
        if candidate.where != "own side" and (candidate.where == "outside") != ground.is_outside(candidate.centre):
            continue
        bounds = around(candidate.centre, size)
        if not ground.is_bare(bounds) or ground.touches_wall(bounds):
            continue
        if candidate.where == "own side" and ground.wall_between(home_point, candidate.centre):
            continue
        away = candidate.where == "anywhere"
        yield Spot(candidate.centre, bounds, away, _lines(ground, candidate, bounds, own))


def _lines(ground: Ground, candidate: Candidate, bounds: Bounds, own: Sequence[Bounds]) -> Iterator[Line] | None:
    """Return the lines that may lead to a label; None if it needs none."""
    if candidate.led_from is None:
        return None
    found = _leaders(candidate.led_from, bounds, own)
    seen = found if candidate.where == "own side" else (line for line in found if _is_seen(line))
    return (line for line in seen if ground.runs_bare(line, own))


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
