"""A clip as text, for the clipboard of the system: to paste into another home, or the same one opened again."""

from pydantic import TypeAdapter, ValidationError

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.pasting import Clip
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Opening, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import boxes_make_sense, sound_outlines
from floorplan_circuits.home.record import Record
from floorplan_circuits.home.table import Table

FORMAT = "floorplan-circuits clip 1"
LONGEST = 5_000_000
"""So many letters are read from a clipboard at most."""
RULES = (sound_outlines, boxes_make_sense)
FROM_ELSEWHERE = "What is on the clipboard was not copied from a plan. Copy rooms or boxes here first."


class _Clipped(Record):
    """What a clip's text holds."""

    format: str
    rooms: tuple[Room, ...] = ()
    boxes: tuple[Box, ...] = ()
    openings: tuple[Opening, ...] = ()


def clip_text(clip: Clip) -> str:
    """Return a clip as text, without its pictures."""
    boxes = tuple(box.changed(pictures=()) for box in clip.boxes)
    return _Clipped(format=FORMAT, rooms=clip.rooms, boxes=boxes, openings=clip.openings).model_dump_json()


def read_clip(text: str) -> Clip:
    """Return the clip that a text holds. Raises `Refused` for any other text, and for what no home can hold."""
    if len(text) > LONGEST or FORMAT not in text[:200]:
        raise Refused(FROM_ELSEWHERE)
    try:
        found = TypeAdapter(_Clipped).validate_json(text)
    except ValidationError as error:
        raise Refused(FROM_ELSEWHERE) from error
    held = Home(rooms=Table(found.rooms), boxes=Table(found.boxes))
    if found.format != FORMAT or any(True for rule in RULES for _ in rule(held)):
        raise Refused(FROM_ELSEWHERE)
    return Clip(found.rooms, found.boxes, found.openings)
