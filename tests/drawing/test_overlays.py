"""Drafts: what a gesture is about to do, drawn over the plan."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.drawing.ink import Group, Mark, Shape, Stamp, Text, flat
from floorplan_circuits.drawing.overlays import DRAFT_DASH, draft_ink
from floorplan_circuits.drawing.palette import DARK, LIGHT
from floorplan_circuits.drawing.symbols import stamp
from floorplan_circuits.home.kinds import catalogue
from floorplan_circuits.view import Draft


def marks(draft: Draft, scale: float = 50.0, theme=LIGHT):
    return list(draft_ink(draft, scale, theme).marks)


def test_nothing_begun_draws_nothing():
    assert draft_ink(Draft(), 50.0, LIGHT) == Group(())


def test_lines_are_dashed_and_to_scale():
    (line,) = marks(Draft(lines=(((0, 0), (4000, 0), (4000, 3000)),)))

    assert [numbers for _, numbers in line.path] == [(0, 0), (80, 0), (80, 60)]
    assert line.pen.dash == DRAFT_DASH
    assert line.fill is None


def test_a_line_of_one_point_is_none():
    assert marks(Draft(lines=(((0, 0),), ()))) == []


def test_a_marquee_is_the_rectangle_between_its_corners():
    (frame,) = marks(Draft(marquee=((1000, 2000), (0, 0))), scale=100.0)

    assert {numbers for _, numbers in frame.path if numbers} == {(10, 20), (0, 20), (0, 0), (10, 0)}


@pytest.mark.parametrize(("joins", "dash"), [(False, DRAFT_DASH), (True, ())])
def test_a_symbol_is_framed_and_a_whole_frame_says_that_it_joins(joins, dash):
    symbol, frame = marks(Draft(symbol="switch", at=(1000, 500), angle=90, joins=joins))

    assert symbol == stamp("switch", (20, 10), 90, LIGHT.ink, LIGHT.paper)
    assert frame.pen.dash == dash


def test_words_stand_on_a_ground_of_their_own():
    (group,) = marks(Draft(words="4.00 m × 3.00 m", at=(1000, 500)))
    ground, words = group.marks

    assert (ground.fill, words.colour) == (LIGHT.ink, LIGHT.paper)
    assert words.words == "4.00 m × 3.00 m"
    assert words.at[0] > 20
    assert words.at[1] > 10


numbers = st.floats(-1e7, 1e7)
places = st.tuples(numbers, numbers)
symbols = st.sampled_from(("", "panel", *sorted({kind.symbol for kind in catalogue().values()})))
drafts = st.builds(
    Draft,
    lines=st.lists(st.lists(places, max_size=4).map(tuple), max_size=3).map(tuple),
    marquee=st.one_of(st.none(), st.tuples(places, places)),
    symbol=symbols,
    at=places,
    angle=st.integers(0, 359),
    joins=st.booleans(),
    words=st.sampled_from(("", "3.81 m", "12' 6\"")),
)


@given(drafts, st.sampled_from((8.0, 50.0, 4000.0)), st.sampled_from((LIGHT, DARK)))
def test_every_draft_is_drawn_in_the_colours_of_its_theme(draft, scale, theme):
    drawn = list(flat(draft_ink(draft, scale, theme)))

    assert bool(drawn) == bool(draft.marquee or draft.symbol or draft.words or any(len(one) > 1 for one in draft.lines))
    assert {colour for mark in drawn for colour in colours(mark)} <= {theme.ink, theme.paper, None}


def colours(mark: Mark) -> tuple[str | None, ...]:
    if isinstance(mark, Shape):
        return mark.fill, mark.pen.colour if mark.pen else None
    if isinstance(mark, Stamp):
        return mark.ink, mark.ground
    assert isinstance(mark, Text)
    return (mark.colour,)
