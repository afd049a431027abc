"""Walls: the edges of all rooms of a level, laid over each other so that each stretch stands once.

All arithmetic is on whole millimetres, hence exact: edges are grouped by the line they lie on (a direction in lowest
terms and the line's distance from the origin in units of it), and a line is cut where an edge on it begins or ends.
"""

from collections.abc import Sequence

import numpy as np

from floorplan_circuits.findings import Wall
from floorplan_circuits.geometry.outlines import Outline, Wholes, rooms_by_level
from floorplan_circuits.home.home import Home


def walls(home: Home) -> tuple[Wall, ...]:
    """Return the walls of all levels, as the longest straight pieces that are outer, or between two rooms, throughout.

    Outer means that only one room has the stretch. Levels come in the home's order; pieces of one level by direction,
    then line, then along it, so that equal rooms give equal walls.
    """
    return tuple(
        Wall(level, (float(ax), float(ay)), (float(bx), float(by)), outer)
        for level, rooms in rooms_by_level(home).items()
        for (ax, ay, bx, by), outer in stretches([room.outline for room in rooms])
    )


def stretches(outlines: Sequence[Outline]) -> list[tuple[tuple[int, int, int, int], bool]]:
    """Return each straight piece of the outlines once, as (ax, ay, bx, by), and whether only one outline has it."""
    edges = _edges(outlines)
    if not len(edges):
        return []
    line, along, step, ends = _ends(edges)
    covered = np.cumsum(step)[:-1]
    lasting = (np.diff(along) > 0) & (np.diff(line) == 0) & (covered > 0)
    first = np.flatnonzero(lasting)
    last = first + 1
    outer = covered[first] == 1
    follows = (along[last[:-1]] == along[first[1:]]) & (line[last[:-1]] == line[first[1:]])
    goes_on = follows & (outer[:-1] == outer[1:])
    begins, finishes = np.append(True, ~goes_on), np.append(~goes_on, True)
    pieces = np.hstack((ends[first[begins]], ends[last[finishes]]))
    return [
        ((ax, ay, bx, by), one) for (ax, ay, bx, by), one in zip(pieces.tolist(), outer[begins].tolist(), strict=True)
    ]


def _edges(outlines: Sequence[Outline]) -> Wholes:
    """Return all edges as rows (ax, ay, bx, by), those without length left out."""
    starts = [point for outline in outlines for point in outline]
    ends = [point for outline in outlines for point in (*outline[1:], *outline[:1])]
    edges = np.hstack((np.array(starts, dtype=np.int64).reshape(-1, 2), np.array(ends, dtype=np.int64).reshape(-1, 2)))
    with_length: Wholes = edges[(edges[:, :2] != edges[:, 2:]).any(axis=1)]
    return with_length


def _ends(edges: Wholes) -> tuple[Wholes, Wholes, Wholes, Wholes]:
    """Return both ends of all edges in order along their lines: line, place along it, +1 or -1 edge, the point."""
    direction = edges[:, 2:] - edges[:, :2]
    direction //= np.gcd(direction[:, :1], direction[:, 1:])
    backwards = (direction[:, 0] < 0) | ((direction[:, 0] == 0) & (direction[:, 1] < 0))
    direction[backwards] *= -1
    points = np.concatenate((edges[:, :2], edges[:, 2:]))
    (dx, dy), (x, y) = np.concatenate((direction, direction)).T, points.T
    offset, along = dx * y - dy * x, dx * x + dy * y
    forwards = np.where(backwards, -1, 1)
    step = np.concatenate((forwards, -forwards))
    order = np.lexsort((along, offset, dy, dx))
    keys = np.column_stack((dx, dy, offset))[order]
    line = np.cumsum(np.append(0, (keys[1:] != keys[:-1]).any(axis=1)))
    return line, along[order], step[order], points[order]
