"""Which part of a room's receptacles or lights hangs on a breaker, where others serve the rest.

By what a person sees in the room: a kind that the rest has not, then the wall; at last the boxes' marks, with
the half where it is one.
"""

from collections.abc import Sequence

from floorplan_circuits.findings import Load

MOST_MARKS = 3
PLAIN = ("receptacle", "ceiling light", "light")
"""Kinds that a person would not tell from the rest by their name."""


def part_words(loads: Sequence[Load], rest: Sequence[Load]) -> str:
    """Return the words for these loads of one group in one place; `rest` are the others there, on other circuits."""
    word = loads[0].group if len(loads) == 1 else f"{loads[0].group}s"
    if not rest:
        return _one(loads[0]) if len(loads) == 1 else word
    if len(loads) == 1 and loads[0].named and loads[0].called not in {one.called for one in rest}:
        return loads[0].called
    by_kind = _kind(loads, rest)
    if by_kind:
        return by_kind
    by_side = _side(loads, rest)
    if by_side:
        return f"{word} {by_side}"
    return f"{word} {_marks(loads, rest)}"


def _one(load: Load) -> str:
    return load.group if load.kind in PLAIN and not load.named else load.called


def _kind(loads: Sequence[Load], rest: Sequence[Load]) -> str:
    kinds = {load.kind for load in loads}
    if len(kinds) > 1 or kinds & {load.kind for load in rest} or kinds & set(PLAIN):
        return ""
    return loads[0].kind if len(loads) == 1 else loads[0].plural


def _side(loads: Sequence[Load], rest: Sequence[Load]) -> str:
    """Return 'on the wall to Hall' where none of the rest is on that wall; '' where walls do not tell."""
    mine = {load.side for load in loads}
    if len(mine) != 1 or "" in mine or mine & {load.side for load in rest}:
        return ""
    return mine.pop()


def _marks(loads: Sequence[Load], rest: Sequence[Load]) -> str:
    """Return the marks of the boxes; with the half where the other half of the same device is among the rest."""
    halved = {load.device for load in rest}
    return marks_in_words([f"{load.mark} {load.part if load.device in halved else ''}".strip() for load in loads])


def marks_in_words(marks: Sequence[str]) -> str:
    """Return the marks of boxes in few words: 'B3, B5', 'B3, B5 and 4 more'."""
    each = list(dict.fromkeys(marks))
    if len(each) <= MOST_MARKS:
        return ", ".join(each)
    return f"{', '.join(each[: MOST_MARKS - 1])} and {len(each) - MOST_MARKS + 1} more"
