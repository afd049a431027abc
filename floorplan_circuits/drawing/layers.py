"""What stands on the sheet, found by where it is: labels with their leaders, which may move, and things that stay."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

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


class Labels:
    """The rectangles of labels and the leaders to them, each with the number of the label it is of."""

    def __init__(self) -> None:
        self._rectangles: Grid[tuple[Bounds, int]] = Grid()
        self._leaders: Grid[tuple[Segment, int]] = Grid()

    def put(self, owner: int, bounds: Bounds, line: Line) -> None:
        """Note that a label stands here, and that a leader runs to it."""
        self._rectangles.put(bounds, (bounds, owner))
        for piece in _pieces(line):
            for near in along(piece):
                self._leaders.put(near, (piece, owner))

    def lift(self, owner: int, bounds: Bounds, line: Line) -> None:
        """Note that the label that stood here is gone, with its leader."""
        self._rectangles.drop(bounds, (bounds, owner))
        for piece in _pieces(line):
            for near in along(piece):
                self._leaders.drop(near, (piece, owner))

    def is_free(self, bounds: Bounds) -> bool:
        """Tell whether no label or leader reaches into a rectangle."""
        left, top, right, bottom = bounds
        for things in self._rectangles.under(bounds):  # asked as often as `Things.is_free`: written out
            for other, _ in things:
                if left < other[2] and other[0] < right and top < other[3] and other[1] < bottom:
                    return False
        return not any(crosses_box(piece, bounds) for piece, _ in self._leaders.near(bounds))

    def is_crossed(self, line: Line) -> bool:
        """Tell whether a line runs over any label or leader."""
        return next(self.owners_across(line), None) is not None

    def owners_in(self, bounds: Bounds) -> Iterator[int]:
        """Yield the labels that reach, or whose leaders do, into a rectangle; one may come more than once."""
        for things in self._rectangles.under(bounds):
            for other, owner in things:
                if overlap(bounds, other):
                    yield owner
        for lines in self._leaders.under(bounds):
            for piece, owner in lines:
                if crosses_box(piece, bounds):
                    yield owner

    def owners_across(self, line: Line) -> Iterator[int]:
        """Yield the labels that a line runs over, or over whose leaders it does; one may come more than once."""
        for piece in _pieces(line):
            near = segment_bounds(piece)
            for other, owner in self._rectangles.near(near):
                if overlap(near, other) and crosses_box(piece, other):
                    yield owner
            for led, owner in self._leaders.near(near):
                if segments_cross(piece.a, piece.b, led.a, led.b):
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

    def is_crossed(self, line: Line, own: Sequence[Bounds]) -> bool:
        """Tell whether a line runs over anything, but for the `own` rectangles."""
        for piece in _pieces(line):
            bounds = segment_bounds(piece)
            for things in self._rectangles.under(bounds):
                for other in things:
                    if overlap(bounds, other) and crosses_box(piece, other) and other not in own:
                        return True
        return False


def _pieces(line: Line) -> list[Segment]:
    return [Segment(a, b) for a, b in pairwise(line)]
