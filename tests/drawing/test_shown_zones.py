"""Zones too small for a number join a neighbour; the floor still adds up, and nothing looks better known than it is.

What is covered, what is narrow and what lies beside what is asked of shapely.
"""

from dataclasses import replace
from functools import cache

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.edges import edges_of
from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.drawing.ink import Shape, Text, flat
from floorplan_circuits.drawing.palette import PAPER
from floorplan_circuits.drawing.plan import plan
from floorplan_circuits.drawing.plan_building import floors
from floorplan_circuits.drawing.shown_zones import LEAST, joined, shown_floor
from floorplan_circuits.files.open import open_home
from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings, Zone
from floorplan_circuits.geometry.zones import divide
from floorplan_circuits.home.resources import folder
from tests.drawing.drawn import box, breaker, device, fed, home, room
from tests.homes import generate, homes

SCALES = (20.0, 50.0, 90.0, 150.0, 300.0)
ROUNDING_MM = 2.0
"""Joined outlines are in whole millimetres: their edges stray less than this."""


def rectangle(left, top, right, bottom):
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def zone(breaker, *corners, settled=True):
    return Zone(1, breaker, (rectangle(*corners),), settled and breaker is not None)


LEFT, RIGHT = zone(6, 0, 0, 2000, 3000), zone(7, 2100, 0, 4000, 3000)
STRIP = zone(8, 2000, 0, 2100, 3000)


def floor_of(rings):
    floor = shapely.Polygon()
    for ring in rings:
        floor = floor.symmetric_difference(shapely.make_valid(shapely.Polygon(ring)))
    return floor


def by_breaker(zones):
    found = {}
    for one in zones:
        found[one.breaker] = found.get(one.breaker, shapely.Polygon()).union(floor_of(one.rings))
    return found


# --- which joins which ----------------------------------------------------------------------------------------------


def test_a_strip_too_narrow_for_a_plate_takes_its_neighbours_tint():
    found = by_breaker(joined([LEFT, zone(8, 2000, 0, 2100, 3000)], 150))

    assert set(found) == {6}
    assert found[6].equals(shapely.box(0, 0, 2100, 3000))


def test_a_strip_just_wide_enough_stays():
    zones = [LEFT, STRIP]

    assert joined(zones, 100) == zones
    assert len(joined(zones, 101)) == 1


def test_it_joins_the_neighbour_with_the_longest_edge():
    short = zone(7, 2100, 0, 4000, 1000)

    assert by_breaker(joined([short, STRIP, LEFT], 150))[6].area == 2100 * 3000


def test_strips_side_by_side_join_until_they_are_wide_enough():
    strips = [zone(number, 100 * number, 0, 100 * number + 100, 3000) for number in range(1, 6)]
    found = joined(strips, 150)

    assert 1 <= len(found) < 5
    assert sum(floor_of(one.rings).area for one in found) == 5 * 100 * 3000
    assert all(min(one.rings[0])[0] + 150 < max(one.rings[0])[0] for one in found)


def test_a_room_narrower_than_a_plate_is_one_area():
    found = joined([zone(6, 0, 0, 100, 400), zone(7, 0, 400, 100, 1000)], 150)

    assert [one.breaker for one in found] == [7]


def test_a_small_piece_joins_and_its_larger_one_stays():
    far = replace(RIGHT, rings=(*RIGHT.rings, rectangle(-100, 0, 0, 3000)))
    found = by_breaker(joined([LEFT, zone(9, 2000, 0, 2100, 3000), far], 90))
    less = by_breaker(joined([LEFT, zone(9, 2000, 0, 2100, 3000), far], 150))

    assert found[7].area == 2000 * 3000
    assert less[7].area + less[6].area == 4100 * 3000
    assert less[6].covers(shapely.box(-100, 0, 2000, 3000))


def test_an_area_round_a_small_one_swallows_it_whole():
    inner = rectangle(500, 500, 600, 600)
    found = joined([replace(LEFT, rings=(*LEFT.rings, inner)), Zone(1, 7, (inner,), True)], 150)

    assert [one.breaker for one in found] == [6]
    assert floor_of(found[0].rings).equals(shapely.box(0, 0, 2000, 3000))


