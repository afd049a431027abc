"""Stairs on the plan: treads, an arrow the way they climb, and a word on the flight where nothing else stands."""

from collections.abc import Iterator

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import (
    Bounds,
    Group,
    Mark,
    Path,
    Pen,
    Shape,
    Text,
    path_bounds,
    polygon,
    polyline,
    rectangle,
    turned,
)
from floorplan_circuits.drawing.lettering import width
from floorplan_circuits.drawing.overlaps import around
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan_building import facing
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.home.building import Stair

FROM_END, WORD_SIZE, WORD_HEIGHT = 2.6, 7.0, 3.0
ARROW_POINT = 2.0
"""How much of the flight's head the point of its arrow takes, in mm."""
TREAD_MM = 260
"""Going of one step in house millimetres, to draw by: common practice, no source."""


def stairs(frame: Frame) -> Group:
    """Draw the flights whose foot or head is on this level."""
    return Group(tuple(_stair(stair, frame) for stair in _flights(frame)))


def _flights(frame: Frame) -> list[Stair]:
    return [stair for stair in frame.findings.home.stairs if frame.level in (stair.level, stair.head)]


def flight_bounds(frame: Frame) -> list[Bounds]:
    """Return the boxes round the level's stairs, in paper mm, for names to keep out of."""
    return [path_bounds(turned(_flight(stair, frame), stair.angle, frame.mm(stair.at))) for stair in _flights(frame)]


def flight_spots(frame: Frame) -> list[tuple[Bounds, Subject]]:
    """Return where each flight of the level can be pointed at, in paper mm."""
    subjects = [Subject("stair", stair.id) for stair in _flights(frame)]
    return list(zip(flight_bounds(frame), subjects, strict=True))


def _flight(stair: Stair, frame: Frame) -> Path:
    run, half = stair.run / frame.scale, stair.width / frame.scale / 2
    return polygon((0, -half), (run, -half), (run, half), (0, half))


def _stair(stair: Stair, frame: Frame) -> Group:
    """Draw treads across, and an arrow the way it climbs, along +x from the lowest step."""
    run, half, theme = stair.run / frame.scale, stair.width / frame.scale / 2, frame.theme
    steps = max(2, round(stair.run / TREAD_MM))
    treads = [polyline((run * at / steps, -half), (run * at / steps, half)) for at in range(1, steps)]
    arrow = [polyline((0.6, 0), (run - 0.6, 0)), polyline((run - 1.8, -0.7), (run - 0.6, 0), (run - 1.8, 0.7))]
    at = frame.mm(stair.at)
    lines = [
        Shape(turned(part, stair.angle, at), None, Pen(0.13, theme.soft)) for part in (_flight(stair, frame), *treads)
    ]
    lines += [Shape(turned(part, stair.angle, at), None, Pen(0.2, theme.soft)) for part in arrow]
    return Group(tuple(lines), Subject("stair", stair.id))


def stair_words(frame: Frame, ground: Ground) -> list[Mark]:
    """Write on each flight which way it goes, where a person steps on it or as near to that as nothing stands."""
    return [_word(stair, frame, ground) for stair in _flights(frame)]


def _word(stair: Stair, frame: Frame, ground: Ground) -> Group:
    word = "up" if stair.level == frame.level else "down"
    size = width(word, WORD_SIZE) + 0.8, WORD_HEIGHT
    places = list(_along(stair, word, frame))
    x, y = next((at for at in places if ground.is_free(around(at, size))), places[0])
    taken = around((x, y), size)
    ground.take(taken)
    paper = Shape(rectangle(taken[0], taken[1], *size), frame.theme.paper)
    return Group(
        (paper, Text((x, y + 0.9), word, WORD_SIZE, False, frame.theme.soft, "middle")), Subject("stair", stair.id)
    )


def _along(stair: Stair, word: str, frame: Frame) -> Iterator[XY]:
    """Yield places along the flight: from its foot for who goes up, from its head for who goes down.

    Down its middle first, then nearer to its edges, where plates stand on it.
    """
    run, climbs, (x, y) = stair.run / frame.scale, facing(stair.angle), frame.mm(stair.at)
    least = min(FROM_END, run / 3)
    most = max(run - FROM_END - ARROW_POINT, run * 2 / 3)
    edge = stair.width / frame.scale / 2
    for aside in (0.0, edge / 2, -edge / 2, edge, -edge):
        for step in range(int(most - least) + 1):
            along = least + step if word == "up" else most - step
            yield x + along * climbs[0] - aside * climbs[1], y + along * climbs[1] + aside * climbs[0]
