"""The mark of a box whose place nobody saw: a small wave between it and its wall, as if it floated there."""

from floorplan_circuits.drawing.ink import Path, Pen, Shape, polygon
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import XY

SWING, LONG, WAVES = 0.4, 1.6, 2
"""How far the wave goes to either side of its middle, how long one is, in paper mm, and how many there are."""
WEIGHT, AIR = 0.25, 0.25
"""mm of its line, and round it to the edge of its ground, which keeps the dashes of the floor's edge away."""
DEEP = 2 * (SWING + AIR)
"""How far a box stands off its wall for the wave to find room, in paper mm."""


def wave(foot: XY, out: XY, theme: Theme) -> tuple[Shape, Shape]:
    """Draw the wave on its ground, on a line through `foot`, square to the way `out` from there to the box."""

    def to(along: float, off: float) -> XY:
        off += DEEP / 2
        return foot[0] - out[1] * along + out[0] * off, foot[1] + out[0] * along + out[1] * off

    path: Path = (("M", to(-LONG * WAVES / 2, 0.0)),)
    for half in range(2 * WAVES):
        start, swing = (half - WAVES) * LONG / 2, (1, -1)[half % 2] * SWING * 4 / 3
        end = start + LONG / 2
        path += (("C", (*to(start + LONG / 6, swing), *to(end - LONG / 6, swing), *to(end, 0.0))),)
    long, deep = LONG * WAVES / 2 + AIR, DEEP / 2
    ground = polygon(to(-long, -deep), to(long, -deep), to(long, deep), to(-long, deep))
    return Shape(ground, theme.paper), Shape(path, None, Pen(WEIGHT, theme.ink, cap="round", join="round"))
