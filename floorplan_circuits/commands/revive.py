"""`revive`: what to look at where something went dead."""

import argparse
from collections.abc import Sequence

from floorplan_circuits.commands.shared import DONE, UNREADABLE, boxes_by_mark, findings_of, tell, words_of


def read(words: Sequence[str]) -> argparse.Namespace:
    """Read where something went dead."""
    parser = words_of("revive", "Say what to look at where something went dead, nearest first, and when to stop.")
    parser.add_argument("mark", metavar="MARK", help="the box in which something went dead, by its mark: B14")
    return parser.parse_args(words)


def run(options: argparse.Namespace) -> int:
    """Say what to look at, nearest first."""
    found = findings_of(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.find import revive
    from floorplan_circuits.reports.shutoff import revival_as_text

    findings, _ = found
    boxes = boxes_by_mark(findings, options.home, [options.mark])
    if boxes is None:
        return UNREADABLE
    tell(revival_as_text(revive(findings, boxes[0]), findings))
    return DONE
