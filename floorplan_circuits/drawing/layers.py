"""What stands on the sheet, found by where it is: labels with their leaders, which may move, and things that stay."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple

from floorplan_circuits.drawing.ink import Bounds
from floorplan_circuits.drawing.overlaps import (
    Grid,
    Segment,
    along,
    crosses_box,
    overlap,
    segment_bounds,
    segments_cross,
)
from floorplan_circuits.findings import XY

Line = tuple[XY, ...]


class Piece(NamedTuple):
    """A straight piece of a line, and the box round it: two lines whose boxes lie apart do not meet."""

    segment: Segment
    bounds: Bounds


class Labels:
    """The rectangles of labels and the leaders to them, each with the number of the label it is of."""

    def __init__(self) -> None:
        self._grid: Grid[tuple[Bounds, Segment | None, int]] = Grid()
        """The room each takes, the piece of leader it is (None for a label's rectangle), and whose it is."""

    def put(self, owner: int, bounds: Bounds, pieces: Iterable[Piece]) -> None:
        """Note that a label stands here, and that a leader of these pieces runs to it."""
        self._grid.put(bounds, (bounds, None, owner))
        for segment, box in pieces:
            for near in along(segment):
                self._grid.put(near, (box, segment, owner))

    def lift(self, owner: int, bounds: Bounds, pieces: Iterable[Piece]) -> None:
        """Note that the label that stood here is gone, with its leader."""
        self._grid.drop(bounds, (bounds, None, owner))
        for segment, box in pieces:
            for near in along(segment):
                self._grid.drop(near, (box, segment, owner))

    def is_free(self, bounds: Bounds) -> bool:
        """Tell whether no label or leader reaches into a rectangle."""
        return next(self.owners_in(bounds), None) is None

    def is_crossed(self, pieces: Iterable[Piece]) -> bool:
        """Tell whether a line runs over any label or leader."""
        return next(self.owners_across(pieces), None) is not None

    def owners_in(self, bounds: Bounds) -> Iterator[int]:
        """Yield the labels that reach, or whose leaders do, into a rectangle; one may come more than once."""
        left, top, right, bottom = bounds
        for things in self._grid.under(bounds):  # asked as often as `Things.is_free`: written out
            for box, led, owner in things:
                if left < box[2] and box[0] < right and top < box[3] and box[1] < bottom:  # noqa: SIM102
                    if led is None or crosses_box(led, bounds):
                        yield owner

    def owners_across(self, pieces: Iterable[Piece]) -> Iterator[int]:
        """Yield the labels that a line runs over, or over whose leaders it does; one may come more than once."""
        for segment, bounds in pieces:
            (left, top, right, bottom), a, b = bounds, segment.a, segment.b
            for things in self._grid.under(bounds):
                for box, led, owner in things:
                    if left < box[2] and box[0] < right and top < box[3] and box[1] < bottom:  # noqa: SIM102
                        if crosses_box(segment, box) if led is None else segments_cross(a, b, led.a, led.b):
                            yield owner


class Things:
    """Rectangles that stay: symbols, names."""

    def __init__(self) -> None:
        self._rectangles: Grid[Bounds] = Grid()
        self._count = 0

    def __len__(self) -> int:
        return self._count

    def put(self, bounds: Bounds) -> None:
        """Note that something stands here."""
        self._rectangles.put(bounds, bounds)
        self._count += 1

    def is_free(self, bounds: Bounds) -> bool:
        """Tell whether nothing reaches into a rectangle."""
        left, top, right, bottom = bounds
        for things in self._rectangles.under(bounds):  # asked a hundred thousand times a plan: written out
            for other in things:
                if left < other[2] and other[0] < right and top < other[3] and other[1] < bottom:
                    return False
        return True

    def is_crossed(self, pieces: Iterable[Piece], own: Sequence[Bounds]) -> bool:
        """Tell whether a line runs over anything, but for the `own` rectangles."""
        for piece, bounds in pieces:
            for things in self._rectangles.under(bounds):
                for other in things:
                    if overlap(bounds, other) and crosses_box(piece, other) and other not in own:
                        return True
        return False


def pieces_of(line: Line) -> tuple[Piece, ...]:
    """Return the straight pieces of a line."""
    segments = [Segment(a, b) for a, b in pairwise(line)]
    return tuple(Piece(segment, segment_bounds(segment)) for segment in segments)
