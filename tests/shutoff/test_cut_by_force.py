"""The cut and its choices against every set of handles tried one after another, and against a maximum flow."""

from collections.abc import Iterator
from itertools import combinations

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from floorplan_circuits.shutoff.choices import Board, cheapest, movements_among, single_handles
from floorplan_circuits.shutoff.cut import Cut, is_live, roots_of
from floorplan_circuits.shutoff.targets import Target
from floorplan_circuits.shutoff.wiring import Wiring
from floorplan_circuits.supply.walks import reached
from tests.shutoff.plans import bench
from tests.survey.hidden import evening, hidden_home, with_evening

SEEDS = st.integers(0, 100_000)
MOST = 12
"""So many movements among the ancestors are tried in every combination."""


def some_bench(seed: int, data: st.DataObject) -> tuple[tuple[Target, ...], Board, Cut]:
    hidden = hidden_home(seed, right=seed % 2 == 0)
    home = with_evening(hidden, evening(hidden, seed % 5))
    boxes = data.draw(st.lists(st.sampled_from(home.boxes.ids()), min_size=1, max_size=3, unique=True))
    return bench(home, *boxes)


def cuttable(wanted: tuple[Target, ...], cut: Cut) -> list[Target]:
    return [one for one in wanted if one not in cut.uncut]


@settings(max_examples=80)
@given(SEEDS, st.data())
def test_the_default_cuts_none_of_it_can_be_left_out_and_all_of_it_may_be_opened(seed, data) -> None:
    wanted, board, cut = some_bench(seed, data)
    assert not cut.off & board.handles.barred.keys()
    assert not cut.off & board.handles.resting
    assert board.cuts(cut.off, [one for one in wanted if one not in cut.uncut])
    left = [roots_of(one.node, cut.off | board.handles.resting, board.supplies) for one in wanted]
    for handle in cut.off:
        without = cut.off - board.handles.together[handle] | board.handles.resting
        assert any(roots_of(one.node, without, board.supplies) > was for one, was in zip(wanted, left, strict=True))


@settings(max_examples=40)
@given(SEEDS, st.data())
def test_of_all_cuts_none_is_cheaper_than_the_cheapest(seed, data) -> None:
    every, board, cut = some_bench(seed, data)
    wanted = cuttable(every, cut)
    movements = movements_among(reached(board.supplies, [one.node for one in wanted]), board.handles)
    assume(wanted and len(movements) <= MOST)
    best = cheapest(wanted, board)
    costs = [sum(map(board.cost, some)) for some in _cuts(movements, wanted, board)]
    assert (best is None) == (not costs)
    if best is not None:
        assert board.cuts(best.off, wanted)
        assert best.cost == min(costs)


@settings(max_examples=40)
@given(SEEDS, st.data())
def test_every_single_handle_that_cuts_all_is_found(seed, data) -> None:
    every, board, cut = some_bench(seed, data)
    wanted = cuttable(every, cut)
    movements = movements_among(reached(board.supplies, [one.node for one in wanted]), board.handles)
    found = {choice.movements[0] for choice in single_handles(wanted, board)}
    assert found == {one for one in movements if board.cuts(board.handles.together[one], wanted)}


def _cuts(movements: tuple[int, ...], wanted: list[Target], board: Board) -> Iterator[tuple[int, ...]]:
    for size in range(len(movements) + 1):
        for some in combinations(movements, size):
            off = frozenset[int]().union(*(board.handles.together[one] for one in some)) | board.handles.resting
            if not any(is_live(one.node, off, board.supplies) for one in wanted):
                yield some


@settings(max_examples=80)
@given(SEEDS, st.data())
def test_what_goes_dark_is_what_each_feed_says_of_itself(seed, data) -> None:
    _, board, _ = some_bench(seed, data)
    handles = sorted(board.handles.together)
    off = frozenset(data.draw(st.lists(st.sampled_from(handles), min_size=1, unique=True))) - board.handles.resting
    resting = board.handles.resting
    alone = {
        number
        for kind, number in board.supplies
        if kind == "feed"
        and is_live((kind, number), resting, board.supplies)
        and not is_live((kind, number), off | resting, board.supplies)
    }
    assert board.wiring.goes_dark(off) == alone
    assert board.wiring.goes_dark(off) == alone  # as it is kept
    assert Wiring.of(board.supplies, resting).goes_dark(off) == alone
