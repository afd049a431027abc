"""Feeders and mains: kept on in the rounds, and tested apart when these are over, the mains last."""

from collections.abc import Collection, Iterator
from typing import NamedTuple

from floorplan_circuits.home.handling import is_fuse
from floorplan_circuits.home.home import Home
from floorplan_circuits.survey.statements import breakers_above


class Below(NamedTuple):
    """What some handles open, by the map: all breakers behind them. `is_all`: that is the whole home."""

    breakers: frozenset[int]
    is_all: bool


def below(home: Home, handles: Collection[int]) -> Below:
    """Return what a feeder, or the mains of a panel, open by the map."""
    above, off = breakers_above(home), frozenset(handles)
    panels = {panel.id for panel in home.panels if any(main.id in off for main in panel.mains)}
    first = {breaker.id for breaker in home.breakers if breaker.panel in panels}
    behind = frozenset(breaker for breaker, over in above.items() if over & (off | first))
    found = frozenset(first | behind) - off
    return Below(found, bool(panels) and found == frozenset(home.breakers.ids()))


def kept_on(
    home: Home, apart: Collection[int], left_alone: Collection[int], resting: Collection[int]
) -> Iterator[tuple[int, ...]]:
    """Yield what is tested after the rounds: each feeder, then the mains of each panel together, the first panel last.

    What must not go dark bars all that it hangs on: handles that are `left_alone`, but for those that rest as found.
    """
    barred = frozenset(left_alone) - frozenset(resting)
    breakers = [home.breakers[one] for one in apart if one in home.breakers]
    feeders = [(one.id,) for one in breakers if one.device != "fuse"]
    mains = [tuple(main.id for main in panel.mains) for panel in reversed(home.panels.rows) if panel.mains]
    for handles in (*feeders, *mains):
        under = below(home, handles).breakers
        if under and not barred.intersection(handles) and not barred & under:
            yield handles


def never_dark(home: Home, apart: Collection[int], left_alone: Collection[int], resting: Collection[int]) -> list[int]:
    """Return the feeders and mains of a plan that can't be tested, since something on them must not go dark."""
    tested = {handle for handles in kept_on(home, apart, left_alone, resting) for handle in handles}
    return [one for one in apart if one not in tested and not is_fuse(home, one) and below(home, (one,)).breakers]
