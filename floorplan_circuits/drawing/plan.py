"""The plan: one level of the home at one scale, with every circuit's number, as ink."""

from collections import Counter
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass

from floorplan_circuits.drawing.arranged import Arranged, Arrangement
from floorplan_circuits.drawing.crowding import Crowd
from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Bounds, Group, Mark, PictureMark
from floorplan_circuits.drawing.overlaps import Segment, around
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan_apart import drawn_apart
from floorplan_circuits.drawing.plan_boxes import DrawnBox, circuits_in_words, subject_of
from floorplan_circuits.drawing.plan_building import (
    facing,
    floors,
    opening_spots,
    openings,
    swings,
    zone_edges,
)
from floorplan_circuits.drawing.plan_dots import dots
from floorplan_circuits.drawing.plan_labels import Labels, label_boxes, stands_of, write_labels
from floorplan_circuits.drawing.plan_planned import planned
from floorplan_circuits.drawing.plan_stairs import flight_bounds, flight_spots, stair_words, stairs
from floorplan_circuits.drawing.plan_switching import legs
from floorplan_circuits.drawing.plan_underlay import underlay, underlay_bounds
from floorplan_circuits.drawing.plan_walls import OUTER, wall_segments, walls
from floorplan_circuits.drawing.plates import row_width
from floorplan_circuits.drawing.room_names import name_rooms
from floorplan_circuits.drawing.shown_zones import Floor, shown_floor
from floorplan_circuits.drawing.symbols import bounds as symbol_bounds
from floorplan_circuits.drawing.symbols import stamp
from floorplan_circuits.findings import XY, Findings, Subject, WhatIf
from floorplan_circuits.home.power import Panel

DOTS_FROM = 160.0
"""The scale (house mm a paper mm) from which devices shrink to dots."""


@dataclass(frozen=True, slots=True)
class Plan:
    """A drawn level: its ink, the room it takes, what a point on it names, and what found no place.

    `keys` are letters that stand for rooms' names; `listed` the boxes whose circuits a list must tell, for want of
    room; `not_placed` names the labels that are not on it at all.
    """

    ink: Group
    bounds: Bounds
    spots: tuple[tuple[Bounds, Subject], ...]
    keys: tuple[tuple[str, str], ...]
    not_placed: tuple[str, ...]
    scale: float
    listed: tuple[int, ...] = ()

    @property
    def is_overview(self) -> bool:
        """Whether devices are dots: it shows where things are, not what each hangs on."""
        return self.scale >= DOTS_FROM


def plan(
    findings: Findings,
    level: int,
    scale: float,
    theme: Theme,
    only: int | None = None,
    what_if: WhatIf | None = None,
    picked: Iterable[int] = (),
    pale: frozenset[int] = frozenset(),
    switching: bool = False,
    with_planned: bool = False,
    traced: bool = False,
    arrangement: Arrangement | None = None,
) -> Plan:
    """Draw one level for one scale. Positions come out as house millimetres divided by `scale`.

    `only` is a breaker to show alone: its floors, its boxes and their labels; all other boxes stand pale, and so do
    those in `pale`. With `what_if` it is drawn as with those handles off; `picked` are boxes chosen for work, which
    show their marks. `traced`: with the picture that the level is drawn over. `switching` adds what each switch works,
    `with_planned` what is not built yet. An `arrangement` remembers from one call to the next where labels stand.
    """
    frame = Frame(findings, level, scale, theme, only, what_if, frozenset(picked), pale)
    segments = wall_segments(frame)
    ground, labels = Ground(segments), Labels()
    panels = [panel for panel in findings.home.panels if panel.level == level and panel.at is not None]
    floor = shown_floor(frame)
    beneath = underlay(frame) if traced else None
    base = (
        floors(frame, floor),
        *((beneath,) if beneath else ()),
        walls(segments, theme),
        openings(frame),
        stairs(frame),
    )
    labels.spots += [*opening_spots(frame), *flight_spots(frame)]
    things = [_panel(panel, frame, ground, labels) for panel in panels]
    if scale >= DOTS_FROM:
        things += dots(frame, ground, labels)
    else:
        things += legs(frame, ground) if switching else ()
        things += _planned(frame, ground, labels) if with_planned else ()
        depends_on = level, scale, theme, only, frame.picked, pale, switching, with_planned
        things += _close_up(frame, floor, ground, labels, arrangement or Arrangement(), depends_on)
    ink = Group((*base, *things, *labels.marks), Subject("level", level))
    return Plan(ink, _extent(segments, frame, labels, beneath), tuple(labels.spots), tuple(labels.keys),
                tuple(labels.not_placed), scale, tuple(labels.listed))  # fmt: skip


def _planned(frame: Frame, ground: Ground, labels: Labels) -> list[Mark]:
    """Draw what is planned before any label is placed, so that none covers it."""
    found = list(planned(frame, ground))
    for one in found:
        for bounds in one.bounds:
            ground.take(bounds)
            labels.spots.append((bounds, one.subject))
    return [one.ink for one in found]


