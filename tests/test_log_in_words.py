"""The history of a box in sentences: what was seen, newest first, and what was struck with why."""

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from floorplan_circuits.edits.boxes import split_halves
from floorplan_circuits.edits.breakers import set_breaker
from floorplan_circuits.edits.recording import (
    age_everything,
    dismiss,
    record_change,
    record_opened,
    record_receptacle_test,
    record_round,
    record_traced,
    record_trouble,
    single_test,
    strike,
)
from floorplan_circuits.edits.removal import remove
from floorplan_circuits.edits.ties import tie
from floorplan_circuits.home.home import Home, feeds
from floorplan_circuits.home.power import Found
from floorplan_circuits.log_in_words import box_history
from tests.edits.samples import box_of, breaker_at, device_of, feeds_in, house, panel_of, typed_in
from tests.homes import homes

DAY: dict[str, Any] = {"date": "2026-03-14", "who": "owner"}
TESTER: dict[str, Any] = {"method": "two-lead tester", "tester_before": False, "tester_after": False, **DAY}
HOME = typed_in(typed_in(house(), 2, "15 hall"), 3, "15 bath")
FIRST, SECOND, THIRD = (breaker_at(HOME, space) for space in (1, 2, 3))
BOX, PANEL, DEVICE, (FEED,) = box_of(HOME, "B1"), panel_of(HOME), device_of(HOME, "B1"), feeds_in(HOME, "B1")
(OTHER_FEED,) = feeds_in(HOME, "B2")


def told(home: Home, box: int = BOX) -> list[str]:
    return [one.says for one in box_history(home, box)]


def test_one_reading_is_one_sentence_with_the_day_and_who():
    home = single_test(HOME, FIRST, FEED, "dead", method="two-lead tester", **DAY).home

    assert told(home) == ["14 March 2026, owner: dead with 1 off, two-lead tester"]


def test_what_is_not_known_is_left_out_or_said_to_be():
    home = record_round(HOME, [], [(FEED, "live")], **TESTER | {"date": "", "who": "", "method": "not said"}).home

    assert told(home) == ["no date: live with all as usual, nobody said with what"]


def test_a_reading_tells_all_that_it_leans_on():
    home = set_breaker(HOME, SECOND, found=Found(state="off")).home
    proved = TESTER | {"tester_before": True, "tester_after": True}

    full = record_round(home, [FIRST], [(FEED, "dead")], **proved, each_hot=True, helper="Kim", note="in the rain").home
    half = record_round(home, [], [(FEED, "unclear")], **proved | {"tester_after": False}).home

    assert told(full) == [
        "14 March 2026, owner: dead with 1 off (2 found off), two-lead tester proved before and after, each hot shown, "
        "Kim called across – in the rain"
    ]
    assert told(half) == [
        "14 March 2026, owner: unclear with all as usual (2 found off), two-lead tester proved before only"
    ]


def test_the_halves_of_a_receptacle_are_told_apart():
    home = split_halves(HOME, DEVICE).home
    upper, lower = feeds_in(home, "B1")

    mixed = record_round(home, [FIRST, THIRD], [(upper, "dead"), (lower, "live")], **TESTER).home
    alike = record_round(home, [FIRST], [(upper, "dead"), (lower, "dead")], **TESTER).home

    assert told(mixed) == ["14 March 2026, owner: upper dead, lower live with 1, 3 off, two-lead tester"]
    assert told(alike) == ["14 March 2026, owner: upper and lower dead with 1 off, two-lead tester"]


def test_a_test_button_that_was_pressed_is_told():
    home = record_round(HOME, [], [(FEED, "dead")], **TESTER).home
    pressed = home.log[-1].changed(pressed=(OTHER_FEED,))

    assert told(home.changed(log=(pressed,))) == [
        "14 March 2026, owner: dead with the test button pressed at B2, two-lead tester"
    ]


def test_of_many_handles_off_the_count_is_told_and_one_that_is_gone_is_not_named():
    home = HOME
    for space in range(4, 9):
        home = typed_in(home, space, "15")
    many = record_round(home, home.breakers.ids(), [(FEED, "dead")], **TESTER).home
    gone = remove(single_test(HOME, FIRST, FEED, "dead", method="two-lead tester", **DAY).home, [FIRST]).home

    assert "with 8 breakers off" in told(many)[0]
    assert "with a breaker that is gone off" in told(gone)[0]


