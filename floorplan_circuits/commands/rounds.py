"""`rounds`: test rounds planned, taken along, and their answers recorded."""

import argparse
import shlex
import sys
from collections.abc import Sequence
from datetime import date
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from floorplan_circuits.commands.shared import (
    DONE,
    UNREADABLE,
    as_json_text,
    boxes_by_mark,
    changed,
    findings_of,
    handles_by_mark,
    offer_json,
    tell,
    words_of,
    written,
)

if TYPE_CHECKING:
    from floorplan_circuits.edits.edited import Edited
    from floorplan_circuits.findings import Findings, RoundsInWords, TestPlan
    from floorplan_circuits.home.home import Home
    from floorplan_circuits.rounds.patterns import Strength


STRENGTHS: "dict[str, Strength]" = {
    "least": "least rounds",
    "check": "one more round",
    "equal-weight": "equal weight",
}


def read(words: Sequence[str]) -> argparse.Namespace:
    """Read how test rounds are to be planned, or whose answers are to be taken."""
    parser = words_of(
        "rounds",
        "Plan test rounds that find which breaker feeds what, or take their answers into HOME.",
        "Exit status: 0 done, 2 unreadable, or answers that do not fit the plan.",
    )
    offer_json(parser)
    parser.add_argument("--strength", choices=tuple(STRENGTHS), default="equal-weight", help="what may go wrong unseen")
    parser.add_argument("--cap", type=int, metavar="N", help="the most handles that may be off at once")
    parser.add_argument("--minutes", type=int, metavar="N", help="the most minutes that one may be off at a stretch")
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


def run(options: argparse.Namespace) -> int:
    """Plan test rounds, write them to be taken along, or record their answers."""
    found = findings_of(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.find import course_of, plan_rounds
    from floorplan_circuits.reports.rounds import as_json, as_text

    findings, _ = found
    boxes = boxes_by_mark(findings, options.home, options.box)
    left_on = handles_by_mark(findings, options.home, options.leave_on)
    if boxes is None or left_on is None or not _are_limits(options.cap, options.minutes):
        return UNREADABLE
    strength = STRENGTHS[options.strength]
    make = partial(
        plan_rounds, strength=strength, cap=options.cap, leave_on=left_on, boxes=boxes, minutes=options.minutes
    )
    plan = make(findings)
    if options.answers is not None:
        return _take_answers(options.home, options.answers, (course_of(findings, make).plan, plan))
    if options.worksheet is not None or options.phone is not None:
        return _take_along(options, plan, findings)
    tell(as_json_text(as_json(plan, findings)) if options.json else as_text(plan, findings))
    return DONE


def _take_along(options: argparse.Namespace, plan: "TestPlan", findings: "Findings") -> int:
    """Write a plan to be carried out away from the computer: on paper, on a phone, or both."""
    from floorplan_circuits.rounds.phone import phone_page
    from floorplan_circuits.rounds.wording import in_words

    if not plan.feeds:
        print("There is nothing to look at in rounds: draw devices, or see what is tested already.", file=sys.stderr)
        return UNREADABLE
    words = in_words(plan, findings)
    if options.worksheet is not None:
        sheet = _worksheet(options, words)
        if not written(options.worksheet, sheet, options.home):
            return UNREADABLE
        tell(f"{options.worksheet}: plan {words.code} on {options.paper}.")
    if options.phone is not None:
        if not written(options.phone, phone_page(words).encode("utf-8"), options.home):
            return UNREADABLE
        tell(f"{options.phone}: plan {words.code}. Send it to the phone as a file and open it there.")
    tell(f"Take its answers with: {_taken_back(options)}")
    return DONE


def _worksheet(options: argparse.Namespace, words: "RoundsInWords") -> bytes:
    from floorplan_circuits.drawing.palette import GREY, PAPER
    from floorplan_circuits.sheets.paper import PAPERS as SIZES
    from floorplan_circuits.sheets.worksheet import worksheet
    from floorplan_circuits.surfaces.pdf import pdf_of

    made_on = date.today().isoformat()
    return pdf_of(worksheet(words, SIZES[options.paper], made_on, GREY if options.grey else PAPER))


def _taken_back(options: argparse.Namespace) -> str:
    """Return the command that takes a plan's answers: it must make the same plan, so it has the same options."""
    usual = options.strength == "equal-weight"
    chosen = [
        *([] if usual else ["--strength", options.strength]),
        *([] if options.cap is None else ["--cap", str(options.cap)]),
        *([] if options.minutes is None else ["--minutes", str(options.minutes)]),
        *(["--leave-on", options.leave_on] if options.leave_on else []),
        *(word for mark in options.box for word in ("--box", mark)),
    ]
    return shlex.join(["floorplan-circuits", "rounds", str(options.home), *chosen, "--answers", "FILE"])


def _are_limits(cap: int | None, minutes: int | None) -> bool:
    if cap is not None and cap < 1:
        print("--cap: at least one handle must be off in a round.", file=sys.stderr)
        return False
    if minutes is not None and minutes < 1:
        print("--minutes: a handle must be off for a minute at least.", file=sys.stderr)
        return False
    return True


def _take_answers(path: Path, answers: Path, plans: Sequence["TestPlan"]) -> int:
    """Record the answers of a plan in the home, and save it: of the plan begun, or of one made now."""
    from floorplan_circuits.edits.answering import take_answers
    from floorplan_circuits.rounds.answers import CannotRead, plan_named, read_answers

    def taken(home: "Home") -> "Edited":
        told = answers.read_text(encoding="utf-8")
        return take_answers(home, read_answers(told, plan_named(told, plans)))

    try:
        edited = changed(path, taken, answers)
    except (CannotRead, OSError, UnicodeDecodeError) as error:
        print(f"{answers}: {error}", file=sys.stderr)
        return UNREADABLE
    if edited is None:
        return UNREADABLE
    tell(f"{path}: {edited.says}. See what they suggest: floorplan-circuits known {path}")
    return DONE
