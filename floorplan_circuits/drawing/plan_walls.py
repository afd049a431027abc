"""Walls on the plan: as thick as the home says they are, and never thinner than the eye needs to read them."""

from collections import defaultdict
from collections.abc import Iterator

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Group, Path, Pen, Shape, polyline
from floorplan_circuits.drawing.overlaps import Segment
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import XY

OUTER, INNER = 1.0, 0.5
"""The least a wall is drawn, in paper mm: one of the building's outside, and one between two rooms."""


def wall_depth(frame: Frame, outer: bool = True) -> float:
    """Return how thick a wall is drawn, in paper mm: to scale where the home says how thick it is."""
    return max(OUTER if outer else INNER, frame.findings.home.wall / frame.scale)


def wall_segments(frame: Frame) -> list[Segment]:
    """Return the level's walls in paper mm, for drawing and for placing labels beside them."""
    return [
        Segment(frame.mm(wall.a), frame.mm(wall.b), wall_depth(frame, wall.outer) / 2, wall.outer)
        for wall in frame.findings.walls
        if wall.level == frame.level
    ]


def walls(segments: list[Segment], theme: Theme) -> Group:
    """Draw the walls, the thinnest first: those of one thickness as one path, with a corner where two of them meet.

    An end is round: it lies inside the wall that it runs into, at whatever angle that is.
    """
    marks = []
    for half in sorted({wall.half for wall in segments}):
        path = tuple(part for run in _runs([wall for wall in segments if wall.half == half]) for part in run)
        marks.append(Shape(path, None, Pen(2 * half, theme.wall, cap="round")))
    return Group(tuple(marks))


def _runs(segments: list[Segment]) -> Iterator[Path]:
    """Yield the walls end to end, as far as exactly two of them meet in a place."""
    left = dict.fromkeys(range(len(segments)))
    at = defaultdict[XY, list[int]](list)
    for place, wall in enumerate(segments):
        at[wall.a].append(place)
        at[wall.b].append(place)
    while left:
        first = next(iter(left))
        del left[first]
        run = [segments[first].a, segments[first].b]
        for _ in range(2):  # on from one end, then from the other
            while (follower := _follower(at[run[-1]], left)) is not None:
                del left[follower]
                wall = segments[follower]
                run.append(wall.b if wall.a == run[-1] else wall.a)
            run.reverse()
        closed = len(run) > 2 and run[0] == run[-1] and len(at[run[0]]) == 2
        yield (*polyline(*run[:-1]), ("Z", ())) if closed else polyline(*run)


def _follower(meeting: list[int], left: dict[int, None]) -> int | None:
    """Return the wall that goes on where two meet, if it is not drawn yet."""
    return next((place for place in meeting if place in left), None) if len(meeting) == 2 else None
