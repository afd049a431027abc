"""Pages of two columns, the left one wide: steps run down the left, pieces and lists stand where there is room."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Literal

from floorplan_circuits.drawing.ink import Group, Mark, moved
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.sheets.paper import MARGIN
from floorplan_circuits.sheets.sections import MORE, Block, Section, fitting, put

LEFT_WIDE, MOST_RIGHT, GUTTER, GAP = 110.0, 82.4, 5.0, 3.0
GOES_ON = "continued on a further page"
Side = Literal["left", "right"]
MakeSection = Callable[[float], Section]


@dataclass(slots=True)
class _Page:
    """One page in the making: its marks, and where each column is filled to, in mm."""

    left: float
    right: float
    marks: list[Mark] = field(default_factory=list)


@dataclass(slots=True)
class Flow:
    """The pages of a sheet between head and foot; `first_top` is where the columns begin on the first one."""

    width: float
    top: float
    bottom: float
    first_top: float
    theme: Theme
    is_tight: bool = False
    """Whether a list stands in the fuller column with room for it, so that more finds place; else in the emptier."""
    _pages: list[_Page] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Begin the first page."""
        self._pages.append(_Page(self.first_top, self.first_top))

    @property
    def inner(self) -> float:
        """Width in mm between the margins."""
        return self.width - 2 * MARGIN

    @property
    def left_wide(self) -> float:
        """Width in mm of the left column: a little less on a narrow paper, so that the panel's words have room."""
        return min(LEFT_WIDE, self.inner - MOST_RIGHT - GUTTER)

    @property
    def right_wide(self) -> float:
        """Width in mm of the right column."""
        return min(MOST_RIGHT, self.inner - self.left_wide - GUTTER)

    def pages(self) -> list[Group]:
        """Return the ink of every page."""
        return [Group(tuple(page.marks)) for page in self._pages]

    def wide(self, side: Side) -> float:
        """Return the width in mm of a column."""
        return self.left_wide if side == "left" else self.right_wide

    def _x(self, side: Side) -> float:
        return MARGIN if side == "left" else self.width - MARGIN - self.right_wide

    def room(self, side: Side, page: int = 0) -> float:
        """Return the height in mm that is left in a column."""
        found = self._pages[page]
        return self.bottom - (found.left if side == "left" else found.right)

    def _fill(self, page: _Page, side: Side, ink: Mark, height: float) -> None:
        y = page.left if side == "left" else page.right
        page.marks.append(moved(ink, self._x(side), y))
        if side == "left":
            page.left = y + height + GAP
        else:
            page.right = y + height + GAP

    def _new_page(self) -> None:
        self._pages.append(_Page(self.top, self.top))

    # --- what is put ------------------------------------------------------------------------------------------------

    def has_room_left(self, height: float) -> bool:
        """Tell whether the last page's left column has room for a piece that would not fit below both columns."""
        last = self._pages[-1]
        return self.bottom - max(last.left, last.right) < height <= self.bottom - last.left

    def piece(self, side: Side, ink: Mark, height: float, from_last: bool = False) -> None:
        """Put a piece that is not parted into the first page on which the column has room for it.

        `from_last`: only the last page, or a new one, will do.
        """
        for page in range(len(self._pages) - 1 if from_last else 0, len(self._pages)):
            if self.room(side, page) >= height:
                self._fill(self._pages[page], side, ink, height)
                return
        self._new_page()
        self._fill(self._pages[-1], side, ink, height)

    def running(self, side: Side, section: Section, page: int = 0) -> None:
        """Put a list from its start on, parted between pages where it must be, each block whole."""
        start, title = 0, section.title
        while start < len(section.blocks):
            if page == len(self._pages):
                self._new_page()
            is_empty = self.room(side, page) >= self.bottom - self.top
            left = _with_head(section.blocks[start:]) if start else section.blocks
            taken = fitting(replace(section, blocks=left), self.room(side, page)) or int(is_empty)
            if taken:
                part = Section(title, left[:taken], section.width)
                more = GOES_ON if taken < len(left) else ""
                self._fill(
                    self._pages[page],
                    side,
                    put(part, part.blocks, more, (0, 0), self.theme),
                    part.height + (MORE if more else 0.0),
                )
                start, title = start + taken, f"{section.title}, continued"
            page += 1

    def whole(self, make: MakeSection, sides: tuple[Side, ...] = ("left", "right")) -> None:
        """Put a list in one piece where it first fits (see `is_tight`); else it runs on from a new page."""
        made = {side: make(self.wide(side)) for side in sides}
        if not made[sides[0]].blocks:
            return
        for page in range(len(self._pages)):
            for side in sorted(sides, key=partial(self._order, page)):
                if self.room(side, page) >= made[side].height:
                    ink = put(made[side], made[side].blocks, "", (0, 0), self.theme)
                    self._fill(self._pages[page], side, ink, made[side].height)
                    return
        self.running(sides[-1], made[sides[-1]], len(self._pages))

    def _order(self, page: int, side: Side) -> float:
        return self.room(side, page) if self.is_tight else -self.room(side, page)

    def across(self, ink: Mark, height: float) -> None:
        """Put a piece over the whole width, below all that stands on the last page, or on a new one."""
        last = self._pages[-1]
        y = max(last.left, last.right)
        if self.bottom - y < height and y > self.top:
            self._new_page()
            last, y = self._pages[-1], self.top
        last.marks.append(moved(ink, MARGIN, y))
        last.left = last.right = y + height + GAP


def _with_head(blocks: tuple[Block, ...]) -> tuple[Block, ...]:
    """Return the blocks that open a page, the first under the head of the table that it goes on with."""
    first, *others = blocks
    return (first.below(first.again) if first.again is not None else first, *others)
