"""What `known` says, as JSON and as text."""

import json
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings

from floorplan_circuits.find import find
from floorplan_circuits.findings import Findings
from floorplan_circuits.home.days import written
from floorplan_circuits.home.record import change
from floorplan_circuits.home.resources import folder
from floorplan_circuits.reports.known import as_json, as_text
from sample_homes.write_samples import SAMPLES
from tests.homes import homes
from tests.supply.wiring import UNKNOWN, behind, elsewhere, on
from tests.survey.houses import FEED, A, B, a_test, house, struck, traced, went

SHARED = folder("resources").parent / "shared"
SCHEMA = json.loads((SHARED / "known.schema.json").read_text(encoding="utf-8"))
VALID = jsonschema.Draft202012Validator(SCHEMA)

SMALL = change(
    house(
        {FEED: on(A), 401: UNKNOWN, 402: behind(FEED), 403: on(B)},
        *a_test(A, who="Sam"),
        went("live", A, feed=401),
        traced(B, feed=403),
        went("live", B, feed=403),
    ),
    name="Elm Street",
)
DAY = "2026-03-14"


def feeds_of(findings: Findings) -> dict[int, dict[str, Any]]:
    return {one["feed"]: one for one in as_json(findings)["feeds"]}


def test_each_feed_is_told_with_its_candidates_and_how_anybody_knows() -> None:
    found = feeds_of(find(SMALL))
    tested = "two-lead tester proved before and after"
    assert found[FEED] == {
        "feed": FEED,
        "box": "B400",
        "room": "",
        "device": "receptacle",
        "part": "",
        "stated": ["1"],
        "candidates": ["1"],
        "standing": "proved",
        "because": [
            "tested",
            "stated on 1: nobody says who says so",
            f"round 1, {written(DAY)}, Sam: live with all on, {tested}",
            f"round 2, {written(DAY)}, Sam: dead with 1 off, {tested}",
            f"round 3, {written(DAY)}, Sam: live with all on, {tested}",
        ],
    }
    assert found[401]["candidates"] == ["5", "9", "more than one", "elsewhere"]
    assert found[402]["stated"] == ["1"]
    assert found[402]["because"][1] == "stated behind another device, on 1: nobody says who says so"
    assert f"{written(DAY)}: signal traced, 2 passes to 5" in found[403]["because"]


def test_readings_that_clash_are_told_with_what_to_repeat() -> None:
    (clash,) = as_json(find(SMALL))["conflicts"]
    assert (clash["feed"], clash["box"]) == (403, "B403")
    assert clash["says"].endswith("live with 5 off. The map says 5.")
    assert clash["do"].startswith("Repeat with 5 alone.")


def test_a_struck_reading_is_not_told() -> None:
    found = feeds_of(find(house(None, went("live", A), struck(60_000))))
    assert found[FEED]["because"] == ["nobody knows"]


def test_what_was_seen_to_hang_behind_is_told() -> None:
    entries = went(), went("dead", pressed=[401]), went()
    assert "seen to hang behind B401" in feeds_of(find(house({FEED: on(A), 401: on(A)}, *entries)))[FEED]["because"]


@pytest.mark.parametrize("sample", SAMPLES)
def test_the_samples_fit_the_published_schema(sample) -> None:
    VALID.validate(as_json(find(SAMPLES[sample]())))


@settings(max_examples=40)
@given(homes())
def test_any_home_fits_the_published_schema_and_can_be_read_aloud(home) -> None:
    found = find(home)
    VALID.validate(as_json(found))
    text = as_text(found)
    assert "safe" not in text.replace(home.name, "").lower() or _names_say_safe(home)
    assert text.endswith("prove the tester before and after.")


def _names_say_safe(home) -> bool:
    return "safe" in home.model_dump_json().lower()


def test_the_schema_is_one_and_refuses_a_word_that_is_no_standing() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    report = as_json(find(SMALL))
    report["feeds"][0]["standing"] = "dead"
    assert not VALID.is_valid(report)


def test_the_example_on_the_page_fits() -> None:
    page = (SHARED / "README.md").read_text(encoding="utf-8")
    _, _, told = page.partition("## What `known` writes\n")
    block = told.split("\n\n")[0]
    VALID.validate(json.loads(block))


def test_the_text_tells_clashes_first_then_room_by_room_and_many_lives_in_one_line() -> None:
    lives = [went("live", handle, feed=401) for handle in (A, B)]
    home = house({FEED: on(elsewhere("hall")), 401: UNKNOWN}, *lives, went("live", B, feed=FEED))
    lines = as_text(find(home)).splitlines()
    assert lines[0] == "This home: 2 feeds, 0 tested, no readings clash."
    assert lines[2] == "In no room"
    assert "  B400  receptacle: elsewhere: hall, only said to be" in lines
    assert "      live with 1, 5 off" in lines
    assert as_text(find(SMALL)).splitlines()[2].startswith("Round ")
