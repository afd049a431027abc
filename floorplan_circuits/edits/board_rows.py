"""What is typed of a board's rows and of its householder's own numbers: '12 12 8' and '1-12 21-32'."""

import re
from collections.abc import Iterator, Sequence

from floorplan_circuits.edits.edited import Edited, Refused, edit
from floorplan_circuits.edits.panels import MOST_SPACES, set_panel
from floorplan_circuits.home.home import Home

MOST_ROWS = 20
NUMBER = re.compile(r"([AC-HJ-NP-Z]{0,2})([0-9]{1,3})(?:[-–](\1)?([0-9]{1,3}))?")
AS_COUNTED = "."
"""Stands for one space that is called as it is counted."""
HOW = "Type numbers and stretches of them, in the order of the spaces: 1-12 21-32, or C1-C8."


@edit
def set_board_rows(home: Home, panel: int, words: str) -> Edited:
    """Set how many ways each row of a board has, as typed, and with them how many it has in all."""
    rows = rows_typed(words)
    return set_panel(home, panel, rows=rows, **({"spaces": sum(rows)} if rows else {}))


@edit
def call_spaces(home: Home, panel: int, words: str) -> Edited:
    """Give a panel's spaces their householder's own numbers, as typed; nothing typed: as counted."""
    return set_panel(home, panel, called=numbers_typed(words))


def rows_typed(words: str) -> tuple[int, ...]:
    """Return how many ways each row has. Raises `Refused` for what is no such list.

    Examples:
        >>> rows_typed("12, 12 + 8"), rows_typed("")
        ((12, 12, 8), ())
    """
    parts = re.split(r"[\s,+/]+", words.strip(" ,+/"))
    if parts == [""]:
        return ()
    if not all(part.isascii() and part.isdigit() and 1 <= int(part[:4]) <= MOST_SPACES for part in parts):
        raise Refused("Type how many ways each row has, from the top: 12 12 8.")
    rows = tuple(int(part) for part in parts)
    if len(rows) > MOST_ROWS or sum(rows) > MOST_SPACES:
        raise Refused(f"A board has at most {MOST_ROWS} rows and {MOST_SPACES} ways.")
    return rows


def numbers_typed(words: str) -> tuple[str, ...]:
    """Return the numbers that were typed, stretches written out. Raises `Refused` for what is none.

    Examples:
        >>> numbers_typed("1-3 c7 c8"), numbers_typed("12-10")
        (('1', '2', '3', 'C7', 'C8'), ('12', '11', '10'))
    """
    found = tuple(number for part in re.split(r"[\s,]+", words.strip().upper()) for number in _stretch(part))
    if len(found) > MOST_SPACES:
        raise Refused(f"A panel has at most {MOST_SPACES} spaces.")
    return found


def _stretch(part: str) -> Iterator[str]:
    if part in ("", AS_COUNTED):
        yield from ("" for _ in part)
        return
    if part.startswith("B"):
        raise Refused("B stands before the number of a box: take another letter.")
    match = NUMBER.fullmatch(part)
    if match is None:
        raise Refused(f"“{part}” is no number. {HOW}")
    letters, first, _, last = match.groups()
    if last is None:
        yield part
        return
    start, end = int(first), int(last)
    step = 1 if end >= start else -1
    yield from (f"{letters}{number}" for number in range(start, end + step, step))


def numbers_written(called: Sequence[str]) -> str:
    """Return own numbers as they are typed, shortest: '1-12 21-32'.

    Examples:
        >>> numbers_written(("1", "2", "3", "C7", "C8", "20"))
        '1-3 C7-C8 20'
    """
    stretches: list[list[str]] = []
    for name in called:
        if stretches and _follows(stretches[-1], name):
            stretches[-1].append(name)
        else:
            stretches.append([name or AS_COUNTED])
    return " ".join(one[0] if len(one) == 1 else f"{one[0]}-{one[-1]}" for one in stretches)


def _follows(stretch: Sequence[str], name: str) -> bool:
    """Tell whether a number goes on with a stretch, up or down as it went so far."""
    last, this = NUMBER.fullmatch(stretch[-1]), NUMBER.fullmatch(name)
    if last is None or this is None or last[1] != this[1] or f"{this[1]}{int(this[2])}" != name:
        return False
    before = NUMBER.fullmatch(stretch[0])
    went = 0 if len(stretch) == 1 or before is None else (1 if int(last[2]) > int(before[2]) else -1)
    step = int(this[2]) - int(last[2])
    return abs(step) == 1 and went in (0, step) and f"{last[1]}{int(last[2])}" == stretch[-1]
