"""What is typed down a panel's column: the size of a breaker in a few signs, then its old label."""

import re
from typing import NamedTuple

from floorplan_circuits.edits.edited import Refused

SAME = "."
"""Stands for the size that was typed last, so that a column of equal breakers is quick to type."""
NEXT = " / "
"""Stands between the breakers that share one or two spaces: `15/t hall / 20 bath`."""


class Part(NamedTuple):
    """One of several breakers typed in one line: its rating and its old label."""

    amps: int | None
    label: str


class Typed(NamedTuple):
    """What somebody typed for one space: rating, poles, whether it is a fuse, halves, and the old label.

    `halves`: 2 for two breakers in one space, 4 for the breakers of a quad in two spaces. `further` are those after
    the first, where they were told apart.
    """

    amps: int | None
    poles: int
    fuse: bool
    halves: int
    label: str
    further: tuple[Part, ...] = ()

    @property
    def parts(self) -> tuple[Part, ...]:
        """Every breaker that was typed, the first of them first."""
        return (Part(self.amps, self.label), *self.further)


_FUSE = r"(f|fuse)?"
_SIZE = re.compile(rf"^(\d{{1,4}})\s?(?:a(?!\w))?{_FUSE}(?:\s?/\s?([1-4]|[tq]))?\s?{_FUSE}(?=\s|$)\s*", re.I | re.ASCII)
"""Amps, then poles or halves; that it is a fuse may stand before or behind these."""
_HALVES = {"t": 2, "q": 4}


def read_typed(words: str, last: Typed | None = None) -> Typed:
    """Read what is typed down the panel's column: `20 kitchen plugs`, `30/2 dryer`, `15/t` (two in one space), `15f`.

    `. dining` has the size of the `last` one. Raises `Refused` where there was none. A number that is part of a word
    is a label, not a size.

    Examples:
        >>> read_typed("30/2 dryer")
        Typed(amps=30, poles=2, fuse=False, halves=1, label='dryer', further=())
        >>> read_typed("15/t hall / 20 bath").parts
        (Part(amps=15, label='hall'), Part(amps=20, label='bath'))
        >>> read_typed("2nd floor").label, read_typed(". dining", read_typed("15 hall")).amps
        ('2nd floor', 15)
        >>> read_typed("30f/2 dryer") == read_typed("30/2f dryer")
        True
    """
    tidy = " ".join(words.split())
    if tidy.split(" ", 1)[0] == SAME:
        return _same(tidy[1:].strip(), last)
    found = _SIZE.match(tidy)
    if found is None:
        return Typed(None, 1, False, 1, tidy)
    amps, fuse_before, way, fuse_behind = found.groups()
    halves = _HALVES.get((way or "").lower(), 1)
    poles = int(way) if way and halves == 1 else 1
    first = Typed(int(amps), poles, bool(fuse_before or fuse_behind), halves, tidy[found.end() :])
    return _shared(first) if halves > 1 else first


def _same(label: str, last: Typed | None) -> Typed:
    if last is None or last.amps is None:
        raise Refused("No size was typed yet that a dot could stand for. Type the amps, then the label.")
    again = last._replace(label=label, further=())
    return _shared(again) if last.halves > 1 else again


def _shared(typed: Typed) -> Typed:
    """Tell the breakers of one line apart: each further one may have a rating of its own."""
    label, *rest = typed.label.split(NEXT)
    further = [read_typed(words) for words in rest]
    return typed._replace(label=label, further=tuple(Part(one.amps or typed.amps, one.label) for one in further))
