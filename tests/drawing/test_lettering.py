"""Lettering: the right typeface a letter, sums of advances, and words cut to the room without losing any in silence."""

import json
import subprocess
import sys

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from floorplan_circuits.drawing import lettering
from floorplan_circuits.drawing.ink import MM_PER_POINT
from floorplan_circuits.drawing.lettering import (
    FILES,
    MORE,
    REPLACEMENT,
    Run,
    advances,
    ascent,
    cap_height,
    descent,
    fits,
    font_file,
    missing,
    plain,
    runs,
    width,
    wrap,
)

HAIR = 1e-6
any_words = st.text(max_size=40)
latin = st.text(alphabet="abcdeflmnop WXYZ 0189-,", max_size=40)
rooms = st.floats(min_value=0.5, max_value=60)


@pytest.mark.parametrize("face", FILES)
def test_every_typeface_is_where_its_package_put_it(face: lettering.Face) -> None:
    assert font_file(face).is_file()


def test_plain_words_are_one_run_of_their_own_weight() -> None:
    assert runs("Kitchen 15A", False) == (Run("regular", "Kitchen 15A"),)
    assert runs("Kitchen 15A", True) == (Run("bold", "Kitchen 15A"),)


def test_a_letter_the_first_typeface_lacks_is_drawn_by_the_second() -> None:
    assert runs("to Ж b", False) == (Run("regular", "to "), Run("fallback", "Ж"), Run("regular", " b"))


def test_what_no_typeface_has_is_replaced_visibly_and_reported_once() -> None:
    assert plain("漢 a 漢") == f"{REPLACEMENT} a {REPLACEMENT}"
    assert missing("漢 a 漢 字") == ("漢", "字")
    assert runs("漢", True) == (Run("fallback", REPLACEMENT),)
    assert width("漢", 9) > 1.0


def test_what_leaves_no_ink_is_shown_rather_than_hidden() -> None:
    assert missing("a\u202eb\u200bc\x00") == ("\u202e", "\u200b", "\x00")


def test_line_ends_and_tabs_become_spaces() -> None:
    assert plain("a\nb\tc") == "a b c"
    assert missing("a\nb\tc") == ()


def test_a_replacement_character_in_the_words_themselves_is_not_reported() -> None:
    assert missing(REPLACEMENT) == ()


def test_words_are_composed_so_that_both_spellings_are_one() -> None:
    assert plain("Cafe\u0301") == "Café"
    assert width("Cafe\u0301", 9) == width("Café", 9)


def test_nothing_is_nothing_wide() -> None:
    assert width("", 9) == 0
    assert advances("", 9) == ()
    assert runs("", False) == ()


@settings(max_examples=60, deadline=None)
@given(any_words, st.booleans())
@example("a漢\u0301 Ж", True)
def test_runs_advances_and_width_all_speak_of_the_plain_words(words: str, bold: bool) -> None:
    assert "".join(run.words for run in runs(words, bold)) == plain(words)
    assert len(advances(words, 9, bold)) == len(plain(words))
    assert sum(advances(words, 9, bold)) == pytest.approx(width(words, 9, bold), abs=1e-9)
    assert plain(plain(words)) == plain(words)
    assert missing(plain(words)) == ()


def test_width_grows_with_the_size() -> None:
    assert width("Hall", 18) == pytest.approx(2 * width("Hall", 9))


def test_a_capital_of_nine_points_is_2_1_mm_high() -> None:
    assert cap_height(9) == pytest.approx(2.12, abs=0.01)
    assert ascent(9) > cap_height(9) > descent(9) > 0


def test_lines_are_filled_from_the_first_on() -> None:
    assert wrap("one two three", width("one two", 9) + HAIR, 9) == ("one two", "three")
    assert wrap("", 20, 9) == ()
    assert wrap("  ", 20, 9) == ()


def test_a_no_break_space_holds_two_words_together() -> None:
    assert wrap("the 20\u00a0A", width("the 20", 9) + HAIR, 9) == ("the", "20\u00a0A")


