"""What of lines and outlines lies inside a rectangle: pure arithmetic, for plans that are printed in parts."""

from collections.abc import Callable, Sequence

from floorplan_circuits.drawing.ink import Bounds
from floorplan_circuits.findings import XY

Ring = tuple[XY, ...]


def clipped_line(a: XY, b: XY, bounds: Bounds) -> tuple[XY, XY] | None:
    """Return the piece of a line inside the rectangle, None where there is none.

    Examples:
        >>> clipped_line((0, 1), (9, 1), (2, 0, 5, 5))
        ((2.0, 1.0), (5.0, 1.0))
    """
    left, top, right, bottom = bounds
    dx, dy = b[0] - a[0], b[1] - a[1]
    first, last = 0.0, 1.0
    for step, room in ((-dx, a[0] - left), (dx, right - a[0]), (-dy, a[1] - top), (dy, bottom - a[1])):
        if step == 0:
            if room < 0:
                return None
        elif step < 0:
            first = max(first, room / step)
        else:
            last = min(last, room / step)
    if first >= last:
        return None
    return (a[0] + first * dx, a[1] + first * dy), (a[0] + last * dx, a[1] + last * dy)


def clipped_ring(ring: Sequence[XY], bounds: Bounds) -> Ring:
    """Return the part of a closed outline's area inside the rectangle; no corners where there is none.

    Where the area falls apart its pieces stay joined along the rectangle's edge, by strips without width.
    """
    left, top, right, bottom = bounds
    inside: Sequence[XY] = ring
    for axis, limit, keeps in (
        (0, left, _at_least),
        (0, right, _at_most),
        (1, top, _at_least),
        (1, bottom, _at_most),
    ):
        inside = _cut(inside, axis, limit, keeps)
    return tuple(inside) if len(inside) > 2 and _has_area(inside) else ()


Keeps = Callable[[float, float], bool]


def _at_least(value: float, limit: float) -> bool:
    return value >= limit


def _at_most(value: float, limit: float) -> bool:
    return value <= limit


def _cut(ring: Sequence[XY], axis: int, limit: float, keeps: Keeps) -> list[XY]:
    """Cut an outline along one edge of the rectangle."""
    kept: list[XY] = []
    for at, here in enumerate(ring):
        before = ring[at - 1]
        if keeps(here[axis], limit) != keeps(before[axis], limit):
            share = (limit - before[axis]) / (here[axis] - before[axis])
            other = before[1 - axis] + share * (here[1 - axis] - before[1 - axis])
            kept.append((limit, other) if axis == 0 else (other, limit))
        if keeps(here[axis], limit):
            kept.append(here)
    return kept


def _has_area(ring: Sequence[XY]) -> bool:
    doubled = sum(ring[at - 1][0] * y - x * ring[at - 1][1] for at, (x, y) in enumerate(ring))
    return abs(doubled) > 1e-9
