"""What is typed down a panel's column."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.edits.typed import Typed, read_typed


@pytest.mark.parametrize(
    ("words", "means"),
    [
        ("20 kitchen plugs", Typed(20, 1, False, 1, "kitchen plugs")),
        ("20", Typed(20, 1, False, 1, "")),
        ("20a", Typed(20, 1, False, 1, "")),
        ("20 A kitchen", Typed(20, 1, False, 1, "kitchen")),
        ("20 attic", Typed(20, 1, False, 1, "attic")),
        ("30/2 dryer", Typed(30, 2, False, 1, "dryer")),
        ("30 A / 2  dryer", Typed(30, 2, False, 1, "dryer")),
        ("60/3", Typed(60, 3, False, 1, "")),
        ("15/t hall lights", Typed(15, 1, False, 2, "hall lights")),
        ("15/T", Typed(15, 1, False, 2, "")),
        ("15f bell", Typed(15, 1, True, 1, "bell")),
        ("15 fuse bell", Typed(15, 1, True, 1, "bell")),
        ("15/2f range", Typed(15, 2, True, 1, "range")),
        ("30f/2 dryer", Typed(30, 2, True, 1, "dryer")),
        ("15f/t hall", Typed(15, 1, True, 2, "hall")),
        ("15 fan", Typed(15, 1, False, 1, "fan")),
        ("  spare  ", Typed(None, 1, False, 1, "spare")),
        ("", Typed(None, 1, False, 1, "")),
        ("two\nlines", Typed(None, 1, False, 1, "two lines")),
    ],
)
def test_a_size_is_read_before_a_label(words, means):
    assert read_typed(words) == means


@pytest.mark.parametrize(
    "label", ["2nd floor", "3-way hall", "12345 old", "15/5 odd", "½ bath", "²0 x", "1st/2nd", "-20"]
)
def test_a_number_that_is_part_of_a_word_is_a_label(label):
    assert read_typed(label) == Typed(None, 1, False, 1, label)


@given(st.text(max_size=40))
def test_whatever_is_typed_is_read(words):
    typed = read_typed(words, read_typed("15 before"))

    assert typed.label == " ".join(typed.label.split())
    assert typed.poles in (1, 2, 3, 4)


@given(st.integers(1, 6000), st.integers(1, 4), st.booleans())
def test_what_is_shown_is_read_back(amps, poles, fuse):
    words = f"{amps}{f'/{poles}' if poles > 1 else ''}{'f' if fuse else ''} range"

    assert read_typed(words) == Typed(amps, poles, fuse, 1, "range")
