"""Measures on the plan: the length of each wall of a room, inside it, and its outline with corners to take hold of."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import hypot

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Bounds, Group, Mark, Pen, Shape, Text, polygon, polyline, rectangle
from floorplan_circuits.drawing.lettering import width
from floorplan_circuits.drawing.overlaps import Segment, around, crosses_box, overlap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan_building import openings, swings
from floorplan_circuits.drawing.plan_stairs import flight_bounds, stairs
from floorplan_circuits.drawing.plan_walls import OUTER, wall_segments, walls
from floorplan_circuits.findings import XY, Findings
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.insides import inside_area, inside_lengths
from floorplan_circuits.home.lengths import Units, show_area, show_length
from floorplan_circuits.home.record import Point

SIZE, HIGH, OFF_WALL = 7.5, 3.0, 2.6
"""Letters of a measure in pt, the height they take, and how far their middle stands off the wall, in paper mm."""
CORNER, OUTLINE = 1.6, 0.5
ALONG = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
"""Where along its wall a measure is written, best first."""
ON_WALL = 0.2
"""How near to a wall's line another counts as on it, in paper mm."""
NAME_SIZE, LINE, BASELINE = 9.0, 4.0, 3.1
FAINT, FAINT_DASH = 0.3, (2.0, 1.2)


def held_rooms(
    findings: Findings, rooms: Sequence[Room], scale: float, theme: Theme, labels: Iterable[Bounds] = ()
) -> Group:
    """Draw the outlines of selected rooms of one level with a square at each corner, and how long their walls are.

    A measure keeps clear of doors, stairs and `labels` if it can.
    """
    marks: list[Mark] = []
    for room in rooms:
        frame = Frame(findings, room.level, scale, theme)
        taken, pen = [*_kept_free(frame), *labels], Pen(OUTLINE, theme.ink)
        corners = [frame.mm(corner) for corner in room.outline]
        marks.append(Shape(polygon(*corners), None, pen))
        squares = (rectangle(x - CORNER / 2, y - CORNER / 2, CORNER, CORNER) for x, y in corners)
        marks += [Shape(square, theme.paper, pen) for square in squares]
        for places, words in wall_measures(room.outline, scale, findings.home.units, findings.home.wall):
            spots = [around(at, (width(words, SIZE) + 0.6, HIGH)) for at in places]
            free = [spot for spot in spots if not any(overlap(spot, other) for other in taken)]
            if free or spots:
                taken.append((free or spots)[0])
                marks += _words(taken[-1], words, theme, ground=True)
    return Group(tuple(marks))


def _kept_free(frame: Frame) -> list[Bounds]:
    """Return what no measure is written on while it can be: what doors sweep, and stairs."""
    return [*swings(frame), *flight_bounds(frame)]


def wall_measures(
    outline: tuple[Point, ...], scale: float, units: Units, thick: int = 0
) -> Iterator[tuple[list[XY], str]]:
    """Yield for each wall that is long enough its length, and where that may be written, in paper mm, best first.

    `thick` is how thick walls are, in mm: lengths are told between their faces.
    """
    inward = 1 if sum(ax * by - bx * ay for (ax, ay), (bx, by) in _sides(outline)) > 0 else -1
    for ((ax, ay), (bx, by)), inside in zip(_sides(outline), inside_lengths(outline, thick), strict=True):
        length = hypot(bx - ax, by - ay)
        words = show_length(inside, units)
        wide, across = width(words, SIZE), abs(bx - ax) / length if length else 0.0
        if length / scale < across * (wide + 1.0) + (1 - across) * 2 * HIGH:
            continue
        off = max(0.0, thick / scale - OUTER) / 2 + OFF_WALL
        off = (off + (1 - across) * wide / 2) * scale
        dx, dy = -(by - ay) / length * inward * off, (bx - ax) / length * inward * off
        along = ((ax + (bx - ax) * part + dx, ay + (by - ay) * part + dy) for part in ALONG)
        yield [(x / scale, y / scale) for x, y in along], words


def _sides(outline: Sequence[Point]) -> Iterator[tuple[Point, Point]]:
    return pairwise((*outline, outline[0]))


def _words(spot: Bounds, words: str, theme: Theme, ground: bool = False) -> list[Mark]:
    left, top, right, bottom = spot
    paper = [Shape(rectangle(left, top, right - left, bottom - top, 0.5), theme.paper)] if ground else []
    middle = (left + right) / 2, (top + bottom) / 2 + 0.95
    return [*paper, Text(middle, words, SIZE, False, theme.ink, "middle")]


