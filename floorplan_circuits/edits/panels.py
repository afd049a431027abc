"""Edits of panels: set one up as it really is, with its mains, and say what feeds it."""

from collections.abc import Iterator
from itertools import product

from floorplan_circuits.edits.edited import Edited, Refused, edit, only, sound, there
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.home.boxes import FromBreaker
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.integrity import not_fed_by_itself, panels_told_apart, spaces_told_apart
from floorplan_circuits.home.power import Breaker, Main, Numbering, Panel, System
from floorplan_circuits.home.record import Point, change
from floorplan_circuits.home.trade_words import words_on

MOST_SPACES, MOST_MAINS = 200, 6
OTHER_LETTERS = "CDEFGHJKLMNPQRSTUVWXYZ"
"""Letters for further panels. A is left out, since 15A is half of a space, B, since boxes are marked B1, B2 and so on,
and I and O, which read as figures."""
OF_A_PANEL = frozenset(
    {
        "name",
        "prefix",
        "place",
        "numbering",
        "system",
        "spaces",
        "rows",
        "called",
        "level",
        "at",
        "angle",
        "changes_over",
        "note",
    }
)


@edit
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
    _checked(spaces)
    if level is not None:
        there(home.levels, level, "level")
    ids = counter(home)
    panel = Panel(
        id=ids.new(),
        name=name or _next_name(home, system if system != "not known" else home.system),
        prefix=_next_prefix(home, name),
        spaces=spaces,
        numbering=numbering,
        system=system,
        mains=(Main(id=ids.new(), amps=main_amps),),
        fed_by=() if fed_by is None else (_feeder(home, fed_by),),
        level=level,
        at=at,
        angle=angle % 360,
    )
    home = change(home, panels=home.panels.put(panel), next_id=ids.next_id)
    return Edited(home, f"Add {panel.name}", (panel.id,))


def _checked(spaces: object) -> None:
    if not (isinstance(spaces, int) and 1 <= spaces <= MOST_SPACES):
        raise Refused(f"A panel has between 1 and {MOST_SPACES} spaces.")


def _feeder(home: Home, breaker: int) -> FromBreaker:
    return FromBreaker(kind="breaker", breaker=there(home.breakers, breaker, "breaker").id)


def _next_name(home: Home, system: System) -> str:
    taken = {panel.name for panel in home.panels}
    names = (words_on(system).panel, *(f"Panel {number}" for number in range(2, len(home.panels) + 3)))
    return next(name for name in names if name not in taken)


def _next_prefix(home: Home, name: str) -> str:
    """Return free letters for a further panel: its own first letter if it can be. Raises `Refused` past the last."""
    taken = {panel.prefix for panel in home.panels}
    own = [name[:1].upper()] if name[:1].upper() in OTHER_LETTERS else []
    free = (letters for letters in ("", *own, *_letters()) if letters not in taken)
    found = next(free, None) if taken else ""
    if found is None:
        raise Refused("There are no letters left to tell another panel apart.")
    return found


def _letters() -> Iterator[str]:
    for length in (1, 2, 3):
        yield from ("".join(letters) for letters in product(OTHER_LETTERS, repeat=length))


@edit
def set_panel(home: Home, panel: int, **fields: object) -> Edited:
    """Change fields of a panel: name, prefix, place, numbering, system, spaces, its place on the plan, how it changes.

    Raises `Refused` for letters that another panel has, and for fewer spaces than its breakers take.
    """
    only(fields, OF_A_PANEL)
    found = there(home.panels, panel, "panel")
    if "spaces" in fields:
        _checked(fields["spaces"])
    if isinstance(fields.get("level"), int):
        there(home.levels, fields["level"], "level")  # type: ignore[arg-type]  # it was just told to be a whole number
    changed = change(found, **fields)
    last = max((pole.space for breaker in breakers_of(home, panel) for pole in breaker.poles), default=0)
    if changed.spaces < min(last, found.spaces):
        raise Refused(f"A breaker is in space {last}: move it before the panel gets fewer spaces.")
    after = change(home, panels=home.panels.put(changed))
    return Edited(sound(home, after, panels_told_apart, spaces_told_apart), f"Edit {found.name}")


@edit
def feed_panel(home: Home, panel: int, *breakers: int | None) -> Edited:
    """Say which breakers feed a panel, or that nobody knows. Raises `Refused` where it would feed itself."""
    found = there(home.panels, panel, "panel")
    said = dict.fromkeys(one for one in breakers if one is not None)
    was = {one.breaker: one for one in found.fed_by if isinstance(one, FromBreaker)}
    fed_by = tuple(was.get(one) or _feeder(home, one) for one in said)
    sources = tuple(one for one in found.fed_by if not isinstance(one, FromBreaker))
    after = change(home, panels=home.panels.put(change(found, fed_by=(*fed_by, *sources))))
    return Edited(sound(home, after, not_fed_by_itself), f"Say what feeds {found.name}")


# --- mains ----------------------------------------------------------------------------------------------------------


@edit
def add_main(home: Home, panel: int) -> Edited:
    """Add a main handle to a panel: some have none, some up to six."""
    found = there(home.panels, panel, "panel")
    if len(found.mains) >= MOST_MAINS:
        raise Refused(f"A panel has at most {MOST_MAINS} mains.")
    ids = counter(home)
    main = Main(id=ids.new())
    panels = home.panels.put(change(found, mains=(*found.mains, main)))
    return Edited(change(home, panels=panels, next_id=ids.next_id), f"Add a main to {found.name}", (main.id,))


@edit
def set_main(home: Home, main: int, **fields: object) -> Edited:
    """Change name or amps of a main. Raises `Refused` if it is gone."""
    only(fields, frozenset({"name", "amps"}))
    for panel in home.panels:
        if any(one.id == main for one in panel.mains):
            mains = tuple(change(one, **fields) if one.id == main else one for one in panel.mains)
            return Edited(change(home, panels=home.panels.put(change(panel, mains=mains))), f"Edit {panel.name}")
    raise Refused("That main is not there any more.")


def breakers_of(home: Home, panel: int) -> list[Breaker]:
    """Return the breakers of a panel."""
    return [breaker for breaker in home.breakers if breaker.panel == panel]
