import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.home.log import Struck, UnknownEntry
from floorplan_circuits.home.record import change
from floorplan_circuits.survey.log_book import LogBook
from tests.homes import homes
from tests.survey.houses import (
    DAY,
    FEED,
    FIRST_ENTRY,
    MAIN,
    PANEL,
    A,
    B,
    box_of,
    changed,
    found,
    house,
    opened,
    struck,
    trouble,
    went,
)

BOX = box_of(FEED)


def places(*entries: dict) -> list[int]:
    return [place for place, _ in LogBook(house(None, *entries)).entries]


# --- what is struck -------------------------------------------------------------------------------------------------


def test_a_struck_entry_does_not_count_and_what_strikes_it_does() -> None:
    assert places(went(), struck(FIRST_ENTRY)) == [1]


def test_a_struck_striking_no_longer_strikes_so_that_the_entry_counts_again() -> None:
    assert places(went(), struck(FIRST_ENTRY), struck(FIRST_ENTRY + 1)) == [0, 2]


def test_striking_the_striking_of_a_striking_strikes_again() -> None:
    chain = [struck(FIRST_ENTRY + at) for at in range(3)]
    assert places(went(), *chain) == [1, 3]


def test_an_entry_neither_strikes_itself_nor_one_that_comes_after_it() -> None:
    assert places(struck(FIRST_ENTRY)) == [0]
    assert places(struck(FIRST_ENTRY + 1), went()) == [0, 1]


def test_evidence_against_a_feed_comes_back_when_its_striking_is_struck() -> None:
    against = went("live", A)
    home = house(None, against, struck(FIRST_ENTRY), struck(FIRST_ENTRY + 1))
    assert [one.reading.says for one in LogBook(home).readings[FEED]] == ["live"]


@pytest.mark.parametrize(
    "doubtful",
    [
        (struck(FIRST_ENTRY) | {"only": "its first line"},),
        (struck(FIRST_ENTRY), {"kind": "taken back", "entry": FIRST_ENTRY + 1}),
        (struck(FIRST_ENTRY), struck(FIRST_ENTRY + 1) | {"only": "in part"}),
    ],
)
def test_an_entry_that_a_newer_program_may_have_struck_counts_and_proves_nothing(doubtful) -> None:
    book = LogBook(house(None, went("live", A), *doubtful))
    assert [one.clear for one in book.readings[FEED]] == [False]


@settings(max_examples=40)
@given(homes(), st.data())
def test_each_entry_counts_if_no_later_one_that_counts_strikes_it(home, data) -> None:
    extra = [
        Struck(id=home.next_id + at, kind="struck", entry=data.draw(st.integers(home.next_id - 9, home.next_id + 9)))
        for at in range(data.draw(st.integers(0, 6)))
    ]
    readable = (entry for entry in home.log if not isinstance(entry, UnknownEntry))
    log = (*readable, *(entry for entry in extra if entry.entry >= 1))
    counting = {place for place, _ in LogBook(change(home, log=log, next_id=home.next_id + 9)).entries}
    for place, entry in enumerate(log):
        strikers = (at for at in counting if at > place and isinstance(log[at], Struck))
        assert (place in counting) == (not any(log[at].entry == entry.id for at in strikers))


@settings(max_examples=40)
@given(homes(), st.data())
def test_striking_any_entry_never_crashes(home, data) -> None:
    if home.log:
        target = data.draw(st.sampled_from([entry.id for entry in home.log]))
        log = (*home.log, Struck(id=home.next_id, kind="struck", entry=target))
        found(change(home, log=log, next_id=home.next_id + 1))


@settings(max_examples=40)
@given(homes(), homes())
def test_adding_any_entry_of_another_home_never_crashes(home, other) -> None:
    first = max(home.next_id, other.next_id)
    log = (*home.log, *(change(entry, id=first + at) for at, entry in enumerate(other.log)))
    found(change(home, log=log, next_id=first + len(log)))


# --- readings -------------------------------------------------------------------------------------------------------


def test_readings_come_in_the_order_of_the_log_whatever_their_dates() -> None:
    home = house(None, went("live", date="2026-05-01"), went("dead", A, date="2026-01-01"), went("unclear"))
    assert [one.reading.says for one in LogBook(home).readings[FEED]] == ["live", "dead", "unclear"]


