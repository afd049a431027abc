"""Save a home: one JSON file, one record a line, written whole, with the version before it kept."""

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from types import MappingProxyType

from pydantic_core import to_json

from floorplan_circuits.files.atomic import WRITE_FAULTS, write_whole
from floorplan_circuits.files.bounds import LARGEST_FILE
from floorplan_circuits.files.cannot import CannotSave
from floorplan_circuits.files.pictures import joined
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.record import Record
from floorplan_circuits.home.table import Table

NO_PICTURES: Mapping[str, bytes] = MappingProxyType({})


def text_of(home: Home, pictures: Mapping[str, bytes] = NO_PICTURES) -> str:
    """Return the text of the file: `format` first, declared order, one record a line, pictures last.

    What a record leaves at its default is left out; fields that this program does not know are written back.
    Equal homes have equal texts.
    """
    return "{\n" + ",\n".join(_entries(home, pictures)) + "\n}\n"


def _entries(home: Home, pictures: Mapping[str, bytes]) -> Iterator[str]:
    for name in type(home).model_fields:
        if name != "pictures" and not (name in LEFT_OUT_EMPTY and not getattr(home, name)):
            yield _entry(name, getattr(home, name))
    for name, value in home.extras().items():
        yield _entry(name, value)
    yield _entry("pictures", tuple(joined(home.pictures, pictures)))


LEFT_OUT_EMPTY = ("meanings",)
"""Fields that came after the first files were written: a home without them has the text it always had."""


def _entry(name: str, value: object) -> str:
    return f"  {_json(name)}: {_rows(value) if isinstance(value, Table | tuple) else _json(value)}"


def _rows(rows: Iterable[Record]) -> str:
    lines = ",\n".join([f"    {row.model_dump_json(exclude_defaults=True)}" for row in rows])
    return f"[\n{lines}\n  ]" if lines else "[]"


def _json(value: object) -> str:
    return to_json(value).decode("utf-8")


def previous_of(path: Path) -> Path:
    """Return where the version before the last save is kept: home.json has it in home.previous.json."""
    return path.with_name(f"{path.stem}.previous{path.suffix}")


def save_home(path: Path, home: Home, pictures: Mapping[str, bytes] = NO_PICTURES) -> None:
    """Write the home to a file, whole or not at all, and keep the version that stood there before.

    Where the file holds this very text already, nothing is written. Raises `CannotSave`; the old file then stands.
    """
    try:
        content = text_of(home, pictures).encode("utf-8")
        if len(content) > LARGEST_FILE:
            raise CannotSave(path, _too_large(len(content)), "Remove pictures, or make them smaller")
        before = path.read_bytes() if path.exists() else None
        if before == content:
            return
        if before is not None:
            write_whole(previous_of(path), before)
        write_whole(path, content)
    except WRITE_FAULTS as error:
        raise CannotSave(path, _reason(error), "The file is as it was: save under another name or folder") from error


def _too_large(size: int) -> str:
    return f"with its pictures it would have {size / 2**20:.0f} MB, and {LARGEST_FILE // 2**20} can be opened"


def _reason(error: Exception) -> str:
    return (error.strerror or str(error)) if isinstance(error, OSError) else str(error)
