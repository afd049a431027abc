"""Boxes that an edit of rooms left standing on no wall: told, since only a person knows where they really are."""

from collections.abc import Iterator

from floorplan_circuits.edits.edited import counted
from floorplan_circuits.geometry.wall_spots import is_on_wall
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import Home

ON_WALL = ("wall", "outdoor")
MOST_NAMED = 4


def boxes_off_walls(before: Home, after: Home) -> Iterator[str]:
    """Tell which boxes stood on a wall of a room that was reshaped or joined, and stand on none now."""
    if before.rooms is after.rooms:
        return
    changed = [room for room in before.rooms if after.rooms.get(room.id) is not room]
    lost = [
        box
        for box in before.boxes
        if any(room.level == box.level and _is_on(box, room.outline) for room in changed) and _stands_free(box, after)
    ]
    if lost:
        marks = ", ".join(box.mark for box in lost[:MOST_NAMED]) + (" and others" if len(lost) > MOST_NAMED else "")
        yield f"{counted(len(lost), 'box stands', 'boxes stand')} on no wall now: {marks}."


def _is_on(box: Box, outline: tuple[tuple[int, int], ...]) -> bool:
    return box.at is not None and box.mount in ON_WALL and is_on_wall(box.at, outline)


def _stands_free(box: Box, home: Home) -> bool:
    now = home.boxes.get(box.id)
    return now is not None and not any(_is_on(now, room.outline) for room in home.rooms if room.level == now.level)
