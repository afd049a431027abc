"""Dates, small numbers and lists as people write them."""

import pytest

from floorplan_circuits.drawing.phrases import capital, in_words, listed
from floorplan_circuits.home.days import written


@pytest.mark.parametrize(
    ("day", "words"), [("2026-03-14", "14 March 2026"), ("2026-12-01", "1 December 2026"), ("", ""), ("soon", "soon")]
)
def test_a_day_is_written_as_people_write_it(day: str, words: str) -> None:
    assert written(day) == words


def test_small_counts_are_words_and_large_ones_figures() -> None:
    assert [in_words(count) for count in (0, 1, 10, 11)] == ["no", "one", "ten", "11"]


@pytest.mark.parametrize(
    ("words", "said"), [((), ""), (("5",), "5"), (("5", "7"), "5 and 7"), (("5", "7", "9"), "5, 7 and 9")]
)
def test_a_list_is_joined_as_a_person_says_it(words: tuple[str, ...], said: str) -> None:
    assert listed(words) == said


def test_a_sentence_begins_with_a_capital_and_keeps_its_names() -> None:
    assert (capital("a label of Anna’s"), capital("")) == ("A label of Anna’s", "")
