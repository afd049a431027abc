from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from floorplan_circuits.home.lengths import LONGEST, MM_PER_INCH, NotALength, parse_length, show_length


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("3.81 m", 3810),
        ("3,81 m", 3810),
        ("3.81m", 3810),
        ("3.81", 3810),
        ("381 cm", 3810),
        ("3810 MM", 3810),
        (" 4 m ", 4000),
        ("0", 0),
        ("12' 6 1/2\"", 3823),
        ("12'6-1/2\"", 3823),
        ("12′ 6½″", 3823),
        ("12’ 6 ½”", 3823),
        ("12 ft 6 in", 3810),
        ("12' 6", 3810),
        ("12' 6''", 3810),
        ("12'", 3658),
        ("12.5'", 3810),
        ('6"', 152),
        ('1/2"', 13),
        ('½"', 13),
        ("12' 1/2\"", 3670),
        ("30 in", 762),
    ],
)
def test_a_length_is_read_as_people_write_it(typed: str, mm: int) -> None:
    assert parse_length(typed) == mm


def test_a_bare_number_is_in_the_unit_of_the_home() -> None:
    assert parse_length("10", "metric") == 10_000
    assert parse_length("10", "feet and inches") == 3048
    assert parse_length("10 cm", "feet and inches") == 100


def test_halves_of_a_millimetre_are_rounded_up() -> None:
    assert parse_length("0.5 mm") == 1
    assert parse_length("1.4999 mm") == 1


def test_an_inch_is_exactly_25_4_mm() -> None:
    # International yard and pound agreement, 1959: the inch is 25.4 mm.
    assert Fraction("25.4") == MM_PER_INCH
    assert parse_length('1000"') == 25_400


@pytest.mark.parametrize(
    "typed",
    [
        "",
        " ",
        "wall",
        "-3 m",
        "−3 m",
        "3 m 20",
        "3 km",
        "1.2.3 m",
        "m",
        "'",
        '"',
        "5/0 in",
        '1/00"',
        '6 1/0"',
        "1e3 m",
        "∞",
    ],
)
def test_what_is_no_length_is_refused_with_an_example(typed: str) -> None:
    with pytest.raises(NotALength, match="is not a length: type for example"):
        parse_length(typed)


@pytest.mark.parametrize("typed", ["10.001 km", "10001 m", "40000'"])
def test_what_is_too_long_for_any_home_is_refused(typed: str) -> None:
    with pytest.raises(NotALength):
        parse_length(typed)
    assert parse_length("10000 m") == LONGEST


def test_an_endless_text_is_refused_and_not_shown_whole() -> None:
    with pytest.raises(NotALength) as caught:
        parse_length("9" * 10_000)
    assert len(str(caught.value)) < 150


@given(st.text("0123456789 .,'\"/-½mftcin", max_size=12), st.sampled_from(["metric", "feet and inches"]))
@example('1/0000"', "metric")
def test_anything_typed_is_a_length_or_refused(typed: str, units: str) -> None:
    try:
        mm = parse_length(typed, units)  # type: ignore[arg-type]
    except NotALength:
        mm = 0
    assert 0 <= mm <= LONGEST


@pytest.mark.parametrize(
    ("mm", "metric", "imperial"),
    [
        (0, "0.00 m", '0"'),
        (3810, "3.81 m", "12' 6\""),
        (13, "0.01 m", '1/2"'),
        (6, "0.01 m", '0"'),
        (3823, "3.82 m", "12' 6 1/2\""),
        (3670, "3.67 m", "12' 1/2\""),
        (3658, "3.66 m", "12' 0\""),
        (3655, "3.65 m", "12' 0\""),
        (-410, "−0.41 m", "−1' 4\""),
    ],
)
def test_a_length_is_shown_in_the_unit_of_the_home(mm: int, metric: str, imperial: str) -> None:
    assert show_length(mm) == metric
    assert show_length(mm, "feet and inches") == imperial


@given(st.integers(0, LONGEST))
def test_what_is_shown_reads_back_within_what_was_rounded(mm: int) -> None:
    assert abs(parse_length(show_length(min(mm, LONGEST - 5))) - min(mm, LONGEST - 5)) <= 5
    shown = show_length(min(mm, LONGEST - 10), "feet and inches")
    quarter_inch_and_half_a_millimetre = MM_PER_INCH / 4 + Fraction(1, 2)
    assert abs(parse_length(shown) - min(mm, LONGEST - 10)) <= quarter_inch_and_half_a_millimetre


@given(st.integers(0, 40_000), st.integers(0, 23))
def test_feet_and_half_inches_keep_their_own_value(feet: int, halves: int) -> None:
    exact = int((feet * 12 + Fraction(halves, 2)) * MM_PER_INCH + Fraction(1, 2))
    shown = show_length(exact, "feet and inches")
    assert show_length(parse_length(shown) if exact <= LONGEST else exact, "feet and inches") == shown
