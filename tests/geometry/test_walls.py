"""Walls: each stretch once, outer where one room has it, in the longest straight pieces."""

from collections import Counter
from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.geometry.walls import stretches, walls
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.table import Table
from tests.geometry.plans import L_SHAPE, outlines, plan, rectangle


def length(pieces):
    return sum(hypot(bx - ax, by - ay) for (ax, ay, bx, by), _ in pieces)


def test_a_lone_room_has_its_edges_as_outer_walls():
    assert sorted(stretches([rectangle(0, 0, 4000, 3000)])) == [
        ((0, 0, 0, 3000), True),
        ((0, 0, 4000, 0), True),
        ((0, 3000, 4000, 3000), True),
        ((4000, 0, 4000, 3000), True),
    ]


def test_two_rooms_share_one_wall_between_them():
    found = stretches([rectangle(0, 0, 4000, 3000), rectangle(4000, 0, 4000, 3000)])

    assert [piece for piece, outer in found if not outer] == [(4000, 0, 4000, 3000)]
    assert ((0, 0, 8000, 0), True) in found
    assert len(found) == 5


def test_a_wall_shared_in_part_is_cut_where_the_sharing_ends():
    found = stretches([rectangle(0, 0, 4000, 3000), rectangle(4000, 1000, 4000, 3000)])

    on_the_line = [(piece, outer) for piece, outer in found if piece[0] == piece[2] == 4000]
    assert on_the_line == [
        ((4000, 0, 4000, 1000), True),
        ((4000, 1000, 4000, 3000), False),
        ((4000, 3000, 4000, 4000), True),
    ]


def test_inner_walls_that_go_straight_on_are_one_piece():
    cells = [rectangle(x, y, 3000, 2000) for x in (0, 3000) for y in (0, 2000)]

    assert sorted(piece for piece, outer in stretches(cells) if not outer) == [
        (0, 2000, 6000, 2000),
        (3000, 0, 3000, 4000),
    ]


def test_a_slanted_wall_is_shared_whichever_way_its_rooms_run_round():
    below = ((0, 0), (3000, 1000), (0, 4000))
    above = ((3000, 1000), (0, 0), (3000, -2000))

    assert [piece for piece, outer in stretches([below, above]) if not outer] == [(0, 0, 3000, 1000)]


def test_a_slanted_wall_shared_in_part_is_cut_exactly():
    long, short = ((0, 0), (6000, 2000), (0, 5000)), ((3000, 1000), (6000, 2000), (6000, -1000))

    found = dict(stretches([long, short]))

    assert found[0, 0, 3000, 1000] is True
    assert found[3000, 1000, 6000, 2000] is False


def test_parallel_walls_a_millimetre_apart_stay_two():
    found = stretches([rectangle(0, 0, 4000, 3000), rectangle(4001, 0, 4000, 3000)])

    assert all(outer for _, outer in found)
    assert len(found) == 8


def test_a_corner_in_the_middle_of_a_straight_edge_makes_no_seam():
    outline = ((0, 0), (2000, 0), (4000, 0), (4000, 3000), (0, 3000))

    assert ((0, 0, 4000, 0), True) in stretches([outline])


@pytest.mark.parametrize("outlines_given", [[], [()], [((5, 5),)], [((5, 5), (5, 5), (5, 5))]])
def test_what_has_no_edge_has_no_wall(outlines_given):
    assert stretches(outlines_given) == []


def test_walls_far_from_the_origin_are_exact():
    far = 10**7 - 3
    slanted = ((-far, -far), (far, far - 1), (-far, far))

    assert len(stretches([slanted, slanted])) == 3
    assert not any(outer for _, outer in stretches([slanted, slanted]))


def test_each_level_has_walls_of_its_own():
    rooms = [Room(id=9 + level, level=level, name="Room", outline=rectangle(0, 0, 1000, 1000)) for level in (1, 2)]
    home = Home(levels=Table([Level(id=2, name="Up"), Level(id=1, name="Down")]), rooms=Table(rooms))

    found = walls(home)

    assert [wall.level for wall in found] == [2] * 4 + [1] * 4
    assert all(wall.outer for wall in found)
    assert ((0.0, 0.0), (0.0, 1000.0)) in [(wall.a, wall.b) for wall in found]


def test_a_home_without_rooms_has_no_walls():
    assert walls(plan([])) == ()


@settings(max_examples=50, deadline=None)
@given(outlines())
def test_the_walls_of_one_room_are_as_long_as_its_outline(outline):
    around = sum(
        hypot(bx - ax, by - ay) for (ax, ay), (bx, by) in zip(outline, (*outline[1:], outline[0]), strict=True)
    )

    assert length(stretches([outline])) == pytest.approx(around)


@settings(max_examples=50, deadline=None)
@given(st.lists(st.tuples(*[st.integers(0, 6)] * 2, *[st.integers(1, 4)] * 2), min_size=1, max_size=6))
def test_every_unit_of_every_edge_is_on_one_wall_and_outer_only_if_one_room_has_it(cells):
    rooms = [rectangle(*cell) for cell in cells]
    had = Counter(unit for room in rooms for unit in units_of_outline(room))
    found = [(unit, outer) for piece, outer in stretches(rooms) for unit in units(*piece)]

    assert len(found) == len(had)
    assert dict(found) == {unit: times == 1 for unit, times in had.items()}


def units_of_outline(room):
    return [unit for a, b in zip(room, (*room[1:], room[0]), strict=True) for unit in units(*min(a, b), *max(a, b))]


def units(ax, ay, bx, by):
    if ax == bx:
        return [(ax, y, ax, y + 1) for y in range(ay, by)]
    return [(x, ay, x + 1, ay) for x in range(ax, bx)]


def test_the_order_of_rooms_makes_no_difference():
    rooms = [L_SHAPE, rectangle(1000, 1000, 3000, 3000), rectangle(4000, 0, 2000, 4000)]

    assert stretches(rooms) == stretches(rooms[::-1])
