"""Copying and pasting: rooms, boxes and the doors and windows of the rooms, with new ids and marks."""

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit, there
from floorplan_circuits.edits.moving import contents, shifted
from floorplan_circuits.edits.numbering import counter, marks_given, next_mark
from floorplan_circuits.home.boxes import NOT_KNOWN, Box, Device, Feed
from floorplan_circuits.home.building import Opening, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Point, change

Fresh = Callable[[], int]


class Clip(NamedTuple):
    """What was copied: the records as they were."""

    rooms: tuple[Room, ...] = ()
    boxes: tuple[Box, ...] = ()
    openings: tuple[Opening, ...] = ()


def copied(home: Home, ids: Iterable[int]) -> Clip:
    """Return the rooms and boxes among `ids`, with all that is in the rooms. Raises `Refused` if there are none."""
    named = set(ids)
    wanted = named | contents(home, named)
    clip = Clip(
        tuple(room for room in home.rooms if room.id in wanted),
        tuple(box for box in home.boxes if box.id in wanted),
        tuple(opening for opening in home.openings if opening.id in wanted),
    )
    if not clip.rooms and not clip.boxes:
        raise Refused("Choose rooms or boxes to copy.")
    return clip


def aside(clip: Clip, far: int) -> Point:
    """Return how a copy is moved to lie beside what it is a copy of: boxes of one wall along it, else both ways."""
    ways = {box.angle % 180 for box in clip.boxes if box.mount in ("wall", "outdoor")}
    if not clip.rooms and len(ways) == 1 and all(box.mount in ("wall", "outdoor") for box in clip.boxes):
        return {0: (0, far), 90: (far, 0)}.get(ways.pop(), (far, far))
    return far, far


@edit
def paste(home: Home, clip: Clip, level: int, by: Point) -> Edited:
    """Put a copy of the clip on a level, moved by (x, y) mm, with new ids and marks.

    What a copy hangs on is unknown, and so is all else that somebody would have had to look at to know.
    """
    if not clip.rooms and not clip.boxes:
        raise Refused("Copy something first.")
    there(home.levels, level, "level")
    ids = counter(home)
    rooms = [
        change(room, id=ids.new(), level=level, outline=tuple(shifted(corner, by) for corner in room.outline))
        for room in clip.rooms
    ]
    openings = [change(one, id=ids.new(), level=level, at=shifted(one.at, by)) for one in clip.openings]
    boxes = [_copy(box, ids.new, level, next_mark(home, place), by) for place, box in enumerate(clip.boxes)]
    after = change(
        home,
        rooms=(*home.rooms, *rooms),
        openings=(*home.openings, *openings),
        boxes=(*home.boxes, *boxes),
        next_id=ids.next_id,
        marks_given=marks_given(home) + len(boxes) if boxes else home.marks_given,
    )
    return Edited(after, f"Paste {_called(rooms, boxes)}", (*(room.id for room in rooms), *(box.id for box in boxes)))


def _called(rooms: Sequence[Room], boxes: Sequence[Box]) -> str:
    parts = [counted(len(rooms), "room")] if rooms else []
    parts += [counted(len(boxes), "box", "boxes")] if boxes else []
    return " and ".join(parts)


def _copy(box: Box, new: Fresh, level: int, mark: str, by: Point) -> Box:
    return change(
        box,
        id=new(),
        mark=mark,
        level=level,
        at=None if box.at is None else shifted(box.at, by),
        devices=tuple(_untold_device(device, new) for device in box.devices),
        passing=tuple(_untold(feed, new) for feed in box.passing),
        wiring="not known",
        note="",
        pictures=(),
    )


def _untold_device(device: Device, new: Fresh) -> Device:
    feeds = tuple(_untold(feed, new) for feed in device.feeds)
    return change(device, id=new(), feeds=feeds, ground="not known")


def _untold(feed: Feed, new: Fresh) -> Feed:
    """Return a copy of a feed of which nobody knows what it hangs on."""
    return change(feed, id=new(), on=NOT_KNOWN, returns="not known", said_by="not said", note="")
