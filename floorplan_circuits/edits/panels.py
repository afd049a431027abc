"""Edits of panels and breakers: set up the panel as it really is, space by space."""

import re
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from floorplan_circuits.edits.edited import Edited, Refused, counted
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.home.boxes import FromBreaker
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.power import Breaker, Main, Numbering, Panel, Pole, System, Tie
from floorplan_circuits.home.record import Point, change

OTHER_LETTERS = "BCDEFGHJKLMNPQRSTUVWXYZ"
"""Letters for further panels; A is left out, since 15A is half of a space."""


class Typed(NamedTuple):
    """What somebody typed for one space: rating, poles, whether it is a fuse, halves, and the old label."""

    amps: int | None
    poles: int
    fuse: bool
    halves: int
    label: str


_TYPED = re.compile(r"^\s*(?:(\d{1,4})\s*(?:a\b)?\s*(?:/\s*([1-4]|t))?\s*(f\b|fuse\b)?)?\s*(.*?)\s*$", re.IGNORECASE)


def read_typed(words: str) -> Typed:
    """Read what is typed down the panel's column: `20 kitchen plugs`, `30/2 dryer`, `15/t` (two in one space), `15f`.

    Examples:
        >>> read_typed("30/2 dryer")
        Typed(amps=30, poles=2, fuse=False, halves=1, label='dryer')
        >>> read_typed("15/t hall lights").halves, read_typed("spare").label
        (2, 'spare')
    """
    found = _TYPED.match(words)
    amps, way, fuse, label = found.groups() if found else (None, None, None, words)
    tandem = (way or "").lower() == "t"
    poles = 1 if way is None or tandem else int(way)
    return Typed(int(amps) if amps else None, poles, bool(fuse), 2 if tandem else 1, label or "")


def add_panel(
    home: Home,
    spaces: int,
    name: str = "",
    numbering: Numbering = "odd left, even right",
    system: System = "not known",
    main_amps: int | None = None,
    fed_by: int | None = None,
    level: int | None = None,
    at: Point | None = None,
    angle: int = 90,
) -> Edited:
    """Add a panel with one main; a further one gets a letter before its numbers. `fed_by` is a breaker."""
    if not 1 <= spaces <= 200:
        raise Refused("A panel has between 1 and 200 spaces.")
    ids = counter(home)
    main = Main(id=ids.new(), amps=main_amps)
    feeders = () if fed_by is None else (FromBreaker(kind="breaker", breaker=fed_by),)
    panel = Panel(
        id=ids.new(),
        name=name or ("Main panel" if not len(home.panels) else f"Panel {len(home.panels) + 1}"),
        prefix=_next_prefix(home, name),
        spaces=spaces,
        numbering=numbering,
        system=system,
        mains=(main,),
        fed_by=feeders,
        level=level,
        at=at,
        angle=angle,
    )
    home = change(home, panels=home.panels.put(panel), next_id=ids.next_id)
    return Edited(home, f"Add {panel.name}", (panel.id,))


def _next_prefix(home: Home, name: str) -> str:
    """Return a free letter for a further panel: its own first letter if it can be."""
    taken = {panel.prefix for panel in home.panels}
    if not taken:
        return ""
    first = name[:1].upper()
    letters = [first, *OTHER_LETTERS] if first.isalpha() and first.isascii() else list(OTHER_LETTERS)
    free = (letter for letter in (*letters, *(f"P{letter}" for letter in letters)) if letter not in taken)
    return next(free, "X")


def set_panel(home: Home, panel: int, **fields: object) -> Edited:
    """Change fields of a panel: name, prefix, place, numbering, system, spaces, its place on the plan, who feeds it."""
    found = home.panels[panel]
    changed = change(found, **fields)
    last = max((pole.space for breaker in breakers_of(home, panel) for pole in breaker.poles), default=0)
    if changed.spaces < last:
        raise Refused(f"A breaker is in space {last}: move it before the panel gets fewer spaces.")
    return Edited(change(home, panels=home.panels.put(changed)), f"Edit {found.name}")


def breakers_of(home: Home, panel: int) -> list[Breaker]:
    """Return the breakers of a panel."""
    return [breaker for breaker in home.breakers if breaker.panel == panel]


