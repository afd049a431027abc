import json
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings

from floorplan_circuits.edits.recording import dismiss
from floorplan_circuits.find import find
from floorplan_circuits.home.building import Level
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import change
from floorplan_circuits.home.resources import folder
from floorplan_circuits.home.table import Table
from floorplan_circuits.reports.check import as_json, as_text, as_text_by_room
from sample_homes.write_samples import SAMPLES
from tests.homes import homes
from tests.supply.wiring import UNKNOWN, elsewhere, on
from tests.survey.houses import FEED, A, B, a_test, box_of, house, opened

SCHEMA = json.loads((folder("resources").parent / "shared" / "check.schema.json").read_text(encoding="utf-8"))
VALID = jsonschema.Draft202012Validator(SCHEMA)

SMALL = change(
    house({FEED: on(A), 401: UNKNOWN, 402: on(B, elsewhere("hall"))}, *a_test(A), opened(box_of(FEED), FEED)),
    name="Elm Street",
)
GOLDEN: dict[str, Any] = {
    "home": "Elm Street",
    "boxes": [
        {"mark": "B400", "room": "", "level": "", "breakers": ["1"], "unknown": 0, "hazards": []},
        {
            "mark": "B401",
            "room": "",
            "level": "",
            "breakers": [],
            "unknown": 1,
            "hazards": [
                {
                    "kind": "unknown box",
                    "says": "Not placed yet: nobody knows what one feed in it hangs on.",
                    "do": "Treat as live whatever is off.",
                    "source": "Common practice, no source; NFPA 70E 120.5 (2021): "
                    "what is not proved dead counts as live.",
                    "listed": True,
                    "set_aside": "",
                }
            ],
        },
        {
            "mark": "B402",
            "room": "",
            "level": "",
            "breakers": ["5"],
            "unknown": 0,
            "hazards": [
                {
                    "kind": "two supplies meet",
                    "says": "Not placed yet: circuit 5 and a supply from elsewhere (hall) meet at the receptacle: "
                    "each keeps it live.",
                    "do": "Treat as live whatever is off.",
                    "source": "Common practice, no source.",
                    "listed": True,
                    "set_aside": "",
                },
                {
                    "kind": "shared box",
                    "says": "Not placed yet: circuit 5 and a supply from elsewhere (hall) enter.",
                    "do": "Treat as live whatever is off.",
                    "source": "Common practice, no source: we know of no general ban on it in NFPA 70 (NEC). "
                    "NEC 2023 210.7 and 210.4(B) cover some cases; local code governs.",
                    "listed": True,
                    "set_aside": "",
                },
            ],
        },
    ],
    "other_hazards": [],
    "never_tested": [
        {"box": "B401", "room": "", "level": "", "part": "receptacle"},
        {"box": "B402", "room": "", "level": "", "part": "receptacle"},
    ],
    "counts": {
        "boxes": 3,
        "devices": 3,
        "feeds": 3,
        "shared_boxes": 1,
        "unknown_boxes": 1,
        "hazards": 3,
        "tested": 1,
        "never_tested": 2,
    },
}
GOLDEN_TEXT = """\
Elm Street: dangers are known in 2 of 3 boxes. Worst first:

B402  Not placed yet: circuit 5 and a supply from elsewhere (hall) meet at the receptacle: each keeps it live.
    With one of them off the other keeps it live, and can make all that is on the first live from behind.
    Treat as live whatever is off.

B402  Not placed yet: circuit 5 and a supply from elsewhere (hall) enter.
    Turning off one breaker does not make this box dead: a hand in it can meet a live conductor.
    Treat as live whatever is off.

B401  Not placed yet: nobody knows what one feed in it hangs on.
    No breaker is known to make it dead.
    Treat as live whatever is off.

Nobody has looked in 2 boxes, or not since they changed: more may enter than the map shows.
A map can be wrong: test before you touch, and prove the tester before and after. Local codes apply.
2 feeds were never tested."""


# --- JSON -----------------------------------------------------------------------------------------------------------


def test_the_json_of_a_small_home_stays_as_it_is_order_and_all() -> None:
    assert json.dumps(as_json(find(SMALL)), indent=1) == json.dumps(GOLDEN, indent=1)


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_the_samples_json_fits_the_published_schema(name) -> None:
    VALID.validate(as_json(find(SAMPLES[name]())))


