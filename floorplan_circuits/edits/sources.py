"""Edits of sources: what gives power besides breakers, where it comes in, how it starts, where it is stopped."""

from collections.abc import Iterable
from typing import Literal, cast, get_args

from floorplan_circuits.edits.edited import Edited, Refused, edit, only, there
from floorplan_circuits.edits.numbering import counter
from floorplan_circuits.home.home import Home, feeds
from floorplan_circuits.home.power import Panel, Source, Starts
from floorplan_circuits.home.record import change

Kind = Literal["utility", "generator", "solar", "battery", "elsewhere"]
KINDS: tuple[Kind, ...] = get_args(Kind)
OF_A_SOURCE = frozenset({"name", "kind", "starts", "disconnect", "note", "into"})
STARTS_OF: dict[Kind, Starts] = {"utility": "always", "elsewhere": "always"}
"""How a source starts by its kind alone. Of the others nobody knows until somebody says so."""


@edit
def add_source(home: Home, kind: str, into: Iterable[int], name: str = "") -> Edited:
    """Add a source that comes in at panels, breakers or feeds.

    A panel that hung on nothing stated keeps its unnamed supply: it is named 'Utility' beside the new source, so that
    naming one source never makes another go. Raises `Refused` for what is gone.
    """
    if kind not in KINDS:
        raise Refused(f"A source is one of: {', '.join(KINDS)}.")
    ids = counter(home)
    called = name or _next_name(home, kind)
    starts = STARTS_OF.get(kind, "not known")
    source = Source(id=ids.new(), name=called, kind=kind, into=_targets(home, into), starts=starts)
    after = change(home, sources=home.sources.put(source), next_id=ids.next_id)
    return Edited(_still_supplied(home, after), f"Add {called}", (source.id,))


def _next_name(home: Home, kind: Kind) -> str:
    taken = {source.name for source in home.sources}
    names = (kind.capitalize(), *(f"{kind.capitalize()} {number}" for number in range(2, len(home.sources) + 3)))
    return next(name for name in names if name not in taken)


def _targets(home: Home, into: Iterable[int]) -> tuple[int, ...]:
    known = {*home.panels.ids(), *home.breakers.ids(), *(place.feed.id for place in feeds(home))}
    found = tuple(dict.fromkeys(into))
    if not known.issuperset(found):
        raise Refused("What the source is to reach is not there any more.")
    return found


@edit
def set_source(home: Home, source: int, **fields: object) -> Edited:
    """Change fields of a source: name, kind, how it starts, where its disconnect is, what it comes in at."""
    only(fields, OF_A_SOURCE)
    found = there(home.sources, source, "source")
    if "into" in fields:
        fields["into"] = _targets(home, cast("Iterable[int]", fields["into"]))
    after = change(home, sources=home.sources.put(change(found, **fields)))
    return Edited(_still_supplied(home, after), f"Edit {found.name}")


def _still_supplied(before: Home, after: Home) -> Home:
    """Return the home in which each panel that had an unnamed supply, and has a named one now, has the utility too.

    Off the grid there is none: then it is taken out again, which is for the person to say.
    """
    joined = [panel for panel in after.panels if not _is_stated(before, panel) and _is_stated(after, panel)]
    lacking = tuple(panel.id for panel in joined if not _from_utility(after, panel))
    if not lacking:
        return after
    utility = next((source for source in after.sources if source.kind == "utility"), None)
    ids = counter(after)
    if utility is None:
        utility = Source(id=ids.new(), name=_next_name(after, "utility"), kind="utility", starts="always")
    utility = change(utility, into=(*utility.into, *lacking))
    return change(after, sources=after.sources.put(utility), next_id=ids.next_id)


def _is_stated(home: Home, panel: Panel) -> bool:
    known = home.panels.get(panel.id)
    return known is None or bool(known.fed_by) or any(panel.id in source.into for source in home.sources)


def _from_utility(home: Home, panel: Panel) -> bool:
    return any(panel.id in source.into and source.kind == "utility" for source in home.sources)
