"""A paragraph keeps every word, in lines no wider than its column, the bold ones first."""

from hypothesis import given
from hypothesis import strategies as st

from floorplan_circuits.drawing.ink import Text
from floorplan_circuits.drawing.lettering import plain, width
from floorplan_circuits.sheets.paragraph import paragraph

WORDS = st.text(st.sampled_from("abc WMil.,:1"), max_size=60)


def texts(bold: str, words: str, wide: float) -> list[Text]:
    return [mark for mark in paragraph(bold, words, wide, 8.2, "#000000").marks if isinstance(mark, Text)]


def test_plain_words_go_on_behind_the_bold_ones_on_one_line() -> None:
    head, rest = texts("Turn off 5.", "Main panel.", 80)
    assert (head.words, head.bold, rest.words, rest.bold) == ("Turn off 5.", True, "Main panel.", False)
    assert head.at[1] == rest.at[1]
    assert rest.at[0] > head.at[0] + width(head.words, 8.2, True)


def test_plain_words_that_do_not_fit_behind_go_to_the_next_line() -> None:
    head, rest = texts("Turn off 5.", "Extraordinarily", 25)
    assert rest.at[1] > head.at[1]
    assert rest.at[0] == 0


@given(WORDS, WORDS, st.floats(20, 120))
def test_no_letter_is_lost_and_no_line_is_too_wide(bold: str, words: str, wide: float) -> None:
    made = paragraph(bold, words, wide, 8.2, "#000000")
    found = [mark for mark in made.marks if isinstance(mark, Text)]
    letters = "".join(mark.words.replace("-", "") for mark in found).replace(" ", "")
    assert letters == plain(bold + words).replace(" ", "")
    for mark in found:
        assert mark.at[0] + width(mark.words, mark.size, mark.bold) <= wide + 0.01
        assert mark.at[1] <= made.height
