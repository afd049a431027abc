"""Wild panels and breakers: tandems, fuses, ties, shared neutrals, panels on panels."""

from collections.abc import Iterator, Sequence

from hypothesis import strategies as st

from tests.homes_wild_words import Draw, Fields, Ids, maybe, names, newer, notes, some

SYSTEMS = ("split-phase 120/240", "three-phase 208Y/120", "single-phase 230", "not known")
NUMBERINGS = ("odd left, even right", "down one side, then the other", "single row", "row by row")
PREFIXES = ("", "G", "SUB")
STEPS: dict[str, tuple[tuple[int, str | None], ...]] = {
    "blank": (),
    "single": ((0, None),),
    "half": ((0, "B"),),
    "two poles": ((0, None), (2, None)),
    "three poles": ((0, None), (2, None), (4, None)),
}
"""What can stand in a space: each pole's distance from it, and its half."""

SIZES = st.sampled_from(("14", "12 AWG", "#10", "8 awg", "2.5 mm²"))
METALS = st.sampled_from(("copper", "aluminium", "copper-clad aluminium", "not known"))
Spaces = list[tuple[int, str | None]]


def draw_panels(
    draw: Draw, ids: Ids, sources: Sequence[int], levels: Sequence[int], shown: Sequence[str]
) -> tuple[list[Fields], list[Fields]]:
    """Draw up to three panels and what is in them; a later one may hang on a breaker of an earlier one."""
    panels: list[Fields] = []
    breakers: list[Fields] = []
    for prefix in PREFIXES[: draw(st.integers(0, 3))]:
        feeders = [{"kind": "source", "source": source} for source in sources]
        feeders += [{"kind": "breaker", "breaker": breaker["id"], "pole": None} for breaker in breakers]
        panel = _panel(draw, ids, prefix, levels, shown) | {"fed_by": tuple(some(draw, feeders))}
        panels.append(panel)
        breakers += _breakers(draw, ids, panel)
    return panels, breakers


def _panel(draw: Draw, ids: Ids, prefix: str, levels: Sequence[int], shown: Sequence[str]) -> Fields:
    mains = [{"id": next(ids), "name": draw(names), "amps": draw(st.sampled_from((None, 63, 100)))} for _ in range(2)]
    return {
        "id": next(ids),
        "name": draw(names),
        "prefix": prefix,
        "place": draw(names),
        "level": maybe(draw, levels),
        "at": draw(st.sampled_from((None, (0, 0), (-1200, 340)))),
        "angle": draw(st.integers(0, 359)),
        "spaces": draw(st.integers(1, 8)),
        "numbering": draw(st.sampled_from(NUMBERINGS)),
        "rows": draw(st.sampled_from(((), (3,), (2, 3), (1, 1, 9)))),
        "system": draw(st.sampled_from(SYSTEMS)),
        "mains": tuple(mains[: draw(st.integers(0, 2))]),
        "changes_over": draw(st.sampled_from(("none", "by hand", "by itself", "not known"))),
        "photo": draw(st.sampled_from(("", *shown))),
        "photo_fit": draw(st.sampled_from(PHOTO_FITS)),
        "note": draw(notes),
        **newer(draw),
    }


PHOTO_FITS: tuple[Fields, ...] = (
    {},
    {"pixels": (400, 300), "corners": ((10, 10), (390, 20), (380, 290), (0, 280))},
    {"pixels": (400, 300), "corners": ((0, 0),) * 4, "tags": ({"space": 1, "half": "A", "at": (-10, 5000)},)},
)


def _breakers(draw: Draw, ids: Ids, panel: Fields) -> Iterator[Fields]:
    group, before = next(ids), list[int]()
    for taken in _taken(draw, panel["spaces"]):
        made = _breaker(draw, ids, panel["id"], taken, group) | {"behind": maybe(draw, before)}
        before.append(made["id"])
        yield made


def _taken(draw: Draw, spaces: int) -> list[Spaces]:
    """Draw what stands in a panel of so many spaces, no half space taken twice."""
    full: set[int] = set()
    found: list[Spaces] = []
    for space in range(1, spaces + 1):
        if space in full:
            continue
        kind = draw(st.sampled_from((*STEPS, "tandem")))
        if kind == "tandem":
            found += [[(space, "A")], [(space, "B")]]
            continue
        wanted: Spaces = [(space + step, half) for step, half in STEPS[kind]]
        if wanted and all(place <= spaces and place not in full for place, _ in wanted):
            full.update(place for place, _ in wanted)
            found.append(wanted)
    return found


def _breaker(draw: Draw, ids: Ids, panel: int, taken: Spaces, group: int) -> Fields:
    neutrals = st.sampled_from(("own", "not known", group))
    legs = st.sampled_from((None, None, "A", "B"))
    poles = tuple({"space": space, "half": half, "neutral": draw(neutrals), "leg": draw(legs)} for space, half in taken)
    return {
        "id": next(ids),
        "panel": panel,
        "poles": poles,
        "amps": draw(st.sampled_from((None, 6, 15, 20, 30, 40))),
        "device": draw(st.sampled_from(("breaker", "breaker", "fuse"))),
        "opens": draw(st.sampled_from(("hot", "hot and neutral", "both hots", "not known"))),
        "protects": tuple(some(draw, ("ground fault", "arc fault", "residual current", "surge"))),
        "tie": draw(st.sampled_from((None, None, *_ties(group)))),
        "found": {"state": draw(st.sampled_from(("on", "off", "tripped", "not recorded"))), "why": draw(names)},
        "may_open": {"may": draw(st.sampled_from(("yes", "ask", "never"))), "whose": draw(names), "why": draw(names)},
        "as_found": draw(names),
        "wording": draw(names),
        "conductor": {"size": draw(st.one_of(names, SIZES)), "metal": draw(METALS)},
        "note": draw(notes),
        **newer(draw),
    }


def _ties(group: int) -> list[Fields]:
    return [{"group": group, "made": made} for made in ("by the factory", "makeshift", "not sure")]
