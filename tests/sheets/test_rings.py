"""Rings: each box has one, its mark is inside or beside it, and a label that is close is in it too."""

from floorplan_circuits.drawing.ink import Shape, Text, flat
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.plan import plan
from floorplan_circuits.find import find
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.sheets.rings import RING, ringed
from tests.drawing.drawn import bounds_of, box, breaker, device, fed, home, overlap, room

BREAKERS = (breaker(6, 1), breaker(7, 2))


def drawn(*boxes: Box) -> tuple[list[Shape], list[Text]]:
    findings = find(home(boxes, BREAKERS, (room(30, "Hall", 0, 0, 5000, 4000),)))
    ink, _ = ringed(plan(findings, 1, 75.0, PAPER), boxes, PAPER)
    marks = list(flat(ink))
    rings = [mark for mark in marks if isinstance(mark, Shape) and mark.pen is not None and mark.pen.width == RING]
    return rings, [mark for mark in marks if isinstance(mark, Text)]


def test_a_box_whose_mark_the_plan_does_not_tell_gets_it_beside_its_ring() -> None:
    (ring,), texts = drawn(box(20, (2500, 4000), device(21, fed(22, 6)), angle=270))
    (name,) = [text for text in texts if text.words == "B20"]
    assert not overlap(bounds_of(ring), bounds_of(name))


def test_a_shared_boxs_own_plate_is_in_the_ring_and_its_mark_is_told_once() -> None:
    (ring,), texts = drawn(box(20, (2500, 4000), device(21, fed(22, 6), fed(23, 7)), angle=270))
    (name,) = [text for text in texts if text.words == "B20"]
    assert overlap(bounds_of(ring), bounds_of(name))


def test_the_names_of_boxes_side_by_side_do_not_cover_each_other() -> None:
    boxes = [box(20 + 3 * at, (1500 + 700 * at, 4000), device(21 + 3 * at, fed(22 + 3 * at, 6))) for at in range(3)]
    rings, texts = drawn(*boxes)
    names = [bounds_of(text) for text in texts if text.words.startswith("B2")]
    assert len(rings) == len(names) == 3
    assert not any(overlap(a, b) for at, a in enumerate(names) for b in names[:at])
