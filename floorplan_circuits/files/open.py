"""Open a home: read with bounds, migrate, check, and say in one message what is wrong with a file and where."""

import gc
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from pydantic import ValidationError
from pydantic_core import from_json, to_json

from floorplan_circuits.files.bounds import Version, read_bounded, version_of
from floorplan_circuits.files.cannot import CannotOpen
from floorplan_circuits.files.migrations import MIGRATIONS, Migration, NoMigration, migrate
from floorplan_circuits.files.pictures import BadPicture, split
from floorplan_circuits.files.places import json_fault, record_fault
from floorplan_circuits.home.home import FORMAT, Home
from floorplan_circuits.home.integrity import Problem, problems

CURRENT = Version(*map(int, FORMAT.rsplit(" ", 1)[1].split(".")))
MOST_PROBLEMS = 10


class Stored(NamedTuple):
    """What a file held: the home, its pictures' bytes by hash, whether it may be saved, and a sentence to show."""

    home: Home
    pictures: dict[str, bytes]
    read_only: bool
    notice: str


def open_home(path: Path) -> Stored:
    """Read the home in a file. Raises `CannotOpen` for anything that is no sound home."""
    return read_home(read_bounded(path), path)


def read_home(data: bytes, file: Path, steps: Mapping[int, Migration] = MIGRATIONS) -> Stored:
    """Read the home in these bytes, which came from `file`. Raises `CannotOpen` for anything that is no sound home."""
    version = version_of(data, file)
    if version.major < CURRENT.major:
        data = _migrated(data, file, version, steps)
    with _collector_paused():
        home = _checked(data, file, version)
    if not home.pictures:
        return Stored(home, {}, version.major > CURRENT.major, _notice(version))
    try:
        rows, content = split(home.pictures)
    except BadPicture as bad:
        place, cure = f"pictures, row {bad.row}", "Take the text of its data away to open the home without it"
        raise CannotOpen(file, place, bad.says, cure) from None
    bare = home.model_copy(update={"pictures": rows})  # the rows are checked already
    return Stored(bare, content, version.major > CURRENT.major, _notice(version))


@contextmanager
def _collector_paused() -> Iterator[None]:
    """Keep the cycle collector off: records hold no cycles, and it would walk them again and again while they grow."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _migrated(data: bytes, file: Path, version: Version, steps: Mapping[int, Migration]) -> bytes:
    try:
        raw = from_json(data)
    except ValueError as error:
        raise json_fault(str(error), file) from None
    try:
        return to_json(migrate(raw, version.major, CURRENT.major, steps))
    except NoMigration as missing:
        says = f"it was written in format {version}, and no way leads on from {missing.major}"
        raise CannotOpen(file, "format", says, "Open and save it with the version that wrote it") from None
    except (LookupError, TypeError, ValueError, AttributeError) as error:
        says = f"its old format {version} could not be brought up to date ({error!r})"
        raise CannotOpen(file, "", says, "Open its previous version or a backup") from error


def _checked(data: bytes, file: Path, version: Version) -> Home:
    try:
        home = Home.model_validate_json(data)
    except ValidationError as error:
        raise _told(record_fault(error, data, file), version) from None
    found = problems(home)
    if found:
        fault = CannotOpen(file, "", f"{_counted(len(found))} in it that cannot be", _listed(found))
        raise _told(fault, version)
    return home


def _counted(number: int) -> str:
    return "there is one thing" if number == 1 else f"there are {number} things"


def _listed(found: Sequence[Problem]) -> str:
    shown = [f"\n- {problem}" for problem in found[:MOST_PROBLEMS]]
    rest = len(found) - MOST_PROBLEMS
    more = [f"\n- and {rest} more"] if rest > 0 else []
    return "".join(["Correct in the file:", *shown, *more]).removesuffix(".")


def _told(fault: CannotOpen, version: Version) -> CannotOpen:
    """What does not fit in a newer version's file is no fault of the file."""
    if version <= CURRENT:
        return fault
    says = f"a newer version of the program wrote this (format {version}), and this one cannot read it: {fault.says}"
    return CannotOpen(fault.file, fault.place, says, "Get the newest version of the program")


def _notice(version: Version) -> str:
    if version.major > CURRENT.major:
        return f"A newer version of the program wrote this home (format {version}): look at it, but it cannot be saved."
    if version.minor > CURRENT.minor and version.major == CURRENT.major:
        return (
            f"A newer version of the program wrote this home (format {version}). What this one does not know is kept."
        )
    return ""
