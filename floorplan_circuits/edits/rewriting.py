"""Rewriting the references of a record as they were declared: to clear what is gone, to renumber what is pasted."""

from collections.abc import Callable
from functools import cache
from typing import Any

from annotated_types import MinLen

from floorplan_circuits.home.record import AnyRecord, Record
from floorplan_circuits.home.references import Each, Either, Refers, Shape, reference_fields

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
    return tuple(name for name, shape in reference_fields(model) if _removes(shape))


def _removes(shape: Shape | None) -> bool:
    """Tell whether a field is a reference declared *remove*, or may be one."""
    if isinstance(shape, Either):
        return _removes(shape.other)
    return isinstance(shape, Refers) and shape.fate == "remove"


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
    return tuple((name, _rewriter(shape)) for name, shape in reference_fields(model))


def _rewriter(shape: Shape) -> Rewriter:
    if isinstance(shape, Refers):
        return _leaf(shape)
    if isinstance(shape, Each):
        return _each(_rewriter(shape.part))
    if isinstance(shape, Either):
        return _either(shape.records, None if shape.other is None else _rewriter(shape.other))
    return _nested


def _leaf(declared: Refers) -> Rewriter:
    def rewrite(value: Any, target: Target) -> Any:
        if not isinstance(value, int):
            return value
        named = target(declared, value)
        return CLEARED if named is None else value if named == value else named

    return rewrite


def _each(part: Rewriter) -> Rewriter:
    def rewrite(values: Any, target: Target) -> Any:
        after = [part(value, target) for value in values]
        if all(new is old for new, old in zip(after, values, strict=True)):
            return values
        return tuple(value for value in after if value is not CLEARED)

    return rewrite


def _either(records: frozenset[type[Record]], other: Rewriter | None) -> Rewriter:
    def rewrite(value: Any, target: Target) -> Any:
        if type(value) in records:
            return _nested(value, target)
        return value if other is None else other(value, target)

    return rewrite
