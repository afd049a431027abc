"""`known`: what each feed may hang on, how anybody knows, and which readings clash."""

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
    """Read of which home all that is known is to be said."""
    parser = words_of(
        "known",
        "Say what each feed may hang on, how anybody knows, and which readings clash.",
        "Exit status: 0 no readings clash, 1 some do, 2 unreadable.",
    )
    offer_json(parser)
    return parser.parse_args(words)


def run(options: argparse.Namespace) -> int:
    """Say what is known; 1 if readings clash."""
    found = findings_of(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.reports.known import as_json, as_text

    findings, _ = found
    tell(as_json_text(as_json(findings)) if options.json else as_text(findings))
    return NOT_WHOLE if findings.disagreements else DONE
