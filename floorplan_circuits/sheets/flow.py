"""Blocks that flow down one page after another, each under the heads it belongs to, which every page repeats."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from floorplan_circuits.drawing.ink import Group, Mark, moved
from floorplan_circuits.sheets.sections import Block


@dataclass(frozen=True, slots=True, eq=False)
class Head:
    """What stands over blocks: as it is drawn first, and as it is drawn where they go on on another page."""

    first: Block
    again: Block


@dataclass(slots=True)
class Flow:
    """Pages that fill from `top` to `bottom`, in mm from the page's upper edge; blocks begin at `left`."""

    left: float
    top: float
    bottom: float
    pages: list[list[Mark]] = field(default_factory=list)
    _y: float = 0.0
    _over: list[Head] = field(default_factory=list)
    _drawn: set[Head] = field(default_factory=set)

    def add(self, block: Block, heads: Sequence[Head] = (), gap: float = 0.0) -> None:
        """Put a block below the last one, on a new page where it or a head of it would run past the foot.

        `gap` mm are left over it where it is not the first of its page.
        """
        over = self._missing(heads)
        wanted = gap + sum(head.height for head in over) + block.height
        if not self.pages or (self._y + wanted > self.bottom + 0.01 and self._y > self.top):
            self.new_page()
            over = self._missing(heads)
        if self._y > self.top:
            self._y += gap
        self._over = list(heads)
        self._drawn |= {*heads}
        for one in (*over, block):
            self.pages[-1].append(moved(one.ink, self.left, self._y))
            self._y += one.height

    @property
    def room(self) -> float:
        """Height left on the page in mm; 0 before the first one."""
        return self.bottom - self._y if self.pages else 0.0

    def new_page(self) -> None:
        """Begin a page."""
        self.pages.append([])
        self._y, self._over = self.top, []

    def _missing(self, heads: Sequence[Head]) -> list[Block]:
        """Return the heads that do not stand over this place already, in the form they are due."""
        same = 0
        while same < min(len(heads), len(self._over)) and heads[same] is self._over[same]:
            same += 1
        return [head.again if head in self._drawn else head.first for head in heads[same:]]

    def ink(self) -> list[Group]:
        """Return the pages."""
        return [Group(tuple(marks)) for marks in self.pages]
