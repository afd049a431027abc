"""Edits of breakers: put one into a space, change what it is, tie handles together."""

from collections.abc import Iterable, Sequence

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit, only, sound, there
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.edits.panels import breakers_of
from floorplan_circuits.edits.poles import without_poles
from floorplan_circuits.edits.typed import Typed
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import breakers_behind
from floorplan_circuits.home.power import Breaker, Panel, Pole, Tie
from floorplan_circuits.home.record import change
from floorplan_circuits.supply.legs import cells
from floorplan_circuits.supply.numbering import mark

OF_A_BREAKER = frozenset(
    {"amps", "device", "opens", "protects", "behind", "found", "may_open", "as_found", "wording", "conductor", "note"}
)


@edit
def add_breaker(home: Home, panel: int, space: int, typed: Typed, half: str | None = None) -> Edited:
    """Put a breaker into a space, or two into its halves; a multi-pole one takes the spaces below in its column.

    Raises `Refused` if a space it needs is taken or past the end of the panel.
    """
    found = there(home.panels, panel, "panel")
    spaces = _column(found, space, typed.poles)
    _check_free(home, found, spaces, half)
    ids = counter(home)
    halves: Sequence[str | None] = ("A", "B") if typed.halves == 2 and half is None else (half,)
    breakers, made = home.breakers, []
    for one in halves:
        breaker = Breaker(
            id=ids.new(),
            panel=panel,
            poles=tuple(_pole(number, one) for number in spaces),
            amps=typed.amps,
            device="fuse" if typed.fuse else "breaker",
            as_found=typed.label,
        )
        breakers = breakers.put(breaker)
        made.append(breaker.id)
    home = change(home, breakers=breakers, next_id=ids.next_id)
    return Edited(home, f"Put {_size(typed)} in space {found.prefix}{space}{half or ''}", tuple(made))


def _pole(space: int, half: str | None) -> Pole:
    return Pole.model_validate({"space": space, "half": half})


def _size(typed: Typed) -> str:
    what = "fuse" if typed.fuse else "breaker"
    return f"a {typed.amps} A {what}" if typed.amps else f"a {what}"


# --- spaces ---------------------------------------------------------------------------------------------------------


def _column(panel: Panel, space: int, poles: int) -> list[int]:
    """Return a space and those below it in its column. Raises `Refused` past the column's end."""
    place = cells(panel)
    if space not in place:
        raise Refused(f"{panel.name} has no space {space}: it ends at {panel.spaces}.")
    row, column = place[space]
    at = {cell: number for number, cell in place.items()}
    found = [at.get((row + down, column)) for down in range(poles)]
    spaces = [number for number in found if number is not None]
    if len(spaces) < poles:
        raise Refused(f"{counted(poles, 'pole')} do not fit: the column ends at space {panel.prefix}{spaces[-1]}.")
    return spaces


def _check_free(home: Home, panel: Panel, spaces: Iterable[int], half: str | None) -> None:
    taken = {
        (pole.space, one)
        for breaker in breakers_of(home, panel.id)
        for pole in breaker.poles
        for one in ((pole.half,) if pole.half else ("A", "B"))
    }
    for space in spaces:
        if not taken.isdisjoint((space, one) for one in ((half,) if half else ("A", "B"))):
            raise Refused(f"Space {panel.prefix}{space} is taken. Remove the breaker there first.")


# --- changes --------------------------------------------------------------------------------------------------------


@edit
def set_breaker(home: Home, breaker: int, **fields: object) -> Edited:
    """Change fields of a breaker: amps, device, old label, wording, how it was found, what it opens."""
    only(fields, OF_A_BREAKER)
    found = there(home.breakers, breaker, "breaker")
    if isinstance(fields.get("behind"), int):
        there(home.breakers, fields["behind"], "breaker")  # type: ignore[arg-type]  # it was just told to be one
    after = change(home, breakers=home.breakers.put(change(found, **fields)))
    return Edited(sound(home, after, breakers_behind), _says(home, found))