# --- breakers -------------------------------------------------------------------------------------------------------


def add_breaker(home: Home, panel: int, space: int, typed: Typed, half: str | None = None) -> Edited:
    """Put a breaker into a space, or two into its halves; a multi-pole one takes the spaces below in its column.

    Raises `Refused` if a space it needs is taken or past the end of the panel.
    """
    found = home.panels[panel]
    spaces = [space + at * _stride(found) for at in range(typed.poles)]
    _check_free(home, found, spaces, half)
    ids = counter(home)
    halves: Sequence[str | None] = ("A", "B") if typed.halves == 2 and half is None else (half,)
    breakers = home.breakers
    made = []
    for one in halves:
        poles = tuple(Pole.model_validate({"space": number, "half": one}) for number in spaces)
        breaker = Breaker(
            id=ids.new(),
            panel=panel,
            poles=poles,
            amps=typed.amps,
            device="fuse" if typed.fuse else "breaker",
            as_found=typed.label,
        )
        breakers = breakers.put(breaker)
        made.append(breaker.id)
    home = change(home, breakers=breakers, next_id=ids.next_id)
    return Edited(home, f"Put {_size(typed)} in space {found.prefix}{space}", tuple(made))


def _size(typed: Typed) -> str:
    what = "fuse" if typed.fuse else "breaker"
    return f"a {typed.amps} A {what}" if typed.amps else f"a {what}"


def _stride(panel: Panel) -> int:
    return 2 if panel.numbering == "odd left, even right" else 1


def _check_free(home: Home, panel: Panel, spaces: Iterable[int], half: str | None) -> None:
    wanted = {"A", "B"} if half is None else {half}
    for space in spaces:
        if not 1 <= space <= panel.spaces:
            raise Refused(f"{panel.name} has no space {space}: it ends at {panel.spaces}.")
        for breaker in breakers_of(home, panel.id):
            for pole in breaker.poles:
                if pole.space == space and wanted & ({"A", "B"} if pole.half is None else {pole.half}):
                    raise Refused(f"Space {panel.prefix}{space} is taken. Remove the breaker there first.")


def set_breaker(home: Home, breaker: int, **fields: object) -> Edited:
    """Change fields of a breaker: amps, device, old label, wording, how it was found, what it opens."""
    found = home.breakers[breaker]
    panel = home.panels[found.panel]
    says = f"Edit breaker {panel.prefix}{found.poles[0].space}{found.poles[0].half or ''}"
    return Edited(change(home, breakers=home.breakers.put(change(found, **fields))), says)


def retype_breaker(home: Home, breaker: int, typed: Typed) -> Edited:
    """Change a breaker to what was typed over it. Raises `Refused` if it would need spaces that are taken."""
    found = home.breakers[breaker]
    panel = home.panels[found.panel]
    first = found.poles[0]
    poles = found.poles
    if typed.poles != len(poles):
        others = change(home, breakers=home.breakers.without([breaker]))
        spaces = [first.space + at * _stride(panel) for at in range(typed.poles)]
        _check_free(others, panel, spaces, first.half)
        poles = tuple(Pole.model_validate({"space": number, "half": first.half}) for number in spaces)
    device = "fuse" if typed.fuse else "breaker"
    return set_breaker(home, breaker, poles=poles, amps=typed.amps, device=device, as_found=typed.label)


def tie_handles(home: Home, breakers: Iterable[int], made: str = "not sure") -> Edited:
    """Say that the handles of breakers of one panel are tied together. Raises `Refused` for fewer than two."""
    found = [home.breakers[breaker] for breaker in dict.fromkeys(breakers) if breaker in home.breakers]
    if len(found) < 2 or len({breaker.panel for breaker in found}) > 1:
        raise Refused("Choose two or more breakers of one panel to tie their handles.")
    ids = counter(home)
    tie = Tie.model_validate({"group": ids.new(), "made": made})
    table = home.breakers
    for breaker in found:
        table = table.put(change(breaker, tie=tie))
    return Edited(change(home, breakers=table, next_id=ids.next_id), f"Tie {counted(len(found), 'handle')}")


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
