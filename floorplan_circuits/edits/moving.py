"""Moving what is selected: rooms, boxes, panels, openings, stairs, and what lies in a room with it."""

from collections.abc import Collection, Iterable, Iterator

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit, there
from floorplan_circuits.geometry.wall_spots import is_inside, is_on_wall
from floorplan_circuits.home.boxes import Box, Mount
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import LIMIT_MM, Point, Record, change

PLACED = ("rooms", "openings", "stairs", "boxes", "panels")


@edit
def move(home: Home, ids: Iterable[int], by: Point) -> Edited:
    """Move rooms with all that is in them, boxes, panels, openings and stairs by (x, y) mm.

    Raises `Refused` where nothing of it has a place, or it would leave the sheet.
    """
    named = set(ids)
    wanted = named | contents(home, named)
    tables: dict[str, object] = {}
    moved: list[Record] = []
    for name in PLACED:
        table = getattr(home, name)
        for row in table:
            if row.id in wanted and (shifted := _shifted(row, by)) is not row:
                table = table.put(shifted)
                moved.append(row)
        tables[name] = table
    if not moved:
        raise Refused("Choose something on the plan to move.")
    own = [row for row in moved if getattr(row, "id", None) in named]
    return Edited(change(home, **tables), f"Move {_called(own or moved)}")


def contents(home: Home, ids: Collection[int]) -> set[int]:
    """Return what goes with these rooms: the boxes in them, openings in their walls, stairs and panels within."""
    rooms = [room for room in home.rooms if room.id in ids]
    if not rooms:
        return set()
    from floorplan_circuits.geometry.rooms import room_of_boxes  # late: shapely must not delay the first frame

    found = {box for box, room in room_of_boxes(home).items() if room in ids}
    return found.union(*(_standing_in(home, room) for room in rooms))


def _standing_in(home: Home, room: Room) -> Iterator[int]:
    """Yield the openings in a room's walls, and the stairs and panels that stand on its floor or its walls."""
    for opening in home.openings:
        if opening.level == room.level and is_on_wall(opening.at, room.outline):
            yield opening.id
    for one in (*home.stairs, *home.panels):
        at = one.at if one.level == room.level else None
        if at is not None and (is_inside(at, room.outline) or is_on_wall(at, room.outline)):
            yield one.id


def _shifted(row: Record, by: Point) -> Record:
    if by == (0, 0):
        return row
    if isinstance(row, Room):
        return change(row, outline=tuple(shifted(corner, by) for corner in row.outline))
    at = getattr(row, "at", None)
    return row if at is None else change(row, at=shifted(at, by))


def shifted(at: Point, by: Point) -> Point:
    """Return a place moved by (x, y) mm. Raises `Refused` off the sheet."""
    x, y = at[0] + by[0], at[1] + by[1]
    if max(abs(x), abs(y)) > LIMIT_MM:
        raise Refused("That is more than ten kilometres from the origin.")
    return x, y


def _called(rows: list[Record]) -> str:
    if len(rows) == 1:
        row = rows[0]
        return f"box {row.mark}" if isinstance(row, Box) else str(getattr(row, "name", "") or "an opening")
    boxes = [row for row in rows if isinstance(row, Box)]
    return counted(len(boxes), "box", "boxes") if len(boxes) == len(rows) else counted(len(rows), "thing")


@edit
def place_box(
    home: Home, box: int, at: Point, angle: int, mount: Mount | None = None, level: int | None = None
) -> Edited:
    """Put a box at another place, facing another way; `level` for one that is on none yet, or on another.

    Raises `Refused` for a box on no level if none is said.
    """
    found = there(home.boxes, box, "box")
    on = found.level if level is None else there(home.levels, level, "level").id
    if on is None:
        raise Refused(f"{found.mark} is on no level yet: say which.")
    changed = change(found, at=at, angle=angle % 360, mount=mount or found.mount, level=on)
    return Edited(change(home, boxes=home.boxes.put(changed)), f"Move box {found.mark}")
