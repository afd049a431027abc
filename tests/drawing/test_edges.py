"""Outlines as sets of edges: what two areas share goes when they join; all is measured again by shapely."""

from itertools import pairwise

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.edges import edges_of, length, lines_of, pieces, rings_of, width_across

SQUARE = ((0, 0), (10, 0), (10, 10), (0, 10))
BESIDE = ((10, 0), (20, 0), (20, 10), (10, 10))
HOLE = ((4, 4), (6, 4), (6, 6), (4, 6))

cells = st.sets(st.tuples(st.integers(0, 6), st.integers(0, 6)), min_size=1, max_size=30)


def cell(x, y):
    return ((10 * x, 10 * y), (10 * x + 10, 10 * y), (10 * x + 10, 10 * y + 10), (10 * x, 10 * y + 10))


def floor_of(rings):
    floor = shapely.Polygon()
    for ring in rings:
        floor = floor.symmetric_difference(shapely.Polygon(ring))
    return floor


def test_two_areas_are_joined_without_the_edge_they_share():
    together = edges_of([SQUARE]) ^ edges_of([BESIDE])

    assert ((10, 0), (10, 10)) not in together
    assert floor_of(rings_of(together)).equals(shapely.box(0, 0, 20, 10))


def test_an_edge_is_the_same_whichever_way_round_its_outline_goes():
    assert edges_of([SQUARE]) == edges_of([SQUARE[::-1]])
    assert length(edges_of([SQUARE]) & edges_of([BESIDE])) == 10


@given(cells)
def test_joined_cells_cover_what_they_covered_in_outlines_that_touch_at_most_in_corners(drawn):
    edges = frozenset()
    for at in drawn:
        edges ^= edges_of([cell(*at)])
    rings = rings_of(edges)

    assert floor_of(rings).equals(shapely.union_all([shapely.Polygon(cell(*at)) for at in drawn]))
    assert all(shapely.Polygon(ring).is_valid for ring in rings)
    assert edges_of(rings) == edges


@given(cells)
def test_lines_go_along_every_edge_once_and_end_only_at_forks(drawn):
    edges = frozenset(edge for at in drawn for edge in edges_of([cell(*at)]))
    lines = list(lines_of(edges))
    gone = [tuple(sorted(pair)) for line in lines for pair in pairwise(line)]
    ends = {corner: sum(corner in edge for edge in edges) for edge in edges for corner in edge}

    assert sorted(gone) == sorted(edges)
    for line in lines:
        assert line[0] == line[-1] or (ends[line[0]] != 2 and ends[line[-1]] != 2)
        assert all(ends[corner] == 2 for corner in line[1:-1])


@given(cells)
@settings(max_examples=50)
def test_each_piece_is_one_area_with_its_own_holes(drawn):
    floor = shapely.union_all([shapely.Polygon(cell(*at)) for at in drawn])
    parts = list(shapely.get_parts(floor))
    rings = tuple(tuple(ring.coords)[:-1] for part in parts for ring in (part.exterior, *part.interiors))
    found = [floor_of(piece) for piece in pieces(rings)]

    assert len(found) == len(parts)
    assert all(any(one.equals(part) for part in parts) for one in found)


def test_a_piece_inside_a_hole_is_a_piece_of_its_own():
    inner = ((4.5, 4.5), (5.5, 4.5), (5.5, 5.5), (4.5, 5.5))

    assert pieces((HOLE, inner, SQUARE)) == [(inner,), (SQUARE, HOLE)]


@pytest.mark.parametrize("turn", [(1, 0), (3, 4), (4, -3), (5, 12)])
def test_a_strip_is_as_wide_however_it_is_turned(turn):
    dx, dy = turn
    strip = [(x * dx - y * dy, x * dy + y * dx) for x, y in ((0, 0), (70, 0), (70, 20), (0, 20))]

    assert width_across(edges_of([strip])) == pytest.approx(20 * (dx * dx + dy * dy) ** 0.5)


@given(st.lists(st.tuples(st.integers(-500, 500), st.integers(-500, 500)), min_size=3, max_size=9, unique=True))
def test_an_area_is_no_narrower_than_its_hull(points):
    hull = shapely.MultiPoint(points).convex_hull
    if hull.geom_type == "Polygon":
        ring = tuple(hull.exterior.coords)[:-1]
        a, b, c = list(hull.minimum_rotated_rectangle.exterior.coords)[:3]
        sides = shapely.Point(a).distance(shapely.Point(b)), shapely.Point(b).distance(shapely.Point(c))

        assert width_across(edges_of([ring])) <= min(sides) + 1e-6
        assert width_across(edges_of([ring])) >= 2 * shapely.maximum_inscribed_circle(hull).length - 1e-3
