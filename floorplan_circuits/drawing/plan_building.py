"""The building on the plan: floors with their circuits' colours, walls, openings."""

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
    turned,
)
from floorplan_circuits.drawing.insets import inset
from floorplan_circuits.drawing.overlaps import Segment
from floorplan_circuits.drawing.palette import Theme, hatch, tint
from floorplan_circuits.drawing.plan_what_if import bare_floors
from floorplan_circuits.drawing.shown_zones import Floor
from floorplan_circuits.findings import XY, Subject, Zone
from floorplan_circuits.home.building import Opening

OUTER, INNER = 1.0, 0.5
ZONE_EDGE, ZONE_DASH = 0.18, (1.4, 0.9)
INSET = 1.1
"""How far from the middle of a wall the line runs that says a room is not all tested, in paper mm."""
DOT_SPACING, DOT = 2.4, 0.32
SPOT = 2.0
"""How deep the place is where an opening can be pointed at, in paper mm: more than its wall is."""


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
    path = tuple(part for ring in zone.rings for part in polygon(*inset([frame.mm(at) for at in ring], INSET)))
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


# --- walls and openings ---------------------------------------------------------------------------------------------


def wall_segments(frame: Frame) -> list[Segment]:
    """Return the level's walls in paper mm, for drawing and for placing labels beside them."""
    return [
        Segment(frame.mm(wall.a), frame.mm(wall.b), (OUTER if wall.outer else INNER) / 2, wall.outer)
        for wall in frame.findings.walls
        if wall.level == frame.level
    ]


def walls(segments: list[Segment], theme: Theme) -> Group:
    """Draw the walls, inner ones first, each as one path."""
    marks = []
    for half in (INNER / 2, OUTER / 2):
        path = tuple(part for wall in segments if wall.half == half for part in polyline(wall.a, wall.b))
        if path:
            marks.append(Shape(path, None, Pen(2 * half, theme.wall, cap="square")))
    return Group(tuple(marks))


def openings(frame: Frame) -> Group:
    """Draw doors, windows and open ways in the walls."""
    found = [opening for opening in frame.findings.home.openings if opening.level == frame.level]
    return Group(tuple(_opening(opening, frame) for opening in found))


def _opening(opening: Opening, frame: Frame) -> Group:
    """Draw one opening lying along x at the origin, the side it faces downwards, then turn it into its wall."""
    wide, theme = opening.width / frame.scale, frame.theme
    gap = OUTER + 0.2
    cut = Shape(polygon((-wide / 2, -gap / 2), (wide / 2, -gap / 2), (wide / 2, gap / 2), (-wide / 2, gap / 2)))
    drawn = {"door": _door, "window": _window, "open way": _open_way}[opening.kind](opening, wide, theme)
    marks = (Shape(cut.path, theme.paper), *drawn)
    at, angle = frame.mm(opening.at), opening.angle - 90
    return Group(tuple(Shape(turned(one.path, angle, at), one.fill, one.pen) for one in marks))


def opening_spots(frame: Frame) -> list[tuple[Bounds, Subject]]:
    """Return where each opening of the level can be pointed at, in paper mm."""
    found = [opening for opening in frame.findings.home.openings if opening.level == frame.level]
    return [(_pointed_at(one, frame), Subject("opening", one.id)) for one in found]


def _pointed_at(opening: Opening, frame: Frame) -> Bounds:
    half = opening.width / frame.scale / 2
    corners = polygon((-half, -SPOT / 2), (half, -SPOT / 2), (half, SPOT / 2), (-half, SPOT / 2))
    return path_bounds(turned(corners, opening.angle - 90, frame.mm(opening.at)))


def swings(frame: Frame) -> list[Bounds]:
    """Return the boxes that the doors of the level sweep, in paper mm, for names to keep out of."""
    found = [opening for opening in frame.findings.home.openings if opening.level == frame.level]
    return [_swept(door, frame) for door in found if door.kind == "door" and "none" not in (door.hinge, door.swing)]


def _swept(door: Opening, frame: Frame) -> Bounds:
    wide = door.width / frame.scale
    deep = wide if door.swing == "ahead" else -wide
    corners = polygon((-wide / 2, 0), (wide / 2, 0), (wide / 2, deep), (-wide / 2, deep))
    return path_bounds(turned(corners, door.angle - 90, frame.mm(door.at)))


def _door(opening: Opening, wide: float, theme: Theme) -> list[Shape]:
    """Draw the leaf half open at a right angle and the quarter circle of its edge."""
    if opening.hinge == "none" or opening.swing == "none":
        return [Shape(polyline((-wide / 2, 0), (wide / 2, 0)), None, Pen(0.25, theme.soft))]
    side = 1 if opening.hinge == "left" else -1  # who looks along +y has +x on the left hand
    way = 1 if opening.swing == "ahead" else -1
    hinge, edge = side * wide / 2, -side * wide / 2
    leaf = polyline((hinge, 0), (hinge, way * wide))
    k = 0.5523 * wide
    swing: Path = (
        ("M", (hinge, way * wide)),
        ("C", (hinge - side * k, way * wide, edge, way * k, edge, 0.0)),
    )
    return [Shape(leaf, None, Pen(0.25, theme.soft)), Shape(swing, None, Pen(0.13, theme.soft))]


def _window(_opening: Opening, wide: float, theme: Theme) -> list[Shape]:
    pens = ((-0.5, 0.18), (0.0, 0.13), (0.5, 0.18))
    lines = [Shape(polyline((-wide / 2, y), (wide / 2, y)), None, Pen(weight, theme.wall)) for y, weight in pens]
    ends = [Shape(polyline((x, -0.5), (x, 0.5)), None, Pen(0.18, theme.wall)) for x in (-wide / 2, wide / 2)]
    return lines + ends


def _open_way(_opening: Opening, wide: float, theme: Theme) -> list[Shape]:
    return [Shape(polyline((-wide / 2, 0), (wide / 2, 0)), None, Pen(0.13, theme.soft, (0.9, 0.7)))]


def facing(angle: int) -> XY:
    """Return the direction a thing at this angle looks, as a unit step on the sheet."""
    return round(cos(radians(angle)), 9), round(sin(radians(angle)), 9)