def _says(home: Home, breaker: Breaker) -> str:
    return f"Edit breaker {mark(home.panels.get(breaker.panel), breaker)}"


@edit
def retype_breaker(home: Home, breaker: int, typed: Typed) -> Edited:
    """Change a breaker to what was typed over it; a label alone leaves its size as it is.

    Raises `Refused` if it would need spaces that are taken. What hung on a pole that it loses hangs on the breaker
    without naming a pole; a second breaker is put beside one that turns out to be half of its space.
    """
    found = there(home.breakers, breaker, "breaker")
    if typed.amps is None:
        return Edited(set_breaker(home, breaker, as_found=typed.label).home, _says(home, found))
    splits = typed.halves == 2 and found.poles[0].half is None
    poles = _poles_for(home, found, typed.poles, "A" if splits else found.poles[0].half)
    device = "fuse" if typed.fuse else "breaker"
    changed = change(found, poles=poles, amps=typed.amps, device=device, as_found=typed.label)
    after = without_poles(change(home, breakers=home.breakers.put(changed)), breaker, len(poles))
    if splits:
        after = add_breaker(after, found.panel, poles[0].space, typed, "B").home
    return Edited(after, _says(home, found))


def _poles_for(home: Home, breaker: Breaker, count: int, half: str | None) -> tuple[Pole, ...]:
    """Return the poles of a breaker that has so many now; those it keeps stay as they are, neutral and all."""
    if count == len(breaker.poles) and half == breaker.poles[0].half:
        return breaker.poles
    panel = there(home.panels, breaker.panel, "panel")
    others = change(home, breakers=home.breakers.without([breaker.id]))
    spaces = _column(panel, min(pole.space for pole in breaker.poles), count)
    _check_free(others, panel, spaces, half)
    kept = {pole.space: pole for pole in breaker.poles if pole.half == half}
    return tuple(kept.get(space) or _pole(space, half) for space in spaces)


# --- handles --------------------------------------------------------------------------------------------------------


@edit
def tie_handles(home: Home, breakers: Iterable[int], made: str = "not sure") -> Edited:
    """Say that the handles of breakers of one panel are tied together. Raises `Refused` for fewer than two."""
    found = [home.breakers[breaker] for breaker in dict.fromkeys(breakers) if breaker in home.breakers]
    if len(found) < 2 or len({breaker.panel for breaker in found}) > 1:
        raise Refused("Choose two or more breakers of one panel to tie their handles.")
    ids = counter(home)
    tie = Tie.model_validate({"group": ids.new(), "made": made})
    loose = _loosened(home, (breaker.id for breaker in found))
    table = loose.breakers
    for breaker in found:
        table = table.put(change(breaker, tie=tie))
    return Edited(change(home, breakers=table, next_id=ids.next_id), f"Tie {counted(len(found), 'handle')}")


@edit
def untie_handles(home: Home, breakers: Iterable[int]) -> Edited:
    """Say that the handles of these breakers are not tied, nor those they were tied with."""
    groups = {found.tie.group for one in breakers if (found := home.breakers.get(one)) is not None and found.tie}
    if not groups:
        raise Refused("None of these handles is tied.")
    table = home.breakers
    for breaker in home.breakers:
        if breaker.tie is not None and breaker.tie.group in groups:
            table = table.put(change(breaker, tie=None))
    return Edited(change(home, breakers=table), "Untie handles")


def _loosened(home: Home, leaving: Iterable[int]) -> Home:
    """Return the home in which these handles leave their ties, and a handle left alone in one is not tied any more."""
    table, gone = home.breakers, set(leaving)
    groups = {breaker.tie.group for breaker in table if breaker.id in gone and breaker.tie is not None}
    for group in groups:
        rest = [one for one in table if one.tie is not None and one.tie.group == group and one.id not in gone]
        if len(rest) == 1:
            table = table.put(change(rest[0], tie=None))
    return change(home, breakers=table)
