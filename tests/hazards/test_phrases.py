import pytest

from floorplan_circuits.hazards.phrases import circuits, listed, number, numbers, other_supply, place_of
from tests.hazards.findings_of import MARKS, box


@pytest.mark.parametrize(("count", "word"), [(0, "none"), (1, "one"), (10, "ten"), (11, "11"), (-1, "-1")])
def test_a_small_number_is_a_word(count, word) -> None:
    assert number(count) == word


def test_words_are_joined_as_a_person_says_them() -> None:
    assert [listed(list("abc"[:count])) for count in range(4)] == ["", "a", "a and b", "a, b and c"]


def test_a_place_is_as_exact_as_anybody_recorded_it() -> None:
    assert place_of(box()) == "Kitchen"
    assert place_of(box(room_name="")) == "Up, in no room"
    assert place_of(box(room_name="", level_name="")) == "Not placed yet"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("elsewhere", "a supply from elsewhere"),
        ("elsewhere: the neighbour", "a supply from elsewhere (the neighbour)"),
        ("elsewhere: flat 6: hall", "a supply from elsewhere (flat 6: hall)"),
        ("source: Solar", "the source Solar"),
        ("source: ", "a source without a name"),
        ("a supply that nobody recorded", "a supply that nobody recorded"),
    ],
)
def test_a_supply_that_is_no_breaker_is_part_of_a_sentence(words, said) -> None:
    assert other_supply(words) == said


def test_circuits_are_told_by_their_numbers_and_other_supplies_after_them() -> None:
    assert numbers((), MARKS) == ""
    assert circuits(box(5), MARKS) == "circuit 5"
    assert circuits(box(5, 7, 9), MARKS) == "circuits 5, 7 and 15A"
    assert circuits(box(5, others=("source: Solar",)), MARKS) == "circuit 5 and the source Solar"
    assert circuits(box(others=("elsewhere",)), MARKS) == "a supply from elsewhere"
    assert circuits(box(), MARKS) == ""
