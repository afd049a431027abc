"""Placing labels: nothing covers anything, and a label stays on its own side of the wall unless a line leads to it."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor

from floorplan_circuits.drawing.ink import Bounds
from floorplan_circuits.findings import XY

CELL = 8.0
"""Side in mm of the grid that finds neighbours."""
CLEAR = 0.15
"""Least room in mm between two labels."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A place to try for a label's middle; `led` from a point if it is far enough to need a line."""

    centre: XY
    led_from: XY | None = None
    over_walls: bool = False


@dataclass(frozen=True, slots=True)
class Segment:
    """A straight piece of wall with half its thickness."""

    a: XY
    b: XY
    half: float


class Ground:
    """What is already on the sheet: rectangles and walls, found by a grid."""

    def __init__(self, walls: Iterable[Segment] = ()) -> None:
        self._taken: dict[tuple[int, int], list[Bounds]] = {}
        self._walls: dict[tuple[int, int], list[Segment]] = {}
        for wall in walls:
            for cell in _cells_of(_segment_bounds(wall)):
                self._walls.setdefault(cell, []).append(wall)

    def take(self, bounds: Bounds) -> None:
        """Note that something stands here."""
        for cell in _cells_of(bounds):
            self._taken.setdefault(cell, []).append(bounds)

    def is_free(self, bounds: Bounds, clear: float = CLEAR) -> bool:
        """Tell whether nothing that was taken comes within `clear` mm."""
        wide = (bounds[0] - clear, bounds[1] - clear, bounds[2] + clear, bounds[3] + clear)
        return not any(_overlap(wide, other) for cell in _cells_of(wide) for other in self._taken.get(cell, ()))

    def touches_wall(self, bounds: Bounds) -> bool:
        """Tell whether a wall, in its thickness, reaches into the rectangle."""
        return any(_crosses_box(wall, bounds) for cell in _cells_of(bounds) for wall in self._walls.get(cell, ()))

    def crosses_taken(self, a: XY, b: XY, own: Sequence[Bounds]) -> bool:
        """Tell whether a line from `a` to `b` runs over anything that was taken, but for the `own` rectangles."""
        line = Segment(a, b, 0.0)
        cells = _cells_of(_segment_bounds(line))
        found = (bounds for cell in cells for bounds in self._taken.get(cell, ()) if bounds not in own)
        return any(_crosses_box(line, bounds) for bounds in found)

    def wall_between(self, a: XY, b: XY) -> bool:
        """Tell whether a wall stands between two points."""
        bounds = (min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]))
        return any(
            _segments_cross(a, b, wall.a, wall.b) for cell in _cells_of(bounds) for wall in self._walls.get(cell, ())
        )

    def half_wall_at(self, at: XY, reach: float = 1.5) -> float:
        """Return half the thickness of the wall that `at` lies on, or 0 where there is none within `reach` mm."""
        near = (at[0] - reach, at[1] - reach, at[0] + reach, at[1] + reach)
        found = (wall for cell in _cells_of(near) for wall in self._walls.get(cell, ()))
        return max((wall.half for wall in found if _distance(at, wall) <= reach), default=0.0)


@dataclass(frozen=True, slots=True)
class Placed:
    """Where a label went: its middle, the room it takes, and the line that leads to it, if any."""

    centre: XY
    bounds: Bounds
    leader: tuple[XY, XY] | None = None


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
        bounds = _around(candidate.centre, size)
        if not ground.is_free(bounds):
            continue
        if not candidate.over_walls and (
            ground.touches_wall(bounds) or ground.wall_between(home_point, candidate.centre)
        ):
            continue
        leader = None if candidate.led_from is None else _leader(candidate.led_from, bounds, own)
        if leader is None or not ground.crosses_taken(*leader, own):
            return Placed(candidate.centre, bounds, leader)
    return None


def _leader(start: XY, bounds: Bounds, own: Sequence[Bounds]) -> tuple[XY, XY]:
    """Return the line from the edge of the thing to the nearest point of the label's edge."""
    end = max(bounds[0], min(bounds[2], start[0])), max(bounds[1], min(bounds[3], start[1]))
    leaving = max((_leaves_at(start, end, box) for box in own), default=0.0)
    return (start[0] + (end[0] - start[0]) * leaving, start[1] + (end[1] - start[1]) * leaving), end


def _leaves_at(start: XY, end: XY, box: Bounds) -> float:
    """Return how far along the line it leaves the box it starts in, from 0 to 1; 0 if it starts outside."""
    if not (box[0] <= start[0] <= box[2] and box[1] <= start[1] <= box[3]):
        return 0.0
    reach = 1.0
    for at, to, low, high in ((start[0], end[0], box[0], box[2]), (start[1], end[1], box[1], box[3])):
        if to != at:
            reach = min(reach, ((high if to > at else low) - at) / (to - at))
    return reach


def _around(centre: XY, size: tuple[float, float]) -> Bounds:
    return centre[0] - size[0] / 2, centre[1] - size[1] / 2, centre[0] + size[0] / 2, centre[1] + size[1] / 2


# --- candidates -----------------------------------------------------------------------------------------------------

ASIDE = 2.2


