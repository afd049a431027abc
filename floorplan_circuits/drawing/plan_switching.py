"""Which switch works what, on the plan: dashed arcs from switches to lights and halves, on request."""

from collections.abc import Iterator
from math import dist

from floorplan_circuits.drawing.arcs import arc_handles
from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Group, Path, Pen, Shape
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan_boxes import RADIUS, middles
from floorplan_circuits.findings import XY
from floorplan_circuits.home.boxes import Control
from floorplan_circuits.home.home import feeds

LEG_PEN, LEG_DASH = 0.18, (1.0, 0.6)
NOTHING_BETWEEN = 2.2 * RADIUS
"""mm between two middles from which an arc is drawn: nearer, their symbols touch."""


def legs(frame: Frame, ground: Ground) -> tuple[Group, ...]:
    """Draw the arcs of every group of switches on the level."""
    pen = Pen(LEG_PEN, frame.theme.soft, LEG_DASH)
    return tuple(
        Group(tuple(Shape(path, None, pen) for path in paths), None, words)
        for words, paths in _by_group(frame, ground)
        if paths
    )


def _by_group(frame: Frame, ground: Ground) -> Iterator[tuple[str, list[Path]]]:
    for group in frame.findings.home.controls:
        paths: list[Path] = []
        for a, b in _pairs(group, frame, ground):
            (px, py), (qx, qy) = arc_handles(a, b)
            paths.append((("M", a), ("C", (px, py, qx, qy, *b))))
        yield f"What {group.name or 'one group of switches'} works", paths


def _pairs(group: Control, frame: Frame, ground: Ground) -> list[tuple[XY, XY]]:
    """Return the ends of a group's arcs, trimmed to the edges of its symbols.

    The first switch, then whatever is nearest to what is joined already: few arcs, and none all across the house. One
    that is near has its arc even where the group has no switch on this level.
    """
    left, joined = _places(group, frame, ground), list[XY]()
    found: list[tuple[XY, XY]] = []
    while left:
        if joined:
            start, end = min(((a, b) for a in joined for b in left), key=lambda pair: (dist(*pair), pair))
            found += [_trimmed(start, end)] if dist(start, end) > NOTHING_BETWEEN else []
        else:
            end = left[0]
        left.remove(end)
        joined.append(end)
    return found


def _places(group: Control, frame: Frame, ground: Ground) -> list[XY]:
    """Return the middles of a group's switches and of what they work, on this level, each once."""
    worked = set(group.feeds)
    loads = {place.device.id for place in feeds(frame.findings.home) if place.feed.id in worked and place.device}
    boxes = [box for box in frame.boxes() if frame.shows(box)]
    found = {device: at for box in boxes for device, at in middles(box, frame, ground).items()}
    named = (*group.switches, *sorted(loads))
    return list(dict.fromkeys(found[one] for one in named if one in found))


def _trimmed(a: XY, b: XY) -> tuple[XY, XY]:
    far = dist(a, b)
    ux, uy = (b[0] - a[0]) / far * RADIUS, (b[1] - a[1]) / far * RADIUS
    return (a[0] + ux, a[1] + uy), (b[0] - ux, b[1] - uy)
