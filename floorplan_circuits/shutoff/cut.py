"""The cut: the handles nearest the load that leave every target without a path to a source, none of them needless."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from floorplan_circuits.shutoff.handles import Handles
from floorplan_circuits.shutoff.targets import Target
from floorplan_circuits.supply.graph import ALWAYS_LIVE
from floorplan_circuits.supply.handles import HANDLE_KINDS, opened
from floorplan_circuits.supply.walks import Node, walk

Supplies = Mapping[Node, tuple[Node, ...]]


@dataclass(frozen=True, slots=True)
class Cut:
    """Handles to turn off, those found off that must stay so, and the targets that no handle cuts.

    `why`: each handle -> the targets that it is for.
    """

    off: frozenset[int]
    keep_off: frozenset[int]
    uncut: tuple[Target, ...]
    why: Mapping[int, tuple[Target, ...]]


def nearest_cut(wanted: Iterable[Target], supplies: Supplies, handles: Handles) -> Cut:
    """Return the cut of the handles nearest the load.

    From each target it goes up every path to the first handle that may be opened. What then can be left out is, from
    the sources down. A target that a path reaches without any such handle stays live, and is told; of its other
    sources it is cut off all the same.
    """
    every = tuple(wanted)
    chosen = {one.node: _first_handles(one.node, supplies, handles) for one in every}
    off = frozenset(handle for found in chosen.values() for handle in found)
    stuck = {one.node: roots_of(one.node, off | handles.resting, supplies) for one in every}
    uncut = tuple(one for one in every if stuck[one.node])
    for handle in sorted(off, key=lambda one: _depth(one, supplies)):
        without = off - handles.together[handle]
        if handle in off and all(
            roots_of(node, without | handles.resting, supplies) <= roots for node, roots in stuck.items()
        ):
            off = without
    cuttable = [one for one in every if one not in uncut]
    return Cut(off, _kept_off(cuttable, off, supplies, handles), uncut, _why(every, chosen, off, handles))


def chosen_cut(wanted: Iterable[Target], off: frozenset[int], supplies: Supplies, handles: Handles) -> Cut:
    """Return what handles that a person chose do: what they leave live, and the targets that each is above of."""
    every, turned = tuple(wanted), off - handles.resting
    uncut = tuple(one for one in every if is_live(one.node, turned | handles.resting, supplies))
    cuttable = [one for one in every if one not in uncut]
    above = {
        one.node: {number for kind, number in walk(supplies, [one.node]) if kind in HANDLE_KINDS} for one in cuttable
    }
    found = {min(handles.together[one]) for one in turned}
    why = {handle: tuple(one for one in cuttable if above[one.node] & handles.together[handle]) for handle in found}
    return Cut(turned, _kept_off(cuttable, turned, supplies, handles), uncut, why)


def is_live(node: Node, off: frozenset[int], supplies: Supplies) -> bool:
    """Tell whether a source reaches a node while these handles are off."""
    return next(_roots(node, off, supplies), None) is not None


def roots_of(node: Node, off: frozenset[int], supplies: Supplies) -> frozenset[Node]:
    """Return the sources that reach a node while these handles are off."""
    return frozenset(_roots(node, off, supplies))


def _roots(node: Node, off: frozenset[int], supplies: Supplies) -> Iterator[Node]:
    return (giver for giver in walk(supplies, supplies.get(node, ()), opened(off)) if giver[0] in ALWAYS_LIVE)


def _first_handles(node: Node, supplies: Supplies, handles: Handles) -> frozenset[int]:
    """Return the first handles up every path, with all that move along; those found off end a path as they are."""
    found, todo, seen = set[int](), [node], {node}
    while todo:
        for giver in supplies.get(todo.pop(), ()):
            if giver in seen:
                continue
            seen.add(giver)
            if giver[0] in HANDLE_KINDS and giver[1] in handles.resting:
                continue
            if handles.may_open(giver):
                found |= handles.together[giver[1]] - handles.resting
            else:
                todo.append(giver)
    return frozenset(found)


def _depth(handle: int, supplies: Supplies) -> tuple[int, int]:
    """Return how many nodes stand above a handle: fewer for a main than for the breakers below it."""
    kind = "breaker" if ("breaker", handle) in supplies else "main"
    return sum(1 for _ in walk(supplies, [(kind, handle)])), handle


def _kept_off(cuttable: Iterable[Target], off: frozenset[int], supplies: Supplies, handles: Handles) -> frozenset[int]:
    """Return what was found off and must stay so for the targets to be dead."""
    every = list(cuttable)
    return frozenset(
        handle
        for handle in handles.resting
        if any(is_live(one.node, off | handles.resting - {handle}, supplies) for one in every)
    )


def _why(
    every: Iterable[Target], chosen: Mapping[Node, frozenset[int]], off: frozenset[int], handles: Handles
) -> dict[int, tuple[Target, ...]]:
    found: dict[int, list[Target]] = {}
    for one in every:
        for handle in sorted(chosen[one.node] & off):
            found.setdefault(min(handles.together[handle]), []).append(one)
    return {handle: tuple(some) for handle, some in found.items()}
