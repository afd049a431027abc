import pytest

from floorplan_circuits.home.record import change
from floorplan_circuits.survey.log_book import LogBook
from floorplan_circuits.survey.troubles import IN_WORDS, keep_off, troubles
from tests.supply.wiring import on
from tests.survey.houses import FEED, PANEL, A, B, a_test, changed, house, known, trouble


@pytest.mark.parametrize("what", IN_WORDS)
def test_every_trouble_has_words_and_keeps_hands_off(what) -> None:
    home = house(None, trouble(A, what))
    assert troubles([A], LogBook(home)) == f"its breaker {IN_WORDS[what]}"
    assert keep_off(home, LogBook(home)) == {A: IN_WORDS[what]}


@pytest.mark.parametrize("what", [what for what in IN_WORDS if what != "did not open"])
def test_a_trouble_is_told_beside_what_was_tested(what) -> None:
    one = known(house({FEED: on(A)}, *a_test(A), trouble(A, what)))
    assert (one.standing, one.says) == ("proved", f"tested; its breaker {IN_WORDS[what]}")


def test_each_trouble_is_told_once_and_none_of_another_breaker() -> None:
    record = LogBook(house(None, trouble(A, "buzzes"), trouble(A, "buzzes"), trouble(A, "loose"), trouble(B, "other")))
    assert troubles([A], record) == "its breaker buzzes, its breaker is loose"
    assert troubles([], record) == ""


def test_what_may_never_be_opened_keeps_hands_off_too() -> None:
    home = house(None, trouble(B), changed(panels=(PANEL,)))
    never = change(home.breakers[A], may_open={"may": "never", "whose": "the alarm's"})
    home = change(home, breakers=home.breakers.put(never))
    assert keep_off(home, LogBook(home)) == {A: "must never be turned off"}
