"""Rings round the boxes of a shut-off on a drawn plan, each with its mark inside or beside it."""

from collections.abc import Iterator, Sequence

from floorplan_circuits.drawing.ink import Bounds, Group, Mark, Pen, Shape, Text, flat, polyline, rectangle
from floorplan_circuits.drawing.lettering import cap_height, width
from floorplan_circuits.drawing.overlaps import overlap
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plan import Plan
from floorplan_circuits.findings import XY, Subject
from floorplan_circuits.home.boxes import Box

RING, RING_GROWS, MOST_RING = 0.7, 0.9, 18.0
"""mm: weight of a ring, its distance from what it is round, and how large it may be to hold the label as well."""
NAME_SIZE, NAME_HIGH, NAME_AIR, LEADER = 8.5, 4.0, 0.6, 0.35
AWAY = (RING, 3.0, 6.0, 10.0, 15.0, 22.0)
"""How far from its ring a mark may stand, in mm, nearest first: past the first a line leads to it."""


def ringed(drawn: Plan, wanted: Sequence[Box], theme: Theme) -> tuple[Group, Bounds]:
    """Draw a ring round each of the boxes; beside it its mark, if the plan does not tell it, where nothing stands."""
    told = [mark for mark in flat(drawn.ink) if isinstance(mark, Text)]
    rings = {box.id: _ring_bounds(drawn, box) for box in wanted}
    taken = [*(bounds for bounds, _ in drawn.spots), *map(_text_bounds, told), *rings.values()]
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
        marks += (_leader(ring, name, theme), *_name(box.mark, name, theme))
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
    """Return where a mark stands: as near to its ring as it covers nothing, else where it covers least."""
    places = [place for away in AWAY for place in _places(ring, wide, away)]
    return min(places, key=lambda place: sum(1 for other in taken if overlap(place, other)))


def _places(ring: Bounds, wide: float, away: float) -> Iterator[Bounds]:
    """Yield the places so many mm from a ring: beside it, below, above, at its corners."""
    left, top, right, bottom = ring
    columns = (left - away - wide, (left + right - wide) / 2, right + away)
    rows = (top - away - NAME_HIGH, (top + bottom - NAME_HIGH) / 2, bottom + away)
    for column, row in ((2, 1), (0, 1), (1, 2), (1, 0), (2, 2), (0, 2), (2, 0), (0, 0)):
        x, y = columns[column], rows[row]
        yield x, y, x + wide, y + NAME_HIGH


def _text_bounds(mark: Text) -> Bounds:
    wide = width(mark.words, mark.size, mark.bold)
    left = mark.at[0] - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor]
    return left, mark.at[1] - cap_height(mark.size), left + wide, mark.at[1]


def _leader(ring: Bounds, name: Bounds, theme: Theme) -> Shape:
    """Draw the line from a ring to its mark: next to nothing where the one stands beside the other."""
    ends = [
        (min(max((name[low] + name[high]) / 2, ring[low]), ring[high]) for low, high in ((0, 2), (1, 3))),
        (min(max((ring[low] + ring[high]) / 2, name[low]), name[high]) for low, high in ((0, 2), (1, 3))),
    ]
    (ax, ay), (bx, by) = ends
    return Shape(polyline((ax, ay), (bx, by)), None, Pen(LEADER, theme.ink))


def _name(mark: str, bounds: Bounds, theme: Theme) -> tuple[Mark, ...]:
    x, y, right, bottom = bounds
    ground = Shape(rectangle(x, y, right - x, bottom - y, 0.5), theme.paper, Pen(0.35, theme.ink))
    baseline = (y + bottom + cap_height(NAME_SIZE)) / 2
    return ground, Text(((x + right) / 2, baseline), mark, NAME_SIZE, True, theme.ink, "middle")
