"""`Table`: records in order, found by id, read-only; a JSON list on disk."""

from collections.abc import Iterable, Iterator
from typing import Any, Generic, Protocol, TypeVar, get_args

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, core_schema


class HasId(Protocol):
    """What a table can hold: anything with an opaque number."""

    @property
    def id(self) -> int:
        """The record's own number."""


Row = TypeVar("Row", bound=HasId)


class Table(Generic[Row]):
    """A read-only sequence of records that is also a mapping from id to record.

    Two ids alike are kept as they come, so that the integrity rules can name them; `get` then finds the last.
    """

    __slots__ = ("_index", "rows")

    def __init__(self, rows: Iterable[Row] = ()) -> None:
        self.rows: tuple[Row, ...] = tuple(rows)
        self._index: dict[int, int] | None = None

    def _places(self) -> dict[int, int]:
        if self._index is None:
            self._index = {row.id: place for place, row in enumerate(self.rows)}
        return self._index

    def __iter__(self) -> Iterator[Row]:
        return iter(self.rows)

    def __len__(self) -> int:
        return len(self.rows)

    def __contains__(self, key: object) -> bool:
        return key in self._places()

    def __getitem__(self, key: int) -> Row:
        return self.rows[self._places()[key]]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Table) and self.rows == other.rows

    def __hash__(self) -> int:
        return hash(tuple(row.id for row in self.rows))

    def __repr__(self) -> str:
        return f"Table({list(self.rows)!r})"

    def get(self, key: int | None) -> Row | None:
        """Return the record with this id, or None where there is none."""
        place = None if key is None else self._places().get(key)
        return None if place is None else self.rows[place]

    def ids(self) -> tuple[int, ...]:
        """Return all ids in order."""
        return tuple(row.id for row in self.rows)

    def put(self, row: Row) -> "Table[Row]":
        """Return a table in which `row` stands where its id stood, or at the end."""
        place = self._places().get(row.id)
        if place is None:
            return Table((*self.rows, row))
        replaced = Table((*self.rows[:place], row, *self.rows[place + 1 :]))
        replaced._index = self._index  # same ids in the same places: the index serves both
        return replaced

    def without(self, ids: Iterable[int]) -> "Table[Row]":
        """Return a table without these ids; the very same table if it has none of them."""
        gone = set(ids)
        kept = tuple(row for row in self.rows if row.id not in gone)
        return self if len(kept) == len(self.rows) else Table(kept)

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Read a list (or tuple) of rows from JSON, write a list; take a ready table as it is."""
        (row_type,) = get_args(source) or (Any,)
        rows = core_schema.tuple_variable_schema(handler.generate_schema(row_type))
        from_rows = core_schema.no_info_after_validator_function(cls, rows)
        return core_schema.json_or_python_schema(
            json_schema=from_rows,
            python_schema=core_schema.union_schema([core_schema.is_instance_schema(cls), from_rows]),
            serialization=core_schema.plain_serializer_function_ser_schema(
                lambda table: table.rows, return_schema=rows
            ),
        )
