"""The command line: print, check, and what else needs no window; or open the window: Qt loads only then."""

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

from floorplan_circuits import options
from floorplan_circuits.options import STRENGTHS

if TYPE_CHECKING:
    from floorplan_circuits.drawing.sheet import Sheet
    from floorplan_circuits.findings import Findings, Layer, RoundsInWords, ShutOff, TestPlan

NOTHING_FOUND, HAZARDS, UNREADABLE = 0, 1, 2
CLASHES = NOT_WHOLE = STALE = HAZARDS


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command and return its exit status: 0 nothing found, 1 hazards or clashes, 2 unreadable or no display."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    with _collector_out_of_the_way():
        if words[:1] == ["print"]:
            return _print(options.print_options(words[1:]))
        if words[:1] == ["check"]:
            return _check(options.check_options(words[1:]))
        if words[:1] == ["known"]:
            return _known(options.known_options(words[1:]))
        if words[:1] == ["shutoff"]:
            return _shutoff(options.shutoff_options(words[1:]))
        if words[:1] == ["revive"]:
            return _revive(options.revive_options(words[1:]))
        if words[:1] == ["rounds"]:
            return _rounds(options.rounds_options(words[1:]))
        if words[:1] == ["same"]:
            return _same(options.same_options(words[1:]))
        return _window(options.window_options(words))


@contextmanager
def _collector_out_of_the_way() -> Iterator[None]:
    """Keep the cycle collector off while all that is made is needed, and from walking it once more at the end."""
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        gc.enable()


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
    from floorplan_circuits.files.atomic import WRITE_FAULTS, write_whole
    from floorplan_circuits.printing import CannotPrint, Wanted, make_sheet
    from floorplan_circuits.written import files_of

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
    for path, content in files:
        try:
            write_whole(path, content)
        except WRITE_FAULTS as error:
            print(f"{path}: it can't be written ({error}). Choose another folder or name.", file=sys.stderr)
            return UNREADABLE
    pages = "1 page" if len(sheet.pages) == 1 else f"{len(sheet.pages)} pages"
    _tell(f"{options.output}: {pages}, {options.paper}. A map can be wrong: test before you touch.")
    for words in sheet.notes:
        _tell(f"  {words}")
    for words in sheet.shortened:
        _tell(f"  shortened: {words}")
    for words in sheet.not_placed:
        _tell(f"  no room for the label of {words}")
    return NOTHING_FOUND


def _is_the_home(output: Path) -> int:
    print(f"{output}: that is the home itself. Choose another name for the sheet.", file=sys.stderr)
    return UNREADABLE


def _written(path: Path, content: bytes, home: Path) -> bool:
    """Write a file whole; say on stderr why it can't be. The home itself is never written over."""
    from floorplan_circuits.files.atomic import WRITE_FAULTS, write_whole

    if path.resolve() == home.resolve():
        _is_the_home(path)
        return False
    try:
        write_whole(path, content)
    except WRITE_FAULTS as error:
        print(f"{path}: it can't be written ({error}). Choose another folder or name.", file=sys.stderr)
        return False
    return True


def _pages(sheet: "Sheet") -> str:
    return "1 page" if len(sheet.pages) == 1 else f"{len(sheet.pages)} pages"


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
    if options.output is not None and options.output.resolve() == options.home.resolve():
        return _is_the_home(options.output)
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
    """Write the sheet of a shut-off; return whether it could be written. Where it was is told on stderr."""
    from floorplan_circuits.drawing.palette import GREY, PAPER
    from floorplan_circuits.sheets.paper import PAPERS as SIZES
    from floorplan_circuits.sheets.shutoff_sheet import shutoff_sheet
    from floorplan_circuits.shutoff.steps import steps
    from floorplan_circuits.surfaces.pdf import pdf_of

    theme, today = GREY if options.grey else PAPER, date.today().isoformat()
    sheet = shutoff_sheet(findings, plan, steps(plan, findings), SIZES[options.paper], today, theme)
    if not _written(options.output, pdf_of(sheet, pictures), options.home):
        return False
    print(f"{options.output}: {_pages(sheet)}, {options.paper}.", file=sys.stderr)
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


# --- same -----------------------------------------------------------------------------------------------------------


def _same(options: argparse.Namespace) -> int:
    from floorplan_circuits.sheets.content_code import as_code, content_code

    printed = as_code(options.code)
    if printed is None:
        print(f"{options.code}: no print has this code. Type the eight letters at its foot again.", file=sys.stderr)
        return UNREADABLE
    found = _findings(options.home)
    if found is None:
        return UNREADABLE
    now = content_code(found[0])
    if now == printed:
        _tell("The print tells what the home's file tells. Either can be wrong: test before you touch.")
        return NOTHING_FOUND
    _tell(f"The print is stale: the home's file tells something else now ({now}). Print it again and take it down.")
    return STALE


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
