"""The floor as a scale shows it: zones too small for a number join a neighbour, and where areas end.

A zone is too small if somewhere square off one of its edges it is under 3 mm wide on paper: no plate fits then. That
errs towards keeping it, and turning the home changes nothing. Its tint alone goes: its devices keep their numbers.
What joins never looks better known than it is. Dots of the unknown neither join nor are joined, and an area that took
in a feed not tested or traced has a dashed edge.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from floorplan_circuits.drawing.edges import Edge, Ring, edges_of, length, lines_of, pieces, rings_of, width_across
from floorplan_circuits.drawing.frame import Frame
from floorplan_circuits.findings import Zone

LEAST = 3.0
"""Least width of a zone in paper mm."""


@dataclass(frozen=True, slots=True)
class Floor:
    """The zones that are shown, those that have a room to themselves, and the edges inside rooms that are shared.

    `settled` edges have only settled zones beside them.
    """

    zones: tuple[Zone, ...]
    whole_rooms: tuple[Zone, ...]
    settled: frozenset[Edge]
    unsettled: frozenset[Edge]

    def lines(self, settled: bool) -> Iterator[Ring]:
        """Yield the lines along which areas end."""
        return lines_of(self.settled if settled else self.unsettled)


def shown_floor(frame: Frame) -> Floor:
    """Return the floor of a level as its scale shows it. A breaker shown alone has its zones as they are."""
    on_level = {room.id for room in frame.rooms()}
    by_room: dict[int, list[Zone]] = {}
    for zone in frame.findings.zones:
        if zone.room in on_level:
            by_room.setdefault(zone.room, []).append(zone)
    shown, whole, shared = list[Zone](), list[Zone](), list[Zone]()
    for zones in by_room.values():
        here = joined(zones, LEAST * frame.scale) if frame.only is None else zones
        (whole if len(here) == 1 else shared).extend(here)
        shown += here
    if frame.only is not None:
        shown, whole, shared = ([one for one in ones if one.breaker == frame.only] for ones in (shown, whole, shared))
    return Floor(tuple(shown), tuple(whole), *_edges_by_standing(shared))


def _edges_by_standing(zones: Iterable[Zone]) -> tuple[frozenset[Edge], frozenset[Edge]]:
    """Return the edges with settled zones on all their sides, then all others."""
    settled: dict[Edge, bool] = {}
    for zone in zones:
        for edge in edges_of(zone.rings):
            settled[edge] = settled.get(edge, True) and zone.settled
    good = frozenset(edge for edge, is_settled in settled.items() if is_settled)
    return good, frozenset(settled) - good


# --- joining --------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Piece:
    """A piece of one zone's floor: its breaker, whether all in it is settled, its edges, its least width in mm."""

    breaker: int | None
    settled: bool
    edges: frozenset[Edge]
    width: float


def joined(zones: Sequence[Zone], least: float) -> list[Zone]:
    """Return a room's zones, each piece under `least` house mm joined to the tinted one it has most edge with.

    The narrowest go first. A piece with dots on all its sides stays as it is.
    """
    if len(zones) < 2 or not any(_may_be_narrow(ring, least) for zone in zones for ring in zone.rings):
        return list(zones)
    drawn = [_piece(zone.breaker, zone.settled, edges_of(part)) for zone in zones for part in pieces(zone.rings)]
    left = list(drawn)
    while (pair := _next_pair(left, least)) is not None:
        small, large = pair
        left.remove(small)
        left[left.index(large)] = _piece(large.breaker, large.settled and small.settled, large.edges ^ small.edges)
    return list(zones) if len(left) == len(drawn) else [one for zone in zones for one in _united(zone, left)]


def _piece(breaker: int | None, settled: bool, edges: frozenset[Edge]) -> _Piece:
    return _Piece(breaker, settled, edges, width_across(edges))


def _next_pair(left: Sequence[_Piece], least: float) -> tuple[_Piece, _Piece] | None:
    """Return the narrowest piece that is to join another, and that other."""
    tinted = [piece for piece in left if piece.breaker is not None]
    for small in sorted((piece for piece in tinted if piece.width < least), key=lambda piece: piece.width):
        shared = {at: length(other.edges & small.edges) for at, other in enumerate(tinted) if other is not small}
        longest = max(shared, key=lambda at: shared[at], default=None)
        if longest is not None and shared[longest] > 0:
            return small, tinted[longest]
    return None


def _united(zone: Zone, left: Sequence[_Piece]) -> Iterator[Zone]:
    """Yield a zone with what is left of its pieces and what joined them, if there is any."""
    own = [piece for piece in left if piece.breaker == zone.breaker]
    edges = frozenset[Edge]()
    for piece in own:
        edges ^= piece.edges
    if edges:
        yield replace(zone, rings=rings_of(edges), settled=all(piece.settled for piece in own))


def _may_be_narrow(ring: Ring, least: float) -> bool:
    """Tell whether an area is small for its length: a quick look, true of all that are under `least` wide."""
    xs, ys = zip(*ring, strict=True)
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    area = abs(sum(xs[at - 1] * y - xs[at] * ys[at - 1] for at, y in enumerate(ys))) / 2
    return bool(area < least * (wide * wide + high * high) ** 0.5)
