"""Taking a table into a home: every row or none, and each row that can't be taken is named with its reason."""

from collections.abc import Callable, Iterable
from typing import NamedTuple

from floorplan_circuits.edits.edited import Edited, Refused, counted
from floorplan_circuits.edits.lapsing import keep_lapsed
from floorplan_circuits.exchange.sheet_of_rows import NamedRow
from floorplan_circuits.home.home import Home

MOST_TOLD = 20
TakeRow = Callable[[Home, NamedRow], Home]


class NotTaken(NamedTuple):
    """A row that can't be taken, and why, with what to do."""

    row: int
    why: str


class RowsRefused(Refused):
    """Some rows can't be taken, so none is. `rows` are those, in the order of the file."""

    def __init__(self, rows: Iterable[NotTaken]) -> None:
        self.rows = tuple(rows)
        told = [f"Row {one.row}: {one.why}" for one in self.rows[:MOST_TOLD]]
        more = [f"and {len(self.rows) - MOST_TOLD} more"] if len(self.rows) > MOST_TOLD else []
        head = f"Nothing was taken: {counted(len(self.rows), 'row')} can't be."
        super().__init__("\n".join((head, *told, *more)))


def take_rows(home: Home, rows: Iterable[NamedRow], take: TakeRow, what: str) -> Edited:
    """Take every row as one edit. Raises `RowsRefused` with all the rows that can't be; the home is then as it was."""
    after, refused, taken = home, list[NotTaken](), 0
    for row in rows:
        try:
            after = take(after, row)
            taken += 1
        except Refused as error:
            refused.append(NotTaken(row.number, str(error)))
    if refused:
        raise RowsRefused(refused)
    return Edited(keep_lapsed(home, after), f"Take {counted(taken, 'row')} of {what}")
