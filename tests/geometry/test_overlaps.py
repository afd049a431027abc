"""How far two rooms lie over each other."""

from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.geometry.overlaps import overlap_mm2

SQUARE = ((0, 0), (4000, 0), (4000, 3000), (0, 3000))


def moved(outline, by):
    return tuple((x + by[0], y + by[1]) for x, y in outline)


def test_rooms_that_share_a_wall_or_a_corner_do_not_overlap():
    assert overlap_mm2(SQUARE, moved(SQUARE, (4000, 0))) == 0
    assert overlap_mm2(SQUARE, moved(SQUARE, (4000, 3000))) == 0


def test_a_room_in_a_room_overlaps_with_its_whole_floor():
    assert overlap_mm2(SQUARE, ((100, 100), (1100, 100), (1100, 2100), (100, 2100))) == 2_000_000
    assert overlap_mm2(SQUARE, SQUARE[::-1]) == 12_000_000


@given(st.tuples(st.integers(-9000, 9000), st.integers(-9000, 9000)))
def test_of_two_alike_rectangles_the_overlap_is_a_rectangle(by):
    wide, deep = max(0, 4000 - abs(by[0])), max(0, 3000 - abs(by[1]))

    assert overlap_mm2(SQUARE, moved(SQUARE, by)) == wide * deep
