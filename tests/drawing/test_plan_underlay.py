"""The picture under a level on the plan: in its place, over floors and under walls, and left out unless wanted."""

import pytest

from floorplan_circuits.drawing.ink import PictureMark, Shape, flat
from floorplan_circuits.drawing.palette import DARK, LIGHT, PAPER
from floorplan_circuits.drawing.plan import plan
from floorplan_circuits.edits.underlays import fade_underlay, put_underlay
from floorplan_circuits.find import find
from floorplan_circuits.home.home import Home
from tests.edits.samples import level_of
from tests.edits.test_underlays import with_picture


def pictures(home: Home, theme=LIGHT, traced: bool = True) -> list[PictureMark]:
    drawn = plan(find(home), level_of(home), 50.0, theme, traced=traced)
    return [mark for mark in flat(drawn.ink) if isinstance(mark, PictureMark)]


def test_it_lies_in_its_place_at_the_plans_scale() -> None:
    (mark,) = pictures(with_picture())

    assert mark.bounds == (0, 0, 160, 120)  # 8 by 6 m at 1:50
    assert mark.strength == pytest.approx(0.4)


def test_its_lines_darken_a_light_ground_and_lighten_a_dark_one() -> None:
    assert [pictures(with_picture(), theme)[0].blend for theme in (LIGHT, DARK)] == ["darken", "lighten"]


def test_paper_leaves_it_out_unless_it_is_asked_for() -> None:
    assert pictures(with_picture(), PAPER, traced=False) == []


def test_faded_out_it_is_not_drawn() -> None:
    home = with_picture()
    assert pictures(fade_underlay(home, level_of(home), 0).home) == []


def test_it_lies_over_the_floors_and_under_the_walls() -> None:
    home = with_picture()
    marks = list(flat(plan(find(home), level_of(home), 50.0, LIGHT, traced=True).ink))
    (at,) = [nth for nth, mark in enumerate(marks) if isinstance(mark, PictureMark)]
    walls = [nth for nth, one in enumerate(marks) if isinstance(one, Shape) and one.pen and one.pen.width == 1.0]

    assert isinstance(marks[0], Shape)
    assert marks[0].fill == LIGHT.paper
    assert 0 < at < min(walls)


def test_a_level_with_nothing_but_a_picture_takes_its_room() -> None:
    from floorplan_circuits.edits.starting import new_home

    home = new_home("Empty")
    level = level_of(home)
    home = put_underlay(home, level, "ab" * 32, "image/png", (400, 300), at=(1000, 0), width=8000).home

    assert plan(find(home), level, 50.0, LIGHT, traced=True).bounds == pytest.approx((20, 0, 180, 120))
