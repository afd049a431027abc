"""How a panel counts: where each space stands, and what a breaker is called after its spaces."""

from collections.abc import Mapping, Sequence

from floorplan_circuits.findings import PanelFinding
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Panel
from floorplan_circuits.home.space_names import is_in_ways, space_name
from floorplan_circuits.home.trade_words import words_of
from floorplan_circuits.supply.legs import Cell, cells, heads, leg, with_system

__all__ = ["cells", "mark", "marks", "panel_finding", "reading_order"]

HALVES = ("A", "B")
BETWEEN_SPACES = "·"


def mark(panel: Panel | None, breaker: Breaker) -> str:
    """Return the breaker's number as on the panel: '5', half '15A', two poles '2·4', 'G3' with a prefix, '1L1·L2·L3'.

    Examples:
        >>> from floorplan_circuits.home.power import Pole
        >>> garage = Panel(id=1, name="Garage", prefix="G", spaces=12)
        >>> mark(garage, Breaker(id=2, panel=1, poles=(Pole(space=4), Pole(space=2))))
        'G2·4'
    """
    prefix = "" if panel is None else panel.prefix
    names = [f"{space_name(panel, space)}{half}" for space, half in _spaces(breaker)]
    if panel is not None and is_in_ways(panel):
        names = _without_way(names)
    return prefix + BETWEEN_SPACES.join(names)


def _without_way(names: Sequence[str]) -> list[str]:
    """Return the names of a breaker's spaces, their way told once: 1L1, L2, L3."""
    way = names[0].split("L", maxsplit=1)[0] if names else ""
    return [*names[:1], *(name.removeprefix(way) if name.startswith(f"{way}L") else name for name in names[1:])]


def _spaces(breaker: Breaker) -> list[tuple[int, str]]:
    return sorted({(pole.space, pole.half or "") for pole in breaker.poles})


def marks(home: Home) -> dict[int, str]:
    """Return what every breaker and every main is called: 'main', 'main 2' where a panel has several, 'G main'.

    On 230 V a main is the main switch.
    """
    found = {breaker.id: mark(home.panels.get(breaker.panel), breaker) for breaker in home.breakers}
    for panel in home.panels:
        name = f"{panel.prefix} {words_of(home, panel).main}".strip()
        several = len(panel.mains) > 1
        found.update((main.id, f"{name} {at}" if several else name) for at, main in enumerate(panel.mains, 1))
    return found


def reading_order(home: Home) -> tuple[int, ...]:
    """Return all breakers as a person reads them: panel by panel, by space, upper half first."""
    place = {panel: at for at, panel in enumerate(home.panels.ids())}

    def reads(breaker: Breaker) -> tuple[int, list[tuple[int, str]], int]:
        return place.get(breaker.panel, len(place)), _spaces(breaker), breaker.id

    return tuple(breaker.id for breaker in sorted(home.breakers, key=reads))


def panel_finding(home: Home, panel: Panel) -> PanelFinding:
    """Return the panel's grid; a breaker that takes a whole space stands at both halves of it.

    Spaces that no cell has (past the panel's end, which the integrity rules name) are left out. A panel whose own
    system is not known has the home's.
    """
    grid = cells(panel)
    known = with_system(panel, home.system)
    taken = {
        (pole.space, half): breaker.id
        for breaker in home.breakers
        if breaker.panel == panel.id
        for pole in breaker.poles
        if pole.space in grid
        for half in ((pole.half,) if pole.half else HALVES)
    }
    return PanelFinding(
        panel=panel.id,
        columns=1 + max(column for _, column in grid.values()),
        rows=1 + max(row for row, _ in grid.values()),
        cells=grid,
        taken=taken,
        legs=_legs(known, grid),
        heads=heads(panel),
    )


def _legs(panel: Panel, grid: Mapping[int, Cell]) -> dict[int, str]:
    return {space: leg(panel, space) for space in grid}
