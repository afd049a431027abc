"""Titled lists in columns: made of blocks that are not parted, flowing from one place to the next."""

from collections.abc import Sequence
from dataclasses import dataclass

from floorplan_circuits.drawing.ink import Group, Mark, moved
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.drawing.plates import text_height
from floorplan_circuits.sheets.furniture import BODY_SIZE, section_head, text_lines

HEAD = 6.4
MORE = text_height(BODY_SIZE) + 0.6
"""Height in mm of the line that says how many more there are."""


@dataclass(frozen=True, slots=True)
class Block:
    """A piece of a section that is not parted: its ink from its own top left corner, and its height in mm.

    `again` is what stands over it where it opens a page: the head of the table that it is a row of.
    """

    ink: Group
    height: float
    again: "Block | None" = None

    def below(self, over: "Block") -> "Block":
        """Return it as one piece with another over it."""
        return Block(Group((over.ink, moved(self.ink, 0, over.height))), over.height + self.height)


@dataclass(frozen=True, slots=True)
class Section:
    """A titled list; `blocks` were made for the width of its column. `whole`: it is of no use in part."""

    title: str
    blocks: tuple[Block, ...]
    width: float
    whole: bool = False

    @property
    def height(self) -> float:
        """Height of the whole list in mm."""
        return HEAD + sum(block.height for block in self.blocks)


def text_block(lines: Sequence[str], theme: Theme) -> Block:
    """Return lines of body text as one block."""
    return Block(Group(tuple(text_lines(lines, 0, 0, BODY_SIZE, theme))), len(lines) * text_height(BODY_SIZE) + 1)


def fitting(section: Section, height: float, start: int = 0) -> int:
    """Return how many blocks from `start` on fit `height` mm under the section's head, room for 'and n more' kept."""
    left = section.blocks[start:]
    if HEAD + sum(block.height for block in left) <= height + 0.01:
        return len(left)
    if section.whole:
        return 0
    used, taken = HEAD + MORE, 0
    for block in left:
        used += block.height
        if used > height:
            break
        taken += 1
    return taken


def put(section: Section, blocks: Sequence[Block], more: str, at: tuple[float, float], theme: Theme) -> Group:
    """Draw a section's head and the given blocks from `at`; `more` closes a list that goes on elsewhere."""
    x, top = at[0], at[1] + HEAD
    marks: list[Mark] = [section_head(x, at[1], section.width, section.title, theme)]
    for block in blocks:
        marks.append(moved(block.ink, x, top))
        top += block.height
    if more:
        marks += [moved(mark, x, top) for mark in text_lines((more,), 0, 0, BODY_SIZE, theme)]
    return Group(tuple(marks))
