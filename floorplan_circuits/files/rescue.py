"""Rescue copies: what was not yet saved when the program or the power went away.

A copy is a home like any other, in a folder that the caller names, with a small file beside it that tells which home
it is of. Pictures that the home's own file has are not copied; each that it has not lies beside the copy, written once.
"""

import os
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from floorplan_circuits.files.atomic import WRITE_FAULTS, write_whole
from floorplan_circuits.files.cannot import CannotOpen, CannotSave
from floorplan_circuits.files.open import Stored, open_home
from floorplan_circuits.files.pictures import picture_hash
from floorplan_circuits.files.save import NO_PICTURES, text_of
from floorplan_circuits.home.home import Home


class Rescue(NamedTuple):
    """A rescue copy and the file of the home it is of; None for a home that was never saved."""

    path: Path
    of: Path | None


def write_rescue(folder: Path, home: Home, of: Path | None, unsaved: Mapping[str, bytes] = NO_PICTURES) -> Rescue:
    """Write the rescue copy of a home, in place of its last one, with the pictures that its file has not.

    Raises `CannotSave`.
    """
    rescue = Rescue(folder / f"{_name(of)}.json", of)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        write_whole(_beside(rescue.path), str(of.resolve() if of else "").encode("utf-8"))
        for row in home.pictures:
            picture = _picture(rescue.path, row.hash)
            if row.hash in unsaved and not picture.exists():
                write_whole(picture, unsaved[row.hash])
        write_whole(rescue.path, text_of(home).encode("utf-8"))
    except WRITE_FAULTS as error:
        raise CannotSave(rescue.path, str(error), "Save the home itself") from error
    return rescue


def _name(of: Path | None) -> str:
    if of is None:
        return f"rescue-unsaved-{os.getpid()}"
    return f"rescue-{sha256(str(of.resolve()).encode()).hexdigest()[:16]}"


def _beside(path: Path) -> Path:
    return path.with_suffix(".of")


def _picture(path: Path, name: str) -> Path:
    return path.with_suffix(f".{name}.picture")


def list_rescues(folder: Path) -> tuple[Rescue, ...]:
    """Return the rescue copies in the folder, by name; none where there is no folder."""
    return tuple(Rescue(path, _of(path)) for path in sorted(folder.glob("rescue-*.json")))


def _of(path: Path) -> Path | None:
    beside = _beside(path)
    told = beside.read_text(encoding="utf-8") if beside.is_file() else ""
    return Path(told) if told else None


def open_rescue(rescue: Rescue) -> Stored:
    """Read a rescue copy, with the pictures beside it, and those of the home's own file where that can still be read.

    Raises `CannotOpen` where the copy itself cannot be read.
    """
    stored = open_home(rescue.path)
    wanted = {row.hash for row in stored.home.pictures}
    found = _pictures(rescue.of) | _pictures_beside(rescue.path, wanted)
    return stored._replace(pictures={name: data for name, data in found.items() if name in wanted})


def _pictures_beside(path: Path, wanted: set[str]) -> dict[str, bytes]:
    """Return the pictures beside a copy; one that is not what its name says was written by half, and is none."""
    files = {name: _picture(path, name) for name in wanted}
    found = {name: file.read_bytes() for name, file in files.items() if file.is_file()}
    return {name: data for name, data in found.items() if picture_hash(data) == name}


def _pictures(of: Path | None) -> dict[str, bytes]:
    try:
        return open_home(of).pictures if of else {}
    except CannotOpen:
        return {}  # the copy is worth having without them


def drop_rescue(rescue: Rescue) -> None:
    """Remove a rescue copy: the home was saved, or nobody wants it. One that is gone already is no error."""
    rescue.path.unlink(missing_ok=True)
    _beside(rescue.path).unlink(missing_ok=True)
    for picture in rescue.path.parent.glob(f"{rescue.path.stem}.*.picture"):
        picture.unlink(missing_ok=True)
