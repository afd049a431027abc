"""The rows of a form that hold for one box as for many: kind, built or planned, height, place, reach, what works it."""

from collections.abc import Callable, Iterable, Sequence
from typing import get_args

from floorplan_circuits.edits.boxes import set_boxes, set_devices
from floorplan_circuits.edits.edited import Edited, Refused
from floorplan_circuits.edits.switching import groups_of, set_groups_by
from floorplan_circuits.home.boxes import Box, WorkedBy
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.lengths import NotALength, Units, parse_length, show_length

BUILT = {"built": False, "only planned": True}
PLACED = {"seen": "seen", "a guess": "guessed"}
WAYS = get_args(WorkedBy)
"""What may work a group of switches."""
MIXED = ""
"""What stands where the boxes differ."""

Make = Callable[[str], Callable[[Home], Edited]]


def kind_of(boxes: Sequence[Box]) -> str:
    """Return the kind that all devices of these boxes are of, or nothing."""
    return _same(device.kind for box in boxes for device in box.devices)


def built_of(boxes: Sequence[Box]) -> str:
    """Return whether what is in these boxes is built or planned."""
    words = {planned: word for word, planned in BUILT.items()}
    return _same(words[device.planned] for box in boxes for device in box.devices)


def placed_of(boxes: Sequence[Box]) -> str:
    """Return whether the places of these boxes were seen or guessed."""
    words = {value: word for word, value in PLACED.items()}
    return _same(words[box.placed] for box in boxes)


def height_of(boxes: Sequence[Box], units: Units) -> str:
    """Return the height that these boxes have above the floor."""
    return _same("" if box.height is None else show_length(box.height, units) for box in boxes)


def by_of(boxes: Sequence[Box], home: Home) -> str | None:
    """Return how the switches in these boxes are worked; nothing where they differ, None where none works anything."""
    groups = groups_of(home, [device.id for box in boxes for device in box.devices])
    return _same(group.by for group in groups) if groups else None


def make_kind(boxes: Sequence[int]) -> Make:
    """Return what choosing a kind does."""
    return lambda words: lambda home: set_devices(home, boxes, kind=words)


def make_built(boxes: Sequence[int]) -> Make:
    """Return what choosing built or planned does."""
    return lambda words: lambda home: set_devices(home, boxes, planned=BUILT[words])


def make_placed(boxes: Sequence[int]) -> Make:
    """Return what choosing seen or guessed does."""
    return lambda words: lambda home: set_boxes(home, boxes, placed=PLACED[words])


def make_by(boxes: Sequence[int]) -> Make:
    """Return what choosing how the switches are worked does."""
    return lambda words: lambda home: set_groups_by(home, boxes, words)  # type: ignore[arg-type]  # one of `WAYS`


def make_reach(boxes: Sequence[int]) -> Make:
    """Return what typing how to reach the boxes does."""
    return lambda words: lambda home: set_boxes(home, boxes, reach=words)


def make_height(boxes: Sequence[int]) -> Make:
    """Return what typing a height does; nothing typed: nobody knows it."""

    def make(words: str) -> Callable[[Home], Edited]:
        def act(home: Home) -> Edited:
            try:
                height = parse_length(words, home.units) if words.strip() else None
            except NotALength as error:
                raise Refused(str(error)) from error
            return set_boxes(home, boxes, height=height)

        return act

    return make


def _same(values: Iterable[str]) -> str:
    found = set(values)
    return found.pop() if len(found) == 1 else MIXED
