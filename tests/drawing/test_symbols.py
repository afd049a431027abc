"""Symbols: every kind has one, they stand on the wall, their letters stay upright, and no two look alike."""

import math
from itertools import combinations, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing.ink import MM_PER_POINT, Bounds, Stamp, Text, flat, path_bounds, turned
from floorplan_circuits.drawing.lettering import width
from floorplan_circuits.drawing.symbols import RADIUS, Symbol, bounds, centre, every_symbol, stamp, strokes, symbol
from floorplan_circuits.findings import Subject
from floorplan_circuits.home.kinds import catalogue

NAMES = tuple(every_symbol())
WALL = tuple(name for name in NAMES if symbol(name).mount == "wall")
INK, GROUND = "#14181d", "#ffffff"
angles = st.floats(-360, 360)


def texts(name: str, angle: float = 0.0) -> list[Text]:
    return [mark for mark in flat(stamp(name, (10, 20), angle, INK, GROUND)) if isinstance(mark, Text)]


def size(box: Bounds) -> tuple[float, float]:
    return box[2] - box[0], box[3] - box[1]


def test_every_kind_of_device_has_its_symbol() -> None:
    assert {kind.symbol for kind in catalogue().values()} <= set(NAMES)


def test_the_panel_and_the_meter_have_theirs() -> None:
    assert {"panel", "meter"} <= set(NAMES)


def test_an_unknown_symbol_is_drawn_as_a_blank_outlet() -> None:
    assert symbol("crystal ball") == symbol("blank outlet")
    (mark, *_) = flat(stamp("crystal ball", (0, 0), 0, INK, GROUND))
    assert isinstance(mark, Stamp)
    assert mark.symbol == "blank outlet"


def appearance(shape: Symbol) -> tuple[object, ...]:
    return shape.strokes, tuple((letters.words, letters.sub) for letters in shape.letters)


def test_no_two_symbols_are_drawn_alike() -> None:
    assert all(appearance(symbol(a)) != appearance(symbol(b)) for a, b in combinations(NAMES, 2))


@pytest.mark.parametrize("name", WALL)
def test_a_wall_symbol_starts_at_the_wall_and_stands_into_the_room(name: str) -> None:
    left, top, right, bottom = bounds(name, (0, 0), 0, radius=1, weight=0)
    assert left == pytest.approx(0, abs=0.01)
    assert right > 1
    assert top < 0 < bottom


@pytest.mark.parametrize("name", [name for name in NAMES if name not in WALL])
def test_other_symbols_stand_round_their_origin(name: str) -> None:
    left, top, right, bottom = bounds(name, (0, 0), 0, radius=1)
    assert (left + right, top + bottom) == pytest.approx((0, 0), abs=0.01)
    assert centre(name, (3, 4), 30) == (3, 4)


@pytest.mark.parametrize("name", NAMES)
def test_the_centre_lies_inside(name: str) -> None:
    for angle in (0, 45, 90, 180, 270):
        left, top, right, bottom = bounds(name, (5, 5), angle)
        x, y = centre(name, (5, 5), angle)
        assert left < x < right
        assert top < y < bottom


def test_a_quarter_turn_is_clockwise_on_the_sheet() -> None:
    left, top, right, bottom = bounds("duplex receptacle", (0, 0), 90)
    assert bottom > 3
    assert top == pytest.approx(-0.14, abs=0.02)
    assert left == pytest.approx(-right)
    assert centre("duplex receptacle", (0, 0), 90) == pytest.approx((0, RADIUS))


@pytest.mark.parametrize("name", [name for name in NAMES if symbol(name).letters])
def test_letters_stay_upright_and_of_one_size_at_every_angle(name: str) -> None:
    upright = texts(name, 0)
    for angle in (37, 90, 180, 270):
        turned_ones = texts(name, angle)
        assert [(text.words, text.size) for text in turned_ones] == [(text.words, text.size) for text in upright]
        steps = [(b.at[0] - a.at[0], b.at[1] - a.at[1]) for a, b in pairwise(turned_ones)]
        kept = [(b.at[0] - a.at[0], b.at[1] - a.at[1]) for a, b in pairwise(upright)]
        assert [pytest.approx(step) for step in kept] == steps


