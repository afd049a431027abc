"""The base of all records: frozen, strict, bounded, and keeping what it does not know."""

import math
from typing import Annotated, Any, Self, TypeVar

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, JsonValue

LIMIT_MM = 10**7
"""Ten kilometres: no home reaches further from its origin."""

Mm = Annotated[int, Field(ge=-LIMIT_MM, le=LIMIT_MM)]
"""A length or place in whole millimetres."""

Point = tuple[Mm, Mm]
"""A place on a level in millimetres: x to the right, y down the sheet."""

Angle = Annotated[int, Field(ge=0, le=359)]
"""Where a thing faces, in whole degrees: 0 right, 90 down the sheet, 180 left, 270 up."""

Pixel = Annotated[int, Field(ge=0, le=10**5)]
Pixels = tuple[Pixel, Pixel]
"""How many pixels a picture has across and down; (0, 0) where nobody wrote it down."""

Id = Annotated[int, Field(ge=1, le=2**53 - 1)]
"""An opaque number from the home's counter: never reused, never shown."""

Name = Annotated[str, Field(max_length=120, pattern=r"^[^\x00-\x1f\x7f]*$")]
"""A line of text without control characters."""

Note = Annotated[str, Field(max_length=4000)]
"""A longer text, line breaks allowed."""

Date = Annotated[str, Field(max_length=25, pattern=r"^(\d{4}-\d{2}-\d{2}([T ]\d{2}:\d{2}(:\d{2})?)?)?$")]
"""An ISO 8601 date with or without a time of day; empty where nobody wrote it down. Printed, never ordered by."""


def _can_be_written(value: JsonValue) -> JsonValue:
    todo = [value]
    while todo:
        part = todo.pop()
        if isinstance(part, float) and not math.isfinite(part):
            raise ValueError("a number is larger than a file can hold")
        if isinstance(part, dict | list):
            todo.extend(part.values() if isinstance(part, dict) else part)
    return value


KeptField = Annotated[JsonValue, AfterValidator(_can_be_written)]
"""What a field that this program does not know may hold: JSON, and no number that JSON has no way to write."""


class Record(BaseModel):
    """A frozen record that keeps fields it does not know and writes them back."""

    model_config = ConfigDict(frozen=True, strict=True, extra="allow")
    __pydantic_extra__: dict[str, KeptField]

    def __hash__(self) -> int:
        """Hash by identity of content where it counts: an id if the record has one."""
        return hash((type(self).__name__, getattr(self, "id", None)))

    def extras(self) -> dict[str, Any]:
        """Return the fields that a newer program wrote and this one only keeps."""
        return dict(self.__pydantic_extra__ or {})

    def changed(self, **fields: Any) -> Self:
        """Return a checked copy with `fields` replaced. Raises `pydantic.ValidationError` on a bad value."""
        unknown = fields.keys() - type(self).model_fields.keys()
        if unknown:
            raise TypeError(f"{type(self).__name__} has no field {', '.join(sorted(unknown))}")
        copy = type(self).model_validate({**self.__dict__, **self.extras(), **fields})
        kept = {name: value for name, value in self.__dict__.items() if name not in fields}
        copy.__dict__.update(kept)  # what was not changed stays the very object, so that its findings carry over
        return copy


AnyRecord = TypeVar("AnyRecord", bound=Record)


def change(record: AnyRecord, **fields: Any) -> AnyRecord:
    """Return a checked copy of `record` with `fields` replaced: the one way to alter a record.

    Examples:
        >>> from floorplan_circuits.home.building import Level
        >>> change(Level(id=1, name="Ground floor"), name="First floor").name
        'First floor'
    """
    return record.changed(**fields)
