"""`directory`: what each panel's lines say beside the old labels, and what is wrong with either."""

import argparse
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from floorplan_circuits.commands.shared import (
    DONE,
    NOT_WHOLE,
    UNREADABLE,
    as_json_text,
    changed,
    findings_of,
    offer_json,
    tell,
    words_of,
)

if TYPE_CHECKING:
    from floorplan_circuits.home.home import Home


def read(words: Sequence[str]) -> argparse.Namespace:
    """Read of which home the panels' lines are to be judged, and which words are explained."""
    parser = words_of(
        "directory",
        "Say what each panel's directory tells, beside the old labels, and what is wrong with either.",
        "Exit status: 0 every line of ours or yours stands, 1 some are objected to, 2 unreadable.",
    )
    offer_json(parser)
    parser.add_argument(
        "--means",
        action="append",
        default=[],
        metavar="SHORT=WORDS",
        help="what a shortened word on old labels means, recorded in HOME: rec=receptacles",
    )
    return parser.parse_args(words)


def run(options: argparse.Namespace) -> int:
    """Say it; 1 if a line that is drawn breaks a rule."""
    if options.means and not _explained(options.home, options.means):
        return UNREADABLE
    found = findings_of(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.reports.directory import as_json, as_text, is_objected_to

    findings, _ = found
    tell(as_json_text(as_json(findings)) if options.json else as_text(findings))
    return NOT_WHOLE if is_objected_to(findings) else DONE


def _explained(path: Path, means: Sequence[str]) -> bool:
    """Record in a home what shortened words mean, all or none; say on stderr why it can't be."""
    odd = [words for words in means if "=" not in words]
    if odd:
        print(f"--means {odd[0]}: write the short word, =, and what it means: rec=receptacles.", file=sys.stderr)
        return False
    from floorplan_circuits.edits.edited import Edited
    from floorplan_circuits.edits.meanings import explain

    def all_of_them(home: "Home") -> Edited:
        for words in means:
            short, _, meaning = words.partition("=")
            home = explain(home, short, meaning).home
        return Edited(home, "Say what words mean")

    return changed(path, all_of_them, path) is not None
