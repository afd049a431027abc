"""A level too dense for the paper, in parts: which there are, what is in each, and the key that shows them."""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import ceil

from floorplan_circuits.drawing.ink import Bounds, Group, Mark, Pen, Shape, Text, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import XY, Findings, RoomShape, Wall, Zone
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table
from floorplan_circuits.sheets.clipping import clipped_line, clipped_ring
from floorplan_circuits.sheets.sections import Block, Section

KEY_HIGH, LEAST_CELL = 58.0, 6.0
NUMBER_SIZE = 10.0
LEAST_NAMED = 1500.0
"""House mm that a cut room must measure both ways to have its name written in the part."""


Cell = tuple[int, int]
"""A row and a column of the cut, counted from 0."""


@dataclass(frozen=True, slots=True)
class Parts:
    """A level cut into parts: the house mm at which columns and rows begin and end, and its walls.

    `cells` are those that hold a box or a panel, row by row: they are the parts. Two boxes 10 km apart lie in two
    parts, whatever the cells between them.
    """

    xs: tuple[float, ...]
    ys: tuple[float, ...]
    cells: tuple[Cell, ...]
    walls: tuple[Wall, ...]

    def bounds(self) -> list[Bounds]:
        """Return the rectangles of all parts, row by row."""
        return [(self.xs[column], self.ys[row], self.xs[column + 1], self.ys[row + 1]) for row, column in self.cells]

    def beside(self, place: int) -> Iterator[tuple[str, int]]:
        """Yield on which sides of a part another lies, and the place of that."""
        row, column = self.cells[place]
        sides = {
            "left": (row, column - 1),
            "right": (row, column + 1),
            "above": (row - 1, column),
            "below": (row + 1, column),
        }
        places = {cell: at for at, cell in enumerate(self.cells)}
        yield from ((words, places[cell]) for words, cell in sides.items() if cell in places)


def cut_up(findings: Findings, level: Level, largest: tuple[float, float]) -> Parts:
    """Return the level in equal parts no wider and no higher than `largest`, in house mm."""
    walls = tuple(wall for wall in findings.walls if wall.level == level.id)
    held: list[XY] = [box.at for box in findings.home.boxes if box.level == level.id and box.at is not None]
    held += [panel.at for panel in findings.home.panels if panel.level == level.id and panel.at is not None]
    places = [*held, *(end for wall in walls for end in (wall.a, wall.b))]
    xs, ys = [x for x, _ in places] or [0.0], [y for _, y in places] or [0.0]
    columns, rows = _cuts(min(xs), max(xs), largest[0]), _cuts(min(ys), max(ys), largest[1])
    cells = {(bisect_right(rows, y) - 1, bisect_right(columns, x) - 1) for x, y in held}
    return Parts(columns, rows, tuple(sorted(cells)), walls)


def _cuts(first: float, last: float, most: float) -> tuple[float, ...]:
    """Return where equal pieces begin and end; the last ends a millimetre late, so that all lie in one."""
    count = max(1, ceil((last - first) / most))
    return (*(first + (last - first) * at / count for at in range(count)), last + 1.0)


# --- what is in a part ----------------------------------------------------------------------------------------------


def only_in(findings: Findings, level: Level, bounds: Bounds) -> Findings:
    """Return findings of which one level has only what lies in a part: floors and walls are cut where it ends.

    They are to draw that part by, and for nothing else.
    """
    home = findings.home

    def away(at: XY | None) -> bool:
        return at is None or not (bounds[0] <= at[0] < bounds[2] and bounds[1] <= at[1] < bounds[3])

    inside = (_room(room, bounds) for room in _on(level, home.rooms))
    rooms = {room.id: room for room in inside if room.outline}
    return replace(
        findings,
        home=change(
            home,
            rooms=Table(rooms.values()),
            boxes=home.boxes.without(box.id for box in home.boxes if box.level == level.id and away(box.at)),
            openings=home.openings.without(one.id for one in home.openings if away(one.at)),
            stairs=home.stairs.without(one.id for one in home.stairs if away(one.at)),
            panels=Table(panel for panel in home.panels if panel.level == level.id and not away(panel.at)),
        ),
        rooms={
            room.id: _shape(findings.rooms[room.id], room)
            for room in rooms.values()
            if room.id in findings.rooms and _has_room_for_a_name(room)
        },
        walls=tuple(
            replace(wall, a=line[0], b=line[1])
            for wall in findings.walls
            if wall.level == level.id and (line := clipped_line(wall.a, wall.b, bounds)) is not None
        ),
        zones=tuple(zone for one in findings.zones if one.room in rooms and (zone := _zone(one, bounds)).rings),
    )


