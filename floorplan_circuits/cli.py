"""The command line: print a sheet, check a home, say what is known of it, or open the window: Qt loads only then."""

import argparse
import gc
import io
import json
import os
import shlex
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from floorplan_circuits.findings import Findings, Layer, RoundsInWords, ShutOff, TestPlan
    from floorplan_circuits.rounds.patterns import Strength

NOTHING_FOUND, HAZARDS, UNREADABLE = 0, 1, 2
CLASHES = NOT_WHOLE = HAZARDS
SHEETS = ("wall-map",)
LAYERS = ("receptacles", "lights", "both")
STRENGTHS: "dict[str, Strength]" = {
    "least": "least rounds",
    "check": "one more round",
    "equal-weight": "equal weight",
}
PAPERS = ("letter", "legal", "tabloid", "a4", "a3")
SHUTOFF_PAPERS = ("letter", "legal", "a4")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command and return its exit status: 0 nothing found, 1 hazards or clashes, 2 unreadable or no display."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    with _collector_out_of_the_way():
        if words[:1] == ["print"]:
            return _print(_print_options(words[1:]))
        if words[:1] == ["check"]:
            return _check(_check_options(words[1:]))
        if words[:1] == ["known"]:
            return _known(_known_options(words[1:]))
        if words[:1] == ["shutoff"]:
            return _shutoff(_shutoff_options(words[1:]))
        if words[:1] == ["revive"]:
            return _revive(_revive_options(words[1:]))
        if words[:1] == ["rounds"]:
            return _rounds(_rounds_options(words[1:]))
        return _window(_window_options(words))


@contextmanager
def _collector_out_of_the_way() -> Iterator[None]:
    """Keep the cycle collector off while all that is made is needed, and from walking it once more at the end."""
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        gc.enable()


