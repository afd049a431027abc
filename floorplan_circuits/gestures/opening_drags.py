"""Openings put by a drag: as wide as it goes along a wall, one in each room's wall that it passes, or where it walks.

Along one wall between two corners the drag says place and width at once. Past a corner it goes on to the next room's
wall, and each whose middle it passes gets one there. Across walls it is a walk through the home: each wall that is
crossed gets one, a window only where it looks out.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians
from typing import NamedTuple

from floorplan_circuits.edits.openings import LEAST_MM, wall_through
from floorplan_circuits.findings import XY
from floorplan_circuits.geometry.snapping import edges, foot
from floorplan_circuits.geometry.wall_spots import ON_WALL_MM, faces_into, wall_spot
from floorplan_circuits.home.lengths import Units
from floorplan_circuits.home.outlines import Outline
from floorplan_circuits.home.record import Point

STEP_MM: dict[Units, float] = {"metric": 50.0, "feet and inches": 25.4}
"""A width that is dragged comes in whole steps: 5 cm, or an inch."""
STEEP = 0.35
"""Sine of the least angle, some 20 degrees, at which a walk crosses a wall: nearer to it the hand only wobbles."""


class Opened(NamedTuple):
    """Where an opening goes, which way it faces, and how wide it is in mm; 0 for as wide as the tool has it."""

    at: Point
    angle: int
    width: int = 0


def openings_of(path: Sequence[XY], kind: str, outlines: Sequence[Outline], reach: float, units: Units) -> list[Opened]:
    """Return the openings that a drag along `path` means; none where it is no more than a click.

    `reach` is how far from a wall the hand still follows it, in mm.
    """
    if len(path) < 2:
        return []
    wall = _followed(path, outlines, reach)
    if wall is not None:
        return _along(wall, outlines, units)
    return list(_crossed(path, outlines, outer=kind == "window"))


# --- along a wall -----------------------------------------------------------------------------------------------------


class _Followed(NamedTuple):
    """The wall between two corners that a drag began on, the side it faces, and from where to where it went along."""

    a: Point
    b: Point
    angle: int
    low: float
    high: float


def _followed(path: Sequence[XY], outlines: Sequence[Outline], reach: float) -> _Followed | None:
    """Return the wall that a drag kept to; None for one that left its line, or went across it."""
    spot = wall_spot(path[0], outlines, reach)
    wall = wall_through(spot.at, outlines) if spot is not None else None
    if spot is None or wall is None:
        return None
    places = [_on_line(at, *wall) for at in path]
    (first, begun), (last, ended) = places[0], places[-1]
    if any(abs(across) > reach for _, across in places) or abs(last - first) <= abs(ended - begun):
        return None
    return _Followed(*wall, spot.angle, *sorted((first, last)))


def _on_line(at: XY, a: Point, b: Point) -> tuple[float, float]:
    """Return how far a place is along the line from `a` to `b`, and how far off it."""
    length = hypot(b[0] - a[0], b[1] - a[1])
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    dx, dy = at[0] - a[0], at[1] - a[1]
    return dx * ux + dy * uy, dy * ux - dx * uy


def _along(wall: _Followed, outlines: Sequence[Outline], units: Units) -> list[Opened]:
    """Return one in the middle of each wall that was passed; on one wall alone, one as wide as the drag."""
    length = hypot(wall.b[0] - wall.a[0], wall.b[1] - wall.a[1])
    middles = [(start + end) / 2 for start, end in _parts(wall.a, wall.b, outlines)]
    passed = [middle for middle in middles if wall.low <= middle <= wall.high]
    if any(not 0 < middle < length for middle in passed):
        return [Opened(_at(middle, wall), wall.angle) for middle in passed]
    low, high = max(wall.low, 0.0), min(wall.high, length)
    steps = round((high - low) / STEP_MM[units])
    wide = min(round(steps * STEP_MM[units]), int(length))
    return [Opened(_at((low + high) / 2, wall), wall.angle, wide)] if wide >= LEAST_MM else []


def _parts(a: Point, b: Point, outlines: Sequence[Outline]) -> list[tuple[float, float]]:
    """Return the walls in the line from `a` to `b`, from corner to corner, as they lie along it."""
    lying = [
        sorted((start[0], end[0]))
        for one, other in edges(outlines)
        for start, end in [(_on_line(one, a, b), _on_line(other, a, b))]
        if one != other and abs(start[1]) <= ON_WALL_MM and abs(end[1]) <= ON_WALL_MM
    ]
    corners = sorted({place for part in lying for place in part})
    between = ((start, end) for start, end in pairwise(corners) if end - start > ON_WALL_MM)
    return [(start, end) for start, end in between if any(low <= (start + end) / 2 <= high for low, high in lying)]


def _at(far: float, wall: _Followed) -> Point:
    (ax, ay), (bx, by) = wall.a, wall.b
    length = hypot(bx - ax, by - ay)
    return round(ax + (bx - ax) * far / length), round(ay + (by - ay) * far / length)


# --- across walls -----------------------------------------------------------------------------------------------------


def _crossed(path: Sequence[XY], outlines: Sequence[Outline], outer: bool) -> Iterator[Opened]:
    """Yield an opening for each wall that a walk crosses, facing the way it goes; `outer`: where it leads out."""
    found: list[Point] = []
    for start, end in pairwise(path):
        heading = degrees(atan2(end[1] - start[1], end[0] - start[0]))
        for at, turn in _crossings(start, end, outlines):
            if any(hypot(at[0] - x, at[1] - y) <= ON_WALL_MM for x, y in found):
                continue  # the wall of two rooms, one line for each
            found.append(at)
            angle = turn if cos(radians(turn - heading)) > 0 else (turn + 180) % 360
            indoors = [faces_into(at, side, outlines) for side in (angle, (angle + 180) % 360)]
            if not outer or not all(indoors):
                yield Opened(at, angle)


def _crossings(start: XY, end: XY, outlines: Sequence[Outline]) -> list[tuple[Point, int]]:
    """Return where a straight stretch crosses walls, each with a way square to the wall, the nearest first."""
    far = hypot(end[0] - start[0], end[1] - start[1])
    found: list[tuple[float, Point, int]] = []
    for a, b in edges(outlines):
        if a == b or far == 0:
            continue
        (_, off), (_, on) = _on_line(start, a, b), _on_line(end, a, b)
        if (off > 0) == (on > 0) or abs(on - off) < STEEP * far:
            continue
        share = off / (off - on)
        at = start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share
        x, y = foot(at, a, b)
        if hypot(x - at[0], y - at[1]) <= 1:
            turn = round(degrees(atan2(b[1] - a[1], b[0] - a[0])) + 90) % 360
            found.append((share, (round(x), round(y)), turn))
    return [(at, turn) for _, at, turn in sorted(found)]
