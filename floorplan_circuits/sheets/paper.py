"""Paper: the sizes people print on, in mm, and how much larger everything is drawn on the large ones."""

from dataclasses import dataclass
from typing import Literal

Orientation = Literal["landscape", "portrait"]


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper: its long and short edge in mm; `magnify`: how many times larger than on a letter sheet."""

    name: str
    long: float
    short: float
    magnify: float = 1.0

    def size(self, orientation: Orientation) -> tuple[float, float]:
        """Return width and height in mm."""
        return (self.long, self.short) if orientation == "landscape" else (self.short, self.long)


PAPERS = {
    paper.name: paper
    for paper in (
        Paper("letter", 279.4, 215.9),  # ANSI/ASME Y14.1: 11 × 8.5 in
        Paper("legal", 355.6, 215.9),  # 14 × 8.5 in
        Paper("tabloid", 431.8, 279.4, 1.33),  # ANSI B: 17 × 11 in
        Paper("a4", 297.0, 210.0),  # ISO 216
        Paper("a3", 420.0, 297.0, 1.33),
    )
}
LARGE = {
    paper.name: paper
    for paper in (
        Paper("ansi-c", 558.8, 431.8, 1.33),  # ANSI/ASME Y14.1: 22 × 17 in
        Paper("ansi-d", 863.6, 558.8, 1.33),  # 34 × 22 in
        Paper("a2", 594.0, 420.0, 1.33),  # ISO 216
        Paper("a1", 841.0, 594.0, 1.33),
    )
}
"""Sheets from a plotter or a copy shop: room for all levels beside the panel."""
EVERY_PAPER = PAPERS | LARGE
MARGIN = 9.0


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle on the sheet, in mm."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """Right edge."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """Lower edge."""
        return self.y + self.height
