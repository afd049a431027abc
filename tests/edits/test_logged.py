"""The end of the log: new entries come last with ids of their own, and tell a day that there is."""

import pytest

from floorplan_circuits.edits.edited import Refused
from floorplan_circuits.edits.logged import logged, reason, told
from floorplan_circuits.home.log import Struck
from tests.edits.samples import house


def test_entries_are_added_last_with_the_next_ids():
    first = logged(house(), "One.", Struck, {"kind": "struck", "entry": 1})

    second = logged(first.home, "Two.", Struck, {"kind": "struck", "entry": 2}, {"kind": "struck", "entry": 3})

    assert [entry.id for entry in second.home.log] == [*first.made, *second.made]
    assert second.made == (house().next_id + 1, house().next_id + 2)
    assert second.home.log[0] is first.home.log[0]


def test_who_and_note_are_told_without_stray_blanks():
    assert told("2024-02-29", "  A   B ", " seen\ntwice ") == {
        "date": "2024-02-29",
        "who": "A B",
        "note": "seen\ntwice",
    }
    assert told("", "", "")["date"] == ""


@pytest.mark.parametrize("date", ["2023-02-29", "2026-13-01", "26-03-14", "2026-3-14", "20260314", "2026-W11-6"])
def test_a_day_that_no_calendar_has_is_refused(date):
    with pytest.raises(Refused, match="year first: 2026-03-14"):
        told(date, "", "")


def test_a_reason_is_asked_for():
    assert reason(" a  slip ") == "a slip"
    with pytest.raises(Refused, match="Say why"):
        reason(" \t")
