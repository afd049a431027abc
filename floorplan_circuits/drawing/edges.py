"""Outlines as sets of edges: areas that share an edge are joined by leaving out what both have."""

from collections.abc import Collection, Iterable, Iterator
from itertools import pairwise
from math import dist, inf

from floorplan_circuits.drawing.overlaps import Segment, is_inside
from floorplan_circuits.findings import XY

Corner = tuple[int, int]
Edge = tuple[Corner, Corner]
"""From its lesser end to its greater, in whole house mm, so that an edge of two areas is the same in both."""
Ring = tuple[XY, ...]


def edges_of(rings: Iterable[Ring]) -> frozenset[Edge]:
    """Return the edges of closed outlines; one that two of them share is none (even-odd)."""
    found = set[Edge]()
    for ring in rings:
        whole = [(round(x), round(y)) for x, y in ring]
        found ^= {(a, b) if a < b else (b, a) for a, b in pairwise((*whole, whole[0])) if a != b}
    return frozenset(found)


def length(edges: Iterable[Edge]) -> float:
    """Return how long the edges are together, in mm."""
    return sum(dist(a, b) for a, b in edges)


def width_across(edges: Collection[Edge]) -> float:
    """Return how wide an area is where it is narrowest, measured square off each of its edges, in mm.

    Turning the area changes nothing. No square with longer sides fits into it.

    Examples:
        >>> width_across(edges_of([((0, 0), (4000, 0), (4000, 150), (0, 150))]))
        150.0
    """
    corners = {corner for edge in edges for corner in edge}
    narrowest = inf
    for (ax, ay), (bx, by) in edges:
        across = [(x * (ay - by) + y * (bx - ax)) for x, y in corners]
        narrowest = min(narrowest, (max(across) - min(across)) / dist((ax, ay), (bx, by)))
    return narrowest


def pieces(rings: tuple[Ring, ...]) -> list[tuple[Ring, ...]]:
    """Return outlines by the pieces they enclose: each outer outline with the holes in it."""
    if len(rings) == 1:
        return [rings]
    walls = [[Segment(a, b) for a, b in pairwise((*ring, ring[0]))] for ring in rings]
    round_it = [_those_round(at, rings, walls) for at in range(len(rings))]
    found = {at: [rings[at]] for at, outside in enumerate(round_it) if len(outside) % 2 == 0}
    for at, outside in enumerate(round_it):
        if at not in found:
            found[max(outside, key=lambda one: len(round_it[one]))].append(rings[at])
    return [tuple(piece) for piece in found.values()]


def _those_round(at: int, rings: tuple[Ring, ...], walls: list[list[Segment]]) -> list[int]:
    """Return which other outlines lie round one; in its middle an edge touches none of them."""
    (ax, ay), (bx, by) = rings[at][:2]
    middle = (ax + bx) / 2, (ay + by) / 2
    return [other for other in range(len(rings)) if other != at and is_inside(middle, walls[other])]


# --- back to lines --------------------------------------------------------------------------------------------------


def rings_of(edges: Iterable[Edge]) -> tuple[Ring, ...]:
    """Return the closed outlines that edges make; where outlines touch in a corner, each is one of its own."""
    meeting = _meeting(edges)
    found: list[Ring] = []
    for start in meeting:
        path = [start]
        place = {start: 0}
        while meeting[path[-1]]:
            step = _step_from(path[-1], meeting)
            if step in place:
                found.append(tuple(path[place[step] :]))
                for left in path[place[step] + 1 :]:
                    del place[left]
                del path[place[step] + 1 :]
            else:
                place[step] = len(path)
                path.append(step)
    return tuple(found)


def lines_of(edges: Iterable[Edge]) -> Iterator[Ring]:
    """Yield lines along the edges, as long as they go on without a fork: dashes then run on past the corners."""
    meeting = _meeting(edges)
    forks = {corner for corner, ends in meeting.items() if len(ends) != 2}
    for start in (*forks, *meeting):
        while meeting[start]:
            line = [start, _step_from(start, meeting)]
            while line[-1] not in forks and meeting[line[-1]]:
                line.append(_step_from(line[-1], meeting))
            yield tuple(line)


def _meeting(edges: Iterable[Edge]) -> dict[Corner, list[Corner]]:
    """Return for each corner the other ends of the edges that meet there, in a fixed order."""
    found: dict[Corner, list[Corner]] = {}
    for a, b in sorted(edges):
        found.setdefault(a, []).append(b)
        found.setdefault(b, []).append(a)
    return found


def _step_from(corner: Corner, meeting: dict[Corner, list[Corner]]) -> Corner:
    """Go along an edge that nobody went yet, and take it away."""
    step = meeting[corner].pop()
    meeting[step].remove(corner)
    return step
