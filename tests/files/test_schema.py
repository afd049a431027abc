import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from jsonschema import Draft202012Validator
from pydantic import ValidationError

from floorplan_circuits.files.open import read_home
from floorplan_circuits.files.save import text_of
from floorplan_circuits.files.schema import NAME, schema, text
from floorplan_circuits.home.home import Home
from tests.files.samples import raw_home
from tests.files.strategies import Kept, kept_homes

SHARED = Path(__file__).parents[2] / "shared"
SCHEMA = Draft202012Validator(schema())
CHECK = Draft202012Validator(json.loads((SHARED / "check.schema.json").read_text(encoding="utf-8")))


def broken(path: str, value: Any) -> dict[str, Any]:
    """Return the small home with the value at a path such as 'boxes.2.devices.0.kind' replaced, or removed."""
    raw: Any = raw_home()
    *way, last = [int(key) if key.isdigit() else key for key in path.split(".")]
    spot = raw
    for key in way:
        spot = spot[key]
    if value is ...:
        del spot[last]
    else:
        spot[last] = value
    return dict(raw)


def fits_records(raw: dict[str, Any]) -> bool:
    try:
        Home.model_validate_json(json.dumps(raw))
    except ValidationError:
        return False
    return True


def test_the_published_schema_is_the_one_that_the_records_give() -> None:
    assert (SHARED / NAME).read_text(encoding="utf-8") == text()


@pytest.mark.parametrize("validator", [SCHEMA, CHECK])
def test_the_schemas_are_sound_by_their_own_standard(validator: Draft202012Validator) -> None:
    Draft202012Validator.check_schema(validator.schema)


def test_every_record_and_its_fields_are_described() -> None:
    described = schema()
    assert list(described["properties"]) == list(Home.model_fields)
    assert all(part["description"] for part in described["$defs"].values())
    assert "title" not in described["$defs"]["Box"]["properties"]["mark"]


@given(kept_homes())
@settings(max_examples=40, deadline=None)
def test_what_the_program_saves_fits_the_schema(kept: Kept) -> None:
    SCHEMA.validate(json.loads(text_of(*kept)))


def test_an_entry_of_an_unknown_kind_fits_and_one_of_a_known_kind_must_be_right() -> None:
    SCHEMA.validate(broken("log.0", {"id": 20, "kind": "sniffed", "off": "anything"}))
    assert not SCHEMA.is_valid(broken("log.0", {"id": 20, "kind": "round", "off": "anything"}))


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("boxes", {}),
        ("boxes.0.mark", ...),
        ("boxes.0.id", 0),
        ("boxes.0.id", "1"),
        ("boxes.0.at", [1]),
        ("boxes.0.at", [1, 2, 3]),
        ("boxes.0.at.0", 10**7 + 1),
        ("boxes.0.at.0", 0.5),
        ("boxes.0.angle", 360),
        ("boxes.0.mount", "floating"),
        ("boxes.2.devices.0.kind", 7),
        ("boxes.2.devices.0.feeds.0.on", {"how": "guess"}),
        ("boxes.2.devices.0.feeds.0.on.supplies", []),
        ("boxes.2.devices.0.feeds.0.on.supplies.0", {"kind": "breaker"}),
        ("boxes.2.devices.0.feeds.0.returns", "zap"),
        ("rooms.0.outline.0", "corner"),
        ("breakers.0.poles", []),
        ("breakers.0.amps", 0),
        ("breakers.0.poles.0.half", "C"),
        ("panels.0.spaces", 201),
        ("log.0.readings.0.says", "maybe"),
        ("log.0.kind", ...),
        ("log.0.date", "May 2024"),
        ("name", "x" * 121),
        ("name", "a\x07b"),
        ("next_id", 2**53),
        ("pictures", [{"hash": "XYZ", "media": "image/png"}]),
        ("pictures", [{"hash": "abcdef0123", "media": "image/gif"}]),
    ],
)
def test_what_the_records_refuse_the_schema_refuses_too(path: str, value: Any) -> None:
    raw = broken(path, value)
    assert not fits_records(raw)
    assert not SCHEMA.is_valid(raw)


@pytest.mark.parametrize("written", [..., "floorplan-circuits 2.0", "floorplan-circuits", "something else 1.0"])
def test_the_format_must_be_there_and_of_this_major(written: Any) -> None:
    SCHEMA.validate(broken("format", "floorplan-circuits 1.9"))
    assert not SCHEMA.is_valid(broken("format", written))


def test_the_module_writes_the_schema_where_it_is_told(tmp_path: Path) -> None:
    target = tmp_path / "a.json"
    subprocess.run([sys.executable, "-m", "floorplan_circuits.files.schema", str(target)], check=True)
    assert target.read_text(encoding="utf-8") == text()


def examples() -> list[str]:
    """Return the indented examples of the page on the format."""
    page = (SHARED / "README.md").read_text(encoding="utf-8")
    found = re.findall(r"(?:^    .*\n)+", page, re.MULTILINE)
    return ["".join(line[4:] for line in example.splitlines(keepends=True)) for example in found]


def test_the_example_of_a_home_on_the_page_is_the_very_text_that_the_program_saves() -> None:
    example = examples()[0]
    assert text_of(read_home(example.encode(), Path("page")).home) == example


def test_the_page_tells_of_every_table() -> None:
    page = (SHARED / "README.md").read_text(encoding="utf-8")
    assert all(f"| `{name}` |" in page for name in Home.model_fields)


def test_the_example_of_a_check_on_the_page_fits_and_a_wrong_one_does_not() -> None:
    example = json.loads(examples()[1])
    CHECK.validate(example)
    assert not CHECK.is_valid({**example, "counts": {**example["counts"], "hazards": -1}})
    assert not CHECK.is_valid({**example, "boxes": [{"mark": "B1"}]})
    assert not CHECK.is_valid({key: value for key, value in example.items() if key != "never_tested"})
