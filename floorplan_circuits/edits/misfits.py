"""Misfits: a value that no record can hold, told in a sentence for the status line."""

from typing import Any

from pydantic import ValidationError

from floorplan_circuits.home.record import LIMIT_MM

FIELDS = {
    "amps": "The rating in amps",
    "va": "The load in VA",
    "as_found": "The old label",
    "at": "The place",
    "critical": "What hangs on it",
    "devices": "The list of devices in a box",
    "feeds": "The list of feeds of a device",
    "passing": "The list of cables that pass",
    "marks_given": "The number of a box's mark",
    "poles": "The list of poles",
    "wall": "How thick walls are, in millimetres,",
    "reach": "The words on how to reach it",
}
"""What a field is called where its own name would not tell."""

IN_MM = ("width", "run")
"""Lengths that are kept in millimetres: a bare number would not tell what it counts."""

TOO_FAR = "That is more than ten kilometres from the origin."
PREFIX = "The letters before a panel's numbers are up to three capitals, A to Z."
MOST_LISTED = 130
"""How many letters a list of what would do may have: a longer one is not read in a status line."""


def misfit(error: ValidationError) -> str:
    """Return what is wrong with the first value that does not fit, and what would."""
    first = error.errors(include_url=False)[0]
    field = next((str(part) for part in first["loc"] if isinstance(part, str)), "value")
    if field == "prefix":
        return PREFIX
    limits = first.get("ctx", {})
    if LIMIT_MM in (limits.get("le"), -limits.get("ge", 0)):
        return TOO_FAR
    unit = " mm" if field in IN_MM and first["type"] in ("greater_than_equal", "less_than_equal") else ""
    return f"{FIELDS.get(field) or 'The ' + field.replace('_', ' ')} {_wants(first['type'], limits)}{unit}."


def _wants(kind: str, limits: dict[str, Any]) -> str:
    """Return what a value of this field has to be, by pydantic's name of what it found wrong."""
    match kind:
        case "greater_than_equal":
            return f"is at least {limits['ge']:,}"
        case "less_than_equal":
            return f"is at most {limits['le']:,}"
        case "string_too_long":
            return f"has at most {limits['max_length']:,} letters"
        case "too_long":
            return f"has at most {limits['max_length']:,} entries"
        case "too_short":
            return f"has at least {limits['min_length']:,} entries"
        case "string_pattern_mismatch" | "string_unicode":
            return "is one line of letters that print"
        case "literal_error":
            listed = limits["expected"]
            return f"is one of {listed}" if len(listed) <= MOST_LISTED else "is none that is known"
        case "int_type" | "int_from_float":
            return "is a whole number"
        case _:
            return "can't be that"