@settings(max_examples=30)
@given(homes())
def test_any_homes_json_fits_the_published_schema_and_its_counts_are_those_of_its_lists(home) -> None:
    found = find(home)
    report = json.loads(json.dumps(as_json(found)))
    VALID.validate(report)
    counts = report["counts"]
    assert counts["boxes"] == len(report["boxes"])
    assert counts["never_tested"] == len(report["never_tested"])
    in_boxes = sum(len(box["hazards"]) for box in report["boxes"])
    assert counts["hazards"] == in_boxes + len(report["other_hazards"]) == len(found.hazards)
    assert counts["unknown_boxes"] == sum(box["unknown"] > 0 for box in report["boxes"])
    assert counts["devices"] == sum(not device.planned for box in home.boxes for device in box.devices)


@settings(max_examples=30)
@given(homes())
def test_the_json_does_not_depend_on_what_was_found_before(home) -> None:
    assert as_json(find(home, find(SMALL))) == as_json(find(home))


def test_a_cable_without_a_device_and_a_named_part_are_told() -> None:
    cottage = as_json(find(SAMPLES["cottage.json"]()))
    parts = {(row["box"], row["part"]) for row in cottage["never_tested"]}
    assert ("B47", "a cable without a device") in parts
    assert ("B30", "doorbell transformer, secondary") in parts


# --- text -----------------------------------------------------------------------------------------------------------


def test_the_text_of_a_small_home_stays_as_it_is() -> None:
    assert as_text(find(SMALL)) == GOLDEN_TEXT


@settings(max_examples=30)
@given(homes())
def test_the_text_ends_with_the_count_of_what_was_never_tested(home) -> None:
    found = find(home)
    count = len(found.never_tested)
    last = as_text(found).rsplit("\n", 1)[-1]
    assert last == f"{count} feed{' was' if count == 1 else 's were'} never tested."


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_the_text_of_a_sample_names_every_box_in_danger_and_never_says_safe(name) -> None:
    found = find(SAMPLES[name]())
    text = as_text(found)
    named = [hazard.named for hazard in found.hazards if hazard.listed]
    assert [line.split("  ")[0] for line in text.splitlines() if "  " in line and line[0] != " "] == named
    assert "safe" not in text.lower()


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_why_it_matters_is_told_once_for_each_danger(name) -> None:
    found = find(SAMPLES[name]())
    lines = as_text(found).splitlines()
    assert all(lines.count(f"    {why}") == 1 for why in {hazard.why for hazard in found.hazards if hazard.listed})


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_room_by_room_the_very_same_dangers_are_told(name) -> None:
    found = find(SAMPLES[name]())
    told = [line for line in as_text(found).splitlines() if "  " in line and line[0] != " "]
    by_room = [line for line in as_text_by_room(found).splitlines() if "  " in line and line[0] != " "]
    assert sorted(by_room) == sorted(told)
    assert as_text_by_room(found).splitlines()[0].endswith("Room by room:")
    assert as_text_by_room(found).splitlines()[-3:] == as_text(found).splitlines()[-3:]


def test_what_was_set_aside_is_told_last_with_its_day_and_reason() -> None:
    first = find(SMALL).hazards[0]
    aside = dismiss(SMALL, first.kind, first.about, "the hall is known", date="2026-05-01").home
    rows = as_text(find(aside)).split("\n\n")
    assert rows[-2].startswith("B402  ")
    assert rows[-2].endswith("Treat as live whatever is off.\n    Set aside on 1 May 2026: the hall is known")
    assert as_json(find(aside))["boxes"][2]["hazards"][-1]["set_aside"] == "Set aside on 1 May 2026: the hall is known"


def test_what_is_told_with_its_box_alone_is_in_the_json_and_not_in_the_text() -> None:
    near = [change(box, level=1, at=(at * 100, 0)) for at, box in enumerate(SMALL.boxes)]
    home = change(SMALL, boxes=Table(near), levels=Table([Level(id=1, name="Up")]))
    kinds = [
        hazard["kind"] for box in as_json(find(home))["boxes"] for hazard in box["hazards"] if not hazard["listed"]
    ]
    assert kinds == ["looks like its neighbour"] * 3
    assert "beside it" not in as_text(find(home))


def test_a_home_in_which_nothing_was_found_is_not_thereby_without_danger() -> None:
    text = as_text(find(house({FEED: on(A)}, *a_test(A))))
    assert text.startswith("This home: no danger found among what is recorded (1 box).")
    assert "Nobody has looked in 1 box, " in text
    assert "A map can be wrong" in text


def test_an_empty_home_has_a_report_too() -> None:
    assert as_text(find(Home(name="Nothing yet"))).endswith("0 feeds were never tested.")
    VALID.validate(as_json(find(Home())))
