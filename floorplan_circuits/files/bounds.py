"""Bounds before parsing: what can be told of a file from its size and its first bytes.

Depth of nesting and length of numbers are bounded by the JSON reader itself (200 levels, 4,300 digits); every text,
list and number of a record is bounded where the record is declared.
"""

import codecs
import re
import stat
from pathlib import Path
from typing import NamedTuple

from pydantic_core import from_json

from floorplan_circuits.files.cannot import CannotOpen
from floorplan_circuits.files.places import json_fault

LARGEST_FILE = 64 * 2**20
"""Bytes: a home of fifty thousand devices takes about ten million, the rest is room for pictures."""

_HEAD = re.compile(rb'\s*\{\s*"format"\s*:\s*"floorplan-circuits (\d{1,6})\.(\d{1,6})"')
_MARKS = {
    codecs.BOM_UTF8: "it begins with a byte order mark",
    codecs.BOM_UTF16_LE: "it is UTF-16 text, not UTF-8",
    codecs.BOM_UTF16_BE: "it is UTF-16 text, not UTF-8",
}


class Version(NamedTuple):
    """A version of the file format: the major counts what an older program cannot read."""

    major: int
    minor: int

    def __str__(self) -> str:
        return f"{self.major}.{self.minor}"


def read_bounded(file: Path) -> bytes:
    """Read a plain file of at most `LARGEST_FILE` bytes. Raises `CannotOpen` for anything else."""
    try:
        status = file.stat()
        if not stat.S_ISREG(status.st_mode):
            what = "it is a folder" if stat.S_ISDIR(status.st_mode) else "it is not a plain file"
            raise CannotOpen(file, "", what, "Choose the file of a home")
        if status.st_size > LARGEST_FILE:
            raise CannotOpen(
                file, "", _too_large(status.st_size), "Choose the file of a home, or remove pictures from it"
            )
        return file.read_bytes()
    except FileNotFoundError:
        raise CannotOpen(file, "", "there is no such file", "Check its name and its folder") from None
    except PermissionError:
        raise CannotOpen(file, "", "you may not read it", "Ask its owner for permission, or copy it") from None
    except (OSError, ValueError) as error:
        raise CannotOpen(file, "", f"it cannot be read ({error})", "Check the disk and the name") from error


def _too_large(size: int) -> str:
    return f"it has {size / 2**20:.0f} MB, and a home has at most {LARGEST_FILE // 2**20}"


def version_of(data: bytes, file: Path) -> Version:
    """Return the version that stands first in the file. Raises `CannotOpen` where none does, and says why."""
    head = _HEAD.match(data)
    if head is None:
        raise _no_home(data, file)
    return Version(int(head[1]), int(head[2]))


def _no_home(data: bytes, file: Path) -> CannotOpen:
    if not data.strip():
        return CannotOpen(file, "", "it is empty", "Open its previous version or a backup")
    for mark, says in _MARKS.items():
        if data.startswith(mark):
            return CannotOpen(file, "line 1", says, "Save it as UTF-8 without a byte order mark")
    try:
        raw = from_json(data)
    except ValueError as error:
        return json_fault(str(error), file)
    if not isinstance(raw, dict):
        return CannotOpen(file, "", "it is JSON but holds no record", "Choose the file of a home")
    return _no_format(raw, file)


def _no_format(raw: dict[str, object], file: Path) -> CannotOpen:
    if "format" not in raw:
        return CannotOpen(file, "format", "it does not say that it is a home", "Choose the file of a home")
    if next(iter(raw)) != "format":
        return CannotOpen(file, "format", "it must stand first in the file", 'Move the line "format" to the top')
    shown = str(raw["format"])[:60]
    cure = 'It must read "floorplan-circuits" and a version, such as "floorplan-circuits 1.0"'
    return CannotOpen(file, "format", f"{shown!r} is not a format of this program", cure)
