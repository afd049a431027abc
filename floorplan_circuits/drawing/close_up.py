"""The close-up of a box: how it looks with the plate off, every cable with its number, and beside it how we know."""

from dataclasses import dataclass

from floorplan_circuits.drawing.close_up_facts import Contents, contents_of
from floorplan_circuits.drawing.close_up_picture import Picture, natural_width, picture
from floorplan_circuits.drawing.close_up_what_if import when_off
from floorplan_circuits.drawing.close_up_words import Words, head, summary, table
from floorplan_circuits.drawing.ink import Group, Mark, moved
from floorplan_circuits.drawing.palette import Theme
from floorplan_circuits.findings import Findings, Subject, WhatIf

LEAST_WIDTH = 60.0
"""Narrower than this, in mm, no close-up is drawn."""
BESIDE_FROM = 140.0
"""From this width on the words stand beside the picture; else what matters most stands over it, the table below."""
LEAST_PICTURE, LEAST_TABLE, GUTTER, HEAD_GAP, GAP, BLOCK_GAP = 62.0, 80.0, 7.0, 5.0, 2.6, 4.6
ROUND_HOLES = ("single-phase 230", "three-phase 400Y/230")
"""Systems whose receptacles have round holes rather than flat slots."""


@dataclass(frozen=True, slots=True)
class CloseUp:
    """A drawn close-up: its ink from the top left corner, its size in mm, and which words had to be cut."""

    ink: Group
    width: float
    height: float
    shortened: tuple[str, ...] = ()


def close_up(findings: Findings, box: int, width: float, theme: Theme, what_if: WhatIf | None = None) -> CloseUp:
    """Draw a box of the home as it looks with the plate off, `width` mm wide and as high as it takes.

    With `what_if` it tells, under the words, what each cable would be with those handles off.

    Raises ValueError below `LEAST_WIDTH`, KeyError for a box that is not there.
    """
    if width < LEAST_WIDTH:
        raise ValueError(f"a close-up is at least {LEAST_WIDTH:.0f} mm wide, not {width:.1f}")
    contents = contents_of(findings, findings.home.boxes[box])
    blades = findings.home.system not in ROUND_HOLES
    beside = width >= BESIDE_FROM
    drawn = picture(contents, _picture_width(contents, width) if beside else width, theme, blades)
    above = head(contents, width, theme)
    top = above.height + HEAD_GAP
    left = drawn.width + GUTTER if beside else 0.0
    matters, rows = summary(contents, width - left, theme), table(contents, width - left, theme)
    matters_top = top + 2.0 if beside else top
    picture_top = top if beside else top + matters.height + GAP
    rows_top = matters_top + matters.height + GAP if beside else picture_top + drawn.height + GUTTER
    placed: list[tuple[Picture | Words, float, float]] = [
        (matters, left, matters_top),
        (drawn, 0.0, picture_top),
        (rows, left, rows_top),
    ]
    if what_if is not None:
        block = when_off(contents, findings, what_if, width - left, theme)
        placed.append((block, left, rows_top + rows.height + BLOCK_GAP))
    marks: tuple[Mark, ...] = (above.ink, *(moved(piece.ink, x, y) for piece, x, y in placed))
    ink = Group(marks, Subject("box", box), f"Box {contents.box.mark} with the plate off")
    height = max(y + piece.height for piece, _, y in placed) + 1.0
    return CloseUp(ink, width, height, (*above.shortened, *drawn.shortened))


def _picture_width(contents: Contents, width: float) -> float:
    """Return how wide the picture is beside the words: no wider than it needs, and it leaves them room to be read."""
    return min(max(LEAST_PICTURE, natural_width(contents)), max(width * 0.5, width - GUTTER - LEAST_TABLE))
