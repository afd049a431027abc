"""The building on the plan: floors with their circuits' colours, and the openings that are cut through its walls."""

from math import cos, radians, sin

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import (
    Bounds,
    Group,
    Hatch,
    Mark,
    Path,
    Pen,
    Shape,
    path_bounds,
    polygon,
    polyline,
    rectangle,
    turned,
)
from floorplan_circuits.drawing.insets import inset
from floorplan_circuits.drawing.overlaps import Segment
from floorplan_circuits.drawing.palette import Theme, hatch, tint
from floorplan_circuits.drawing.plan_walls import OUTER, wall_depth
from floorplan_circuits.drawing.plan_what_if import bare_floors
from floorplan_circuits.drawing.shown_zones import Floor
from floorplan_circuits.findings import XY, Subject, Zone
from floorplan_circuits.home.building import Opening

ZONE_EDGE, ZONE_DASH = 0.18, (1.4, 0.9)
INSET = 0.6
"""How far from the face of a wall the line runs that says a room is not all tested, in paper mm."""
DOT_SPACING, DOT = 2.4, 0.32
CUT = 0.2
"""How much deeper than its wall an opening is cut, in paper mm, so that nothing of the wall is left."""
SPOT = 1.0
"""How much deeper than its wall the place is where an opening can be pointed at, in paper mm."""


# --- floors ---------------------------------------------------------------------------------------------------------


def floors(frame: Frame, floor: Floor) -> Group:
    """Draw every zone: tint and hatch of its circuit, dots where nobody knows, and the zones' edges.

    While handles are off, the floor of what should be dead is bare.

    An edge is dashed where a feed beside it is neither tested nor traced; so is a line along the walls of a room
    that one circuit has to itself.
    """
    marks: list[Mark] = [
        Shape(polygon(*map(frame.mm, room.outline)), frame.theme.paper) for room in frame.rooms() if room.outline
    ]
    bare = bare_floors(frame)
    for zone in floor.zones:
        if zone.breaker is not None and (zone.room, zone.breaker) in bare:
            continue
        path = tuple(segment for ring in zone.rings for segment in polygon(*map(frame.mm, ring)))
        marks += fill(path, _colour_of(zone, frame), frame.theme)
    for dash, settled in ((ZONE_DASH, False), ((), True)):
        path = tuple(part for line in floor.lines(settled) for part in polyline(*map(frame.mm, line)))
        if path:
            marks.append(Shape(path, None, Pen(ZONE_EDGE, frame.theme.ink, dash)))
    whole = [zone for zone in floor.whole_rooms if zone.breaker is not None and not zone.settled]
    marks += [_inner_line(zone, frame) for zone in whole]
    return Group(tuple(marks))


def _inner_line(zone: Zone, frame: Frame) -> Shape:
    """Draw a dashed line just inside the walls of a room on one circuit that is not all tested or traced."""
    path = tuple(
        part
        for ring in zone.rings
        for part in polygon(*inset([frame.mm(at) for at in ring], wall_depth(frame) / 2 + INSET))
    )
    return Shape(path, None, Pen(ZONE_EDGE, frame.theme.ink, ZONE_DASH))


def zone_edges(frame: Frame, floor: Floor) -> list[Segment]:
    """Return, in paper mm, the edges of circuits' areas in rooms that more than one circuit shares."""
    return [Segment(frame.mm(a), frame.mm(b)) for a, b in (*floor.settled, *floor.unsettled)]


def _colour_of(zone: Zone, frame: Frame) -> int | None:
    return None if zone.breaker is None else frame.findings.colours.get(zone.breaker)


def fill(path: Path, colour: int | None, theme: Theme) -> list[Mark]:
    """Fill a path with a circuit's tint and hatch, or with the dots of the unknown for None."""
    if colour is None:
        return [Hatch(path, Pen(DOT, theme.soft), 0.0, DOT_SPACING, dots=True)]
    marks: list[Mark] = [Shape(path, tint(theme, colour))]
    lines = hatch(theme, colour)
    if lines is not None:
        marks.append(Hatch(path, lines.pen, lines.angle, lines.spacing))
    return marks


# --- openings -------------------------------------------------------------------------------------------------------


def openings(frame: Frame) -> Group:
    """Draw doors, windows and open ways in the walls."""
    found = [opening for opening in frame.findings.home.openings if opening.level == frame.level]
    return Group(tuple(_opening(opening, frame) for opening in found))


