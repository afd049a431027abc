"""`shutoff`: what to turn off before boxes are opened."""

import argparse
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from floorplan_circuits.commands.shared import (
    DONE,
    NOT_WHOLE,
    UNREADABLE,
    as_json_text,
    boxes_by_mark,
    findings_of,
    is_the_home,
    offer_json,
    pages,
    tell,
    words_of,
    written,
)

if TYPE_CHECKING:
    from floorplan_circuits.findings import Findings, ShutOff


SHUTOFF_PAPERS = ("letter", "legal", "a4")


def read(words: Sequence[str]) -> argparse.Namespace:
    """Read which boxes are to be opened."""
    parser = words_of(
        "shutoff",
        "Say what to turn off before boxes are opened, what goes dark, and what stays live all the same.",
        "Exit status: 0 only if every box should be dead with its neutrals known, 2 bad input, 1 otherwise.",
    )
    parser.add_argument("marks", nargs="+", metavar="MARK", help="the boxes to be opened, by their marks: B14")
    offer_json(parser)
    parser.add_argument("--output", type=Path, metavar="FILE.pdf", help="write the sheet to take along")
    parser.add_argument("--paper", choices=SHUTOFF_PAPERS, default="letter")
    parser.add_argument("--grey", action="store_true", help="for a printer without colour")
    return parser.parse_args(words)


def run(options: argparse.Namespace) -> int:
    """Say what to turn off; 0 only if every box should be dead, with its neutrals known."""
    if options.output is not None and options.output.resolve() == options.home.resolve():
        return is_the_home(options.output)
    found = findings_of(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.find import shut_off
    from floorplan_circuits.reports.shutoff import as_json, as_text

    findings, pictures = found
    boxes = boxes_by_mark(findings, options.home, options.marks)
    if boxes is None:
        return UNREADABLE
    plan = shut_off(findings, boxes)
    if options.output is not None and not _shutoff_printed(options, findings, plan, pictures):
        return UNREADABLE
    tell(as_json_text(as_json(plan, findings)) if options.json else as_text(plan, findings))
    return DONE if plan.is_whole else NOT_WHOLE


def _shutoff_printed(
    options: argparse.Namespace, findings: "Findings", plan: "ShutOff", pictures: dict[str, bytes]
) -> bool:
    """Write the sheet of a shut-off; return whether it could be written. Where it was is told on stderr."""
    from floorplan_circuits.drawing.palette import GREY, PAPER
    from floorplan_circuits.sheets.paper import PAPERS as SIZES
    from floorplan_circuits.sheets.shutoff_sheet import shutoff_sheet
    from floorplan_circuits.shutoff.steps import steps
    from floorplan_circuits.surfaces.pdf import pdf_of

    theme, today = GREY if options.grey else PAPER, date.today().isoformat()
    sheet = shutoff_sheet(findings, plan, steps(plan, findings), SIZES[options.paper], today, theme)
    if not written(options.output, pdf_of(sheet, pictures), options.home):
        return False
    print(f"{options.output}: {pages(sheet)}, {options.paper}.", file=sys.stderr)
    for words in sheet.shortened:
        print(f"  shortened: {words}", file=sys.stderr)
    for words in sheet.not_placed:
        print(f"  not on the plan: {words}", file=sys.stderr)
    return True
