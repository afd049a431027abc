from typing import Any, get_args

import pytest
from pydantic import ValidationError

from floorplan_circuits.home import log
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import KNOWN_KINDS, STRONG_METHODS, Entry, LogEntry, Method, Round, UnknownEntry
from floorplan_circuits.home.record import change


def entry(**fields: Any) -> LogEntry:
    (read,) = Home.model_validate({"log": [{"id": 1, **fields}]}, strict=False).log
    return read


ENTRIES: list[dict[str, Any]] = [
    {"kind": "round"},
    {"kind": "traced", "feed": 2, "handle": 3},
    {"kind": "opened", "box": 2},
    {"kind": "tester", "device": 2, "shows": "open ground"},
    {"kind": "trouble", "handle": 2, "what": "runs hot"},
    {"kind": "change", "what": "panel work"},
    {"kind": "struck", "entry": 2},
    {"kind": "dismissed", "hazard": "shared box", "why": "seen by an electrician"},
]


@pytest.mark.parametrize("fields", ENTRIES, ids=lambda fields: fields["kind"])
def test_each_kind_is_read_as_its_own_record_and_passes_through_json(fields: dict[str, Any]) -> None:
    read = entry(**fields)
    assert not isinstance(read, UnknownEntry)
    assert read.kind == fields["kind"]
    home = Home(log=(read,))
    assert Home.model_validate_json(home.model_dump_json()) == home


def test_every_kind_of_entry_is_among_the_known_ones() -> None:
    kinds = [
        get_args(model.model_fields["kind"].annotation)[0]
        for model in Entry.__subclasses__()
        if model is not UnknownEntry
    ]
    assert tuple(kinds) == KNOWN_KINDS == tuple(fields["kind"] for fields in ENTRIES)


def test_a_kind_that_nobody_knows_is_kept_with_all_its_fields() -> None:
    read = entry(kind="sniffed", feeds=[1, 2], who="A")
    assert isinstance(read, UnknownEntry)
    assert (read.kind, read.who, read.extras()) == ("sniffed", "A", {"feeds": [1, 2]})


@pytest.mark.parametrize("fields", [*({"kind": kind} for kind in KNOWN_KINDS[1:]), {}, {"kind": None}, {"kind": 7}])
def test_a_broken_entry_is_never_taken_for_one_of_an_unknown_kind(fields: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        entry(**fields)


def test_a_round_proves_nothing_about_its_tester_until_somebody_says_so() -> None:
    bare = Round(id=1, kind="round")
    assert (bare.method, bare.tester.before, bare.tester.after, bare.readings) == ("not said", False, False, ())


def test_a_reading_shows_each_hot_only_where_somebody_said_so() -> None:
    read = entry(kind="round", readings=[{"feed": 2, "says": "live"}])
    assert isinstance(read, Round)
    assert not read.readings[0].each_hot


def test_strong_methods_are_methods_and_a_battery_is_no_witness() -> None:
    assert set(get_args(Method)) > STRONG_METHODS
    assert not STRONG_METHODS & {"non-contact tester", "high-impedance meter", "signal tracer", "not said"}


def test_a_cable_is_not_known_until_somebody_says_which_feed_it_is() -> None:
    assert log.Cable().feed is None


def test_entries_stay_in_the_order_in_which_they_were_made() -> None:
    first, second = entry(kind="round", date="2024-05-02"), entry(kind="struck", entry=1, date="2024-05-01")
    assert Home(log=(first, change(second, id=2))).log[1].date == "2024-05-01"
