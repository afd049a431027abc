"""What switches work, and what is only planned, on the plan: on request, apart, and covered by nothing."""

from itertools import combinations

import pytest

from floorplan_circuits.drawing.arcs import BOW, arc_handles, arc_points
from floorplan_circuits.drawing.ink import Shape, flat
from floorplan_circuits.drawing.overlaps import overlap
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.plan import Plan, plan
from floorplan_circuits.drawing.plan_planned import FRAME_DASH
from floorplan_circuits.drawing.plan_switching import LEG_DASH, LEG_PEN
from floorplan_circuits.edits.boxes import put_device, set_devices
from floorplan_circuits.edits.switching import let_work
from floorplan_circuits.find import find
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.home import Home
from tests.edits.samples import box_of, device_of, house, level_of


def lit() -> Home:
    home = put_device(house(), level_of(house()), (2000, 1500), 90, "ceiling light").home
    home = put_device(home, level_of(home), (0, 1500), 0, "three-way switch").home
    return let_work(home, [device_of(home, "B3"), device_of(home, "B5")], [box_of(home, "B4")]).home


def drawn(home: Home, **shown: bool) -> Plan:
    return plan(find(home), level_of(home), 50, PAPER, **shown)


def dashed(made: Plan, dash: tuple[float, ...]) -> list[Shape]:
    return [one for one in flat(made.ink) if isinstance(one, Shape) and one.pen is not None and one.pen.dash == dash]


def test_arcs_are_off_unless_asked_for_and_one_joins_each_symbol_to_its_group():
    home = lit()

    assert dashed(drawn(home), LEG_DASH) == []
    arcs = dashed(drawn(home, switching=True), LEG_DASH)
    assert len(arcs) == 2
    assert {arc.pen.width for arc in arcs} == {LEG_PEN}
    assert all(arc.path[1][0] == "C" for arc in arcs)


def test_an_arc_is_gentle_and_the_same_from_either_end():
    a, b = (0.0, 0.0), (30.0, 4.0)

    for one, other in zip(arc_points(a, b), reversed(arc_points(b, a)), strict=True):
        assert one == pytest.approx(other)
    assert arc_handles(a, a) == (a, a)
    far = max(abs(x * -4 + y * 30) / (30 * 30 + 4 * 4) for x, y in arc_points(a, b))
    assert far == pytest.approx(BOW, abs=0.01)


def test_what_is_planned_is_drawn_apart_where_it_is_asked_for_and_never_else():
    home = set_devices(lit(), [box_of(lit(), "B1")], planned=True).home
    there = Subject("box", box_of(home, "B1"))

    paper, screen = drawn(home), drawn(home, with_planned=True)

    assert there not in {subject for _, subject in paper.spots}
    assert there in {subject for _, subject in screen.spots}
    assert (len(dashed(paper, FRAME_DASH)), len(dashed(screen, FRAME_DASH))) == (0, 1)


def test_what_is_planned_beside_what_is_built_covers_neither_it_nor_a_label():
    home = put_device(house(), level_of(house()), (2500, 0), 90, "switch").home
    home = set_devices(home, [box_of(home, "B4")], planned=True).home

    made = drawn(home, with_planned=True)

    assert not any(overlap(a, b) for (a, _), (b, _) in combinations(made.spots, 2))
