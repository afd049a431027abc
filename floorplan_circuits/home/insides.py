"""Rooms as a tape measures them: between the inner faces of their walls, whose middle lines the outlines are."""

from itertools import pairwise
from math import atan2, hypot, tan

from floorplan_circuits.home.outlines import Outline, doubled_area


def inside_lengths(outline: Outline, wall: int) -> tuple[int, ...]:
    """Return how long each wall is inside a room, in mm, between walls `wall` mm thick.

    Examples:
        >>> inside_lengths(((0, 0), (4120, 0), (4120, 3120), (0, 3120)), 120)
        (4000, 3000, 4000, 3000)
    """
    lengths, cut = _lengths(outline), _cut_at_corners(outline, wall)
    return tuple(
        max(0, round(length - cut[place] - cut[(place + 1) % len(cut)])) for place, length in enumerate(lengths)
    )


def inside_area(outline: Outline, wall: int) -> float:
    """Return the floor between the inner faces of a room's walls, in mm².

    Examples:
        >>> inside_area(((0, 0), (4120, 0), (4120, 3120), (0, 3120)), 120)
        12000000.0
    """
    half = wall / 2
    whole = abs(doubled_area(outline)) / 2
    return max(0.0, whole - half * sum(_lengths(outline)) + half * sum(_cut_at_corners(outline, wall)))


def _lengths(outline: Outline) -> list[float]:
    return [hypot(bx - ax, by - ay) for (ax, ay), (bx, by) in pairwise((*outline, *outline[:1]))]


def _cut_at_corners(outline: Outline, wall: int) -> list[float]:
    """Return by how much each corner shortens both walls that meet in it; below 0 where the room's corner juts in."""
    round_it = 1 if doubled_area(outline) > 0 else -1
    found = []
    for place, (x, y) in enumerate(outline):
        (px, py), (nx, ny) = outline[place - 1], outline[(place + 1) % len(outline)]
        came, goes = (x - px, y - py), (nx - x, ny - y)
        turn = atan2(round_it * (came[0] * goes[1] - came[1] * goes[0]), came[0] * goes[0] + came[1] * goes[1])
        found.append(wall / 2 * tan(turn / 2))
    return found
