"""Which rooms of a level are nearest to certain boxes, and findings that hold those rooms alone, to draw them by."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from floorplan_circuits.drawing.ink import Bounds
from floorplan_circuits.drawing.overlaps import Segment, distance
from floorplan_circuits.findings import XY, Findings, Wall
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.record import change
from floorplan_circuits.home.table import Table

BESIDE_WALL, IN_A_WALL, ALONG = 250.0, 150.0, 5.0
"""House mm: how far outside the rooms a panel or stair is drawn with them; how far from the middle of its wall an
opening may lie, and an edge of a room from its wall."""


def holds(room: Room, wanted: Sequence[Box], findings: Findings) -> bool:
    """Tell whether one of the boxes is in a room."""
    return any(findings.room_of.get(box.id) == room.id for box in wanted)


def nearest_first(findings: Findings, level: int, wanted: Sequence[Box]) -> list[Room]:
    """Return the level's rooms: those of the boxes, then the others by how near they are."""
    rooms = [room for room in findings.home.rooms if room.level == level and room.outline]
    places = [box.at for box in wanted if box.at is not None]

    def away(room: Room) -> tuple[bool, float]:
        return not holds(room, wanted, findings), min(_distance(at, extent([room], ())) for at in places)

    return sorted(rooms, key=away)


def _distance(at: XY, bounds: Bounds) -> float:
    dx = max(bounds[0] - at[0], 0.0, at[0] - bounds[2])
    dy = max(bounds[1] - at[1], 0.0, at[1] - bounds[3])
    return float(dx + dy)


def extent(rooms: Iterable[Room], boxes: Iterable[Box]) -> Bounds:
    """Return the rectangle round rooms and boxes, in house mm."""
    places = [at for room in rooms for at in room.outline] + [box.at for box in boxes if box.at is not None]
    xs, ys = [x for x, _ in places], [y for _, y in places]
    return min(xs), min(ys), max(xs), max(ys)


def only(findings: Findings, level: int, rooms: Sequence[Room], wanted: Sequence[Box]) -> Findings:
    """Return findings of which a level has these rooms alone, to draw them by and for nothing else."""
    home, kept = findings.home, {room.id for room in rooms}

    def inside(at: XY | None) -> bool:
        return at is not None and any(_distance(at, extent([room], ())) <= BESIDE_WALL for room in rooms)

    def shown(box: Box) -> bool:
        return box in wanted or findings.room_of.get(box.id) in kept

    walls = tuple(_walls_of(rooms, [wall for wall in findings.walls if wall.level == level]))
    return replace(
        findings,
        home=change(
            home,
            rooms=Table(rooms),
            boxes=Table(box for box in home.boxes if box.level == level and shown(box)),
            openings=Table(one for one in home.openings if one.level == level and _on_a_wall(one.at, walls)),
            stairs=Table(one for one in home.stairs if inside(one.at)),
            panels=Table(one for one in home.panels if one.level == level and inside(one.at)),
        ),
        walls=walls,
        zones=tuple(zone for zone in findings.zones if zone.room in kept),
    )


def _walls_of(rooms: Iterable[Room], walls: Sequence[Wall]) -> Iterator[Wall]:
    """Yield the walls as far as they run along the rooms: one of them may go on past many others."""
    seen: set[tuple[XY, XY]] = set()
    for room in rooms:
        for a, b in pairwise((room.outline[-1], *room.outline)):
            for wall in walls:
                piece = _together(wall, a, b)
                if piece is not None and piece not in seen:
                    seen |= {piece, piece[::-1]}
                    yield replace(wall, a=piece[0], b=piece[1])


def _together(wall: Wall, a: XY, b: XY) -> tuple[XY, XY] | None:
    """Return the piece of a wall that runs along the edge from a to b, None where there is none."""
    (ax, ay), dx, dy = wall.a, wall.b[0] - wall.a[0], wall.b[1] - wall.a[1]
    length = (dx * dx + dy * dy) ** 0.5
    if length == 0 or any(abs((x - ax) * dy - (y - ay) * dx) / length > ALONG for x, y in (a, b)):
        return None
    first, last = sorted(((x - ax) * dx + (y - ay) * dy) / length for x, y in (a, b))
    first, last = max(first, 0.0), min(last, length)
    if last - first <= ALONG:
        return None
    at = [(ax + dx * along / length, ay + dy * along / length) for along in (first, last)]
    return at[0], at[1]


def _on_a_wall(at: XY, walls: Iterable[Wall]) -> bool:
    """Tell whether an opening stands in one of the walls."""
    return any(distance(at, Segment(wall.a, wall.b)) <= IN_A_WALL for wall in walls)
