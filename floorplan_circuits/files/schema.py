"""The JSON Schema of the file, derived from the records, for people and for other programs.

`python -m floorplan_circuits.files.schema shared/home.schema.json` writes it.
"""

import json
import sys
from pathlib import Path
from typing import Any

from floorplan_circuits.files.atomic import write_whole
from floorplan_circuits.files.open import CURRENT
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.log import KNOWN_KINDS

DRAFT = "https://json-schema.org/draft/2020-12/schema"
NAME = "home.schema.json"


def schema() -> dict[str, Any]:
    """Return the JSON Schema (draft 2020-12) of a home's file in the current major version.

    It tells what each record may hold; what records must hold together (ids, references, marks) is told in words in
    the page on the format.
    """
    derived = _plain(Home.model_json_schema(mode="validation"))
    definitions = derived.pop("$defs")
    del definitions["JsonValue"]
    definitions["UnknownEntry"]["properties"]["kind"]["not"] = {"enum": list(KNOWN_KINDS)}
    derived["properties"]["format"]["pattern"] = rf"^floorplan-circuits {CURRENT.major}\.\d+$"
    head = {"$schema": DRAFT, "$id": NAME, "title": "A home and its circuits", "description": _DESCRIPTION}
    return {**head, **{k: v for k, v in derived.items() if k not in head}, "required": ["format"], "$defs": definitions}


_DESCRIPTION = (
    "One home: its drawing, its panels, its boxes, and the log of what was seen. Lengths are whole millimetres, x to "
    "the right, y down. Unknown fields are kept."
)


def _plain(part: Any) -> Any:
    """Leave out titles made of names and the hint for choosing a variant: they say nothing of what is allowed."""
    if isinstance(part, list):
        return [_plain(item) for item in part]
    if not isinstance(part, dict):
        return part
    if part.get("$ref") == "#/$defs/JsonValue":
        return True  # a field that is only kept may hold anything
    return {key: _plain(value) for key, value in part.items() if not _idle(key, value)}


def _idle(key: str, value: Any) -> bool:
    # A property may be called 'title' too: its value is then a schema and no text.
    return (key == "title" and isinstance(value, str)) or (key == "discriminator" and "propertyName" in value)


def text() -> str:
    """Return the schema as the text of its file."""
    return json.dumps(schema(), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    write_whole(Path(sys.argv[1]), text().encode("utf-8"))