def _on(level: Level, rooms: Table[Room]) -> Sequence[Room]:
    return [room for room in rooms if room.level == level.id]


def _room(room: Room, bounds: Bounds) -> Room:
    """Return the room as far as it lies in the part."""
    inside = clipped_ring(room.outline, bounds)
    return change(room, outline=tuple((round(x), round(y)) for x, y in inside))


def _zone(zone: Zone, bounds: Bounds) -> Zone:
    return replace(zone, rings=tuple(inside for ring in zone.rings if (inside := clipped_ring(ring, bounds))))


def _has_room_for_a_name(room: Room) -> bool:
    """Tell whether more than a strip of the room lies in the part: its name stands in the other part else."""
    xs, ys = [x for x, _ in room.outline], [y for _, y in room.outline]
    return min(max(xs) - min(xs), max(ys) - min(ys)) >= LEAST_NAMED


def _shape(shape: RoomShape, room: Room) -> RoomShape:
    """Return where the name may stand: the middle of what is in the part, then the room's own places there."""
    xs, ys = [x for x, _ in room.outline], [y for _, y in room.outline]
    middle = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    own = [(x, y) for x, y in shape.label_at if min(xs) <= x <= max(xs) and min(ys) <= y <= max(ys)]
    return replace(shape, label_at=tuple(own) or (middle,))


# --- the key --------------------------------------------------------------------------------------------------------


def key_to_parts(parts: Parts, wide: float, theme: Theme) -> Section:
    """Return the list that shows which part is where: the level's walls, and each part's number in its place."""
    drawn, high = small_key(parts, (wide, KEY_HIGH), theme)
    return Section("The parts of this level", (Block(drawn, high + 1.5),), wide, whole=True)


def small_key(parts: Parts, room: tuple[float, float], theme: Theme, here: int | None = None) -> tuple[Group, float]:
    """Draw the parts from the origin as large as the room in mm allows; return them with their height.

    `here` is the place of one part, counted from 0, that is framed. Numbers that find no room in a cell are left out:
    parts are counted row by row.
    """
    across, down = parts.xs[-1] - parts.xs[0], parts.ys[-1] - parts.ys[0]
    scale = max(across / room[0], down / room[1], 1e-9)

    def at(x: float, y: float) -> XY:
        return (x - parts.xs[0]) / scale, (y - parts.ys[0]) / scale

    pale = Pen(0.13, theme.soft)
    marks: list[Mark] = []
    lines = tuple(step for wall in parts.walls if wall.outer for step in polyline(at(*wall.a), at(*wall.b)))
    marks += [Shape(lines, None, Pen(0.25, theme.soft))] if lines else []
    for number, (left, top, right, bottom) in enumerate(parts.bounds(), 1):
        (x, y), (x2, y2) = at(left, top), at(right, bottom)
        marks.append(Shape(rectangle(x, y, x2 - x, y2 - y), None, pale))
        size = min(NUMBER_SIZE, NUMBER_SIZE * (y2 - y) / LEAST_CELL)
        if size >= 7 and width(str(number), size, True) + 1 <= x2 - x:
            middle = (x + x2) / 2, (y + y2) / 2
            marks.append(_number(str(number), middle, size, theme))
    if here is not None:
        left, top, right, bottom = parts.bounds()[here]
        (x, y), (x2, y2) = at(left, top), at(right, bottom)
        marks.append(Shape(rectangle(x, y, x2 - x, y2 - y), None, Pen(0.7, theme.ink)))
    return Group(tuple(marks)), down / scale


def _number(words: str, middle: XY, size: float, theme: Theme) -> Group:
    wide, high = width(words, size, True) + 1.0, cap_height(size) + 1.0
    ground = Shape(rectangle(middle[0] - wide / 2, middle[1] - high / 2, wide, high), theme.paper)
    return Group((ground, Text((middle[0], middle[1] + cap_height(size) / 2), words, size, True, theme.ink, "middle")))
