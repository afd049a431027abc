"""Edits of breakers: put one into a space, change what it is, tie handles together."""

from collections.abc import Iterable

from floorplan_circuits.edits.edited import Edited, Refused, counted, edit, only, sound, there
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.edits.poles import without_poles
from floorplan_circuits.edits.spaces import Place, check_free, column, places_of
from floorplan_circuits.edits.typed import Typed
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import breakers_behind
from floorplan_circuits.home.power import Breaker, Pole, Tie
from floorplan_circuits.home.record import change
from floorplan_circuits.home.space_names import space_name
from floorplan_circuits.supply.numbering import mark

OF_A_BREAKER = frozenset(
    {"amps", "device", "opens", "protects", "behind", "found", "may_open", "as_found", "wording", "conductor", "note"}
)


@edit
def add_breaker(home: Home, panel: int, space: int, typed: Typed, half: str | None = None) -> Edited:
    """Put a breaker into a space, two into its halves, or a quad into two; more poles take the spaces below.

    Raises `Refused` if a space it needs is taken or past the end of the panel.
    """
    found = there(home.panels, panel, "panel")
    placed = places_of(found, space, typed, half)
    check_free(home, found, [place for _, places in placed for place in places])
    ids = counter(home)
    breakers, made = home.breakers, []
    for part, places in placed:
        breaker = Breaker(
            id=ids.new(),
            panel=panel,
            poles=tuple(_pole(place) for place in places),
            amps=part.amps,
            device="fuse" if typed.fuse else "breaker",
            as_found=part.label,
        )
        breakers = breakers.put(breaker)
        made.append(breaker.id)
    home = change(home, breakers=breakers, next_id=ids.next_id)
    return Edited(
        home, f"Put {_size(typed)} in space {found.prefix}{space_name(found, space)}{half or ''}", tuple(made)
    )


def _pole(place: Place) -> Pole:
    return Pole.model_validate({"space": place[0], "half": place[1]})


def _size(typed: Typed) -> str:
    what = "fuse" if typed.fuse else "breaker"
    return f"a {typed.amps} A {what}" if typed.amps else f"a {what}"


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
    if typed.halves == 4:
        raise Refused("A quad takes two whole spaces: take this breaker out, then type the quad.")
    splits = typed.halves == 2 and found.poles[0].half is None
    poles = _poles_for(home, found, typed.poles, "A" if splits else found.poles[0].half)
    device = "fuse" if typed.fuse else "breaker"
    changed = change(found, poles=poles, amps=typed.amps, device=device, as_found=typed.label)
    after = without_poles(change(home, breakers=home.breakers.put(changed)), breaker, len(poles))
    if splits:
        lower = typed.parts[-1]
        beside = typed._replace(amps=lower.amps, label=lower.label, halves=1, further=())
        after = add_breaker(after, found.panel, poles[0].space, beside, "B").home
    return Edited(after, _says(home, found))


def _poles_for(home: Home, breaker: Breaker, count: int, half: str | None) -> tuple[Pole, ...]:
    """Return the poles of a breaker that has so many now; those it keeps stay as they are, neutral and all."""
    if count == len(breaker.poles) and half == breaker.poles[0].half:
        return breaker.poles
    panel = there(home.panels, breaker.panel, "panel")
    others = change(home, breakers=home.breakers.without([breaker.id]))
    places = column(panel, min(pole.space for pole in breaker.poles), count, half)
    check_free(others, panel, places)
    kept: dict[Place, Pole] = {(pole.space, pole.half): pole for pole in breaker.poles}
    return tuple(kept.get(place) or _pole(place) for place in places)


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
