"""Measures on the plan: the length of each wall of a room, inside it, and its outline with corners to take hold of."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Bounds, Group, Mark, Pen, Shape, Text, polygon, polyline, rectangle
from floorplan_circuits.drawing.lettering import width
from floorplan_circuits.drawing.overlaps import Segment, around, crosses_box, overlap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan_building import openings, wall_segments, walls
from floorplan_circuits.drawing.plan_stairs import stairs
from floorplan_circuits.findings import XY, Findings
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.lengths import Units, show_area, show_length
from floorplan_circuits.home.record import Point

SIZE, HIGH, OFF_WALL = 7.5, 3.0, 2.6
"""Letters of a measure in pt, the height they take, and how far their middle stands off the wall, in paper mm."""
CORNER, OUTLINE = 1.6, 0.5
NAME_SIZE, LINE, BASELINE = 9.0, 4.0, 3.1
FAINT, FAINT_DASH = 0.3, (2.0, 1.2)


def held_room(outline: Sequence[Point], scale: float, theme: Theme, units: Units) -> Group:
    """Draw a selected room's outline with a square at each corner, and how long its walls are."""
    corners = [(x / scale, y / scale) for x, y in outline]
    pen = Pen(OUTLINE, theme.ink)
    marks: list[Mark] = [Shape(polygon(*corners), None, pen)]
    marks += [Shape(rectangle(x - CORNER / 2, y - CORNER / 2, CORNER, CORNER), theme.paper, pen) for x, y in corners]
    taken: list[Bounds] = []
    for at, words in wall_measures(outline, scale, units):
        spot = around(at, (width(words, SIZE) + 1.0, HIGH))
        if not any(overlap(spot, other) for other in taken):
            taken.append(spot)
            marks += _words(at, words, theme, ground=True)
    return Group(tuple(marks))


def wall_measures(outline: Sequence[Point], scale: float, units: Units) -> Iterator[tuple[XY, str]]:
    """Yield for each wall that is long enough where its length is written, in paper mm, and the length."""
    clockwise = sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairwise((*outline, outline[0]))) > 0
    for (ax, ay), (bx, by) in pairwise((*outline, outline[0])):
        length = hypot(bx - ax, by - ay)
        words = show_length(round(length), units)
        wide, across = width(words, SIZE), abs(bx - ax) / length if length else 0.0
        if length / scale < across * (wide + 1.0) + (1 - across) * 2 * HIGH:
            continue
        inward = 1 if clockwise else -1
        dx, dy = -(by - ay) / length * inward, (bx - ax) / length * inward
        off = OFF_WALL + (1 - across) * wide / 2
        yield ((ax + bx) / 2 / scale + dx * off, (ay + by) / 2 / scale + dy * off), words


def _words(at: XY, words: str, theme: Theme, ground: bool = False) -> list[Mark]:
    left, top, right, bottom = around(at, (width(words, SIZE) + 1.0, HIGH))
    paper = [Shape(rectangle(left, top, right - left, bottom - top, 0.5), theme.paper)] if ground else []
    return [*paper, Text((at[0], at[1] + 0.95), words, SIZE, False, theme.ink, "middle")]


# --- a whole level --------------------------------------------------------------------------------------------------


def measured_level(findings: Findings, level: int, scale: float, theme: Theme) -> Group:
    """Draw a level with its walls, openings and stairs alone, each room with its name, its area and its walls' lengths.

    A measure that finds no room is left out: the room that is selected shows all of its own.
    """
    frame = Frame(findings, level, scale, theme)
    free = _Free(wall_segments(frame))
    floors = [Shape(polygon(*map(frame.mm, room.outline)), theme.paper) for room in frame.rooms() if room.outline]
    marks: list[Mark] = [*floors, walls(free.walls, theme), openings(frame), stairs(frame)]
    for room in frame.rooms():
        marks += _named(room, frame, free)
    for room in frame.rooms():
        for at, words in wall_measures(room.outline, scale, findings.home.units):
            if free.take(around(at, (width(words, SIZE) + 0.6, HIGH))):
                marks += _words(at, words, theme)
    return Group(tuple(marks))


class _Free:
    """What is free on a level of walls alone."""

    def __init__(self, segments: list[Segment]) -> None:
        self.walls = segments
        self._ground = Ground(segments)

    def take(self, spot: Bounds) -> bool:
        """Take a place if nothing stands in it and no wall crosses it; tell whether it was."""
        if not self._ground.is_free(spot) or any(crosses_box(wall, spot) for wall in self.walls):
            return False
        self._ground.take(spot)
        return True


def _named(room: Room, frame: Frame, free: _Free) -> list[Mark]:
    """Write a room's name and area at the best free place; the area alone where both find none."""
    shape, ink = frame.findings.rooms.get(room.id), frame.theme.ink
    if shape is None:
        return []
    area = show_area(shape.area, frame.findings.home.units)
    for lines in ((room.name, area), (area,)):
        size = max(width(words, NAME_SIZE, words != area) for words in lines) + 0.6, LINE * len(lines)
        for at in shape.label_at:
            spot = around(frame.mm(at), size)
            if free.take(spot):
                x, top = frame.mm(at)[0], spot[1] + BASELINE
                return [
                    Text((x, top + row * LINE), words, NAME_SIZE, words != area, ink, "middle")
                    for row, words in enumerate(lines)
                ]
    return []


def faint_walls(findings: Findings, level: int, scale: float, theme: Theme) -> Group:
    """Draw another level's walls as thin pale lines, to draw over."""
    segments, pen = wall_segments(Frame(findings, level, scale, theme)), Pen(FAINT, theme.faint, FAINT_DASH)
    return Group(tuple(Shape(polyline(one.a, one.b), None, pen) for one in segments))
