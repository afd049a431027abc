"""What the commands share: opening a home, naming its boxes and breakers, telling, and writing a file."""

import argparse
import io
import json
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from floorplan_circuits.drawing.sheet import Sheet
    from floorplan_circuits.edits.edited import Edited
    from floorplan_circuits.findings import Findings, Layer
    from floorplan_circuits.home.home import Home

DONE, NOT_WHOLE, UNREADABLE = 0, 1, 2
"""Exit status: nothing to tell, something to tell (hazards, clashes, a stale print), bad input."""


def words_of(command: str, does: str, ends: str = "") -> argparse.ArgumentParser:
    """Return the words of a command about one home: what it does, and which exit status it ends with."""
    parser = argparse.ArgumentParser(prog=f"floorplan-circuits {command}", description=does, epilog=ends or None)
    parser.add_argument("home", type=Path, metavar="HOME", help="the home's file")
    return parser


def offer_json(words: "argparse.ArgumentParser | argparse._MutuallyExclusiveGroup") -> None:
    """Let the command say the same as JSON."""
    words.add_argument("--json", action="store_true", help="the same as JSON, in the form that shared/ documents")


def findings_of(path: Path, layer: "Layer" = "both") -> "tuple[Findings, dict[str, bytes]] | None":
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


def changed(path: Path, edit: "Callable[[Home], Edited]", named: Path) -> "Edited | None":
    """Make one edit of a home and save it; say on stderr why it can't be. A refusal names the file `named`."""
    from floorplan_circuits.edits.edited import Refused
    from floorplan_circuits.files.cannot import CannotOpen, CannotSave
    from floorplan_circuits.files.open import open_home
    from floorplan_circuits.files.save import save_home

    try:
        stored = open_home(path)
        if stored.read_only:
            print(f"{path}: a newer program wrote it: it can be read here, not changed.", file=sys.stderr)
            return None
        edited = edit(stored.home)
        save_home(path, edited.home, stored.pictures)
    except (CannotOpen, CannotSave) as error:
        print(error, file=sys.stderr)
        return None
    except Refused as error:
        print(f"{named}: {error}", file=sys.stderr)
        return None
    return edited


def boxes_by_mark(findings: "Findings", path: Path, marks: Sequence[str]) -> tuple[int, ...] | None:
    """Return the boxes of these marks; say on stderr which there are none of."""
    boxes = {box.mark.casefold(): box.id for box in findings.home.boxes if box.id in findings.boxes}
    missing = [mark for mark in marks if mark.casefold() not in boxes]
    if missing:
        print(f"{path}: there is no box {', '.join(missing)}. Give the mark on its plate.", file=sys.stderr)
        return None
    return tuple(dict.fromkeys(boxes[mark.casefold()] for mark in marks))


def handles_by_mark(findings: "Findings", path: Path, words: str) -> tuple[int, ...] | None:
    """Return the breakers of a list such as '7,12'; say on stderr which there are none of."""
    by_mark = {findings.marks[breaker].casefold(): breaker for breaker in findings.home.breakers.ids()}
    wanted = [word.strip() for word in words.split(",") if word.strip()]
    missing = [word for word in wanted if word.casefold() not in by_mark]
    if missing:
        print(f"{path}: there is no breaker {', '.join(missing)}. Give the number on the panel.", file=sys.stderr)
        return None
    return tuple(by_mark[word.casefold()] for word in wanted)


def is_the_home(output: Path) -> int:
    """Say that a sheet may not be written over its home, and return the exit status."""
    print(f"{output}: that is the home itself. Choose another name for the sheet.", file=sys.stderr)
    return UNREADABLE


def written(path: Path, content: bytes, home: Path) -> bool:
    """Write a file whole; say on stderr why it can't be. The home itself is never written over."""
    from floorplan_circuits.files.atomic import WRITE_FAULTS, write_whole

    if path.resolve() == home.resolve():
        is_the_home(path)
        return False
    try:
        write_whole(path, content)
    except WRITE_FAULTS as error:
        print(f"{path}: it can't be written ({error}). Choose another folder or name.", file=sys.stderr)
        return False
    return True


def pages(sheet: "Sheet") -> str:
    """Return how many pages a sheet has, in words."""
    return "1 page" if len(sheet.pages) == 1 else f"{len(sheet.pages)} pages"


def as_json_text(values: dict[str, Any]) -> str:
    """Return JSON that its reader takes for UTF-8: in plain ASCII where standard output has another encoding."""
    is_utf8 = (sys.stdout.encoding or "").lower().replace("-", "") == "utf8"
    return json.dumps(values, ensure_ascii=not is_utf8, indent=1)


def tell(words: str) -> None:
    """Print for a reader whose encoding may lack a letter, and who may hang up: a pager that was left."""
    if isinstance(sys.stdout, io.TextIOWrapper):
        sys.stdout.reconfigure(errors="backslashreplace")
    try:
        print(words, flush=True)
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
