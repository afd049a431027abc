"""The nearest of many places for which something holds, without asking all of them."""

from collections.abc import Callable, Iterable, Iterator
from math import dist, inf

from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import FeedPlace

LEVEL_AWAY_MM = 8_000
"""What a stair counts as when the nearest point is sought: about its own run and the way to it."""
CELL_MM = 5_000
"""Side of the squares that places are sorted into: about a room."""

MOST_RINGS = 30
"""Past so many squares in each direction all that is left is looked at, however far apart it is."""

Spot = tuple[int | None, tuple[int, int] | None]
"""A level and a place on it; None where nobody recorded it."""
Cell = tuple[int, int]


def spot_of(box: Box) -> Spot:
    """Return where a box is."""
    return box.level, None if box.at is None else (box.at[0], box.at[1])


class Nearby:
    """Places sorted into squares of all levels, asked from the middle outwards."""

    def __init__(self, places: Iterable[FeedPlace]) -> None:
        self._cells: dict[Cell, list[FeedPlace]] = {}
        self._nowhere: list[FeedPlace] = []
        self.all = tuple(places)
        for place in self.all:
            if place.box.at is None:
                self._nowhere.append(place)
            else:
                self._cells.setdefault(_cell(place.box.at[0], place.box.at[1]), []).append(place)

    def nearest(self, near: Spot, holds: Callable[[FeedPlace], bool]) -> int | None:
        """Return the box of the nearest place for which it `holds`; of those equally far, or anywhere, the first."""
        level, at = near
        best: tuple[float, int] = (inf, 0)
        if at is not None:
            for ring, some in self._rings(_cell(*at)):
                if best[0] < (ring - 1) * CELL_MM:
                    return best[1]
                for place in some:
                    assert place.box.at is not None
                    away = dist(at, place.box.at[:2]) + (LEVEL_AWAY_MM if place.box.level != level else 0)
                    if (away, place.box.id) < best or best == (inf, 0):
                        best = (away, place.box.id) if holds(place) else best
            if best != (inf, 0):
                return best[1]
        anywhere = self._nowhere if at is not None else self.all
        return min((place.box.id for place in anywhere if holds(place)), default=None)

    def _rings(self, middle: Cell) -> Iterator[tuple[int, list[FeedPlace]]]:
        """Yield what is in the squares round the middle, ring by ring, until all is told."""
        left, ring = sum(len(some) for some in self._cells.values()), 0
        while left:
            some = [place for cell in _ring(middle, ring) for place in self._cells.get(cell, ())]
            left -= len(some)
            yield ring, some
            ring += 1
            if ring > MOST_RINGS:
                far = (cell for cell in self._cells if max(abs(cell[0] - middle[0]), abs(cell[1] - middle[1])) >= ring)
                yield ring, [place for cell in far for place in self._cells[cell]]
                return


def _cell(x: float, y: float) -> Cell:
    return int(x // CELL_MM), int(y // CELL_MM)


def _ring(middle: Cell, ring: int) -> Iterator[Cell]:
    x, y = middle
    for dx in range(-ring, ring + 1):
        for dy in (-ring, ring) if abs(dx) < ring else range(-ring, ring + 1):
            yield x + dx, y + dy
            if not ring:
                return
