"""The piece of a plan around certain boxes: their rooms and as many near ones as fit, the boxes ringed and named."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from floorplan_circuits.drawing.frame import is_built
from floorplan_circuits.drawing.ink import Bounds, Group, moved
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plan import DOTS_FROM, plan
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.building import Room
from floorplan_circuits.sheets.rings import ringed
from floorplan_circuits.sheets.rooms_around import extent, holds, nearest_first, only

SCALES = (50.0, 60.0, 75.0, 90.0, 100.0, 125.0, 150.0, 200.0, 300.0, 500.0, 1000.0, 5000.0, 50_000.0, 500_000.0)
USUAL = 75.0
"""No larger than this, so that something of what is near is seen as well."""
LABELS, MOST_TRIES = 14.0, 4
"""mm that labels outside the walls are likely to take in all; with how many sets of rooms a scale is tried."""


@dataclass(frozen=True, slots=True)
class PlanAround:
    """A piece of a level's plan: its ink from the top left corner, its size, its scale, and the boxes ringed."""

    ink: Group
    width: float
    height: float
    scale: float
    level: int
    boxes: tuple[int, ...]


def plans_around(findings: Findings, boxes: Iterable[int], room: tuple[float, float], theme: Theme) -> list[PlanAround]:
    """Return for each level with one of the boxes the plan around them, no larger than `room` mm.

    Where that would show no more than dots there is one for each of their rooms. A box without a place is on none, nor
    is one whose labels need more room than there is at any scale.
    """
    placed = [box for box in map(findings.home.boxes.get, boxes) if box is not None and _is_drawn(box)]
    pieces: list[PlanAround] = []
    for level in dict.fromkeys(box.level or 0 for box in placed):
        wanted = [box for box in placed if box.level == level]
        together = _around(findings, level, wanted, room, theme)
        groups = _by_room(wanted, findings)
        drawn = [together]
        if len(groups) > 1 and (together is None or together.scale >= DOTS_FROM):
            drawn = [_around(findings, level, group, room, theme) for group in groups]
        pieces += [piece for piece in drawn if piece is not None]
    return pieces


def _by_room(wanted: Sequence[Box], findings: Findings) -> list[list[Box]]:
    """Return the boxes by their rooms; one that is in none stands alone."""
    groups: dict[tuple[int | None, int], list[Box]] = {}
    for box in wanted:
        room = findings.room_of.get(box.id)
        groups.setdefault((room, box.id if room is None else 0), []).append(box)
    return list(groups.values())


def _is_drawn(box: Box) -> bool:
    return box.at is not None and box.level is not None and is_built(box)


def _around(
    findings: Findings, level: int, wanted: Sequence[Box], room: tuple[float, float], theme: Theme
) -> PlanAround | None:
    """Draw the largest that fits, with as many of the nearest rooms as go with it."""
    near = nearest_first(findings, level, wanted)
    least = sum(1 for one in near if holds(one, wanted, findings))
    for scale in SCALES:
        if scale < USUAL and len(near) > least:
            continue
        for count in _counts(near, least, wanted, scale, room):
            drawn = plan(only(findings, level, near[:count], wanted), level, scale, theme)
            with_rings = ringed(drawn, wanted, theme)
            if _fits(with_rings, room):
                return PlanAround(*_at_origin(with_rings), scale, level, tuple(box.id for box in wanted))
    return None


def _counts(
    near: Sequence[Room], least: int, wanted: Sequence[Box], scale: float, room: tuple[float, float]
) -> Iterator[int]:
    """Yield with how many of the rooms to try: the most that fit with their labels, then fewer, some times."""
    last = scale == SCALES[-1]
    counts = range(len(near), least - 1, -1)
    fitting = (count for count in counts if last or _is_small(extent(near[:count], wanted), scale, room))
    yield from islice(fitting, MOST_TRIES)


def _is_small(extent: Bounds, scale: float, room: tuple[float, float]) -> bool:
    """Tell whether walls and the labels outside them are likely to fit: the plan drawn tells for sure."""
    wide, high = (extent[2] - extent[0]) / scale, (extent[3] - extent[1]) / scale
    labels = LABELS if scale < DOTS_FROM else LABELS / 2  # among dots few boxes are labelled
    return wide <= room[0] - labels and high <= room[1] - labels


def _fits(drawn: tuple[Group, Bounds], room: tuple[float, float]) -> bool:
    left, top, right, bottom = drawn[1]
    return right - left <= room[0] and bottom - top <= room[1]


def _at_origin(drawn: tuple[Group, Bounds]) -> tuple[Group, float, float]:
    ink, (left, top, right, bottom) = drawn
    placed = moved(ink, -left, -top)
    assert isinstance(placed, Group)
    return placed, right - left, bottom - top
