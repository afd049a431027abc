"""Neutrals of breakers: shared by a multiwire circuit, a breaker's own, or not known."""

from collections.abc import Iterable

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit, there
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Pole
from floorplan_circuits.home.record import change


@edit
def share_neutral(home: Home, breakers: Iterable[int]) -> Edited:
    """Say that breakers of one panel share a neutral. Raises `Refused` for fewer than two."""
    found = [home.breakers[one] for one in dict.fromkeys(breakers) if one in home.breakers]
    if len(found) < 2 or len({breaker.panel for breaker in found}) > 1:
        raise Refused("Choose two or more breakers of one panel that share a neutral.")
    ids = counter(home)
    group = ids.new()
    table = home.breakers
    for breaker in found:
        table = table.put(_with_neutral(breaker, group))
    says = f"{counted(len(found), 'breaker')} share a neutral"
    return Edited(change(home, breakers=table, next_id=ids.next_id), says)


@edit
def set_neutral(home: Home, breaker: int, neutral: str) -> Edited:
    """Say that a breaker's neutral is its own, or not known any more, on all its poles."""
    found = there(home.breakers, breaker, "breaker")
    table = home.breakers.put(_with_neutral(found, neutral))
    return Edited(change(home, breakers=table), "Say whose neutral it is")


def _with_neutral(breaker: Breaker, neutral: int | str) -> Breaker:
    poles: tuple[Pole, ...] = tuple(change(pole, neutral=neutral) for pole in breaker.poles)
    return change(breaker, poles=poles)
