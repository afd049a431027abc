"""The mark of a box whose place nobody saw: a small wave between it and its wall, as if it floated there."""

from floorplan_circuits.drawing.ink import Path, Pen, Shape
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import XY

SWING, LONG, WAVES = 0.32, 1.5, 2
"""How far the wave goes to either side of its middle, how long one is, in paper mm, and how many there are."""
WEIGHT = 0.22
DEEP = 2 * SWING + 0.46
"""How far a box stands off its wall for the wave to find room, in paper mm."""


def wave(foot: XY, out: XY, theme: Theme) -> Shape:
    """Draw the wave on a line through `foot`, square to the way `out` from there to the box."""

    def to(along: float, off: float) -> XY:
        off += DEEP / 2
        return foot[0] - out[1] * along + out[0] * off, foot[1] + out[0] * along + out[1] * off

    path: Path = (("M", to(-LONG * WAVES / 2, 0.0)),)
    for half in range(2 * WAVES):
        start, swing = (half - WAVES) * LONG / 2, (1, -1)[half % 2] * SWING * 4 / 3
        end = start + LONG / 2
        path += (("C", (*to(start + LONG / 6, swing), *to(end - LONG / 6, swing), *to(end, 0.0))),)
    return Shape(path, None, Pen(WEIGHT, theme.ink, cap="round", join="round"))
