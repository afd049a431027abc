"""Rings round the boxes of a shut-off on a drawn plan, each with its mark inside or beside it."""

from collections.abc import Sequence

from floorplan_circuits.drawing.ink import Bounds, Group, Mark, Pen, Shape, Text, flat, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.overlaps import overlap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plan import Plan
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.home.boxes import Box

RING, RING_GROWS, MOST_RING = 0.7, 0.9, 18.0
"""mm: weight of a ring, its distance from what it is round, and how large it may be to hold the label as well."""
NAME_SIZE, NAME_HIGH, NAME_AIR = 8.5, 4.0, 0.6


def ringed(drawn: Plan, wanted: Sequence[Box], theme: Theme) -> tuple[Group, Bounds]:
    """Draw a ring round each of the boxes; beside it its mark, if the plan does not tell it, where nothing stands."""
    told = [mark for mark in flat(drawn.ink) if isinstance(mark, Text)]
    rings = {box.id: _ring_bounds(drawn, box) for box in wanted}
    taken = [bounds for bounds, _ in drawn.spots] + list(rings.values())
    marks: list[Mark] = []
    left, top, right, bottom = drawn.bounds
    for box in wanted:
        ring = rings[box.id]
        outline = rectangle(ring[0], ring[1], ring[2] - ring[0], ring[3] - ring[1], RING_GROWS)
        marks.append(Shape(outline, None, Pen(RING, theme.ink)))
        left, top, right, bottom = _grown((left, top, right, bottom), ring)
        if any(mark.words == box.mark and _is_in(mark.at, ring) for mark in told):
            continue
        name = _name_bounds(ring, width(box.mark, NAME_SIZE, True) + 2 * NAME_AIR, taken)
        taken.append(name)
        marks += _name(box.mark, name, theme)
        left, top, right, bottom = _grown((left, top, right, bottom), name)
    return Group((drawn.ink, *marks)), (left, top, right, bottom)


def _is_in(at: XY, bounds: Bounds) -> bool:
    return bounds[0] <= at[0] <= bounds[2] and bounds[1] <= at[1] <= bounds[3]


def _grown(a: Bounds, b: Bounds) -> Bounds:
    """Return the rectangle round both, with half a ring's line outside the second."""
    half = RING / 2
    return min(a[0], b[0] - half), min(a[1], b[1] - half), max(a[2], b[2] + half), max(a[3], b[3] + half)


def _ring_bounds(drawn: Plan, box: Box) -> Bounds:
    """Return the ring about a box: what is drawn of it, with its label where that is close to it."""
    subject = Subject("box", box.id)
    at = (box.at or (0, 0))[0] / drawn.scale, (box.at or (0, 0))[1] / drawn.scale
    own, *labels = [bounds for bounds, about in drawn.spots if about == subject] or [(*at, *at)]
    whole = own
    for label in labels:
        whole = min(whole[0], label[0]), min(whole[1], label[1]), max(whole[2], label[2]), max(whole[3], label[3])
    if max(whole[2] - whole[0], whole[3] - whole[1]) > MOST_RING:
        whole = own
    return whole[0] - RING_GROWS, whole[1] - RING_GROWS, whole[2] + RING_GROWS, whole[3] + RING_GROWS


def _name_bounds(ring: Bounds, wide: float, taken: Sequence[Bounds]) -> Bounds:
    """Return where a mark stands beside its ring: the place where it covers least, the first of these."""
    left, top, right, bottom = ring
    middle_x, middle_y, gap = (left + right - wide) / 2, (top + bottom - NAME_HIGH) / 2, RING
    corners = [(right + gap, middle_y), (left - gap - wide, middle_y)]
    corners += [(x, y) for y in (bottom + gap, top - gap - NAME_HIGH) for x in (middle_x, left - wide, right)]
    places = [(x, y, x + wide, y + NAME_HIGH) for x, y in corners]
    return min(places, key=lambda place: sum(1 for other in taken if overlap(place, other)))


def _name(mark: str, bounds: Bounds, theme: Theme) -> tuple[Mark, ...]:
    x, y, right, bottom = bounds
    ground = Shape(rectangle(x, y, right - x, bottom - y, 0.5), theme.paper, Pen(0.35, theme.ink))
    baseline = (y + bottom + cap_height(NAME_SIZE)) / 2
    return ground, Text(((x + right) / 2, baseline), mark, NAME_SIZE, True, theme.ink, "middle")
