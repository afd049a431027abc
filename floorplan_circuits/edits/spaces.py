"""Which spaces of a panel a breaker takes: down its column, in halves, and both ways round in a quad."""

from collections.abc import Iterable

from floorplan_circuits.edits.edited import Refused, counted
from floorplan_circuits.edits.typed import Part, Typed
from floorplan_circuits.home.board_rows import is_row_by_row, row_with
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Panel
from floorplan_circuits.home.space_names import is_in_ways, space_name, way_of
from floorplan_circuits.home.trade_words import words_of
from floorplan_circuits.supply.legs import cells
from floorplan_circuits.supply.numbering import HALVES

Place = tuple[int, str | None]
"""A space, and its half if it is only that."""
OTHER = {"A": "B", "B": "A"}


def places_of(panel: Panel, space: int, typed: Typed, half: str | None) -> list[tuple[Part, tuple[Place, ...]]]:
    """Return each breaker that was typed with the places it takes.

    Raises `Refused` if they do not fit into the column, and for more breakers than the spaces have room for.
    """
    if typed.halves == 4:
        return _quad(panel, space, typed, half)
    if typed.halves == 2 and half is None:
        first, *others = _at_most(typed, 2, "two in one space")
        upper, lower = (column(panel, space, typed.poles, one) for one in HALVES)
        return [(first, upper), (others[0] if others else first, lower)]
    return [(typed.parts[0], column(panel, space, typed.poles, half))]


def _quad(panel: Panel, space: int, typed: Typed, half: str | None) -> list[tuple[Part, tuple[Place, ...]]]:
    """Return the breakers of a quad: two of two poles, one round the other; or single ones outside; or four."""
    if half is not None:
        raise Refused("A quad takes two whole spaces: take out what is in the other half first.")
    parts = _at_most(typed, 4, "a quad")
    outer, inner = column(panel, space, 2, "A"), column(panel, space, 2, "B")
    if len(parts) <= 2:
        return [(parts[0], outer), (parts[-1], inner)]
    if len(parts) == 3:
        return [(parts[0], outer[:1]), (parts[1], inner), (parts[2], outer[1:])]
    upper_a, lower_b, upper_b, lower_a = (*outer, *inner)
    return [(part, (place,)) for part, place in zip(parts, (upper_a, upper_b, lower_a, lower_b), strict=True)]


def _at_most(typed: Typed, most: int, what: str) -> tuple[Part, ...]:
    if len(typed.parts) > most:
        raise Refused(f"There are {len(typed.parts)} labels for {what}: type at most {most}, with ' / ' between.")
    return typed.parts


def column(panel: Panel, space: int, poles: int, half: str | None) -> tuple[Place, ...]:
    """Return a space and those below it in its column. Raises `Refused` past the column's end.

    A breaker of several poles in halves takes them in turn: its poles in 2A and 4B go round the one in 2B and 4A. Two
    upper halves are never one breaker, for its handle would lie over the lower one's (common practice, no source).
    """
    place = cells(panel)
    if space not in place:
        raise Refused(f"{panel.name} has no space {space}: it ends at {panel.spaces}.")
    if is_row_by_row(panel):
        return _side_by_side(panel, space, poles, half)
    row, at_column = place[space]
    at = {cell: number for number, cell in place.items()}
    found = [at.get((row + down, at_column)) for down in range(poles)]
    spaces = [number for number in found if number is not None]
    if is_in_ways(panel) and len({way_of(number)[0] for number in spaces}) > 1:
        raise Refused(f"{counted(poles, 'pole')} do not fit: one breaker stays in one way, L1 to L3.")
    if len(spaces) < poles:
        last = f"{panel.prefix}{space_name(panel, spaces[-1])}"
        raise Refused(f"{counted(poles, 'pole')} do not fit: the column ends at space {last}.")
    return tuple((number, OTHER.get(half or "", half) if down % 2 else half) for down, number in enumerate(spaces))


def _side_by_side(panel: Panel, space: int, poles: int, half: str | None) -> tuple[Place, ...]:
    """Return a space and those right of it in its row of the board. Raises `Refused` past the row's end."""
    row = row_with(panel, space)
    if half is not None:
        raise Refused("On a board of rows each breaker has a way of its own: there are no halves.")
    if space + poles > row.stop:
        last = f"{panel.prefix}{space_name(panel, row[-1])}"
        raise Refused(f"{counted(poles, 'pole')} do not fit: the row ends at way {last}.")
    return tuple((number, None) for number in range(space, space + poles))


def check_free(home: Home, panel: Panel, places: Iterable[Place]) -> None:
    """Raise `Refused` if a breaker is in one of these places."""
    taken = taken_in(breaker for breaker in home.breakers if breaker.panel == panel.id)
    for space, half in places:
        if not taken.isdisjoint((space, one) for one in ((half,) if half else HALVES)):
            called = words_of(home, panel).space.capitalize()
            raise Refused(
                f"{called} {panel.prefix}{space_name(panel, space)} is taken. Remove the breaker there first."
            )


def taken_in(breakers: Iterable[Breaker]) -> set[Place]:
    """Return every half of a space that these breakers take."""
    return {
        (pole.space, one)
        for breaker in breakers
        for pole in breaker.poles
        for one in ((pole.half,) if pole.half else HALVES)
    }


def next_free(home: Home, panel: Panel, after: int) -> int | None:
    """Return the next space that holds nothing: down the same column, then down the next; None after the last.

    On a board of rows it is the next in its row, then in the row below.
    """
    taken = {space for space, _ in taken_in(breaker for breaker in home.breakers if breaker.panel == panel.id)}
    place = cells(panel)
    down = sorted(place, key=lambda number: (place[number][1], place[number][0]))
    ordered = sorted(place) if is_row_by_row(panel) else down
    later = ordered[ordered.index(after) + 1 :] if after in place else []
    return next((space for space in later if space not in taken), None)