def _opening(opening: Opening, frame: Frame) -> Group:
    """Draw one opening lying along x at the origin, the side it faces downwards, then turn it into its wall."""
    wide, deep, theme = opening.width / frame.scale, wall_depth(frame), frame.theme
    cut = Shape(rectangle(-wide / 2, -(deep + CUT) / 2, wide, deep + CUT), theme.paper)
    drawn = {"door": _door, "window": _window, "open way": _open_way}[opening.kind](opening, (wide, deep), theme)
    at, angle = frame.mm(opening.at), opening.angle - 90
    return Group(tuple(Shape(turned(one.path, angle, at), one.fill, one.pen) for one in (cut, *drawn)))


def opening_spots(frame: Frame) -> list[tuple[Bounds, Subject]]:
    """Return where each opening of the level can be pointed at, in paper mm."""
    found = [opening for opening in frame.findings.home.openings if opening.level == frame.level]
    return [(_pointed_at(one, frame), Subject("opening", one.id)) for one in found]


def _pointed_at(opening: Opening, frame: Frame) -> Bounds:
    wide, deep = opening.width / frame.scale, wall_depth(frame) + SPOT
    corners = rectangle(-wide / 2, -deep / 2, wide, deep)
    return path_bounds(turned(corners, opening.angle - 90, frame.mm(opening.at)))


def swings(frame: Frame) -> list[Bounds]:
    """Return the boxes that the doors of the level sweep, in paper mm, for names to keep out of."""
    found = [opening for opening in frame.findings.home.openings if opening.level == frame.level]
    return [_swept(door, frame) for door in found if door.kind == "door" and "none" not in (door.hinge, door.swing)]


def _swept(door: Opening, frame: Frame) -> Bounds:
    wide = door.width / frame.scale
    reach = wide + _face(wall_depth(frame))
    corners = rectangle(-wide / 2, 0 if door.swing == "ahead" else -reach, wide, reach)
    return path_bounds(turned(corners, door.angle - 90, frame.mm(door.at)))


def _face(deep: float) -> float:
    """Return how far off the middle of its wall a door hangs: in the face of a thick one, else in the middle."""
    return deep / 2 if deep > OUTER else 0.0


def _door(opening: Opening, size: tuple[float, float], theme: Theme) -> list[Shape]:
    """Draw the leaf half open at a right angle and the quarter circle of its edge."""
    wide, deep = size
    if opening.hinge == "none" or opening.swing == "none":
        return [Shape(polyline((-wide / 2, 0), (wide / 2, 0)), None, Pen(0.25, theme.soft))]
    side = 1 if opening.hinge == "left" else -1  # who looks along +y has +x on the left hand
    way = 1 if opening.swing == "ahead" else -1
    hinge, edge, face = side * wide / 2, -side * wide / 2, way * _face(deep)
    open_to = face + way * wide
    k = 0.5523 * wide
    swing: Path = (
        ("M", (hinge, open_to)),
        ("C", (hinge - side * k, open_to, edge, face + way * k, edge, face)),
    )
    leaf = polyline((hinge, face), (hinge, open_to))
    return [Shape(leaf, None, Pen(0.25, theme.soft)), Shape(swing, None, Pen(0.13, theme.soft))]


def _window(_opening: Opening, size: tuple[float, float], theme: Theme) -> list[Shape]:
    """Draw the two faces of the wall, the pane between them, and its ends."""
    (wide, deep), ends = size, (-size[0] / 2, size[0] / 2)
    lines = [
        Shape(polyline((-wide / 2, y), (wide / 2, y)), None, Pen(weight, theme.wall))
        for y, weight in ((-deep / 2, 0.18), (0.0, 0.13), (deep / 2, 0.18))
    ]
    return lines + [Shape(polyline((x, -deep / 2), (x, deep / 2)), None, Pen(0.18, theme.wall)) for x in ends]


def _open_way(_opening: Opening, size: tuple[float, float], theme: Theme) -> list[Shape]:
    """Draw the middle of the gap, or both faces of a thick wall, as where a wall would be."""
    (wide, deep), dashes = size, Pen(0.13, theme.soft, (0.9, 0.7))
    faces = (-deep / 2, deep / 2) if deep > OUTER else (0.0,)
    return [Shape(polyline((-wide / 2, y), (wide / 2, y)), None, dashes) for y in faces]


def facing(angle: int) -> XY:
    """Return the direction a thing at this angle looks, as a unit step on the sheet."""
    return round(cos(radians(angle)), 9), round(sin(radians(angle)), 9)