def _close_up(
    frame: Frame, floor: Floor, ground: Ground, labels: Labels, arrangement: Arrangement, depends_on: Hashable
) -> list[Mark]:
    """Draw every symbol, then place names and plates round them: what is most in danger first."""
    boxes = drawn_apart(frame.boxes(), frame, ground)
    for one in boxes:
        for bounds in one.bounds:
            ground.take(bounds)
            labels.spots.append((bounds, subject_of(one.box)))
    first, rest = _by_urgency([one for one in boxes if frame.shows(one.box)], frame)
    asked = tuple((max(one.row_room, row_width(one.plates)), one.row_tight, one.named) for one in (*first, *rest))
    found = arrangement.of(
        frame.findings, (depends_on, asked), lambda: _arranged(boxes, first, rest, frame, floor, ground)
    )
    labels.add(found.names)
    write_labels((*first, *rest), found.kept, frame, labels)
    things = [Group(one.marks, subject_of(one.box), found.told[one.box.id]) for one in boxes]
    return [*things, *found.words]


def _arranged(
    boxes: Sequence[DrawnBox],
    first: Sequence[DrawnBox],
    rest: Sequence[DrawnBox],
    frame: Frame,
    floor: Floor,
    ground: Ground,
) -> Arranged:
    """Find places for names and plates: what is most in danger first."""
    told = {one.box.id: circuits_in_words(one.box, frame.findings) for one in boxes}
    crowd, names = Crowd(ground), Labels()
    label_boxes(first, crowd)
    _shun(frame, floor, ground)
    name_rooms(frame.rooms(), frame, ground, names)
    label_boxes(rest, crowd)
    return Arranged(stands_of((*first, *rest), crowd), names, tuple(stair_words(frame, ground)), told)


def _shun(frame: Frame, floor: Floor, ground: Ground) -> None:
    """Note what names avoid while they can."""
    for bounds in (*swings(frame), *flight_bounds(frame)):
        ground.shun(bounds)
    for edge in zone_edges(frame, floor):
        ground.shun_line(edge)


def _by_urgency(boxes: Iterable[DrawnBox], frame: Frame) -> tuple[list[DrawnBox], list[DrawnBox]]:
    """Split off the shared boxes; order the rest by how full their rooms are, fullest first."""
    listed = list(boxes)
    room_of = frame.findings.room_of
    crowd = Counter(room_of.get(one.box.id) for one in listed)
    rest = sorted((one for one in listed if not one.caution), key=lambda one: -crowd[room_of.get(one.box.id)])
    return [one for one in listed if one.caution], rest


def _panel(panel: Panel, frame: Frame, ground: Ground, labels: Labels) -> Mark:
    at, looks = frame.mm(panel.at or (0, 0)), facing(panel.angle)
    out = max(0.0, ground.out_of_wall(at, looks) - OUTER / 2)  # it would be lost in the ink of a thick wall
    at = at[0] + looks[0] * out, at[1] + looks[1] * out
    subject = Subject("panel", panel.id)
    bounds = symbol_bounds("panel", at, panel.angle)
    ground.take(bounds)
    labels.spots.append((bounds, subject))
    mark = stamp("panel", at, panel.angle, frame.theme.wall, frame.theme.paper)
    return Group((mark,), subject, f"Panel {panel.name}")


def _extent(segments: list[Segment], frame: Frame, labels: Labels, beneath: PictureMark | None) -> Bounds:
    """Return the box round all that was drawn; a millimetre at the origin for an empty level.

    A picture to draw over counts only until something is drawn: the rest of the sheet it is on is of no use then.
    """
    beyond = max(0.0, max((segment.half for segment in segments), default=0.0) - OUTER / 2)
    ends = [end for segment in segments for end in (segment.a, segment.b)]
    found: list[Bounds] = [around(end, (2 * beyond, 2 * beyond)) for end in ends]
    found += [around(frame.mm(corner), (0.0, 0.0)) for room in frame.rooms() for corner in room.outline]  # a cut floor
    found += [bounds for bounds, _ in labels.spots]
    found += [*swings(frame), *flight_bounds(frame)]
    found += [around(frame.mm(box.at), (3.0, 3.0)) for box in frame.boxes() if box.at is not None]
    if not found:
        return (0.0, 0.0, 1.0, 1.0) if beneath is None else underlay_bounds(frame)
    lefts, tops, rights, bottoms = zip(*found, strict=True)
    return min(lefts) - 0.5, min(tops) - 0.5, max(rights) + 0.5, max(bottoms) + 0.5


def what_hits(drawn: Plan, at: XY, reach: float = 0.6) -> Subject | None:
    """Return what a point on the plan names: the smallest spot within `reach` mm, or None."""
    x, y = at
    near = [
        ((right - left) * (bottom - top), subject)
        for (left, top, right, bottom), subject in drawn.spots
        if left - reach <= x <= right + reach and top - reach <= y <= bottom + reach
    ]
    return min(near, key=lambda item: item[0])[1] if near else None
