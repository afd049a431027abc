import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from floorplan_circuits.home.boxes import Box, Device
from floorplan_circuits.home.building import Level, Underlay
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import UnknownEntry
from floorplan_circuits.home.record import LIMIT_MM, change


def test_a_record_cannot_be_altered_in_place() -> None:
    with pytest.raises(ValidationError, match="frozen"):
        Level(id=1, name="Attic").name = "Loft"  # type: ignore[misc]


def test_a_change_is_a_checked_copy_and_the_first_stays() -> None:
    before = Level(id=1, name="Attic")
    assert change(before, name="Loft") == Level(id=1, name="Loft")
    assert before.name == "Attic"


def test_a_change_to_a_bad_value_or_an_unknown_field_is_refused() -> None:
    with pytest.raises(ValidationError):
        change(Level(id=1, name="Attic"), order=2.0)
    with pytest.raises(TypeError, match="Level has no field colour, nmae"):
        change(Level(id=1, name="Attic"), nmae="Loft", colour="red")


def test_unknown_fields_are_kept_through_a_change() -> None:
    level = Level.model_validate({"id": 1, "name": "Attic", "later": {"a": [1]}})
    assert change(level, name="Loft").extras() == {"later": {"a": [1]}}
    assert level != Level(id=1, name="Attic")


def test_what_extras_returns_is_no_door_into_the_record() -> None:
    level = Level.model_validate({"id": 1, "name": "Attic", "later": 1})
    level.extras()["later"] = 2
    assert level.extras() == {"later": 1}


@pytest.mark.parametrize("name", ["feeds", "extras", "__dict__", "__pydantic_extra__", "model_dump"])
def test_an_unknown_field_may_have_any_name(name: str) -> None:
    box = Box.model_validate({"id": 1, "mark": "B1", name: "later"})
    assert change(box, mark="B2").extras() == {name: "later"}
    assert box.feeds() == ()


@pytest.mark.parametrize("value", [math.inf, -math.inf, math.nan, [1, {"a": math.nan}], b"bytes", {1, 2}, object()])
def test_an_unknown_field_holds_nothing_that_a_file_cannot(value: Any) -> None:
    with pytest.raises(ValidationError):
        Level.model_validate({"id": 1, "name": "Attic", "later": value})


def test_equal_records_hash_alike_with_and_without_an_id() -> None:
    assert hash(Level(id=1, name="Attic")) == hash(Level(id=1, name="Attic"))
    assert hash(Underlay(picture="a", width=1)) == hash(Underlay(picture="a", width=1))
    assert len({Level(id=1, name="Attic"), Level(id=1, name="Attic"), Level(id=2, name="Attic")}) == 2


@pytest.mark.parametrize("number", [True, "1", 1.0, None])
def test_a_number_is_a_whole_number_and_nothing_like_one(number: Any) -> None:
    with pytest.raises(ValidationError):
        Level(id=number, name="Attic")


@pytest.mark.parametrize(
    "fields",
    [
        {"at": (LIMIT_MM + 1, 0)},
        {"at": (0, -LIMIT_MM - 1)},
        {"at": (0.5, 0)},
        {"angle": 360},
        {"angle": -1},
        {"height": 100_001},
        {"gangs": 31},
        {"mark": "x" * 121},
        {"mark": "B\n1"},
        {"mark": "B\x7f"},
        {"note": "x" * 4001},
        {"id": 0},
        {"id": 2**53},
    ],
)
def test_absurd_sizes_are_refused_by_the_types(fields: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        Box(**{"id": 1, "mark": "B1", **fields})


def test_the_largest_home_fits() -> None:
    assert Box(id=2**53 - 1, mark="x" * 120, at=(LIMIT_MM, -LIMIT_MM), angle=359, note="\n" * 4000).gangs == 1


@pytest.mark.parametrize("date", ["", "2024-02-29", "2024-02-29T18:30", "2024-02-29 18:30:05"])
def test_a_date_has_a_time_of_day_or_not_or_is_not_there(date: str) -> None:
    assert UnknownEntry(id=1, kind="x", date=date).date == date


@pytest.mark.parametrize("date", ["May 2024", "2024-2-1", "2024-02-29T", "2024-02-29\n", "29.02.2024", "today"])
def test_anything_else_is_no_date(date: str) -> None:
    with pytest.raises(ValidationError):
        UnknownEntry(id=1, kind="x", date=date)


@given(st.text(max_size=50))
def test_a_name_is_any_line_of_text_and_nothing_else(text: str) -> None:
    plain = all(ord(letter) > 0x1F and ord(letter) != 0x7F for letter in text)
    try:
        taken = Home(name=text).name == text
    except ValidationError:
        taken = False
    assert taken == plain


def test_what_was_not_changed_stays_the_very_object():
    box = Box(id=1, mark="B1", devices=(Device(id=2, kind="switch"),))
    moved = change(box, at=(10, 20), level=3)

    assert moved.devices is box.devices
    assert moved.at == (10, 20)
