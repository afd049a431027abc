"""`same`: whether a print still tells what the home's file tells."""

import argparse
import sys
from collections.abc import Sequence

from floorplan_circuits.commands.shared import DONE, NOT_WHOLE, UNREADABLE, findings_of, tell, words_of


def read(words: Sequence[str]) -> argparse.Namespace:
    """Read a home and the code of a print."""
    parser = words_of(
        "same",
        "Say whether a print with this code still tells what HOME tells now.",
        "Exit status: 0 the same, 1 not, 2 unreadable: the home, or a code that was never printed.",
    )
    parser.add_argument("code", metavar="CODE", help="the code at the foot of the print: 7KQ4-MXWT")
    return parser.parse_args(words)


def run(options: argparse.Namespace) -> int:
    """Compare the code of a print with the home; 1 if the print is stale."""
    from floorplan_circuits.sheets.content_code import as_code, content_code

    printed = as_code(options.code)
    if printed is None:
        print(f"{options.code}: no print has this code. Type the eight letters at its foot again.", file=sys.stderr)
        return UNREADABLE
    found = findings_of(options.home)
    if found is None:
        return UNREADABLE
    now = content_code(found[0])
    if now == printed:
        tell("The print tells what the home's file tells. Either can be wrong: test before you touch.")
        return DONE
    tell(f"The print is stale: the home's file tells something else now ({now}). Print it again and take it down.")
    return NOT_WHOLE
