"""Moving, copying and pasting what is selected: rooms, boxes, panels, and what lies in a room with it."""

from collections.abc import Collection, Iterable
from typing import NamedTuple

from floorplan_circuits.edits.edited import Edited, Refused, counted
from floorplan_circuits.edits.numbering import counter, next_mark
from floorplan_circuits.edits.rooms import sound_outline
from floorplan_circuits.home.boxes import NOT_KNOWN, Box, Feed
from floorplan_circuits.home.building import Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import LIMIT_MM, Point, Record, change
from floorplan_circuits.home.references import Refers


def move(home: Home, ids: Iterable[int], by: Point, with_rooms: Collection[int] = ()) -> Edited:
    """Move rooms, boxes, panels, openings and stairs by (x, y) mm. `with_rooms` are boxes that go with their rooms.

    Raises `Refused` where nothing of it has a place, or it would leave the sheet.
    """
    wanted = {*ids, *with_rooms}
    tables: dict[str, object] = {}
    moved: list[Record] = []
    for name in ("rooms", "openings", "stairs", "boxes", "panels"):
        table = getattr(home, name)
        for row in table:
            if row.id in wanted and (shifted := _shifted(row, by)) is not row:
                table = table.put(shifted)
                moved.append(row)
        tables[name] = table
    if not moved:
        raise Refused("Choose something on the plan to move.")
    return Edited(change(home, **tables), f"Move {_called(moved)}")


def _shifted(row: Record, by: Point) -> Record:
    if isinstance(row, Room):
        return change(row, outline=tuple(_plus(corner, by) for corner in row.outline))
    at = getattr(row, "at", None)
    return row if at is None else change(row, at=_plus(at, by))


def _plus(at: Point, by: Point) -> Point:
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


def place_box(home: Home, box: int, at: Point, angle: int) -> Edited:
    """Put a box at another place, facing another way."""
    found = home.boxes[box]
    changed = change(found, at=at, angle=angle % 360)
    return Edited(change(home, boxes=home.boxes.put(changed)), f"Move box {found.mark}")


# --- copy and paste -------------------------------------------------------------------------------------------------


class Clip(NamedTuple):
    """What was copied: the records as they were, and the level they were on."""

    rooms: tuple[Room, ...] = ()
    boxes: tuple[Box, ...] = ()


def copied(home: Home, ids: Iterable[int], with_rooms: Collection[int] = ()) -> Clip:
    """Return the rooms and boxes among `ids`. Raises `Refused` if there are none."""
    wanted = {*ids, *with_rooms}
    clip = Clip(
        tuple(room for room in home.rooms if room.id in wanted),
        tuple(box for box in home.boxes if box.id in wanted),
    )
    if not clip.rooms and not clip.boxes:
        raise Refused("Choose rooms or boxes to copy.")
    return clip


def paste(home: Home, clip: Clip, level: int, by: Point) -> Edited:
    """Put a copy of the clip on a level, moved by (x, y) mm, with new ids and marks.

    What a copy hangs on is unknown: nobody has tested it. References inside the clip point to the copies.
    """
    if not clip.rooms and not clip.boxes:
        raise Refused("Nothing is copied yet.")
    ids = counter(home)
    fresh = {old: ids.new() for old in _ids_in(clip)}
    rooms, boxes, given = home.rooms, home.boxes, home.marks_given
    made: list[int] = []
    for room in clip.rooms:
        outline = sound_outline([_plus(corner, by) for corner in room.outline])
        rooms = rooms.put(change(room, id=fresh[room.id], level=level, outline=outline))
        made.append(fresh[room.id])
    for count, box in enumerate(clip.boxes):
        mark = next_mark(home, count)
        given = max(given, int(mark[1:]))
        boxes = boxes.put(_copy(box, fresh, level, mark, by, home))
        made.append(fresh[box.id])
    after = change(home, rooms=rooms, boxes=boxes, next_id=ids.next_id, marks_given=given)
    return Edited(after, f"Paste {counted(len(made), 'thing')}", tuple(made))


def _ids_in(clip: Clip) -> list[int]:
    inside = [room.id for room in clip.rooms]
    for box in clip.boxes:
        inside += [box.id, *(device.id for device in box.devices), *(feed.id for feed in box.feeds())]
    return inside


def _copy(box: Box, fresh: dict[int, int], level: int, mark: str, by: Point, home: Home) -> Box:
    def target(_declared: Refers, named: int) -> int | None:
        return fresh.get(named)

    at = None if box.at is None else _plus(box.at, by)
    plain = change(box, id=fresh[box.id], mark=mark, level=level, at=at, pictures=(), note="")
    devices = tuple(
        change(device, id=fresh[device.id], feeds=tuple(_untold(feed, fresh) for feed in device.feeds))
        for device in plain.devices
    )
    passing = tuple(_untold(feed, fresh) for feed in plain.passing)
    return change(plain, devices=devices, passing=passing)


def _untold(feed: Feed, fresh: dict[int, int]) -> Feed:
    """Return a copy of a feed of which nobody knows what it hangs on."""
    return change(feed, id=fresh[feed.id], on=NOT_KNOWN, returns="not known", said_by="not said")
