"""The lines and dots of a hatch, on one grid for the whole sheet, so that a zone cut by a wall stays one."""

from collections.abc import Iterator
from math import ceil, cos, floor, radians, sin

from floorplan_circuits.drawing.ink import Bounds
from floorplan_circuits.findings import XY


def hatch_lines(bounds: Bounds, angle: float, spacing: float) -> Iterator[tuple[XY, XY]]:
    """Yield the parallel lines that cross the rectangle, to be clipped to the hatched path.

    `angle` is as the eye reads it: 45 rises to the right. Lines lie at whole multiples of `spacing` mm.
    """
    along = cos(radians(angle)), -sin(radians(angle))
    across = -along[1], along[0]
    corners = [(x, y) for x in (bounds[0], bounds[2]) for y in (bounds[1], bounds[3])]
    offsets = [x * across[0] + y * across[1] for x, y in corners]
    reach = [x * along[0] + y * along[1] for x, y in corners]
    start, end = min(reach), max(reach)
    for step in range(floor(min(offsets) / spacing), ceil(max(offsets) / spacing) + 1):
        base = across[0] * step * spacing, across[1] * step * spacing
        yield (
            (base[0] + along[0] * start, base[1] + along[1] * start),
            (base[0] + along[0] * end, base[1] + along[1] * end),
        )


def hatch_dots(bounds: Bounds, spacing: float) -> Iterator[XY]:
    """Yield the places of dots in the rectangle, every second row shifted by half."""
    for y, first, last in dot_rows(bounds, spacing):
        for step in range(round(last - first) + 1):
            yield (first + step) * spacing, y


def dot_rows(bounds: Bounds, spacing: float) -> Iterator[tuple[float, float, float]]:
    """Yield each row of dots: its y in mm, and the places of its first and last dot in steps of `spacing`."""
    for row in range(ceil(bounds[1] / spacing), floor(bounds[3] / spacing) + 1):
        shift = 0.5 if row % 2 else 0.0
        yield row * spacing, floor(bounds[0] / spacing) - 1 + shift, ceil(bounds[2] / spacing) + shift
