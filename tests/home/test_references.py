from collections.abc import Iterator
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

import pytest

from floorplan_circuits.home.building import Stair
from floorplan_circuits.home.home import TABLES, Home
from floorplan_circuits.home.record import Record
from floorplan_circuits.home.references import Refers, references, targets
from floorplan_circuits.home.table import Table
from tests.home.samples import sample

LARGEST_ID = 2**53 - 1
NO_REFERENCES = {"id", "next_id", "group", "neutral"}
"""Numbers like ids that point at nothing: a thing's own, the counter, and numbers of groups."""


def found(record: Record) -> list[tuple[str, tuple[str, ...], str, int]]:
    return [(each.path, each.declared.to, each.declared.fate, each.target) for each in references(record)]


def test_a_record_without_references_has_none() -> None:
    assert references(sample().levels[1]) == ()
    assert references(Home()) == ()


def test_an_optional_reference_is_found_only_where_it_is_set() -> None:
    stair = sample().stairs[5]
    assert found(stair) == [("level", ("level",), "remove", 1), ("head", ("level",), "clear", 2)]
    alone = Stair(id=1, level=1, at=(0, 0), angle=0)
    assert [each.path for each in references(alone)] == ["level"]


def test_references_are_found_through_lists_unions_and_records_within_records() -> None:
    assert found(sample().boxes[10]) == [
        ("level", ("level",), "remove", 1),
        ("devices.1.feeds.1.on.supplies.1.breaker", ("breaker",), "clear", 30),
        ("devices.2.feeds.1.on.supplies.1.breaker", ("breaker",), "clear", 31),
        ("passing.1.returns.breaker", ("breaker",), "clear", 30),
    ]
    assert [each.path for each in references(sample().boxes[16])] == ["devices.1.feeds.1.on.feed"]


def test_a_source_may_reach_a_panel_a_breaker_or_a_feed() -> None:
    assert [(each.path, each.target) for each in references(sample().sources[40])] == [
        ("into.1", 20),
        ("into.2", 32),
        ("into.3", 15),
    ]


def test_what_the_log_names_may_outlive_the_thing() -> None:
    log = found(sample().log[0])
    assert log == [
        ("off.1", ("breaker", "main"), "keep", 30),
        ("off.2", ("breaker", "main"), "keep", 999),
        ("readings.1.feed", ("feed",), "keep", 12),
    ]


@pytest.mark.parametrize("table", TABLES)
def test_targets_are_the_same_references_without_their_places(table: str) -> None:
    rows = getattr(sample(), table)
    assert targets(rows) == [(each.declared, each.target) for row in rows for each in references(row)]


def models(annotation: Any) -> Iterator[type[Record]]:
    """Yield every kind of record that a field of this type can hold, at any depth."""
    if isinstance(annotation, type) and issubclass(annotation, Record):
        yield annotation
        for field in annotation.model_fields.values():
            yield from models(field.annotation)
    elif get_origin(annotation) is Annotated:
        yield from models(get_args(annotation)[0])
    elif get_origin(annotation) in (tuple, Table, Union, UnionType):
        for inner in get_args(annotation):
            yield from models(inner)


def undeclared(annotation: Any, metadata: tuple[Any, ...]) -> bool:
    """Tell whether a field of this type can hold an id that is declared to point at nothing."""
    if any(isinstance(mark, Refers) for mark in metadata):
        return False
    if annotation is int:
        bounds = [bound for mark in metadata for bound in getattr(mark, "metadata", [mark])]
        return any(getattr(bound, "le", None) == LARGEST_ID for bound in bounds)
    if get_origin(annotation) is Annotated:
        inner, *marks = get_args(annotation)
        return undeclared(inner, tuple(marks))
    if isinstance(annotation, type) and issubclass(annotation, Record):
        return False
    return any(undeclared(inner, ()) for inner in get_args(annotation) if inner is not ...)


def test_every_field_that_holds_an_id_says_what_it_points_at() -> None:
    found = {
        (model.__name__, name)
        for model in set(models(Home))
        for name, field in model.model_fields.items()
        if undeclared(field.annotation, tuple(field.metadata))
    }
    assert {name for _, name in found} == NO_REFERENCES
