"""`check`: which boxes are dangerous to open, and what else is wrong."""

import argparse
from collections.abc import Sequence
from pathlib import Path

from floorplan_circuits.commands.shared import DONE, NOT_WHOLE, UNREADABLE, as_json_text, findings_of, tell


def read(words: Sequence[str]) -> argparse.Namespace:
    """Read which home is to be checked."""
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits check",
        description="Say which boxes are known to be dangerous to open.",
        epilog="Exit status: 0 no hazard found among what is recorded, 1 hazards, 2 unreadable.",
    )
    parser.add_argument("home", type=Path, metavar="HOME", help="the home's file")
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="the same as JSON, in the form that shared/ documents")
    form.add_argument("--by-room", action="store_true", help="room by room, for an electrician, not worst first")
    return parser.parse_args(words)


def run(options: argparse.Namespace) -> int:
    """Say what is dangerous; 1 if anything is."""
    found = findings_of(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.report import as_json, as_text, as_text_by_room

    findings, _ = found
    in_words = as_text_by_room if options.by_room else as_text
    tell(as_json_text(as_json(findings)) if options.json else in_words(findings))
    return NOT_WHOLE if any(hazard.listed for hazard in findings.hazards) else DONE
