"""Choices beside the handles nearest the load: the cheapest cut there is, and single handles that will do alone."""

from collections.abc import Iterable, Mapping, Set
from dataclasses import dataclass
from itertools import combinations

from floorplan_circuits.shutoff.cut import Supplies, is_live
from floorplan_circuits.shutoff.dark import weight
from floorplan_circuits.shutoff.handles import Handles
from floorplan_circuits.shutoff.least_cut import Above, least_cut
from floorplan_circuits.shutoff.targets import Target
from floorplan_circuits.shutoff.wiring import Wiring
from floorplan_circuits.supply.handles import HANDLE_KINDS
from floorplan_circuits.supply.handles import opened as opened_by
from floorplan_circuits.supply.walks import Node, reached

MOST_TIES = 6
"""Ties among the ancestors that are tried both ways; further ones are taken as if each handle were paid for alone."""
MOST_MOVEMENTS = 60
"""Past so many movements above the targets (circuits joined all over a large home) only some are weighed."""


@dataclass(frozen=True, slots=True)
class Choice:
    """Handles that cut every target, named by one of each movement: what goes dark with them and what that weighs."""

    movements: tuple[int, ...]
    off: frozenset[int]
    dark: frozenset[int]
    cost: int


@dataclass(frozen=True)
class Board:
    """What choices are weighed by: what supplies what, the handles, and the feeds of critical things."""

    wiring: Wiring
    handles: Handles
    critical: Set[int]

    @property
    def supplies(self) -> Supplies:
        """What supplies each node."""
        return self.wiring.supplies

    def choice(self, movements: Iterable[int]) -> Choice:
        """Return what turning these off does and costs; the cost of several is the sum of what each costs alone."""
        each = tuple(sorted(movements))
        off = frozenset[int]().union(*(self.handles.together[one] for one in each)) - self.handles.resting
        cost = sum(self.cost(one) for one in each)
        return Choice(each, off, self.wiring.goes_dark(off), cost)

    def cost(self, movement: int) -> int:
        """Return what one movement weighs by itself."""
        return weight([movement], self.wiring.goes_dark(self.handles.together[movement]), self.critical)

    def cuts(self, off: frozenset[int], wanted: Iterable[Target]) -> bool:
        """Tell whether no target is live with these handles off."""
        closed = off | self.handles.resting
        return not any(is_live(one.node, closed, self.supplies) for one in wanted)


def cheapest(wanted: Iterable[Target], board: Board, likely: frozenset[int] = frozenset()) -> Choice | None:
    """Return the cut of least weight on the part of the graph above the targets; None where nothing cuts them all.

    Where very many handles stand above them, only those in `likely` are weighed.
    """
    targets = tuple(wanted)
    above = reached(board.supplies, [one.node for one in targets])
    movements = weighed(above, board, likely)
    tied = [one for one in movements if len(board.handles.together[one]) > 1][:MOST_TIES]
    costs = {movement: board.cost(movement) for movement in movements}
    best: tuple[int, frozenset[int]] | None = None
    for opened in (frozenset(some) for size in range(len(tied) + 1) for some in combinations(tied, size)):
        found = _least(targets, opened, frozenset(tied) - opened, costs, board)
        if found is not None and (best is None or found[0] < best[0]):
            best = found
    return None if best is None else board.choice(best[1])


def single_handles(wanted: Iterable[Target], board: Board, likely: frozenset[int] = frozenset()) -> tuple[Choice, ...]:
    """Return the movements that cut every target alone, cheapest first: a feeder, the main."""
    targets = tuple(wanted)
    above = reached(board.supplies, [one.node for one in targets])
    found = [
        board.choice([movement])
        for movement in weighed(above, board, likely)
        if board.cuts(board.handles.together[movement], targets)
    ]
    return tuple(sorted(found, key=lambda choice: (choice.cost, choice.movements)))


def weighed(above: Iterable[Node], board: Board, likely: frozenset[int]) -> tuple[int, ...]:
    """Return the movements to be weighed: all that a hand can turn off there, or the likely ones of very many."""
    movements = movements_among(above, board.handles)
    if len(movements) <= MOST_MOVEMENTS:
        return movements
    return tuple(one for one in movements if board.handles.together[one] & likely)


def movements_among(nodes: Iterable[Node], handles: Handles) -> tuple[int, ...]:
    """Return what a hand can turn off among these nodes: of handles that move together, the first."""
    return tuple(
        sorted(
            {
                min(handles.together[node[1]])
                for node in nodes
                if node[0] in HANDLE_KINDS and handles.may_open(node) and node[1] not in handles.resting
            }
        )
    )


def _least(
    targets: tuple[Target, ...], opened: frozenset[int], shut: frozenset[int], costs: Mapping[int, int], board: Board
) -> tuple[int, frozenset[int]] | None:
    """Return the least cost and its movements where some ties are opened and others are not to be touched."""
    handles = board.handles
    off = frozenset[int]().union(*(handles.together[one] for one in opened)) | handles.resting
    weights = {
        (kind, handle): cost
        for movement, cost in costs.items()
        if movement not in shut
        for handle in handles.together[movement] - off
        for kind in HANDLE_KINDS
    }
    found = least_cut([one.node for one in targets], Above(board.supplies, opened_by(off), weights))
    if found is None:
        return None
    weight_of, cut = found
    paid = sum(costs[one] for one in opened)
    return paid + weight_of, opened | {min(handles.together[handle]) for _, handle in cut}