def test_each_kind_of_entry_about_the_box_is_told_newest_first():
    home = tie(HOME, [FEED], FIRST).home
    home = record_traced(home, FEED, FIRST, **DAY).home
    home = record_traced(home, FEED, FIRST, passes=2, adapter="lamp holder", **DAY).home
    home = record_traced(home, FEED, FIRST, way="followed by eye", **DAY).home
    home = record_opened(home, BOX, [("top", FEED), ("back", None)], **DAY).home
    home = record_opened(home, BOX, [("top", FEED)], **DAY).home
    home = record_receptacle_test(home, DEVICE, "open ground", **DAY).home
    home = record_change(home, [BOX], [], "rewired", **DAY).home
    home = record_change(home, [], [PANEL], "panel work", **DAY).home
    home = age_everything(home, "bought house", **DAY).home
    home = dismiss(home, "shared box", [BOX], "seen by an electrician", **DAY).home

    assert [words.removeprefix("14 March 2026, owner: ") for words in told(home)] == [
        "set aside: shared box (seen by an electrician)",
        "anything may have been touched: what was tested before counts no more – The house changed hands.",
        "work in the panel: what was tested before counts no more",
        "rewired: what was tested before counts no more",
        "receptacle tester: open ground",
        "looked inside, 1 cable",
        "looked inside, 2 cables, 1 of them not known",
        "cable followed by eye to 1",
        "signal traced to 1, 2 passes, lamp holder",
        "signal traced to 1, one pass",
    ]


def test_what_is_about_something_else_is_not_told():
    home = record_round(HOME, [FIRST], [(OTHER_FEED, "dead")], **TESTER).home
    home = record_traced(home, OTHER_FEED, FIRST, **DAY).home
    home = record_opened(home, box_of(home, "B2"), [("top", None)], **DAY).home
    home = record_trouble(home, FIRST, "buzzes", **DAY).home
    home = record_change(home, [box_of(home, "B2")], [], "rewired", **DAY).home
    home = record_change(home, [], [PANEL], "panel work", **DAY).home
    home = dismiss(home, "shared box", [box_of(home, "B2")], "seen", **DAY).home

    assert told(home) == []
    assert told(home, box_of(home, "B2"))
    assert box_history(home, 999_999) == ()


def test_a_struck_entry_stays_with_why_until_what_struck_it_is_struck():
    home = single_test(HOME, FIRST, FEED, "dead", method="two-lead tester", **DAY).home
    struck = strike(home, home.log[0].id, "read the wrong half", date="2026-03-15", who="helper")
    (one,) = box_history(struck.home, BOX)

    assert one.says == "14 March 2026, owner: dead with 1 off, two-lead tester"
    assert (one.struck, one.struck_by) == ("Struck, 15 March 2026, helper: read the wrong half", struck.made[0])
    (again,) = box_history(strike(struck.home, struck.made[0], "it was right", **DAY).home, BOX)
    assert (again.struck, again.struck_by) == ("", None)


def test_what_a_newer_program_wrote_of_the_box_is_mentioned():
    raw = {"id": HOME.next_id, "kind": "sniffed", "feeds": [FEED]}
    newer = Home.model_validate({"log": [raw]}, strict=False).log
    home = HOME.changed(log=newer, next_id=HOME.next_id + 1)

    assert told(home) == [
        "no date: a newer program wrote of it what this one cannot read: what it names counts as not known"
    ]
    assert told(home, box_of(home, "B2")) == []


@settings(max_examples=80, deadline=None)
@given(homes(), st.data())
def test_every_entry_about_a_box_of_any_home_is_told_once_in_one_line(home, data):
    if not home.boxes.ids():
        return
    box = home.boxes[data.draw(st.sampled_from(home.boxes.ids()))]
    own = {place.feed.id for place in feeds(home) if place.box.id == box.id}
    about = [
        entry.id
        for entry in home.log
        if getattr(entry, "box", None) == box.id
        or getattr(entry, "feed", None) in own
        or any(reading.feed in own for reading in getattr(entry, "readings", ()))
    ]

    history = box_history(home, box.id)

    entries = [one.entry for one in history]
    assert set(about) <= set(entries)
    assert len(set(entries)) == len(entries)
    assert entries == [entry.id for entry in reversed(home.log) if entry.id in entries]
    assert all(one.says.split(": ", 1)[1].strip() for one in history)
