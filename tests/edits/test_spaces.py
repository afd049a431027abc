"""Which spaces a breaker takes: halves, quads, and what is free below."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.breakers import add_breaker, retype_breaker
from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.panels import add_panel
from floorplan_circuits.edits.spaces import next_free
from floorplan_circuits.edits.typed import read_typed
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import problems
from floorplan_circuits.supply.numbering import mark


def panel_of(spaces: int = 8, numbering="odd left, even right") -> Home:
    return add_panel(Home(), spaces, numbering=numbering).home


def typed(home: Home, space: int, words: str, half: str | None = None) -> Home:
    return add_breaker(home, home.panels.rows[0].id, space, read_typed(words), half).home


def told(home: Home) -> dict[str, tuple[int | None, str]]:
    panel = home.panels.rows[0]
    return {mark(panel, one): (one.amps, one.as_found) for one in home.breakers}


def test_a_tandem_has_a_label_and_a_size_for_each_half():
    assert told(typed(panel_of(), 3, "15/t hall / 20 bath")) == {"3A": (15, "hall"), "3B": (20, "bath")}
    assert told(typed(panel_of(), 3, "15/t hall / bath")) == {"3A": (15, "hall"), "3B": (15, "bath")}
    assert told(typed(panel_of(), 3, "15/t hall")) == {"3A": (15, "hall"), "3B": (15, "hall")}


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("30/q", {"2A·4B": (30, ""), "2B·4A": (30, "")}),
        ("30/q dryer / 20 pool", {"2A·4B": (30, "dryer"), "2B·4A": (20, "pool")}),
        ("15/q hall / 30 pool / 20 bath", {"2A": (15, "hall"), "2B·4A": (30, "pool"), "4B": (20, "bath")}),
        ("15/q a / b / c / d", {"2A": (15, "a"), "2B": (15, "b"), "4A": (15, "c"), "4B": (15, "d")}),
    ],
)
def test_a_quad_holds_two_inner_poles_between_two_outer_ones(words, expected):
    """Common practice, no source: the two poles of one handle lie next to each other, or round the other two."""
    home = typed(panel_of(), 2, words)

    assert told(home) == expected
    assert not problems(home)


@pytest.mark.parametrize(("half", "expected"), [("A", "2A·4B"), ("B", "2B·4A")])
def test_two_poles_in_halves_are_those_of_a_quad(half, expected):
    assert list(told(typed(panel_of(), 2, "30/2 dryer", half))) == [expected]


def test_more_labels_than_there_is_room_for_are_refused():
    with pytest.raises(Refused, match="3 labels for two in one space"):
        typed(panel_of(), 2, "15/t a / b / c")
    with pytest.raises(Refused, match="5 labels for a quad"):
        typed(panel_of(), 2, "15/q a / b / c / d / e")
    with pytest.raises(Refused, match="2 poles do not fit"):
        typed(panel_of(), 8, "30/q")


def test_a_quad_goes_into_two_whole_spaces_alone():
    home = typed(panel_of(), 4, "15", "B")

    with pytest.raises(Refused, match="two whole spaces"):
        typed(home, 4, "15/q", "A")
    with pytest.raises(Refused, match="Space 4 is taken"):
        typed(home, 2, "15/q")
    with pytest.raises(Refused, match="two whole spaces"):
        retype_breaker(home, home.breakers.ids()[0], read_typed("15/q"))


def test_a_slash_in_the_label_of_a_plain_breaker_is_part_of_it():
    assert told(typed(panel_of(), 1, "40/2 a/c / attic")) == {"1·3": (40, "a/c / attic")}


def test_a_dot_repeats_the_size_typed_last_poles_and_all():
    last = read_typed("30/2 dryer")
    assert read_typed(". range", last) == last._replace(label="range")
    assert read_typed(".", last) == last._replace(label="")
    assert read_typed(". a / 20 b", read_typed("15/t")).parts == ((15, "a"), (20, "b"))
    with pytest.raises(Refused, match="No size was typed yet"):
        read_typed(". range")
    with pytest.raises(Refused, match="No size was typed yet"):
        read_typed(". range", read_typed("a label alone"))


def test_a_dot_that_is_part_of_a_word_is_a_label():
    assert read_typed(".5 bath", read_typed("15")).label == ".5 bath"


@pytest.mark.parametrize(
    ("numbering", "order"),
    [
        ("odd left, even right", [1, 3, 5, 7, 2, 4, 6, 8]),
        ("down one side, then the other", [1, 2, 3, 4, 5, 6, 7, 8]),
        ("single row", [1, 2, 3, 4, 5, 6, 7, 8]),
    ],
)
def test_typing_goes_down_a_column_and_on_to_the_next(numbering, order):
    home = panel_of(numbering=numbering)
    panel = home.panels.rows[0]
    for space, following in zip(order, [*order[1:], None], strict=True):
        assert next_free(home, panel, space) == following


@given(st.data())
@settings(max_examples=60)
def test_what_is_free_below_is_never_taken_and_whatever_fits_is_sound(data):
    home = panel_of(12)
    panel = home.panels.rows[0]
    for _ in range(6):
        space = data.draw(st.integers(1, 12))
        words = data.draw(st.sampled_from(["15", "30/2", "30/3", "15/t a / 20 b", "30/q x / y", "15/q a / b / c"]))
        half = data.draw(st.sampled_from([None, "A", "B"]))
        try:
            home = typed(home, space, words, half)
        except Refused:
            continue
        following = next_free(home, panel, space)
        assert following not in {pole.space for one in home.breakers for pole in one.poles}
    assert not problems(home)
