"""The places a label tries, in order: close to its thing first, then aside, then farther off with a line to it."""

from collections.abc import Iterator
from functools import cache
from math import dist, hypot

from floorplan_circuits.drawing.ink import Bounds
from floorplan_circuits.drawing.placement import Candidate, Where
from floorplan_circuits.findings import XY

ASIDE = 2.2
"""How far in mm a plate may stand aside of its thing without a line that leads to it."""
RING_STEP = 2.0
SEARCH_STEP = 1.5
"""How far apart in mm the places are that are searched where the rings had none."""
LATTICE = 10
"""Into how many strips a room is cut each way, to look all over it for a place for its name."""
SIXTEEN = (
    (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (0.7071, 0.7071), (-0.7071, 0.7071), (0.7071, -0.7071),
    (-0.7071, -0.7071), (0.9239, 0.3827), (0.3827, 0.9239), (-0.3827, 0.9239), (-0.9239, 0.3827), (-0.9239, -0.3827),
    (-0.3827, -0.9239), (0.3827, -0.9239), (0.9239, -0.3827),
)  # fmt: skip

Size = tuple[float, float]


def from_wall(at: XY, facing: XY, depth: float, size: Size) -> Iterator[Candidate]:
    """Yield places for the label of a thing on a wall: straight in, along the wall, aside, then farther in.

    `at` is on the wall's face, `depth` how far the thing stands into the room.
    """
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
    for row in (1, 2):
        deep = straight + row * (2 * along_f + 0.6)
        for shift in (0.0, ASIDE, -ASIDE, 2 * ASIDE, -2 * ASIDE, 4 * ASIDE, -4 * ASIDE):
            yield Candidate(_step(_step(at, facing, deep), tangent, shift), start)


def from_ceiling(at: XY, reach: float, size: Size) -> Iterator[Candidate]:
    """Yield places for the label of a thing in the middle of a room: below, right, left, above, aslant."""
    down, out = reach + 0.25 + size[1] / 2, reach + 0.25 + size[0] / 2
    for dx, dy in ((0, down), (out, 0), (-out, 0), (0, -down), (out, down), (-out, down), (out, -down), (-out, -down)):
        yield Candidate((at[0] + dx, at[1] + dy))


def around_point(at: XY, size: Size, nearest: float, farthest: float, where: Where = "own side") -> Iterator[Candidate]:
    """Yield led places on rings that widen from `nearest` to `farthest` mm."""
    radius = nearest
    while radius <= farthest:
        for dx, dy in SIXTEEN:
            yield Candidate((at[0] + dx * (radius + size[0] / 4), at[1] + dy * radius), at, where)
        radius += RING_STEP


def searched(at: XY, farthest: float, where: Where = "own side") -> Iterator[Candidate]:
    """Yield led places all over the neighbourhood, nearest first: what the rings leave out where a room is crowded."""
    for dx, dy in _nearest_first(farthest):
        yield Candidate((at[0] + dx, at[1] + dy), at, where)


@cache
def _nearest_first(farthest: float) -> tuple[XY, ...]:
    reach = int(farthest / SEARCH_STEP)
    steps = [step * SEARCH_STEP for step in range(-reach, reach + 1)]
    every = sorted((hypot(dx, dy), dx, dy) for dx in steps for dy in steps)
    return tuple((dx, dy) for off, dx, dy in every if off <= farthest)


def round_the_middle(places: tuple[XY, ...], size: Size, within: Bounds) -> Iterator[Candidate]:
    """Yield places for a room's name: the given ones, best first, then round the first of them, then all over.

    `within` is the box round the room.
    """
    yield from (Candidate(at) for at in places)
    x, y = places[0]
    for step in (1.0, 1.8, 2.6, 3.4, 4.4):
        for dx, dy in ((0, 1), (0, -1), (1, 0), (-1, 0), (1, 1), (-1, -1), (1, -1), (-1, 1)):
            yield Candidate((x + dx * step * size[0] / 3, y + dy * step * size[1] * 0.8))
    yield from (Candidate(at) for at in sorted(_lattice(within), key=lambda at: dist(at, places[0])))


def _lattice(within: Bounds) -> Iterator[XY]:
    left, top, right, bottom = within
    for across in range(1, LATTICE):
        for down in range(1, LATTICE):
            yield left + (right - left) * across / LATTICE, top + (bottom - top) * down / LATTICE


def _step(at: XY, direction: XY, distance: float) -> XY:
    return at[0] + direction[0] * distance, at[1] + direction[1] * distance
