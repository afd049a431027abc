"""Places on walls: on the nearest, clear of its corners, facing the side that was pointed at."""

from math import cos, hypot, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.geometry.snapping import edges, foot
from floorplan_circuits.geometry.wall_spots import (
    CORNER_CLEAR_MM,
    ON_WALL_MM,
    PROBE_MM,
    WallSpot,
    faces_into,
    is_inside,
    is_on_wall,
    on_wall,
    wall_spot,
)

SQUARE = ((0, 0), (4000, 0), (4000, 3000), (0, 3000))
HALL = ((4000, 0), (7000, 0), (7000, 3000), (4000, 3000))
SLANTED = ((0, 0), (3000, 4000), (-1000, 4000))


@pytest.mark.parametrize(
    ("at", "spot"),
    [
        ((1000, 50), WallSpot((1000, 0), 90)),
        ((1000, -50), WallSpot((1000, 0), 270)),
        ((3950, 1500), WallSpot((4000, 1500), 180)),
        ((4050, 1500), WallSpot((4000, 1500), 0)),
        ((2000, 2990), WallSpot((2000, 3000), 270)),
        ((10, 20), WallSpot((0, 60), 0)),
    ],
)
def test_a_box_turns_to_its_wall(at, spot):
    assert wall_spot(at, [SQUARE, HALL], 700) == spot


@pytest.mark.parametrize("outline", [SQUARE, SQUARE[::-1]])
@pytest.mark.parametrize(("at", "angle"), [((1000, 0), 90), ((4000, 1000), 180), ((1000, 3000), 270), ((0, 1000), 0)])
def test_a_place_on_the_wall_itself_faces_into_the_room(outline, at, angle):
    assert wall_spot(at, [outline], 700) == WallSpot(at, angle)


def test_there_is_no_wall_past_the_reach():
    assert wall_spot((2000, 1500), [SQUARE], 700) is None
    assert wall_spot((2000, 1500), [], 700) is None
    assert wall_spot((0, 0), [((0, 0), (0, 0))], 700) is None


def test_a_short_wall_is_met_in_its_middle():
    assert on_wall((90, 5), (0, 0), (100, 0)) == (50, 0)
    assert on_wall((7, 7), (3, 3), (3, 3)) == (3, 3)


def test_what_is_in_a_room_and_on_its_wall_is_told():
    assert is_inside((1, 1), SQUARE)
    assert not is_inside((4001, 1), SQUARE)
    assert not is_inside((1, 1), ())
    assert is_on_wall((2000, -ON_WALL_MM), SQUARE)
    assert not is_on_wall((2000, ON_WALL_MM + 1), SQUARE)
    assert faces_into((1000, 0), 90, [SQUARE])
    assert not faces_into((1000, 0), 270, [SQUARE])


def test_a_box_faces_what_the_findings_say_it_faces():
    from floorplan_circuits.geometry import rooms

    assert PROBE_MM == rooms.PROBE_MM


def apart(a, b) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


places = st.tuples(*[st.floats(-1500, 8500)] * 2)
OUTLINES = [SQUARE, HALL, SLANTED]


@given(places, st.floats(10, 2000))
def test_a_spot_is_on_a_wall_clear_of_corners_and_near(at, reach):
    spot = wall_spot(at, OUTLINES, reach)
    if spot is None:
        assert all(apart(foot(at, a, b), at) > reach for a, b in edges(OUTLINES))
        return
    assert any(is_on_wall(spot.at, outline) for outline in OUTLINES)
    assert apart(spot.at, at) <= reach + CORNER_CLEAR_MM + 1
    own = [(a, b) for a, b in edges(OUTLINES) if apart(foot(spot.at, a, b), spot.at) <= 1]
    assert any(min(apart(spot.at, a), apart(spot.at, b)) >= CORNER_CLEAR_MM - 1 for a, b in own)


@given(places)
def test_a_spot_faces_the_side_of_the_pointer(at):
    spot = wall_spot(at, OUTLINES, 700)
    if spot is not None:
        ahead = (at[0] - spot.at[0]) * cos(radians(spot.angle)) + (at[1] - spot.at[1]) * sin(radians(spot.angle))
        assert ahead >= -0.01 * hypot(at[0] - spot.at[0], at[1] - spot.at[1]) - 1
