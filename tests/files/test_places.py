from pathlib import Path
from typing import Any

import pytest
from pydantic import ValidationError
from pydantic_core import to_json

from floorplan_circuits.files.places import place_in_words, record_fault
from floorplan_circuits.home.home import Home


def told(raw: dict[str, Any]) -> tuple[str, str]:
    data = to_json(raw)
    with pytest.raises(ValidationError) as caught:
        Home.model_validate_json(data)
    fault = record_fault(caught.value, data, Path("home.json"))
    return fault.place, fault.says


def feed(**fields: Any) -> dict[str, Any]:
    device = {"id": 2, "kind": "switch", "feeds": [{"id": 3, **fields}]}
    return {"boxes": [{"id": 1, "mark": "B1", "devices": [device]}]}


IN_FEED = "boxes, row 1 (B1), devices, row 1 (switch), feeds, row 1"


@pytest.mark.parametrize(
    ("raw", "place", "says"),
    [
        (feed(on={"how": "guess"}), f"{IN_FEED}, on", "'how' must be one of 'not known', 'any', 'all', 'behind'"),
        (feed(on={}), f"{IN_FEED}, on", "the field 'how' is missing"),
        (feed(on=7), f"{IN_FEED}, on", "a record is wanted"),
        (feed(on={"how": "behind"}), f"{IN_FEED}, on, feed", "it is missing"),
        (feed(returns="zap"), f"{IN_FEED}, returns", "it must be 'same' or 'not known', or a record is wanted"),
        (
            feed(on={"how": "any", "supplies": [{"kind": "source"}]}),
            f"{IN_FEED}, on, supplies, row 1 (source), source",
            "it is missing",
        ),
        (feed(on={"how": "any", "supplies": []}), f"{IN_FEED}, on, supplies", "the list has fewer than 1 entries"),
        ({"boxes": {}}, "boxes", "a list is wanted"),
        ({"boxes": [7]}, "boxes, entry 1", "a record is wanted"),
        ({"boxes": [{"id": 1}]}, "boxes, row 1, mark", "it is missing"),
        ({"boxes": [{"id": 1, "mark": "B1", "at": [1, "x"]}]}, "boxes, row 1 (B1), at, entry 2", "a whole number"),
        ({"boxes": [{"id": 1, "mark": "B1", "angle": 360}]}, "boxes, row 1 (B1), angle", "larger than 359"),
        ({"boxes": [{"id": 0, "mark": "B1"}]}, "boxes, row 1 (B1), id", "smaller than 1"),
        ({"name": "x" * 121}, "name", "the text is longer than 120 characters"),
        ({"name": "a\nb"}, "name", "not of the form"),
        ({"name": None}, "name", "a text is wanted"),
        ({"next_id": 2**70}, "next_id", "the number is larger than"),
        ({"log": [{"id": 4}]}, "log, row 1, kind", "it is missing"),
        ({"log": [{"id": 4, "kind": "trouble"}]}, "log, row 1 (trouble), handle", "it is missing"),
        ({"panels": [{"id": 1, "name": "Main", "spaces": True}]}, "panels, row 1 (Main), spaces", "a whole number"),
    ],
)
def test_a_fault_is_told_with_its_place_and_in_plain_words(raw: dict[str, Any], place: str, says: str) -> None:
    found = told(raw)
    assert found[0] == place
    assert says in found[1]


def test_a_name_that_cannot_be_shown_is_left_out_and_a_long_one_cut() -> None:
    rows = [{"mark": "a\u202eb"}, {"name": "x" * 200}]
    assert place_in_words(("boxes", 0), {"boxes": rows}) == "boxes, row 1"
    assert place_in_words(("boxes", 1), {"boxes": rows}) == f"boxes, row 2 ({'x' * 40})"


def test_what_is_no_key_of_the_file_is_no_place() -> None:
    assert place_in_words(("a", "literal['x']"), {"a": 7}) == "a"
    assert place_in_words(("a", 5), {"a": []}) == "a"
    assert place_in_words((), {}) == ""
