"""`print`: a sheet of a home as a PDF or as SVG."""

import argparse
import sys
from collections.abc import Sequence
from datetime import date
from pathlib import Path

from floorplan_circuits.commands.shared import (
    DONE,
    UNREADABLE,
    findings_of,
    is_the_home,
    pages,
    tell,
    words_of,
    written,
)

SHEETS = ("wall-map", "directory", "hazards", "plan", "photo")
LAYERS = ("receptacles", "lights", "both")
PAPERS = ("letter", "legal", "tabloid", "a4", "a3", "ansi-c", "ansi-d", "a2", "a1")


def read(words: Sequence[str]) -> argparse.Namespace:
    """Read what is to be printed, and where."""
    parser = words_of("print", "Print a sheet of HOME as a PDF or as SVG.")
    parser.add_argument("--sheet", choices=SHEETS, default="wall-map")
    parser.add_argument("--paper", choices=PAPERS, default="letter")
    parser.add_argument("--colour-by", choices=LAYERS, default="both", help="what the floor is divided by")
    parser.add_argument(
        "--switching",
        action="store_true",
        help="on the wall map or the plan alone: curves from switches to what they work",
    )
    parser.add_argument("--grey", action="store_true", help="for a printer without colour")
    parser.add_argument(
        "--panel", default="", metavar="NAME", help="only this panel: its name, or the letter before its numbers"
    )
    parser.add_argument("--one-page", action="store_true", help="all levels on one page, if it can be read there")
    parser.add_argument(
        "--size", default="120x200", metavar="WxH", help="of a directory card, in mm; 4.75x8in for inches"
    )
    parser.add_argument("--output", type=Path, required=True, metavar="FILE", help="a .pdf, or .svg files, one a page")
    return parser.parse_args(words)


def run(options: argparse.Namespace) -> int:
    """Print a sheet."""
    if options.output.resolve() == options.home.resolve():
        return is_the_home(options.output)
    found = findings_of(options.home, options.colour_by)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.printing import CannotPrint, Wanted, make_sheet
    from floorplan_circuits.sheet_files import files_of

    findings, pictures = found
    wanted = Wanted(
        options.sheet, options.paper, options.grey, options.one_page, options.panel, options.size, options.switching
    )
    try:
        sheet = make_sheet(findings, wanted, date.today().isoformat())
        files = files_of(sheet, options.output, pictures)
    except CannotPrint as error:
        print(error, file=sys.stderr)
        return UNREADABLE
    if not sheet.pages:
        print("Nothing to print yet. Draw a room or fill the panel.", file=sys.stderr)
        return UNREADABLE
    if not all(written(path, content, options.home) for path, content in files):
        return UNREADABLE
    tell(f"{options.output}: {pages(sheet)}, {options.paper}. A map can be wrong: test before you touch.")
    for words in sheet.notes:
        tell(f"  {words}")
    for words in sheet.shortened:
        tell(f"  shortened: {words}")
    for words in sheet.not_placed:
        tell(f"  no room for the label of {words}")
    return DONE
