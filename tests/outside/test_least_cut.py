"""The least cut against a maximum flow by scipy (`scipy.sparse.csgraph.maximum_flow`, Dinic's algorithm).

Each handle is parted into two nodes with an arc between them whose capacity is what turning it off weighs; all other
arcs cannot be filled. By the theorem of Ford and Fulkerson the greatest flow from the sources to what must be dead is
the weight of the least cut. Our cut comes from networkx, which shares no code with scipy.
"""

from functools import cache

import numpy as np
from scipy.sparse import csr_array
from scipy.sparse.csgraph import maximum_flow

from floorplan_circuits.shutoff.choices import Board, cheapest, movements_among
from floorplan_circuits.shutoff.targets import Target
from floorplan_circuits.supply.graph import ALWAYS_LIVE
from floorplan_circuits.supply.walks import Node, reached
from tests.homes import generate
from tests.shutoff.plans import bench
from tests.survey.hidden import evening, hidden_home, with_evening

FULL = 10_000_000
"""The capacity of an arc that no handle closes: more than all handles of a home weigh together."""


def greatest_flow(wanted: list[Target], board: Board) -> int:
    """What can flow from all sources to all of these; `FULL` or more where no handles cut them off."""
    above = sorted(reached(board.supplies, [one.node for one in wanted]))
    place = {node: 2 + 2 * nth for nth, node in enumerate(above)}
    movements = movements_among(above, board.handles)
    arcs: dict[tuple[int, int], int] = {}
    for node in above:
        if is_resting(node, board):
            continue
        may = node[0] in ("breaker", "main") and node[1] in movements
        arcs[place[node], place[node] + 1] = board.cost(node[1]) if may else FULL
        if node[0] in ALWAYS_LIVE:
            arcs[0, place[node]] = FULL
        for giver in board.supplies.get(node, ()):
            arcs[place[giver] + 1, place[node]] = FULL
    for one in wanted:
        arcs[place[one.node] + 1, 1] = FULL
    starts, ends = np.array(list(arcs), dtype=np.int32).T
    size = 2 + 2 * len(above)
    matrix = csr_array((np.array(list(arcs.values()), dtype=np.int32), (starts, ends)), shape=(size, size))
    return int(maximum_flow(matrix, 0, 1).flow_value)


def is_resting(node: Node, board: Board) -> bool:
    return node[0] in ("breaker", "main") and node[1] in board.handles.resting


def has_ties(wanted: list[Target], board: Board) -> bool:
    above = reached(board.supplies, [one.node for one in wanted])
    return any(len(board.handles.together[one]) > 1 for one in movements_among(above, board.handles))


def agree(wanted: list[Target], board: Board) -> None:
    flow, best = greatest_flow(wanted, board), cheapest(wanted, board)
    assert (best is None) == (flow >= FULL)
    if best is not None:
        assert best.cost == flow


@cache
def benches() -> list[tuple[list[Target], Board]]:
    """Shut-offs of random homes whose handles each move alone: a flow knows of no ties."""
    found = []
    for seed in range(16):
        hidden = hidden_home(seed, right=seed % 2 == 0)
        home = with_evening(hidden, evening(hidden, seed % 5))
        for box in home.boxes.ids()[:4]:
            every, board, _ = bench(home, box)
            if every and not has_ties(list(every), board):
                found.append((list(every), board))
    return found


def test_the_least_cut_of_random_homes_weighs_what_can_flow() -> None:
    assert len(benches()) > 10
    for wanted, board in benches():
        agree(wanted, board)


def test_it_does_in_a_larger_home_with_several_boxes_at_once() -> None:
    home = generate(3, 150).home
    every, board, cut = bench(home, *home.boxes.ids()[:6])
    wanted = [one for one in every if one not in cut.uncut and not has_ties([one], board)]
    assert wanted
    for one in wanted:
        agree([one], board)
    agree(wanted, board)
