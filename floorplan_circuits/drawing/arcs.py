"""Gentle arcs, as architects draw what a switch works: a curve that can't be taken for a wall or a cable."""

from math import hypot

from floorplan_circuits.findings import XY

BOW = 0.16
"""How far the middle of an arc stands off the straight way, as a share of it."""
MOST_BOW_MM = 9.0
PIECES = 12


def arc_handles(a: XY, b: XY, most: float = MOST_BOW_MM) -> tuple[XY, XY]:
    """Return the two handles of one curve from `a` to `b`; it bows to the same side whichever end comes first.

    `most` is how far it bows at most, in the unit of the places.
    """
    if b < a:
        first, second = arc_handles(b, a, most)
        return second, first
    dx, dy = b[0] - a[0], b[1] - a[1]
    far = hypot(dx, dy)
    if far == 0:
        return a, b
    off = min(BOW * far, most) * 4 / 3
    nx, ny = dy / far * off, -dx / far * off
    return (a[0] + dx * 0.25 + nx, a[1] + dy * 0.25 + ny), (a[0] + dx * 0.75 + nx, a[1] + dy * 0.75 + ny)


def arc_points(a: XY, b: XY, most: float = MOST_BOW_MM) -> tuple[XY, ...]:
    """Return places along the arc from `a` to `b`, for a line of short pieces."""
    (px, py), (qx, qy) = arc_handles(a, b, most)
    points = []
    for nth in range(PIECES + 1):
        t = nth / PIECES
        u = 1 - t
        w = u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t
        points.append(
            (w[0] * a[0] + w[1] * px + w[2] * qx + w[3] * b[0], w[0] * a[1] + w[1] * py + w[2] * qy + w[3] * b[1])
        )
    return tuple(points)
