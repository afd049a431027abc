"""Rewriting the references of a record as they were declared: to clear what is gone, to renumber what is pasted."""

from collections.abc import Callable, Sequence
from functools import cache
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from annotated_types import MinLen

from floorplan_circuits.home.record import AnyRecord, Record
from floorplan_circuits.home.references import Refers

Target = Callable[[Refers, int], int | None]
"""Given how a reference was declared and what it names, say what it shall name, or None to clear it."""


class _Cleared:
    """Stands for a value that can't stand without its target."""


CLEARED = _Cleared()
Rewriter = Callable[[Any, Target], Any]


def rewritten(record: AnyRecord, target: Target) -> AnyRecord | None:
    """Return the record with every reference passed through `target`; the very record if nothing changed.

    A cleared reference falls back to its field's default, leaves its list, or takes with it the part that can't
    stand without it. None if the record itself can't.
    """
    result = _nested(record, target)
    return None if result is CLEARED else result


def needs(record: Record) -> list[int]:
    """Return what a record goes with: the targets of its own fields that are declared *remove*."""
    return [target for name in _needed(type(record)) if (target := record.__dict__[name]) is not None]


@cache
def _needed(model: type[Record]) -> tuple[str, ...]:
    return tuple(name for name, field in model.model_fields.items() if _removes(field.annotation, field.metadata))


def _removes(annotation: Any, metadata: Sequence[Any]) -> bool:
    """Tell whether a field is a reference declared *remove*, or may be one."""
    declared = any(isinstance(mark, Refers) and mark.fate == "remove" for mark in metadata)
    return declared or any(_removes(None, get_args(choice)[1:]) for choice in get_args(annotation))


def _nested(record: Record, target: Target) -> Any:
    changes: dict[str, Any] = {}
    for name, rewrite in _rewriters(type(record)):
        before = record.__dict__[name]
        after = rewrite(before, target)
        if after is before:
            continue
        field = type(record).model_fields[name]
        least = next((mark.min_length for mark in field.metadata if isinstance(mark, MinLen)), 0)
        if after is CLEARED or (isinstance(after, tuple) and len(after) < least):
            if field.is_required():
                return CLEARED
            after = field.get_default()
        changes[name] = after
    return record.changed(**changes) if changes else record


@cache
def _rewriters(model: type[Record]) -> tuple[tuple[str, Rewriter], ...]:
    pairs = ((name, _rewriter(field.annotation, tuple(field.metadata))) for name, field in model.model_fields.items())
    return tuple((name, rewrite) for name, rewrite in pairs if rewrite is not None)


def _rewriter(annotation: Any, metadata: tuple[Any, ...] = ()) -> Rewriter | None:
    declared = next((mark for mark in metadata if isinstance(mark, Refers)), None)
    if declared is not None:
        return _leaf(declared)
    origin = get_origin(annotation)
    if origin is Annotated:
        inner, *marks = get_args(annotation)
        return _rewriter(inner, tuple(marks))
    if origin is tuple:
        return _each(get_args(annotation)[0])
    if origin in (Union, UnionType):
        return _either(get_args(annotation))
    if isinstance(annotation, type) and issubclass(annotation, Record):
        return _nested
    return None


def _leaf(declared: Refers) -> Rewriter:
    def rewrite(value: Any, target: Target) -> Any:
        if not isinstance(value, int):
            return value
        named = target(declared, value)
        return CLEARED if named is None else value if named == value else named

    return rewrite


def _each(annotation: Any) -> Rewriter | None:
    inner = _rewriter(annotation)
    if inner is None:
        return None

    def rewrite(values: Any, target: Target) -> Any:
        after = [inner(value, target) for value in values]
        if all(new is old for new, old in zip(after, values, strict=True)):
            return values
        return tuple(value for value in after if value is not CLEARED)

    return rewrite


def _either(choices: tuple[Any, ...]) -> Rewriter | None:
    found = [rewrite for choice in choices if (rewrite := _rewriter(choice)) is not None]
    if not found:
        return None
    leaf = next((rewrite for rewrite in found if rewrite is not _nested), None)

    def rewrite_either(value: Any, target: Target) -> Any:
        if isinstance(value, Record):
            return _nested(value, target)
        return value if leaf is None else leaf(value, target)

    return rewrite_either