def test_a_round_that_says_two_things_of_a_feed_is_clear_about_neither() -> None:
    both = [{"feed": FEED, "says": "dead"}, {"feed": FEED, "says": "live"}]
    readings = LogBook(house(None, went(readings=both))).readings[FEED]
    assert [one.clear for one in readings] == [False, False]


def test_a_round_that_says_one_thing_twice_is_clear() -> None:
    twice = [{"feed": FEED, "says": "dead"}] * 2
    assert all(one.clear for one in LogBook(house(None, went(readings=twice))).readings[FEED])


@pytest.mark.parametrize(
    "newer",
    [
        {"withdrawn": True},
        {"tester": {"before": True, "after": True, "lent": "yes"}},
        {"readings": [{"feed": FEED, "says": "live", "percent": 12}]},
    ],
)
def test_a_round_that_a_newer_program_added_to_is_not_clear(newer) -> None:
    (one,) = LogBook(house(None, went(**newer))).readings[FEED]
    assert not one.clear


def test_a_round_that_a_newer_programs_entry_names_is_not_clear() -> None:
    (one,) = LogBook(house(None, went(), {"kind": "withdrawn", "round": FIRST_ENTRY})).readings[FEED]
    assert not one.clear


def test_the_last_round_that_had_a_handle_on_is_known_for_those_found_off() -> None:
    home = house(None, went("live"), went("live", A, B), went("live", A))
    found_off = change(home.breakers[A], found={"state": "off"})
    book = LogBook(change(home, breakers=home.breakers.put(found_off)))
    assert book.last_on == {A: 0}


# --- entries of unknown kind ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fields", "numbers"),
    [
        ({"speaks_of": 7}, {7}),
        ({"speaks_of": [7, {"and": 8}]}, {7, 8}),
        ({"readings": {"7": "dead"}}, {7}),
        ({"speaks_of": "7"}, {7}),
        ({"speaks_of": 7.0}, {7}),
        ({"sure": True, "share": 0.5, "words": "B7"}, set()),
        ({"speaks_of": None}, set()),
        ({"speaks_of": "9" * 400}, set()),
    ],
)
def test_every_number_in_an_unknown_entry_names_something(fields, numbers) -> None:
    assert LogBook(house(None, {"kind": "weighed", **fields})).named_by_unknown == numbers


def test_a_struck_unknown_entry_names_nothing() -> None:
    home = house(None, {"kind": "weighed", "of": FEED}, struck(FIRST_ENTRY))
    assert LogBook(home).named_by_unknown == frozenset()


# --- changes, boxes opened, troubles --------------------------------------------------------------------------------


def test_a_box_counts_as_opened_until_it_is_changed() -> None:
    assert LogBook(house(None, opened(BOX))).opened_since_change(BOX)
    assert not LogBook(house(None)).opened_since_change(BOX)
    assert not LogBook(house(None, opened(BOX), changed(BOX))).opened_since_change(BOX)
    assert LogBook(house(None, changed(BOX), opened(BOX))).opened_since_change(BOX)


def test_a_change_that_names_nothing_may_have_touched_any_box_and_any_panel() -> None:
    book = LogBook(house(None, opened(BOX), changed()))
    assert not book.opened_since_change(BOX)
    assert book.panel_change(PANEL) == 1


def test_an_opening_that_a_newer_programs_entry_names_does_not_count() -> None:
    home = house(None, opened(BOX), {"kind": "withdrawn", "entry": FIRST_ENTRY})
    assert not LogBook(home).opened_since_change(BOX)


def test_a_trouble_stands_until_its_panel_is_worked_on() -> None:
    assert set(LogBook(house(None, trouble(A))).troubles) == {A}
    assert set(LogBook(house(None, trouble(A), changed(BOX))).troubles) == {A}
    assert LogBook(house(None, trouble(A), changed(panels=(PANEL,)))).troubles == {}
    assert set(LogBook(house(None, changed(panels=(PANEL,)), trouble(A))).troubles) == {A}


def test_the_trouble_of_something_gone_or_of_a_main_is_kept() -> None:
    assert set(LogBook(house(None, trouble(MAIN), trouble(999))).troubles) == {MAIN, 999}


def test_the_last_date_is_that_of_the_last_entry_that_has_one() -> None:
    assert LogBook(house(None, went(), went(date=""))).last_date() == DAY
    assert LogBook(house(None)).last_date() == ""
