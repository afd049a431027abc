"""References from one record to another: declared once, where the field is declared.

A field says what it points at and what becomes of it when its target goes:

*remove*  the record that holds the reference goes too
*clear*   the field falls back to its default, or the target leaves the list (a feed becomes unknown)
*keep*    the reference stays and may dangle: the log outlives the thing

Removal, the dangling check and new ids on paste are all derived from these declarations.
"""

from collections.abc import Callable, Iterable, Sequence
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


# --- where a kind of record holds references ------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Each:
    """A list, each part of which holds references."""

    part: "Shape"


@dataclass(frozen=True, slots=True)
class Either:
    """One of these records, or else a value of the `other` shape; None if such a value refers to nothing."""

    records: frozenset[type[Record]]
    other: "Shape | None"


Shape = Refers | Each | Either | type[Record]
"""How a field holds references: as one itself, in a list, in one of several ways, or in a record nested in it."""


@cache
def reference_fields(model: type[Record]) -> tuple[tuple[str, Shape], ...]:
    """Return the fields of a kind of record that hold references, and how each does."""
    shapes = ((name, _shape(field.annotation, field.metadata)) for name, field in model.model_fields.items())
    return tuple((name, shape) for name, shape in shapes if shape is not None)


def _shape(annotation: Any, metadata: Sequence[Any] = ()) -> Shape | None:
    declared = next((mark for mark in metadata if isinstance(mark, Refers)), None)
    if declared is not None:
        return declared
    origin, choices = get_origin(annotation), get_args(annotation)
    if origin is Annotated:
        return _shape(choices[0], choices[1:])
    if origin in (tuple, Table):
        return next((Each(part) for choice in choices if (part := _shape(choice)) is not None), None)
    if origin in (Union, UnionType):
        return _either_of([shape for choice in choices if (shape := _shape(choice)) is not None])
    return annotation if isinstance(annotation, type) and issubclass(annotation, Record) else None


def _either_of(shapes: list[Shape]) -> Shape | None:
    if not shapes:
        return None
    records = frozenset(shape for shape in shapes if isinstance(shape, type))
    return Either(records, next((shape for shape in shapes if not isinstance(shape, type)), None))


# --- walking the references of a record -----------------------------------------------------------------------------


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
    return tuple((name, _walker(shape)) for name, shape in reference_fields(model))


def _walker(shape: Shape) -> Walker:
    if isinstance(shape, Refers):
        return _leaf(shape)
    if isinstance(shape, Each):
        return _each(_walker(shape.part))
    if isinstance(shape, Either):
        return _either(shape.records, None if shape.other is None else _walker(shape.other))
    return _nested


def _leaf(declared: Refers) -> Walker:
    def walk(value: Any, path: str | None, found: Found) -> None:
        if isinstance(value, int):
            found.append((path, declared, value))

    return walk


def _each(part: Walker) -> Walker:
    def walk(values: Any, path: str | None, found: Found) -> None:
        for place, value in enumerate(values, 1):
            part(value, path if path is None else f"{path}.{place}", found)

    return walk


def _either(records: frozenset[type[Record]], other: Walker | None) -> Walker:
    def walk(value: Any, path: str | None, found: Found) -> None:
        if type(value) in records:  # pydantic's own `isinstance` takes most of a walk's time
            _nested(value, path, found)
        elif other is not None:
            other(value, path, found)

    return walk
