"""Insets: an outline drawn a little inside itself."""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

from floorplan_circuits.findings import XY

LONGEST_CORNER = 3.0
"""A corner is cut where its point would lie more than this many insets away."""


def inset(ring: Sequence[XY], by: float) -> list[XY]:
    """Return the ring with every edge moved inwards by `by`, its corners where the moved edges meet.

    Examples:
        >>> inset([(0, 0), (10, 0), (10, 10), (0, 10)], 1)
        [(1.0, 1.0), (9.0, 1.0), (9.0, 9.0), (1.0, 9.0)]
    """
    corners = [at for at, before in zip(ring, (ring[-1], *ring[:-1]), strict=True) if at != before]
    if len(corners) < 3:
        return list(corners)
    area = sum(ax * by_ - bx * ay for (ax, ay), (bx, by_) in pairwise((*corners, corners[0])))
    side = by if area > 0 else -by
    return [
        _corner(corners[place - 1], at, corners[(place + 1) % len(corners)], side) for place, at in enumerate(corners)
    ]


def _corner(before: XY, at: XY, after: XY, side: float) -> XY:
    """Return where the two edges that meet at a corner meet again once both are moved to the left by `side`."""
    (ux, uy), (vx, vy) = _unit(before, at), _unit(at, after)
    turn = ux * vy - uy * vx
    if abs(turn) < 1e-6:
        return at[0] - uy * side, at[1] + ux * side
    along = (1 - (ux * vx + uy * vy)) / turn * side
    dx, dy = -uy * side - ux * along, ux * side - uy * along
    far = hypot(dx, dy)
    cut = min(1.0, LONGEST_CORNER * abs(side) / far) if far else 1.0
    return at[0] + dx * cut, at[1] + dy * cut


def _unit(a: XY, b: XY) -> XY:
    length = hypot(b[0] - a[0], b[1] - a[1])
    return (b[0] - a[0]) / length, (b[1] - a[1]) / length