# --- nothing looks better known -------------------------------------------------------------------------------------


def test_a_small_unknown_zone_stays():
    zones = [LEFT, zone(None, 2000, 0, 2100, 3000)]

    assert joined(zones, 150) == zones


def test_nothing_joins_the_dots_of_the_unknown():
    zones = [zone(None, 0, 0, 2000, 3000), STRIP]

    assert joined(zones, 150) == zones


@pytest.mark.parametrize(("small", "large"), [(True, False), (False, True), (False, False)])
def test_what_is_not_all_tested_makes_the_joined_area_so(small, large):
    (found,) = joined([replace(LEFT, settled=large), replace(STRIP, settled=small)], 150)

    assert not found.settled


def test_tested_areas_stay_so_when_they_join():
    (found,) = joined([LEFT, STRIP], 150)

    assert found.settled


def test_a_breaker_shown_alone_keeps_its_small_zones():
    shown = narrow_home()
    (alone,) = shown_floor(Frame(shown, 1, 100.0, PAPER, only=8)).zones

    assert alone in shown.zones
    assert 8 not in {one.breaker for one in shown_floor(Frame(shown, 1, 100.0, PAPER)).zones}


# --- on the plan ----------------------------------------------------------------------------------------------------


@cache
def narrow_home() -> Findings:
    """A room between two circuits, with a third's two receptacles 200 mm from each of the others."""
    boxes = [
        box(20 + 3 * place, (x, y), device(21 + 3 * place, fed(22 + 3 * place, number)))
        for place, (x, y, number) in enumerate(
            ((1900, 1000, 6), (1900, 2000, 6), (2000, 1000, 8), (2000, 2000, 8), (2100, 1000, 7), (2100, 2000, 7))
        )
    ]
    breakers = tuple(breaker(number, number - 5) for number in (6, 7, 8))
    return find(home(tuple(boxes), breakers, (room(60, "Study", 0, 0, 4000, 3000),)))


def upright(edges):
    return {a[0] for a, b in edges if a[0] == b[0]}


def test_no_edge_is_drawn_between_what_was_joined_and_its_number_stays():
    shown = narrow_home()
    far, near = shown_floor(Frame(shown, 1, 50.0, PAPER)), shown_floor(Frame(shown, 1, 20.0, PAPER))

    assert {one.breaker for one in near.zones} == {6, 7, 8}
    assert {one.breaker for one in far.zones} == {6, 7}
    assert upright(near.unsettled) == {0, 1950, 2050, 4000}
    assert upright(far.unsettled) in ({0, 1950, 4000}, {0, 2050, 4000})
    words = [mark.words for mark in flat(plan(shown, 1, 50.0, PAPER).ink) if isinstance(mark, Text)]
    assert words.count("3") == 2


def test_a_room_that_looks_like_one_circuits_says_that_not_all_is_tested():
    """Its edge is gone, so the dashed line along its walls tells it."""
    boxes = (
        box(20, (1000, 1000), device(21, fed(22, 6))),
        box(23, (1000, 2000), device(24, fed(25, 6))),
        box(26, (3990, 1000), device(27, fed(28, 7))),
        box(29, (3990, 2000), device(30, fed(31, 7))),
        box(32, (3950, 1500), device(33, fed(34, 6))),
    )
    shown = find(home(boxes, (breaker(6, 1), breaker(7, 2)), (room(60, "Study", 0, 0, 4000, 3000),)))
    frame = Frame(shown, 1, 2000.0, PAPER)
    floor = shown_floor(frame)
    dashed = [mark for mark in flat(floors(frame, floor)) if isinstance(mark, Shape) and mark.pen and mark.pen.dash]

    assert [one.breaker for one in floor.whole_rooms] == [6]
    assert not floor.settled | floor.unsettled
    assert len(dashed) == 1