def _window_options(words: Sequence[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits",
        description="Open the window, with HOME if it is given.",
        epilog="Without a window: 'floorplan-circuits check HOME', 'floorplan-circuits known HOME', "
        "'floorplan-circuits print HOME --output map.pdf'.",
    )
    parser.add_argument("home", nargs="?", type=Path, metavar="HOME", help="the home's file")
    return parser.parse_args(words)


def _print_options(words: Sequence[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="floorplan-circuits print", description="Print a sheet of HOME as a PDF.")
    parser.add_argument("home", type=Path, metavar="HOME", help="the home's file")
    parser.add_argument("--sheet", choices=SHEETS, default="wall-map")
    parser.add_argument("--paper", choices=PAPERS, default="letter")
    parser.add_argument("--colour-by", choices=LAYERS, default="both", help="what the floor is divided by")
    parser.add_argument("--grey", action="store_true", help="for a printer without colour")
    parser.add_argument("--output", type=Path, required=True, metavar="FILE.pdf")
    return parser.parse_args(words)


def _check_options(words: Sequence[str]) -> argparse.Namespace:
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


def _known_options(words: Sequence[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits known",
        description="Say what each feed may hang on, how anybody knows, and which readings clash.",
        epilog="Exit status: 0 no readings clash, 1 some do, 2 unreadable.",
    )
    parser.add_argument("home", type=Path, metavar="HOME", help="the home's file")
    parser.add_argument("--json", action="store_true", help="the same as JSON, in the form that shared/ documents")
    return parser.parse_args(words)


def _shutoff_options(words: Sequence[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits shutoff",
        description="Say what to turn off before boxes are opened, what goes dark, and what stays live all the same.",
        epilog="Exit status: 0 only if every box should be dead with its neutrals known, 2 bad input, 1 otherwise.",
    )
    parser.add_argument("home", type=Path, metavar="HOME", help="the home's file")
    parser.add_argument("marks", nargs="+", metavar="MARK", help="the boxes to be opened, by their marks: B14")
    parser.add_argument("--json", action="store_true", help="the same as JSON, in the form that shared/ documents")
    parser.add_argument("--output", type=Path, metavar="FILE.pdf", help="write the sheet to take along as well")
    parser.add_argument("--paper", choices=SHUTOFF_PAPERS, default="letter", help="of the sheet")
    parser.add_argument("--grey", action="store_true", help="the sheet for a printer without colour")
    return parser.parse_args(words)


def _revive_options(words: Sequence[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="floorplan-circuits revive",
        description="Say what to look at where something went dead, nearest first, and when to stop.",
    )
    parser.add_argument("home", type=Path, metavar="HOME", help="the home's file")
    parser.add_argument("mark", metavar="MARK", help="the box in which something went dead, by its mark: B14")
    return parser.parse_args(words)


def _rounds_options(words: Sequence[str]) -> argparse.Namespace:
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


def _findings(path: Path, layer: "Layer" = "both") -> "tuple[Findings, dict[str, bytes]] | None":
    """Open a home and find everything about it; say on stderr why it can't be read."""
    from floorplan_circuits.files.cannot import CannotOpen
    from floorplan_circuits.files.open import open_home
    from floorplan_circuits.find import find

    try:
        stored = open_home(path)
    except CannotOpen as error:
        print(error, file=sys.stderr)
        return None
    if stored.notice:
        print(stored.notice, file=sys.stderr)
    return find(stored.home, layer=layer), stored.pictures


# --- print ----------------------------------------------------------------------------------------------------------


def _print(options: argparse.Namespace) -> int:
    if options.output.resolve() == options.home.resolve():
        print(f"{options.output}: that is the home itself. Choose another name for the sheet.", file=sys.stderr)
        return UNREADABLE
    found = _findings(options.home, options.colour_by)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.drawing.palette import GREY, PAPER
    from floorplan_circuits.sheets.paper import PAPERS as SIZES
    from floorplan_circuits.sheets.wall_map import wall_map
    from floorplan_circuits.surfaces.pdf import pdf_of

    findings, pictures = found
    sheet = wall_map(findings, SIZES[options.paper], date.today().isoformat(), GREY if options.grey else PAPER)
    if not sheet.pages:
        print("Nothing to print yet. Draw a room or fill the panel.", file=sys.stderr)
        return UNREADABLE
    if not _written(options.output, pdf_of(sheet, pictures), options.home):
        return UNREADABLE
    pages = "1 page" if len(sheet.pages) == 1 else f"{len(sheet.pages)} pages"
    _tell(f"{options.output}: {pages}, {options.paper}. A map can be wrong: test before you touch.")
    for words in sheet.shortened:
        _tell(f"  shortened: {words}")
    for words in sheet.not_placed:
        _tell(f"  no room for the label of {words}")
    return NOTHING_FOUND


def _written(path: Path, content: bytes, home: Path) -> bool:
    """Write a file whole; say on stderr why it can't be. The home itself is never written over."""
    from floorplan_circuits.files.atomic import WRITE_FAULTS, write_whole

    if path.resolve() == home.resolve():
        print(f"{path}: that is the home itself. Choose another name.", file=sys.stderr)
        return False
    try:
        write_whole(path, content)
    except WRITE_FAULTS as error:
        print(f"{path}: it can't be written ({error}). Choose another folder or name.", file=sys.stderr)
        return False
    return True


# --- check and known ------------------------------------------------------------------------------------------------


def _check(options: argparse.Namespace) -> int:
    found = _findings(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.report import as_json, as_text, as_text_by_room

    findings, _ = found
    in_words = as_text_by_room if options.by_room else as_text
    _tell(_as_json_text(as_json(findings)) if options.json else in_words(findings))
    return HAZARDS if any(hazard.listed for hazard in findings.hazards) else NOTHING_FOUND


def _known(options: argparse.Namespace) -> int:
    found = _findings(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.known import as_json, as_text

    findings, _ = found
    _tell(_as_json_text(as_json(findings)) if options.json else as_text(findings))
    return CLASHES if findings.disagreements else NOTHING_FOUND


# --- shutoff --------------------------------------------------------------------------------------------------------


def _shutoff(options: argparse.Namespace) -> int:
    found = _findings(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.cut_report import as_json, as_text
    from floorplan_circuits.find import shut_off

    findings, pictures = found
    boxes = _boxes_by_mark(findings, options.home, options.marks)
    if boxes is None:
        return UNREADABLE
    plan = shut_off(findings, boxes)
    if options.output is not None and not _shutoff_printed(options, findings, plan, pictures):
        return UNREADABLE
    _tell(_as_json_text(as_json(plan, findings)) if options.json else as_text(plan, findings))
    return NOTHING_FOUND if plan.is_whole else NOT_WHOLE


def _shutoff_printed(
    options: argparse.Namespace, findings: "Findings", plan: "ShutOff", pictures: dict[str, bytes]
) -> bool:
    """Write the sheet of a shut-off; return whether it could be written. What there is to say of it goes to stderr."""
    from floorplan_circuits.drawing.palette import GREY, PAPER
    from floorplan_circuits.sheets.paper import PAPERS as SIZES
    from floorplan_circuits.sheets.shutoff_sheet import shutoff_sheet
    from floorplan_circuits.shutoff.steps import steps
    from floorplan_circuits.surfaces.pdf import pdf_of

    theme, today = GREY if options.grey else PAPER, date.today().isoformat()
    sheet = shutoff_sheet(findings, plan, steps(plan, findings), SIZES[options.paper], today, theme)
    if not _written(options.output, pdf_of(sheet, pictures), options.home):
        return False
    pages = "1 page" if len(sheet.pages) == 1 else f"{len(sheet.pages)} pages"
    print(f"{options.output}: {pages}, {options.paper}.", file=sys.stderr)
    for words in sheet.shortened:
        print(f"  shortened: {words}", file=sys.stderr)
    for words in sheet.not_placed:
        print(f"  not on the plan: {words}", file=sys.stderr)
    return True


def _boxes_by_mark(findings: "Findings", path: Path, marks: Sequence[str]) -> tuple[int, ...] | None:
    """Return the boxes of these marks; say on stderr which there are none of."""
    boxes = {box.mark.casefold(): box.id for box in findings.home.boxes if box.id in findings.boxes}
    missing = [mark for mark in marks if mark.casefold() not in boxes]
    if missing:
        print(f"{path}: there is no box {', '.join(missing)}. Give the mark on its plate.", file=sys.stderr)
        return None
    return tuple(dict.fromkeys(boxes[mark.casefold()] for mark in marks))


def _revive(options: argparse.Namespace) -> int:
    found = _findings(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.cut_report import revival_as_text
    from floorplan_circuits.find import revive

    findings, _ = found
    boxes = _boxes_by_mark(findings, options.home, [options.mark])
    if boxes is None:
        return UNREADABLE
    _tell(revival_as_text(revive(findings, boxes[0]), findings))
    return NOTHING_FOUND


# --- rounds ---------------------------------------------------------------------------------------------------------


def _rounds(options: argparse.Namespace) -> int:
    found = _findings(options.home)
    if found is None:
        return UNREADABLE
    from floorplan_circuits.find import plan_rounds
    from floorplan_circuits.plan_report import as_json, as_text

    findings, _ = found
    boxes = _boxes_by_mark(findings, options.home, options.box)
    left_on = _handles_by_mark(findings, options.home, options.leave_on)
    if boxes is None or left_on is None or not _is_a_cap(options.cap):
        return UNREADABLE
    plan = plan_rounds(findings, strength=STRENGTHS[options.strength], cap=options.cap, leave_on=left_on, boxes=boxes)
    if options.answers is not None:
        return _take_answers(options.home, options.answers, plan)
    if options.worksheet is not None or options.phone is not None:
        return _take_along(options, plan, findings)
    _tell(_as_json_text(as_json(plan, findings)) if options.json else as_text(plan, findings))
    return NOTHING_FOUND


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
        if not _written(options.worksheet, sheet, options.home):
            return UNREADABLE
        _tell(f"{options.worksheet}: plan {words.code} on {options.paper}.")
    if options.phone is not None:
        if not _written(options.phone, phone_page(words).encode("utf-8"), options.home):
            return UNREADABLE
        _tell(f"{options.phone}: plan {words.code}. Send it to the phone as a file and open it there.")
    _tell(f"Take its answers with: {_taken_back(options)}")
    return NOTHING_FOUND


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
        *(["--leave-on", options.leave_on] if options.leave_on else []),
        *(word for mark in options.box for word in ("--box", mark)),
    ]
    return shlex.join(["floorplan-circuits", "rounds", str(options.home), *chosen, "--answers", "FILE"])


def _is_a_cap(cap: int | None) -> bool:
    if cap is not None and cap < 1:
        print("--cap: at least one handle must be off in a round.", file=sys.stderr)
        return False
    return True


def _handles_by_mark(findings: "Findings", path: Path, words: str) -> tuple[int, ...] | None:
    """Return the breakers of a list such as '7,12'; say on stderr which there are none of."""
    by_mark = {findings.marks[breaker].casefold(): breaker for breaker in findings.home.breakers.ids()}
    wanted = [word.strip() for word in words.split(",") if word.strip()]
    missing = [word for word in wanted if word.casefold() not in by_mark]
    if missing:
        print(f"{path}: there is no breaker {', '.join(missing)}. Give the number on the panel.", file=sys.stderr)
        return None
    return tuple(by_mark[word.casefold()] for word in wanted)


def _take_answers(path: Path, answers: Path, plan: "TestPlan") -> int:
    """Record the answers of a plan in the home, and save it."""
    from floorplan_circuits.edits.answering import take_answers
    from floorplan_circuits.edits.edited import Refused
    from floorplan_circuits.files.cannot import CannotOpen, CannotSave
    from floorplan_circuits.files.open import open_home
    from floorplan_circuits.files.save import save_home
    from floorplan_circuits.rounds.answers import CannotRead, read_answers

    try:
        stored = open_home(path)
        if stored.read_only:
            print(f"{path}: a newer program wrote it: it can be read here, not changed.", file=sys.stderr)
            return UNREADABLE
        edited = take_answers(stored.home, read_answers(answers.read_text(encoding="utf-8"), plan))
        save_home(path, edited.home, stored.pictures)
    except (CannotOpen, CannotSave) as error:
        print(error, file=sys.stderr)
        return UNREADABLE
    except (CannotRead, Refused, OSError, UnicodeDecodeError) as error:
        print(f"{answers}: {error}", file=sys.stderr)
        return UNREADABLE
    _tell(f"{path}: {edited.says}. See what they suggest: floorplan-circuits known {path}")
    return NOTHING_FOUND


def _as_json_text(values: dict[str, Any]) -> str:
    """Return JSON that its reader takes for UTF-8: in plain ASCII where standard output has another encoding."""
    is_utf8 = (sys.stdout.encoding or "").lower().replace("-", "") == "utf8"
    return json.dumps(values, ensure_ascii=not is_utf8, indent=1)


def _tell(words: str) -> None:
    """Print for a reader whose encoding may lack a letter, and who may hang up: a pager that was left."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")
    try:
        print(words, flush=True)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


# --- the window -----------------------------------------------------------------------------------------------------


def _window(options: argparse.Namespace) -> int:
    if not _has_display():
        print(
            "There is no display to open a window on: use 'floorplan-circuits check HOME' "
            "or 'floorplan-circuits print HOME --output map.pdf' instead.",
            file=sys.stderr,
        )
        return UNREADABLE
    from floorplan_circuits.desktop.program import run

    return run(options.home)


def _has_display() -> bool:
    """Tell whether Qt could open a window here. On Linux it ends the process where it can't, so ask before."""
    if not sys.platform.startswith("linux"):
        return True
    return any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"))