def test_a_word_wider_than_the_room_is_broken_visibly() -> None:
    lines = wrap("Undercounterlights", 15, 9)
    assert len(lines) > 1
    assert all(line.endswith("-") for line in lines[:-1])
    assert "".join(line.removesuffix("-") for line in lines) == "Undercounterlights"


@settings(max_examples=80, deadline=None)
@given(latin, rooms, st.booleans())
def test_wrapping_loses_no_letter_and_keeps_to_the_room(words: str, room: float, bold: bool) -> None:
    lines = wrap(words, room, 9, bold)
    kept = "".join("".join(lines).replace("-", "").split())
    assert kept == "".join(words.replace("-", "").split())
    one_letter = max((width(f"{letter}-", 9, bold) for letter in words), default=0)
    assert all(width(line, 9, bold) <= max(room, one_letter) + HAIR for line in lines)


def test_the_first_variant_that_fits_is_taken_whole() -> None:
    variants = ("Kitchen counter, west of the window", "Kitchen counter", "Counter")
    assert fits(variants, 80, 9) == (("Kitchen counter, west of the window",), False)
    assert fits(variants, 30, 9) == (("Kitchen counter",), False)
    assert fits(variants, 16, 9) == (("Counter",), False)
    assert fits(variants, 30, 9, lines=2) == (("Kitchen counter,", "west of the window"), False)


def test_the_last_variant_is_shortened_when_none_fits_and_that_is_told() -> None:
    lines, shortened = fits(("Kitchen counter", "Counter"), 9, 9)
    assert shortened
    assert lines[0].startswith("Cou")
    assert lines[0].endswith(MORE)


def test_a_variant_of_whole_words_goes_before_one_that_breaks_a_word() -> None:
    room = width("Under lights", 9) + HAIR
    assert fits(("Undercounterlights", "Under lights"), room, 9, lines=2) == (("Under lights",), False)
    assert fits(("Undercounterlights",), room, 9, lines=2)[1] is False


def test_a_shortened_line_has_no_comma_or_space_before_the_dots() -> None:
    (line,), shortened = fits(("Kitchen, west",), width("Kitchen, …", 9), 9)
    assert (line, shortened) == ("Kitchen…", True)


def test_fitting_nothing_is_an_error_and_empty_words_fit_anywhere() -> None:
    with pytest.raises(ValueError, match="variant"):
        fits((), 20, 9)
    assert fits(("",), 0.1, 9) == ((), False)


@settings(max_examples=80, deadline=None)
@given(st.lists(latin, min_size=1, max_size=3).map(tuple), rooms, st.integers(1, 3))
def test_fitted_lines_keep_to_the_room_and_say_when_words_were_lost(
    variants: tuple[str, ...], room: float, lines: int
) -> None:
    fitted, shortened = fits(variants, room, 9, lines=lines)
    assert len(fitted) <= lines
    if shortened:
        assert fitted[-1].endswith(MORE)
        assert fitted == (MORE,) or all(width(line, 9) <= room + HAIR for line in fitted)
    else:
        whole = {"".join(variant.replace("-", "").split()) for variant in variants}
        assert "".join("".join(fitted).replace("-", "").split()) in whole


CHILD = """
import json, sys
from floorplan_circuits.drawing import lettering
lettering.width("Kitchen", 9)
early = lettering._fallback.cache_info().currsize
lettering.width("Ж", 9)
heavy = [name for name in ("PySide6", "reportlab", "fontTools", "shapely", "networkx") if name in sys.modules]
print(json.dumps([early, lettering._fallback.cache_info().currsize, heavy]))
"""


def test_the_fallback_table_waits_and_no_heavy_library_is_imported() -> None:
    done = subprocess.run([sys.executable, "-c", CHILD], capture_output=True, text=True, check=True)
    assert json.loads(done.stdout) == [0, 1, []]


def test_a_point_is_a_seventy_second_of_an_inch() -> None:
    assert pytest.approx(25.4 / 72) == MM_PER_POINT
