"""Lists set in columns: what a page has to hold, and the lowest way to set some of it side by side."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache
from itertools import combinations, pairwise, product
from math import gcd

from floorplan_circuits.sheets.furniture import caution_height
from floorplan_circuits.sheets.panel_column import PanelOnSheet
from floorplan_circuits.sheets.paper import MARGIN, Orientation, Rect
from floorplan_circuits.sheets.sections import Section

GUTTER, GAP = 5.5, 3.5
"""mm between columns, and between lists in one."""
LEAST_COLUMN = 42.0
SHARES, MOST_SHARED_OUT = (2, 3, 4), 3
"""How much of a strip's width a column may get beside the others, and of how many columns that is tried."""

Placed = tuple[str, Section, Rect]
"""What a list is about, the list set for its column, and where it stands."""


Strip = tuple[float, tuple[tuple[tuple[str, ...], float], ...]]
"""How high it is, and for each of its columns the lists in it and its width."""


@dataclass(slots=True)
class Material:
    """What a level's page has to hold: the paper, the panel if any, and the lists, set at a width when asked."""

    width: float
    height: float
    panel: PanelOnSheet | None
    kinds: tuple[str, ...]
    make: Callable[[str, float], Section]
    orientation: Orientation = "landscape"
    _strips: dict[tuple[tuple[str, ...], float], Strip] = field(default_factory=dict)

    def section(self, kind: str, wide: float) -> Section:
        """Return a list at a width in mm."""
        return self.make(kind, wide)

    def strip(self, kinds: tuple[str, ...], wide: float) -> Strip:
        """Return the lowest strip of these lists, found once however many layouts try it."""
        key = kinds, round(wide, 2)
        if key not in self._strips:
            self._strips[key] = best_strip(self, kinds, wide)
        return self._strips[key]

    def foot(self) -> Rect:
        """Return where the caution stands."""
        high = caution_height(self.width - 2 * MARGIN)
        return Rect(MARGIN, self.height - MARGIN - high, self.width - 2 * MARGIN, high)


def stacked(material: Material, kinds: Sequence[str], x: float, y: float, wide: float) -> tuple[Placed, ...]:
    """Set lists one under the other, each as high as it is."""
    placed: list[Placed] = []
    for kind in kinds:
        section = material.section(kind, wide)
        placed.append((kind, section, Rect(x, y, wide, section.height)))
        y += section.height + GAP
    return tuple(placed)


def within(material: Material, kinds: Sequence[str], area: Rect) -> list[Placed]:
    """Stack lists in an area, the last ones cut off where it ends."""
    placed = []
    for kind, section, at in stacked(material, kinds, area.x, area.y, area.width):
        high = max(0.0, min(at.height, area.bottom - at.y))
        placed.append((kind, section, Rect(at.x, at.y, at.width, high)))
    return placed


def best_strip(material: Material, kinds: tuple[str, ...], wide: float) -> Strip:
    """Return the lowest way to set lists side by side in their order, each column one or more of them."""
    if not kinds:
        return 0.0, ()
    ways = [
        tuple(zip(groups, widths, strict=True))
        for groups in _partitions(kinds)
        for widths in _widths(len(groups), wide)
    ]
    heights = ((max(height_of(material, group, column) for group, column in way), way) for way in ways)
    return min(heights, key=lambda found: found[0])


def height_of(material: Material, kinds: tuple[str, ...], wide: float) -> float:
    """Return how high these lists are, one under the other, in mm."""
    return sum(material.section(kind, wide).height for kind in kinds) + GAP * (len(kinds) - 1)


def _partitions(kinds: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], ...]]:
    """Yield the ways to cut a row of lists into columns."""
    inner = range(1, len(kinds))
    for count in range(len(kinds)):
        for cuts in combinations(inner, count):
            ends = (0, *cuts, len(kinds))
            yield tuple(kinds[start:end] for start, end in pairwise(ends))


def _widths(columns: int, wide: float) -> Iterator[tuple[float, ...]]:
    """Yield ways to share a width out, equal columns first; of more than one column none too narrow to read."""
    room = wide - GUTTER * (columns - 1)
    for way in _shares(columns):
        widths = tuple(room * share / sum(way) for share in way)
        if columns == 1 or min(widths) >= LEAST_COLUMN:
            yield widths


@cache
def _shares(columns: int) -> tuple[tuple[int, ...], ...]:
    """Return in which proportions columns are tried; where they are many, only such with one twice as wide."""
    if columns <= MOST_SHARED_OUT:
        ways = sorted(product(SHARES, repeat=columns), key=lambda way: max(way) - min(way))
        return tuple({tuple(share // gcd(*way) for share in way): None for way in ways})
    doubled = (tuple(2 if at == one else 1 for at in range(columns)) for one in range(columns))
    return ((1,) * columns, *doubled)
