"""Outlines as drawn by hand: tidied, refused where they are no room, sound where they are taken."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.outlines import sound_outline
from floorplan_circuits.home.building import Level, Room
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import sound_outlines

SQUARE = ((0, 0), (4000, 0), (4000, 3000), (0, 3000))


def test_a_plain_outline_is_taken_as_it_is():
    assert sound_outline(SQUARE) == SQUARE
    assert sound_outline(SQUARE[::-1]) == SQUARE[::-1]


def test_repeated_and_straight_through_corners_are_left_out():
    drawn = [(0, 0), (0, 0), (2000, 0), (4000, 0), (4000, 3000), (0, 3000), (0, 1500), (0, 0)]

    assert sound_outline(drawn) == SQUARE


@pytest.mark.parametrize(
    ("outline", "says"),
    [
        ([], "at least three corners"),
        ([(0, 0), (4000, 0)], "at least three corners"),
        ([(0, 0), (4000, 0), (0, 0), (4000, 0)], "at least three corners|cross itself"),
        ([(0, 0), (2000, 0), (4000, 0)], "at least three corners|cross itself"),
        ([(0, 0), (3000, 3000), (3000, 0), (0, 3000)], "cross itself"),
        ([(0, 0), (200_001, 0), (200_001, 3000), (0, 3000)], "over 200 m"),
        ([(0, 0), (199, 0), (199, 3000), (0, 3000)], "next to no area"),
        ([(0, 0), (4000, 0), (4000, 150), (0, 150)], "next to no area"),
        ([(0, 0), (250, 0), (4, 2), (0, 250)], "next to no area"),
        ([(place, place * place % 9973) for place in range(1002)], "at most 1,000 corners"),
    ],
)
def test_what_is_no_room_is_refused(outline, says):
    with pytest.raises(Refused, match=says):
        sound_outline(outline)


@given(st.lists(st.tuples(*[st.integers(-9, 9).map(lambda step: step * 100)] * 2), max_size=7))
def test_what_is_taken_is_sound_and_stays_as_it_is(outline):
    try:
        taken = sound_outline(outline)
    except Refused:
        return
    room = Room(id=2, level=1, name="Room", outline=taken)
    assert list(sound_outlines(Home(levels=(Level(id=1, name="G"),), rooms=(room,), next_id=3))) == []
    assert sound_outline(taken) == taken
