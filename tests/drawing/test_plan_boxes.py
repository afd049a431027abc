"""Boxes on the plan: symbols of what is built, a housing round several, plates of all that enters."""

from math import cos, radians, sin

import pytest
from shapely.geometry import Point

from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Shape, Stamp, flat
from floorplan_circuits.drawing.overlaps import Segment
from floorplan_circuits.drawing.palette import DARK, GREY, PAPER, Theme
from floorplan_circuits.drawing.placement import Ground
from floorplan_circuits.drawing.plan_boxes import circuits_in_words, contents, dot_box, drawn_box, plates_of, subject_of
from floorplan_circuits.drawing.plates import Plate
from floorplan_circuits.find import find
from floorplan_circuits.geometry.outlines import polygon
from floorplan_circuits.home.boxes import Box
from tests.drawing.drawn import box, breaker, device, fed, home, sample

BREAKERS = (breaker(6, 1), breaker(7, 2))


def frame_of(one: Box, theme: Theme = PAPER) -> Frame:
    return Frame(find(home((one,), BREAKERS)), 1, 50.0, theme)


def symbols(one: Box) -> list[str]:
    drawn = drawn_box(one, frame_of(one), Ground())
    return [mark.symbol for outer in drawn.marks for mark in flat(outer) if isinstance(mark, Stamp)]


def test_symbols_stand_in_the_order_of_the_gangs() -> None:
    one = box(20, (0, 0), device(21, slot=2, kind="dimmer"), device(22, slot=1, kind="switch"))
    assert symbols(one) == ["switch", "dimmer"]


def test_a_planned_device_is_not_drawn_as_existing() -> None:
    one = box(20, (0, 0), device(21, fed(22, 6), kind="switch"), device(23, fed(24, 7), kind="dimmer", planned=True))
    assert symbols(one) == ["switch"]
    assert [plate.words for plate in plates_of(one, frame_of(one))] == ["1"]
    assert "dimmer" not in contents(one)


def test_a_box_without_devices_shows_what_it_is_itself() -> None:
    assert symbols(box(20, (0, 0))) == ["junction box"]
    assert symbols(box(20, (0, 0), mount="loose cable end")) == ["loose cable end"]


def test_a_box_on_a_wall_stands_on_the_walls_face() -> None:
    one = box(20, (1000, 0), device(21, fed(22, 6)), angle=90)
    drawn = drawn_box(one, frame_of(one), Ground([Segment((0, 0), (40, 0), 0.5)]))
    assert drawn.at == pytest.approx((20, 0.5))
    assert drawn.bounds[0][1] == pytest.approx(0.5, abs=0.2)
    assert drawn.depth == pytest.approx(drawn.bounds[0][3] - 0.5)


def test_several_gangs_share_a_housing_that_holds_them() -> None:
    one = box(20, (1000, 1000), device(21, fed(22, 6)), device(23, fed(24, 6), slot=2), angle=0)
    drawn = drawn_box(one, frame_of(one), Ground())
    (housing,) = [mark for mark in drawn.marks if isinstance(mark, Shape)]
    assert housing.fill == PAPER.paper
    assert housing.pen is not None
    assert housing.pen.width == 0.25


@pytest.mark.parametrize("theme", [PAPER, GREY, DARK], ids=["paper", "grey", "dark"])
def test_a_shared_box_has_a_filled_housing_with_a_heavy_edge(theme: Theme) -> None:
    one = box(20, (0, 0), device(21, fed(22, 6), fed(23, 7)))
    drawn = drawn_box(one, frame_of(one, theme), Ground())
    (housing,) = [mark for mark in drawn.marks if isinstance(mark, Shape)]
    assert drawn.caution
    assert housing.fill == theme.caution
    assert housing.pen is not None
    assert housing.pen.width == 0.5
    assert housing.pen.colour != (theme.canvas if theme is DARK else theme.paper)