# --- a whole level --------------------------------------------------------------------------------------------------


def measured_level(findings: Findings, level: int, scale: float, theme: Theme) -> Group:
    """Draw a level with its walls, openings and stairs alone, each room with its name, its area and its walls' lengths.

    A measure that finds no room is left out: the room that is selected shows all of its own.
    """
    frame = Frame(findings, level, scale, theme)
    free = _Free(wall_segments(frame), _kept_free(frame))
    floors = [Shape(polygon(*map(frame.mm, room.outline)), theme.paper) for room in frame.rooms() if room.outline]
    marks: list[Mark] = [*floors, walls(free.walls, theme), openings(frame), stairs(frame)]
    for room in frame.rooms():
        marks += _named(room, frame, free)
    for room in frame.rooms():
        for places, words in wall_measures(room.outline, scale, findings.home.units, findings.home.wall):
            spots = (around(at, (width(words, SIZE) + 0.6, HIGH)) for at in places)
            spot = next(filter(free.take, spots), None)
            marks += _words(spot, words, theme) if spot is not None else []
    return Group(tuple(marks))


class _Free:
    """What is free on a level of walls alone."""

    def __init__(self, segments: list[Segment], taken: list[Bounds]) -> None:
        self.walls = segments
        self._ground = Ground(segments)
        for spot in taken:
            self._ground.take(spot)

    def take(self, spot: Bounds) -> bool:
        """Take a place if nothing stands in it and no wall crosses it; tell whether it was."""
        if not self._ground.is_free(spot) or any(crosses_box(wall, spot) for wall in self.walls):
            return False
        self._ground.take(spot)
        return True

    def cover(self, spot: Bounds) -> None:
        """Take a place whatever stands in it."""
        self._ground.take(spot)


def _named(room: Room, frame: Frame, free: _Free) -> list[Mark]:
    """Write a room's name and area at the best free place; where there is none, over what stands in the middle."""
    shape = frame.findings.rooms.get(room.id)
    if shape is None or not shape.label_at:
        return []
    lines = room.name, show_area(inside_area(room.outline, frame.findings.home.wall), frame.findings.home.units)
    size = max(width(words, NAME_SIZE, words == room.name) for words in lines) + 0.6, LINE * len(lines)
    spots = [around(frame.mm(at), size) for at in shape.label_at]
    spot = next(filter(free.take, spots), None)
    if spot is not None:
        return _lines(spot, lines, frame.theme)
    left, top, right, bottom = spots[0]
    free.cover(spots[0])
    ground = Shape(rectangle(left, top, right - left, bottom - top, 0.5), frame.theme.paper)
    return [ground, *_lines(spots[0], lines, frame.theme)]


def _lines(spot: Bounds, lines: tuple[str, str], theme: Theme) -> list[Mark]:
    x, top = (spot[0] + spot[2]) / 2, spot[1] + BASELINE
    name, area = lines
    return [
        Text((x, top), name, NAME_SIZE, True, theme.ink, "middle"),
        Text((x, top + LINE), area, NAME_SIZE, False, theme.ink, "middle"),
    ]


def faint_walls(findings: Findings, under: int, level: int, scale: float, theme: Theme) -> Group:
    """Draw the walls of the level below as thin pale lines, but where this level has a wall itself."""
    lower, own = (wall_segments(Frame(findings, one, scale, theme)) for one in (under, level))
    lines = (line for wall in lower for line in _not_covered(wall, own))
    return Group(tuple(Shape(polyline(*line), None, Pen(FAINT, theme.faint, FAINT_DASH)) for line in lines))


def _not_covered(wall: Segment, others: Sequence[Segment]) -> list[tuple[XY, XY]]:
    """Return the pieces of a wall that lie on none of the others."""
    (ax, ay), (bx, by) = wall.a, wall.b
    length = hypot(bx - ax, by - ay)
    ux, uy = (bx - ax) / length, (by - ay) / length
    left = [(0.0, length)]
    for other in others:
        ends = [((x - ax) * ux + (y - ay) * uy, (x - ax) * uy - (y - ay) * ux) for x, y in (other.a, other.b)]
        if all(abs(aside) < ON_WALL for _, aside in ends):
            start, end = sorted(along for along, _ in ends)
            left = [piece for low, high in left for piece in ((low, min(high, start)), (max(low, end), high))]
            left = [(low, high) for low, high in left if high - low > ON_WALL]
    return [((ax + ux * low, ay + uy * low), (ax + ux * high, ay + uy * high)) for low, high in left]
