"""`check`: which boxes are dangerous to open, and what else is wrong."""

import argparse
from collections.abc import Sequence

from floorplan_circuits.commands.shared import (
    DONE,
    NOT_WHOLE,
    UNREADABLE,
    as_json_text,
    findings_of,
    offer_json,
    tell,
    words_of,
)


def read(words: Sequence[str]) -> argparse.Namespace:
    """Read which home is to be checked."""
    parser = words_of(
        "check",
        "Say which boxes are known to be dangerous to open.",
        "Exit status: 0 no hazard found among what is recorded, 1 hazards, 2 unreadable.",
    )
    form = parser.add_mutually_exclusive_group()
    offer_json(form)
    form.add_argument("--by-room", action="store_true", help="room by room, for an electrician, not worst first")
    return parser.parse_args(words)


def run(options: argparse.Namespace) -> int:
    """Say what is dangerous; 1 if anything is."""
    found = findings_of(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.reports.check import as_json, as_text, as_text_by_room

    findings, _ = found
    in_words = as_text_by_room if options.by_room else as_text
    tell(as_json_text(as_json(findings)) if options.json else in_words(findings))
    return NOT_WHOLE if any(hazard.listed for hazard in findings.hazards) else DONE
