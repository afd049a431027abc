"""A CSV as rows with named columns, written for a spreadsheet and read from whatever one saved."""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from floorplan_circuits.exchange.cells import bare, guarded

LARGEST = 4_000_000
MOST_ROWS = 20_000
DELIMITERS = (",", ";", "\t")
BOM = "\ufeff"


class CannotTake(ValueError):
    """A file is no table that can be taken. Its text is for the person."""


class NamedRow(NamedTuple):
    """One row: its number in the file, the heading 1, and its cells by their headings."""

    number: int
    cells: Mapping[str, str]

    def get(self, heading: str) -> str:
        """Return a cell without the spaces around it; '' where the row has none."""
        return self.cells.get(heading, "").strip()


def as_csv(headings: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """Return a table as CSV: UTF-8 with the mark that spreadsheets know it by, lines ended as RFC 4180 has it."""
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(headings)
    writer.writerows([guarded(cell) for cell in row] for row in rows)
    return (BOM + out.getvalue()).encode("utf-8")


def read_csv(content: bytes, needed: Sequence[str]) -> list[NamedRow]:
    """Return the rows of a CSV; commas, semicolons or tabs may part them, as its heading shows.

    Empty rows are left out. Raises `CannotTake` for what is no such table, naming the row where it can.
    """
    text = _text(content)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), strict=True)
    try:
        headings = [" ".join(cell.split()) for cell in next(reader, [])]
        _check(headings, needed)
        rows: list[NamedRow] = []
        for number, cells in enumerate(reader, 2):
            if number > MOST_ROWS:
                raise CannotTake(f"It has more than {MOST_ROWS} rows. Take it in parts.")
            if len(cells) > len(headings) and any(cell.strip() for cell in cells[len(headings) :]):
                raise CannotTake(f"Row {number} has more cells than there are headings. Put quotes round a comma.")
            if any(cell.strip() for cell in cells):
                rows.append(NamedRow(number, dict(zip(headings, map(bare, cells), strict=False))))
    except csv.Error as error:
        raise CannotTake(f"Near line {reader.line_num} it is no CSV ({error}). Save it again as CSV.") from error
    return rows


def _text(content: bytes) -> str:
    if len(content) > LARGEST:
        raise CannotTake(f"It is larger than {LARGEST // 1_000_000} MB. Is it the right file?")
    encoding = "utf-16" if content.startswith((b"\xff\xfe", b"\xfe\xff")) else "utf-8-sig"
    try:
        text = content.decode(encoding)
    except UnicodeDecodeError as error:
        raise CannotTake(f"Byte {error.start} is no UTF-8. Save it again as “CSV UTF-8”.") from error
    if "\0" in text:
        raise CannotTake("It holds bytes that no text has. Is it the right file?")
    return text


def _delimiter(text: str) -> str:
    first = text.split("\n", maxsplit=1)[0]
    return max(DELIMITERS, key=first.count)


def _check(headings: Sequence[str], needed: Sequence[str]) -> None:
    missing = [heading for heading in needed if heading not in headings]
    if missing:
        raise CannotTake(f"Its first row has no heading {', '.join(missing)}. Begin with a template.")
    twice = [heading for heading in dict.fromkeys(headings) if heading and headings.count(heading) > 1]
    if twice:
        raise CannotTake(f"Two columns are headed {twice[0]}. Leave one.")
