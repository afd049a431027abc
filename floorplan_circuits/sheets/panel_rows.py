"""Some rows of a panel: those with handles to move and the rows beside them, as findings to draw each stretch by."""

from collections.abc import Iterable, Iterator, Set
from dataclasses import dataclass, replace
from itertools import groupby

from floorplan_circuits.findings import Findings, PanelFinding
from floorplan_circuits.home.power import Panel

BESIDE = 1
"""How many rows are shown over and under one with a handle to move: a place is found by what is next to it."""
FEWEST_LEFT_OUT = 2
"""So few rows are shown rather than left out: to say so takes as much room."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """Rows that follow each other, as findings that hold those alone; how many were left out before them."""

    findings: Findings
    left_out: int


def rows_around(findings: Findings, panel: Panel, handles: Set[int], resting: Set[int] = frozenset()) -> frozenset[int]:
    """Return the rows with these breakers and those beside them, no breaker and no tie cut; none for no breaker.

    Of breakers that are `resting`, to be looked at and left, their own rows are shown.
    """
    grid = findings.panels[panel.id]
    rows_of: dict[int, set[int]] = {}
    for (space, _), breaker in grid.taken.items():
        if space in grid.cells:
            rows_of.setdefault(breaker, set()).add(grid.cells[space][0])
    wholes = list(_that_hold_together(findings, rows_of))
    wanted = {row for handle in handles for row in rows_of.get(handle, ())}
    shown = {near for row in wanted for near in range(row - BESIDE, row + BESIDE + 1) if 0 <= near < grid.rows}
    shown |= {row for handle in resting for row in rows_of.get(handle, ())}
    while grown := {row for whole in wholes if whole & shown for row in whole} - shown:
        shown |= grown
    if not shown:
        return frozenset()
    gaps = [set(run) for is_shown, run in groupby(range(grid.rows), shown.__contains__) if not is_shown]
    return frozenset(shown.union(*(gap for gap in gaps if len(gap) < FEWEST_LEFT_OUT)))


def _that_hold_together(findings: Findings, rows_of: dict[int, set[int]]) -> Iterator[set[int]]:
    """Yield the rows, all from the first to the last, of each breaker and of each group of tied ones."""
    groups: dict[tuple[str, int], set[int]] = {}
    for breaker, rows in rows_of.items():
        found = findings.home.breakers.get(breaker)
        tie = found.tie if found is not None else None
        groups.setdefault(("tie", tie.group) if tie is not None else ("one", breaker), set()).update(rows)
    for rows in groups.values():
        yield set(range(min(rows), max(rows) + 1))


def stretches(findings: Findings, panel: Panel, rows: Set[int]) -> tuple[list[Stretch], int]:
    """Return the stretches of these rows from the top down, and how many rows were left out after the last."""
    grid = findings.panels[panel.id]
    found: list[Stretch] = []
    left_out = 0
    for is_shown, run in groupby(range(grid.rows), lambda row: row in rows):
        some = list(run)
        if is_shown:
            found.append(Stretch(with_rows(findings, panel, some), left_out))
        left_out = 0 if is_shown else len(some)
    return found, left_out


def with_rows(findings: Findings, panel: Panel, rows: Iterable[int]) -> Findings:
    """Return findings of which a panel has these rows alone, to draw it by and for nothing else."""
    grid, place = findings.panels[panel.id], {row: at for at, row in enumerate(rows)}
    cells = {space: (place[row], column) for space, (row, column) in grid.cells.items() if row in place}
    taken = {(space, half): breaker for (space, half), breaker in grid.taken.items() if space in cells}
    part = PanelFinding(panel.id, grid.columns, len(place), cells, taken, grid.legs)
    return replace(findings, panels={**findings.panels, panel.id: part})
