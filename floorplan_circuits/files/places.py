"""Where in the file a fault lies and what it is, in words: for JSON that breaks off and for records that do not fit."""

import re
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails, from_json

from floorplan_circuits.files.cannot import CannotOpen

_AT = re.compile(r"^(?:Invalid JSON: )?(.*?) at line (\d+) column (\d+)$", re.DOTALL)
_OLDER = "Open its previous version or a backup"
_MEND = "Correct it there, or open its previous version"
_JSON_SAYS = {
    "EOF": ("the file ends too early", _OLDER),
    "invalid unicode": ("the text is not UTF-8", "Save it as UTF-8"),
    "recursion": ("lists and records are nested too deeply", "Choose the file of a home"),
    "number out of range": ("a number is far too long", _MEND),
    "trailing characters": ("more text follows after the end of the home", "Remove it"),
    "control character": ("a text holds a control character", _MEND),
}
_SAYS = {
    "missing": "it is missing",
    "string_type": "a text is wanted",
    "int_type": "a whole number is wanted",
    "int_parsing_size": "the number is far too large",
    "bool_type": "true or false is wanted",
    "tuple_type": "a list is wanted",
    "model_type": "a record is wanted",
    "dict_type": "a record is wanted",
    "literal_error": "it must be {expected}",
    "union_tag_not_found": "the field {discriminator} is missing",
    "union_tag_invalid": "{discriminator} must be one of {expected_tags}",
    "string_too_long": "the text is longer than {max_length} characters",
    "string_pattern_mismatch": "the text is not of the form that is wanted here",
    "too_long": "the list has more than {max_length} entries",
    "too_short": "the list has fewer than {min_length} entries",
    "greater_than_equal": "the number is smaller than {ge}",
    "less_than_equal": "the number is larger than {le}",
    "value_error": "{error}",
}


def json_fault(error: str, file: Path) -> CannotOpen:
    """Put the JSON reader's message into words, with its line and column."""
    found = _AT.match(error)
    what, place = (found[1], f"line {found[2]}, column {found[3]}") if found else (error, "")
    for sign, (says, do) in _JSON_SAYS.items():
        if what.startswith(sign):
            return CannotOpen(file, place, says, do)
    return CannotOpen(file, place, f"it is not JSON there ({what})", _MEND)


def record_fault(error: ValidationError, data: bytes, file: Path, do: str = _MEND) -> CannotOpen:
    """Put the first thing that does not fit the records into words, with the row it is in."""
    faults = error.errors(include_url=False, include_input=False)
    if faults[0]["type"] == "json_invalid":
        return json_fault(faults[0]["msg"], file)
    raw = from_json(data)
    place = place_in_words(faults[0]["loc"], raw)
    # A field that takes a word or a record fails once for each: one sentence for all of them.
    alike = [_says(fault) for fault in faults if place_in_words(fault["loc"], raw) == place]
    return CannotOpen(file, place, ", or ".join(dict.fromkeys(alike)), do)


def _says(fault: ErrorDetails) -> str:
    says = _SAYS.get(fault["type"])
    return says.format(**fault.get("ctx", {})) if says else fault["msg"][:1].lower() + fault["msg"][1:]


def place_in_words(loc: Sequence[int | str], raw: Any) -> str:
    """Return a place such as 'boxes, row 3 (B14), devices, row 1, kind'.

    The reader's places also name which variant of a record was tried; what is no key of the file is left out.
    """
    words, value = [], raw
    for at, part in enumerate(loc):
        if isinstance(value, list) and isinstance(part, int) and part < len(value):
            value = value[part]
            words.append(f"row {part + 1}{_called(value)}" if isinstance(value, dict) else f"entry {part + 1}")
        elif isinstance(value, dict) and part in value:
            value = value[part]
            words.append(str(part))
        elif isinstance(value, dict) and at == len(loc) - 1 and _is_field(part):
            words.append(str(part))
    return ", ".join(words)


def _is_field(part: int | str) -> bool:
    return isinstance(part, str) and part.isidentifier() and part.islower()


def _called(row: dict[str, Any]) -> str:
    for key in ("mark", "name", "kind"):
        called = row.get(key)
        if isinstance(called, str) and called and called.isprintable():
            return f" ({called[:40]})"
    return ""