@settings(max_examples=60, deadline=None)
@given(
    st.sampled_from([name for name in NAMES if any(each.beyond is not None for each in symbol(name).letters)]), angles
)
def test_letters_beyond_a_point_never_reach_back_over_it(name: str, angle: float) -> None:
    (letters,) = symbol(name).letters
    wide = width(letters.words, letters.size / MM_PER_POINT, True)
    along = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    main = texts(name, angle)[0]
    em = main.size * MM_PER_POINT
    sub_wide = width(letters.sub, main.size * 0.62, True) / RADIUS
    middle = main.at[0] + (wide + sub_wide) / 2 * RADIUS - 10, main.at[1] - 0.334 * em - 20
    reach = (middle[0] * along[0] + middle[1] * along[1]) / RADIUS
    assert reach >= letters.at[0] + (letters.beyond or 0) + 0.3 * letters.size


def test_a_switch_is_an_s_of_2_9_mm_with_its_subscript_at_62_percent() -> None:
    main, sub = texts("three-way switch")
    assert main.words + sub.words == "S3"
    assert main.size * MM_PER_POINT == pytest.approx(2.9)
    assert sub.size / main.size == pytest.approx(0.62)
    assert sub.at[1] > main.at[1]
    assert sub.at[0] == pytest.approx(main.at[0] + width("S", main.size, True))


def test_subscripts_are_the_trades_own() -> None:
    subs = {name: symbol(name).letters[0].sub for name in WALL if symbol(name).letters[:1]}
    assert subs["switch"] == ""
    assert (subs["three-way switch"], subs["four-way switch"], subs["dimmer"], subs["fan control"]) == tuple("34DF")


@pytest.mark.parametrize(
    ("name", "mm"),
    [
        ("blank outlet", (2.9, 2.9)),
        ("floor receptacle", (2.5 * 1.45, 2.5 * 1.45)),
        ("strip light", (5.2 * 1.45, 1.1 * 1.45)),
        ("panel", (1.9, 6.8)),
    ],
)
def test_symbols_have_the_sizes_that_were_settled(name: str, mm: tuple[float, float]) -> None:
    assert size(bounds(name, (0, 0), 0, weight=0)) == pytest.approx(mm, abs=0.01)


def test_240_volts_is_three_strokes() -> None:
    lines = {
        name: sum(1 for stroke in strokes(name) if len(stroke.path) == 2)
        for name in ("duplex receptacle", "240 V receptacle", "240 V appliance", "double duplex receptacle")
    }
    assert lines == {
        "duplex receptacle": 2,
        "240 V receptacle": 3,
        "240 V appliance": 3,
        "double duplex receptacle": 4,
    }


def test_half_of_a_split_receptacle_is_filled() -> None:
    (half,) = (stroke for stroke in strokes("split receptacle") if stroke.fill == "ink")
    assert path_bounds(half.path) == pytest.approx((0, -1, 2, 0), abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(NAMES), angles, st.floats(0.5, 5))
def test_bounds_hold_every_corner_and_letter(name: str, angle: float, radius: float) -> None:
    left, top, right, bottom = bounds(name, (10, 20), angle, radius)
    for stroke in strokes(name):
        for letter, numbers in turned(stroke.path, angle, (10, 20), radius):
            if letter in "MLC" and numbers:
                assert left - 1e-6 <= numbers[-2] <= right + 1e-6
                assert top - 1e-6 <= numbers[-1] <= bottom + 1e-6
    for mark in flat(stamp(name, (10, 20), angle, INK, GROUND, radius)):
        if isinstance(mark, Text):
            assert left - 1e-6 <= mark.at[0]
            assert mark.at[0] + width(mark.words, mark.size, mark.bold) <= right + 1e-6
            assert mark.at[1] <= bottom + 1e-6


@given(angles)
def test_a_turned_circle_needs_no_more_room_than_an_upright_one(angle: float) -> None:
    wide, tall = size(bounds("exhaust fan", (0, 0), angle, radius=1, weight=0))
    assert (wide, tall) == pytest.approx((2, 2), abs=0.02)


def test_a_stamp_carries_its_subject_inks_and_weight() -> None:
    group = stamp("smoke alarm", (1, 2), 90, "#eef1f4", None, radius=2, weight=0.2, subject=Subject("device", 7))
    mark, letters = group.marks
    assert group.subject == Subject("device", 7)
    assert mark == Stamp("smoke alarm", (1, 2), 90, 2, 0.2, "#eef1f4", None)
    assert isinstance(letters, Text)
    assert (letters.words, letters.colour, letters.bold) == ("SD", "#eef1f4", True)


def test_bounds_move_with_the_place_and_grow_with_the_radius() -> None:
    here, there = bounds("switch", (0, 0), 0), bounds("switch", (7, -3), 0)
    assert there == pytest.approx((here[0] + 7, here[1] - 3, here[2] + 7, here[3] - 3))
    assert size(bounds("switch", (0, 0), 0, 2.9, 0.56)) == pytest.approx(tuple(2 * side for side in size(here)))