@pytest.mark.parametrize(("scale", "scraps"), [(125.0, 0), (150.0, 1)])
def test_a_scrap_of_a_sample_kitchen_of_427_mm_joins_only_where_that_is_under_3_mm(scale: float, scraps: int) -> None:
    shown = find(open_home(folder("sample_homes") / "house.json").home)
    level = next(one.id for one in shown.home.levels if one.name == "Ground floor")
    frame = Frame(shown, level, scale, PAPER)
    before = [one for one in shown.zones if one.room in {room.id for room in frame.rooms()}]
    after = shown_floor(frame).zones

    assert sum(len(one.rings) for one in before) - sum(len(one.rings) for one in after) == scraps


# --- any home -------------------------------------------------------------------------------------------------------


def check(before, after, least):
    """Compare a room's zones with what is shown of them; all are given as they are found."""
    was, now = by_breaker(before), by_breaker(after)
    stray = ROUNDING_MM * sum(floor_of(one.rings).length for one in before) + 1
    whole = shapely.union_all(list(was.values()))
    assert sum(floor.area for floor in now.values()) == pytest.approx(whole.area, abs=stray)
    assert shapely.union_all(list(now.values())).symmetric_difference(whole).area <= stray
    assert was.get(None, shapely.Polygon()).symmetric_difference(now.get(None, shapely.Polygon())).area <= stray
    for one in after:
        if one.settled:  # all that it covers was settled
            doubtful = [floor_of(old.rings) for old in before if not old.settled]
            assert sum(floor_of(one.rings).intersection(floor).area for floor in doubtful) <= stray
    for breaker_now, floor in now.items():
        lost = shapely.get_parts(was.get(breaker_now, shapely.Polygon()).difference(floor.buffer(ROUNDING_MM)))
        assert all(part.buffer(-least / 2 - ROUNDING_MM).is_empty for part in lost)  # too narrow for a plate's circle
        if breaker_now is not None:
            for part in shapely.get_parts(floor):
                beside = [other for key, other in now.items() if key not in (None, breaker_now)]
                shared = sum(part.buffer(1).intersection(other).area for other in beside)
                if shared > 5 * least:  # a neighbour to join: then no square box round it is narrow
                    left, top, right, bottom = part.bounds
                    assert min(right - left, bottom - top) >= least - ROUNDING_MM


coordinates = st.tuples(st.integers(0, 4000), st.integers(0, 3000))
places = st.lists(st.tuples(coordinates, st.integers(0, 4)), min_size=1, max_size=14)
outlines = st.sampled_from(
    (rectangle(0, 0, 4000, 3000), ((0, 0), (4000, 0), (4000, 1000), (1500, 1000), (1500, 3000), (0, 3000)))
)


@given(outlines, places, st.sets(st.integers(1, 4)), st.sampled_from(SCALES))
@settings(max_examples=200, deadline=None)
def test_any_room_is_covered_as_before_and_no_better_known(outline, drawn, settled, scale):
    zones = [Zone(1, key or None, rings, key in settled) for key, rings in divide(outline, drawn).items()]

    check(zones, joined(zones, LEAST * scale), LEAST * scale)


@pytest.mark.parametrize("seed", range(6))
def test_plausible_homes_join_zones_and_keep_their_floors(seed):
    findings = find(generate(seed, 150).home)
    fewer = 0
    for number in findings.home.rooms.ids():
        zones = [one for one in findings.zones if one.room == number]
        for scale in SCALES:
            shown = joined(zones, LEAST * scale)
            check(zones, shown, LEAST * scale)
            fewer += sum(len(one.rings) for one in shown) < sum(len(one.rings) for one in zones)
    assert fewer > 3


@given(homes(), st.sampled_from(SCALES))
@settings(max_examples=60, deadline=None)
def test_the_zones_of_wild_homes_are_shown_on_every_level(wild, scale):
    findings = find(wild)
    for level in wild.levels:
        frame = Frame(findings, level.id, scale, PAPER)
        floor = shown_floor(frame)
        rooms = {room.id for room in frame.rooms()}
        assert {one.room for one in floor.zones} == {one.room for one in findings.zones if one.room in rooms}
        unknown = [one for one in findings.zones if one.room in rooms and one.breaker is None]
        assert [edges_of(one.rings) for one in floor.zones if one.breaker is None] == [
            edges_of(one.rings) for one in unknown
        ]
