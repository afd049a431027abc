"""References from one record to another: declared once, where the field is declared.

A field says what it points at and what becomes of it when its target goes:

*remove*  the record that holds the reference goes too
*clear*   the field falls back to its default, or the target leaves the list (a feed becomes unknown)
*keep*    the reference stays and may dangle: the log outlives the thing

Removal, the dangling check and new ids on paste are all derived from these declarations.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from types import UnionType
from typing import Annotated, Any, Literal, NamedTuple, Union, get_args, get_origin

from floorplan_circuits.home.record import Id, Record
from floorplan_circuits.home.table import Table

Fate = Literal["remove", "clear", "keep"]


@dataclass(frozen=True, slots=True)
class Refers:
    """What a field points at (names of kinds of record) and its fate when the target goes."""

    to: tuple[str, ...]
    fate: Fate


LevelRef = Annotated[Id, Refers(("level",), "remove")]
LevelIfAnyRef = Annotated[Id, Refers(("level",), "clear")]
BoxRef = Annotated[Id, Refers(("box",), "clear")]
PanelRef = Annotated[Id, Refers(("panel",), "remove")]
BreakerRef = Annotated[Id, Refers(("breaker",), "clear")]
SourceRef = Annotated[Id, Refers(("source",), "clear")]
FeedRef = Annotated[Id, Refers(("feed",), "clear")]
DeviceRef = Annotated[Id, Refers(("device",), "clear")]
FedRef = Annotated[Id, Refers(("panel", "breaker", "feed"), "clear")]
HandleMark = Annotated[Id, Refers(("breaker", "main"), "keep")]
FeedMark = Annotated[Id, Refers(("feed",), "keep")]
BoxMark = Annotated[Id, Refers(("box",), "keep")]
PanelMark = Annotated[Id, Refers(("panel",), "keep")]
DeviceMark = Annotated[Id, Refers(("device",), "keep")]
EntryMark = Annotated[Id, Refers(("entry",), "keep")]
AnyMark = Annotated[Id, Refers(("box", "device", "feed", "breaker", "panel", "source"), "keep")]


class Reference(NamedTuple):
    """One reference found in a record: the field's path, how it was declared, and the id it holds."""

    path: str
    declared: Refers
    target: int


Found = list[tuple[str | None, Refers, int]]
Walker = Callable[[Any, str | None, Found], None]


def references(record: Record) -> tuple[Reference, ...]:
    """Return every reference that `record` and the records nested in it hold, in the order of the fields."""
    found: Found = []
    _nested(record, "", found)
    return tuple(Reference((path or "").removeprefix("."), declared, target) for path, declared, target in found)


def targets(records: Iterable[Record]) -> list[tuple[Refers, int]]:
    """Return what all these records refer to, without saying where: several times as fast, for homes of any size."""
    found: Found = []
    for record in records:
        _nested(record, None, found)
    return [(declared, target) for _, declared, target in found]


def _nested(record: Record, path: str | None, found: Found) -> None:
    values = record.__dict__
    for name, walk in _walkers(type(record)):
        value = values.get(name)
        if value:
            walk(value, path if path is None else f"{path}.{name}", found)


@cache
def _walkers(model: type[Record]) -> tuple[tuple[str, Walker], ...]:
    found = []
    for name, field in model.model_fields.items():
        walk = _walker(field.annotation, tuple(field.metadata))
        if walk is not None:
            found.append((name, walk))
    return tuple(found)


def _walker(annotation: Any, metadata: tuple[Any, ...] = ()) -> Walker | None:
    declared = next((mark for mark in metadata if isinstance(mark, Refers)), None)
    if declared is not None:
        return _leaf(declared)
    origin = get_origin(annotation)
    if origin is Annotated:
        inner, *marks = get_args(annotation)
        return _walker(inner, tuple(marks))
    if origin in (tuple, Table):
        return _each(annotation)
    if origin in (Union, UnionType):
        return _either(annotation)
    if isinstance(annotation, type) and issubclass(annotation, Record):
        return _nested
    return None


def _leaf(declared: Refers) -> Walker:
    def walk(value: Any, path: str | None, found: Found) -> None:
        if isinstance(value, int):
            found.append((path, declared, value))

    return walk


def _each(annotation: Any) -> Walker | None:
    inner = next((found for arg in get_args(annotation) if (found := _walker(arg)) is not None), None)
    if inner is None:
        return None

    def walk(values: Any, path: str | None, found: Found) -> None:
        for place, value in enumerate(values, 1):
            inner(value, path if path is None else f"{path}.{place}", found)

    return walk


def _either(annotation: Any) -> Walker | None:
    walks = [found for arg in get_args(annotation) if (found := _walker(arg)) is not None]
    if not walks:
        return None
    leaf = next((found for found in walks if found is not _nested), None)
    records = frozenset(_records_in(annotation))  # by type: pydantic's own `isinstance` takes most of a walk's time

    def walk(value: Any, path: str | None, found: Found) -> None:
        if type(value) in records:
            _nested(value, path, found)
        elif leaf is not None:
            leaf(value, path, found)

    return walk


def _records_in(annotation: Any) -> Iterator[type[Record]]:
    for arg in get_args(annotation):
        if isinstance(arg, type) and issubclass(arg, Record):
            yield arg
        else:
            yield from _records_in(arg)