def test_plates_tell_each_kind_once_and_what_passes_last() -> None:
    one = box(20, (0, 0), device(21, fed(22, 6), fed(23, 6)), device(24, fed(25)), passing=(fed(26, 7),))
    assert plates_of(one, frame_of(one)) == (
        Plate("1", "claimed"),
        Plate("?", "unknown"),
        Plate("2", "claimed", passing=True),
    )


@pytest.mark.parametrize("one", [box(20, (0, 0)), box(20, (0, 0), device(21))])
def test_where_nothing_is_recorded_the_plate_says_so(one: Box) -> None:
    assert plates_of(one, frame_of(one)) == (Plate("?", "unknown"),)


def test_a_box_in_doubt_wears_its_mark() -> None:
    known, unknown = box(20, (0, 0), device(21, fed(22, 6))), box(20, (0, 0), device(21, fed(22)))
    assert not drawn_box(known, frame_of(known), Ground()).named
    assert drawn_box(unknown, frame_of(unknown), Ground()).named


def test_a_dot_keeps_the_boxs_plates() -> None:
    one = box(20, (0, 0), device(21, fed(22, 6), fed(23, 7)))
    dot = dot_box(one, (3.0, 4.0), 1.0, frame_of(one))
    assert dot.bounds == ((2.5, 3.5, 3.5, 4.5),)
    assert dot.caution
    assert [plate.words for plate in dot.plates] == ["1", "2"]


def test_a_sentence_says_what_is_in_a_box_and_how_it_is_known() -> None:
    one = box(20, (0, 0), device(21, fed(22, 6), kind="switch", name="porch"), device(23, fed(24, 7)))
    words = circuits_in_words(one, find(home((one,), BREAKERS)))
    assert words == "B20, porch, receptacle: 1 (only said), 2 (only said). More than one circuit enters."
    assert subject_of(one).id == 20


def test_a_sentence_is_honest_about_an_empty_box() -> None:
    one = box(20, (0, 0))
    assert circuits_in_words(one, find(home((one,)))) == "B20, no device: ? (nobody knows)."


@pytest.mark.parametrize(("angle", "way"), [(0, (1, 0)), (90, (0, 1)), (180, (-1, 0)), (270, (0, -1))])
def test_a_loose_cable_end_points_the_way_it_is_turned(angle: int, way: tuple[int, int]) -> None:
    one = box(20, (1000, 1000), device(21, fed(22), kind="loose cable end"), mount="loose cable end", angle=angle)
    drawn = drawn_box(one, frame_of(one), Ground())
    left, top, right, bottom = drawn.bounds[0]
    middle = (left + right) / 2 - drawn.at[0], (top + bottom) / 2 - drawn.at[1]
    assert middle[0] * way[0] + middle[1] * way[1] > 1.0
    assert abs(middle[0] * way[1]) + abs(middle[1] * way[0]) < 0.2


@pytest.mark.parametrize("name", ["cottage", "flat", "house"])
def test_every_loose_cable_end_of_the_samples_points_into_the_room_the_words_name(name: str) -> None:
    findings = sample(name)
    ends = [one for one in findings.home.boxes if one.mount == "loose cable end"]
    assert ends
    for one in ends:
        ahead = one.at[0] + 100 * cos(radians(one.angle)), one.at[1] + 100 * sin(radians(one.angle))
        room = findings.home.rooms[findings.room_of[one.id]]
        assert polygon(room.outline).contains(Point(ahead))


def test_a_junction_box_shows_the_cables_it_holds_and_none_beside_them() -> None:
    one = box(20, (0, 0), device(21, kind="junction box"), passing=(fed(22, 6), fed(23)))
    assert [plate.words for plate in plates_of(one, frame_of(one))] == ["1", "?"]
    empty = box(20, (0, 0), device(21, kind="junction box"))
    assert [plate.words for plate in plates_of(empty, frame_of(empty))] == ["?"]
