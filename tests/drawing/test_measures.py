"""Measures on the plan: what is written is true, and nothing lies over anything."""

from functools import cache
from math import hypot

import pytest

from floorplan_circuits.drawing.ink import Group, Shape, Text, path_bounds
from floorplan_circuits.drawing.lettering import width
from floorplan_circuits.drawing.measures import faint_walls, held_rooms, measured_level, wall_measures
from floorplan_circuits.drawing.overlaps import overlap
from floorplan_circuits.drawing.palette import LIGHT
from floorplan_circuits.edits.rooms import add_level, add_room
from floorplan_circuits.files.open import open_home
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.lengths import parse_length
from floorplan_circuits.home.resources import folder
from tests.edits.samples import SQUARE, house, level_of

SAMPLES = ("cottage", "flat", "house")


@cache
def sample(name: str) -> Findings:
    return find(open_home(folder("sample_homes") / f"{name}.json").home)


def texts(ink: Group) -> list[Text]:
    groups = [mark for part in ink.marks if isinstance(part, Group) for mark in texts(part)]
    return groups + [mark for mark in ink.marks if isinstance(mark, Text)]


def bounds(text: Text):
    half = width(text.words, text.size, text.bold) / 2
    return text.at[0] - half, text.at[1] - 2.2, text.at[0] + half, text.at[1] + 0.3


def test_each_wall_has_its_length_beside_its_middle():
    told = {words: places[0] for places, words in wall_measures(SQUARE, 50, "metric")}

    assert told.keys() == {"4.00 m", "3.00 m"}
    assert all(0 < x < 80 and 0 < y < 60 for x, y in told.values())


def test_turning_the_outline_round_keeps_measures_inside():
    for outline in (SQUARE, SQUARE[::-1]):
        assert all(0 < x < 80 and 0 < y < 60 for places, _ in wall_measures(outline, 50, "metric") for x, y in places)


@pytest.mark.parametrize("name", SAMPLES)
def test_measures_of_the_samples_say_what_is_there_and_none_lies_over_another(name):
    found = sample(name)
    for level in found.home.levels.ids():
        words = texts(measured_level(found, level, 75, LIGHT))
        assert {room.name for room in found.home.rooms if room.level == level} <= {one.words for one in words}
        boxes = [bounds(one) for one in words]
        assert not any(overlap(a, b) for place, a in enumerate(boxes) for b in boxes[:place])
        sides = {
            round(hypot(bx - ax, by - ay))
            for room in found.home.rooms
            for (ax, ay), (bx, by) in zip(room.outline, (*room.outline[1:], room.outline[0]), strict=True)
        }
        lengths = [one.words for one in words if one.size == 7.5]
        assert lengths
        assert all(min(abs(parse_length(one, found.home.units) - side) for side in sides) <= 7 for one in lengths)


def test_a_selected_room_shows_a_square_at_each_corner():
    found = find(house())
    ink = held_rooms(found, found.home.rooms.rows, 50, LIGHT)

    squares = [mark for mark in ink.marks if isinstance(mark, Shape) and mark.fill and mark.pen]
    assert len(squares) == 4
    assert [one.words for one in texts(ink)] == ["4.00 m", "3.00 m", "4.00 m", "3.00 m"]


def test_the_level_below_is_drawn_where_this_one_has_no_wall():
    home = add_level(house(), "First floor")
    home = add_room(home.home, home.made[0], ((0, 0), (4000, 0), (4000, 2000), (0, 2000))).home
    upper = home.levels.ids()[-1]

    lines = [path_bounds(mark.path) for mark in faint_walls(find(home), level_of(home), upper, 50, LIGHT).marks]

    assert sorted(lines) == [(0, 40, 0, 60), (0, 60, 80, 60), (80, 40, 80, 60)]
