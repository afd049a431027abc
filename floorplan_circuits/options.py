"""The words of the command line: what each command takes. No library of ours, so that --help is quick."""

import argparse
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from floorplan_circuits.rounds.patterns import Strength

SHEETS = ("wall-map", "directory", "hazards", "plan")
STRENGTHS: "dict[str, Strength]" = {
    "least": "least rounds",
    "check": "one more round",
    "equal-weight": "equal weight",
}
LAYERS = ("receptacles", "lights", "both")
SHUTOFF_PAPERS = ("letter", "legal", "a4")
PAPERS = ("letter", "legal", "tabloid", "a4", "a3", "ansi-c", "ansi-d", "a2", "a1")


def window_options(words: Sequence[str]) -> argparse.Namespace:
    """Read what the window is opened with."""
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits",
        description="Open the window, with HOME if it is given.",
        epilog="Without a window: 'floorplan-circuits check HOME', 'floorplan-circuits known HOME', "
        "'floorplan-circuits print HOME --output map.pdf'.",
    )
    parser.add_argument("home", nargs="?", type=Path, metavar="HOME", help="the home's file")
    return parser.parse_args(words)


def print_options(words: Sequence[str]) -> argparse.Namespace:
    """Read what is to be printed, and where."""
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits print", description="Print a sheet of HOME as a PDF or as SVG."
    )
    parser.add_argument("home", type=Path, metavar="HOME", help="the home's file")
    parser.add_argument("--sheet", choices=SHEETS, default="wall-map")
    parser.add_argument("--paper", choices=PAPERS, default="letter")
    parser.add_argument("--colour-by", choices=LAYERS, default="both", help="what the floor is divided by")
    parser.add_argument(
        "--switching", action="store_true", help="on the plan alone: curves from switches to what they work"
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


def check_options(words: Sequence[str]) -> argparse.Namespace:
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


def known_options(words: Sequence[str]) -> argparse.Namespace:
    """Read of which home all that is known is to be said."""
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits known",
        description="Say what each feed may hang on, how anybody knows, and which readings clash.",
        epilog="Exit status: 0 no readings clash, 1 some do, 2 unreadable.",
    )
    parser.add_argument("home", type=Path, metavar="HOME", help="the home's file")
    parser.add_argument("--json", action="store_true", help="the same as JSON, in the form that shared/ documents")
    return parser.parse_args(words)


def shutoff_options(words: Sequence[str]) -> argparse.Namespace:
    """Read which boxes are to be opened."""
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits shutoff",
        description="Say what to turn off before boxes are opened, what goes dark, and what stays live all the same.",
        epilog="Exit status: 0 only if every box should be dead with its neutrals known, 2 bad input, 1 otherwise.",
    )
    parser.add_argument("home", type=Path, metavar="HOME", help="the home's file")
    parser.add_argument("marks", nargs="+", metavar="MARK", help="the boxes to be opened, by their marks: B14")
    parser.add_argument("--json", action="store_true", help="the same as JSON, in the form that shared/ documents")
    parser.add_argument("--output", type=Path, metavar="FILE.pdf", help="write the sheet to take along")
    parser.add_argument("--paper", choices=SHUTOFF_PAPERS, default="letter")
    parser.add_argument("--grey", action="store_true", help="for a printer without colour")
    return parser.parse_args(words)


def revive_options(words: Sequence[str]) -> argparse.Namespace:
    """Read where something went dead."""
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits revive",
        description="Say what to look at where something went dead, nearest first, and when to stop.",
    )
    parser.add_argument("home", type=Path, metavar="HOME", help="the home's file")
    parser.add_argument("mark", metavar="MARK", help="the box in which something went dead, by its mark: B14")
    return parser.parse_args(words)


def rounds_options(words: Sequence[str]) -> argparse.Namespace:
    """Read how test rounds are to be planned, or whose answers are to be taken."""
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits rounds",
        description="Plan test rounds that find which breaker feeds what, or take their answers into HOME.",
        epilog="Exit status: 0 done, 2 unreadable, or answers that do not fit the plan.",
    )
    parser.add_argument("home", type=Path, metavar="HOME", help="the home's file")
    parser.add_argument("--json", action="store_true", help="the same as JSON, in the form that shared/ documents")
    parser.add_argument("--strength", choices=tuple(STRENGTHS), default="equal-weight", help="what may go wrong unseen")
    parser.add_argument("--cap", type=int, metavar="N", help="the most handles that may be off at once")
    parser.add_argument("--leave-on", default="", metavar="7,12", help="breakers that stay on, by their numbers")
    parser.add_argument("--box", action="append", default=[], metavar="MARK", help="find out about this box alone")
    parser.add_argument("--answers", type=Path, metavar="FILE", help="the answers of this plan: recorded in HOME")
    parser.add_argument("--worksheet", type=Path, metavar="FILE.pdf", help="write the plan as a sheet to fill in")
    parser.add_argument("--paper", choices=("letter", "a4"), default="letter", help="of the worksheet")
    parser.add_argument("--grey", action="store_true", help="the worksheet for a printer without colour")
    parser.add_argument("--phone", type=Path, metavar="FILE.html", help="write the plan as one page for a phone")
    options = parser.parse_args(words)
    if options.answers is not None and (options.worksheet or options.phone):
        parser.error("--answers changes the plan: write --worksheet and --phone without it")
    return options


def same_options(words: Sequence[str]) -> argparse.Namespace:
    """Read a home and the code of a print."""
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits same",
        description="Say whether a print with this code still tells what HOME tells now.",
        epilog="Exit status: 0 the same, 1 not, 2 unreadable: the home, or a code that was never printed.",
    )
    parser.add_argument("home", type=Path, metavar="HOME", help="the home's file")
    parser.add_argument("code", metavar="CODE", help="the code at the foot of the print: 7KQ4-MXWT")
    return parser.parse_args(words)
