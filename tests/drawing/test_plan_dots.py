"""The overview: a dot for every box, told apart by what is known, and plates only where they matter."""

import pytest

from floorplan_circuits.drawing.ink import Shape, flat
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.plan import Plan, plan, what_hits
from floorplan_circuits.drawing.plan_dots import PLATES_TO
from floorplan_circuits.find import find
from floorplan_circuits.findings import Subject
from tests.drawing.drawn import bounds_of, box, breaker, device, fed, home, labels_of, room, sample, words_in

KNOWN = box(20, (1000, 1000), device(21, fed(22, 6)), mount="ceiling")
UNKNOWN = box(23, (9000, 1000), device(24, fed(25)), mount="ceiling")
SHARED = box(26, (1000, 9000), device(27, fed(28, 6), fed(29, 7)), mount="ceiling")


def overview(scale: float) -> Plan:
    breakers = (breaker(6, 1), breaker(7, 2))
    hall = room(30, "Hall", 0, 0, 60_000, 60_000)
    return plan(find(home((KNOWN, UNKNOWN, SHARED), breakers, (hall,))), 1, scale, PAPER)


def dots(found: Plan, fill: str) -> list[Shape]:
    return [mark for mark in flat(found.ink) if isinstance(mark, Shape) and mark.fill == fill]


def test_known_unknown_and_shared_boxes_have_dots_of_their_own() -> None:
    found = overview(200)
    (full,) = [mark for mark in dots(found, PAPER.ink) if bounds_of(mark)[2] < 6]
    assert bounds_of(full) == pytest.approx((5 - 0.525, 5 - 0.525, 5 + 0.525, 5 + 0.525))
    hollow = [mark for mark in dots(found, PAPER.paper) if mark.pen and abs(bounds_of(mark)[0] - 44.475) < 0.01]
    assert len(hollow) == 1
    assert any(mark.pen and mark.pen.width == 0.35 for mark in dots(found, PAPER.caution))


def test_only_shared_and_doubtful_boxes_keep_their_plates() -> None:
    told = {label.subject: words_in(label) for label in labels_of(overview(200))}
    assert Subject("box", 20) not in told
    assert told[Subject("box", 23)] == ["?"]
    assert "B26" in told[Subject("box", 26)]


def test_farther_out_even_the_plates_go_and_the_name_stays() -> None:
    told = [label.subject for label in labels_of(overview(PLATES_TO))]
    assert told == [Subject("room", 30)]


def test_a_dot_can_be_clicked_from_a_little_beside_it() -> None:
    assert what_hits(overview(200), (6.2, 5.0)) == Subject("box", 20)


def test_names_and_plates_of_the_overview_cover_no_dot() -> None:
    findings = sample("cottage")
    found = plan(findings, next(iter(findings.home.levels)).id, 200, PAPER)
    spots = [(left + right) / 2 for (left, _, right, _), _ in found.spots]
    assert spots
    middles = [
        ((left + right) / 2, (top + bottom) / 2)
        for (left, top, right, bottom), subject in found.spots
        if right - left == pytest.approx(3.2)
    ]
    for label in labels_of(found):
        left, top, right, bottom = bounds_of(label)
        assert not any(left < x < right and top < y < bottom for x, y in middles)
