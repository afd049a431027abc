"""Handles: which breakers one hand movement opens together, and which it may move along."""

from functools import lru_cache

from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Tie
from floorplan_circuits.supply.walks import Node

HANDLE_KINDS = ("breaker", "main")
"""Kinds of nodes that a hand opens."""


@lru_cache(maxsize=1024)  # asked for every feed of a home with the same handles off
def opened(handles: frozenset[int]) -> frozenset[Node]:
    """Return the nodes that these handles open."""
    return frozenset((kind, handle) for handle in handles for kind in HANDLE_KINDS)


def moves_together(home: Home) -> dict[int, frozenset[int]]:
    """Return for each breaker all breakers that its handle moves, itself among them.

    A tie counts only within one panel and only if every member's was made by the factory: where one of a group is
    makeshift or nobody is sure, each handle stands alone. Tied handles may still trip apart.
    """
    return _grouped(home, [group for group in _tied(home) if all(_holds(breaker.tie) for breaker in group)])


def may_move_along(home: Home) -> dict[int, frozenset[int]]:
    """Return for each breaker all that may move when a hand moves it, itself among them: whatever ties them.

    A nail through two handles counts for nothing where both must open, but moves both: neither was ever off alone.
    """
    return _grouped(home, _tied(home))


def _tied(home: Home) -> list[list[Breaker]]:
    groups: dict[tuple[int, int], list[Breaker]] = {}
    for breaker in home.breakers:
        if breaker.tie is not None:
            groups.setdefault((breaker.panel, breaker.tie.group), []).append(breaker)
    return list(groups.values())


def _grouped(home: Home, groups: list[list[Breaker]]) -> dict[int, frozenset[int]]:
    found = {breaker.id: frozenset({breaker.id}) for breaker in home.breakers}
    for group in groups:
        together = frozenset(breaker.id for breaker in group)
        found.update(dict.fromkeys(together, together))
    return found


def _holds(tie: Tie | None) -> bool:
    return tie is not None and tie.made == "by the factory"