def from_wall(at: XY, facing: XY, depth: float, size: tuple[float, float]) -> Iterator[Candidate]:
    """Yield places for the label of a thing on a wall: straight in, along the wall, aside, farther in, around."""
    tangent = (-facing[1], facing[0])
    along_f = abs(facing[0]) * size[0] / 2 + abs(facing[1]) * size[1] / 2
    along_t = abs(tangent[0]) * size[0] / 2 + abs(tangent[1]) * size[1] / 2
    start = _step(at, facing, depth / 2)
    straight = depth + 0.25 + along_f
    yield Candidate(_step(at, facing, straight))
    for side in (1, -1):
        beside = _step(_step(at, facing, max(depth / 2, along_f + 0.2)), tangent, side * (1.75 + along_t))
        yield Candidate(beside)
    for shift in (ASIDE, -ASIDE, 2 * ASIDE, -2 * ASIDE):
        led = start if abs(shift) > along_t + 1.0 else None
        yield Candidate(_step(_step(at, facing, straight), tangent, shift), led)
    for row in (1, 2, 3):
        deep = straight + row * (2 * along_f + 0.6)
        for shift in (0.0, ASIDE, -ASIDE, 2 * ASIDE, -2 * ASIDE, 4 * ASIDE, -4 * ASIDE):
            yield Candidate(_step(_step(at, facing, deep), tangent, shift), start)
    yield from _around_point(start, size, 6.0, 30.0)


def from_ceiling(at: XY, reach: float, size: tuple[float, float]) -> Iterator[Candidate]:
    """Yield places for the label of a thing in the middle of a room: below, right, left, above, aslant, around."""
    down, out = reach + 0.25 + size[1] / 2, reach + 0.25 + size[0] / 2
    for dx, dy in ((0, down), (out, 0), (-out, 0), (0, -down), (out, down), (-out, down), (out, -down), (-out, -down)):
        yield Candidate((at[0] + dx, at[1] + dy))
    yield from _around_point(at, size, reach + 4.0, 30.0)


SIXTEEN = (
    (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (0.7071, 0.7071), (-0.7071, 0.7071), (0.7071, -0.7071),
    (-0.7071, -0.7071), (0.9239, 0.3827), (0.3827, 0.9239), (-0.3827, 0.9239), (-0.9239, 0.3827), (-0.9239, -0.3827),
    (-0.3827, -0.9239), (0.3827, -0.9239), (0.9239, -0.3827),
)  # fmt: skip


def _around_point(at: XY, size: tuple[float, float], nearest: float, farthest: float) -> Iterator[Candidate]:
    """Yield led places on widening rings, first on this side of the walls, then anywhere."""
    for over_walls in (False, True):
        radius = nearest
        while radius <= farthest:
            for dx, dy in SIXTEEN:
                centre = (at[0] + dx * (radius + size[0] / 4), at[1] + dy * radius)
                yield Candidate(centre, at, over_walls)
            radius += 2.0


def _step(at: XY, direction: XY, distance: float) -> XY:
    return at[0] + direction[0] * distance, at[1] + direction[1] * distance


# --- plane geometry of rectangles and segments ----------------------------------------------------------------------


def _cells_of(bounds: Bounds) -> Iterator[tuple[int, int]]:
    for column in range(floor(bounds[0] / CELL), ceil(bounds[2] / CELL) + 1):
        for row in range(floor(bounds[1] / CELL), ceil(bounds[3] / CELL) + 1):
            yield column, row


def _overlap(a: Bounds, b: Bounds) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _segment_bounds(wall: Segment) -> Bounds:
    (ax, ay), (bx, by), half = wall.a, wall.b, wall.half
    return min(ax, bx) - half, min(ay, by) - half, max(ax, bx) + half, max(ay, by) + half


def _crosses_box(wall: Segment, bounds: Bounds) -> bool:
    """Clip the wall's middle line to the rectangle grown by half its thickness (Liang and Barsky 1984)."""
    left, top, right, bottom = (
        bounds[0] - wall.half,
        bounds[1] - wall.half,
        bounds[2] + wall.half,
        bounds[3] + wall.half,
    )
    (x, y), dx, dy = wall.a, wall.b[0] - wall.a[0], wall.b[1] - wall.a[1]
    enter, leave = 0.0, 1.0
    for towards, room in ((-dx, x - left), (dx, right - x), (-dy, y - top), (dy, bottom - y)):
        if towards == 0:
            if room <= 0:
                return False
            continue
        at = room / towards
        enter, leave = (max(enter, at), leave) if towards < 0 else (enter, min(leave, at))
    return enter < leave


def _segments_cross(a: XY, b: XY, c: XY, d: XY) -> bool:
    def side(p: XY, q: XY, r: XY) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def _distance(at: XY, wall: Segment) -> float:
    (ax, ay), (bx, by) = wall.a, wall.b
    length = (bx - ax) ** 2 + (by - ay) ** 2
    along = 0.0 if length == 0 else max(0.0, min(1.0, ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / length))
    return float(((ax + along * (bx - ax) - at[0]) ** 2 + (ay + along * (by - ay) - at[1]) ** 2) ** 0.5)
