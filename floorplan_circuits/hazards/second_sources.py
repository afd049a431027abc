"""Second sources: a panel with several supplies, sources that feed into a breaker or a feed, or nobody knows where."""

from collections.abc import Iterator
from typing import NamedTuple

from floorplan_circuits.findings import Hazard
from floorplan_circuits.hazards.phrases import listed, place_of, thing_called
from floorplan_circuits.hazards.ranks import SECOND_CIRCUIT
from floorplan_circuits.hazards.scene import LIVE, Scene
from floorplan_circuits.home.boxes import FromBreaker
from floorplan_circuits.home.power import Panel, Source
from floorplan_circuits.supply.edges import adrift

WHY = "With every handle off, a second source can still make it live."
SOURCE = (
    "Common practice, no source; NEC 705.10 and 702.7 ask for a plaque or directory that tells where the disconnects "
    "of all sources are (cited from memory: see the edition in force). Local code governs."
)
CHANGES = {
    "by hand": " It changes over between them by hand.",
    "by itself": " It changes over between them by itself.",
    "not known": " Nobody knows how it changes over between them.",
    "none": "",
}
STOPS = ("always", "by hand")
"""What starts as it says: a source that starts by itself, or nobody knows how, may come on at any time."""


class _Supplies(NamedTuple):
    """What feeds a panel: breakers, tied ones as one, and sources."""

    breakers: tuple[int, ...]
    sources: tuple[Source, ...]


def second_sources(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each panel that several supplies feed, of each source into a breaker or feed, or adrift."""
    for panel in scene.home.panels:
        supplies = _supplies(panel, scene)
        if len(supplies.breakers) + len(supplies.sources) > 1:
            yield _panel(panel, supplies, scene)
    yield from (_adrift(source, scene) for source in adrift(scene.home))
    for source in scene.home.sources:
        for target in source.into:
            if target in scene.home.breakers:
                yield _into_breaker(source, target, scene)
            elif target in scene.feeds and scene.feeds[target].box.id in scene.boxes:
                yield _into_feed(source, target, scene)


def _supplies(panel: Panel, scene: Scene) -> _Supplies:
    feeders = [one.breaker for one in panel.fed_by if isinstance(one, FromBreaker)]
    handles: list[int] = []
    for breaker in feeders:
        if breaker in scene.home.breakers and breaker not in scene.moved_by(handles):
            handles.append(breaker)
    stated = [one.source for one in panel.fed_by if not isinstance(one, FromBreaker)]
    into = [source.id for source in scene.home.sources if panel.id in source.into]
    there = (scene.home.sources.get(one) for one in dict.fromkeys((*stated, *into)))
    return _Supplies(tuple(handles), tuple(one for one in there if one is not None))


def _panel(panel: Panel, supplies: _Supplies, scene: Scene) -> Hazard:
    each = [f"breaker {scene.mark(one)}" for one in supplies.breakers] + [_called(one) for one in supplies.sources]
    name = scene.panel_name(panel.id)
    return scene.at_panel(
        "more than one supply",
        name,
        f"{name}: {listed(each)} feed it.{CHANGES[panel.changes_over]}",
        WHY,
        _do(supplies.sources),
        SOURCE,
        SECOND_CIRCUIT,
        breakers=supplies.breakers,
        about=(panel.id, *(one.id for one in supplies.sources)),
    )


def _adrift(source: Source, scene: Scene) -> Hazard:
    return scene.at_panel(
        "second source",
        source.name.strip() or source.kind,
        f"Nobody said where {_called(source)} comes in.",
        "It may make anything live, whatever is off.",
        f"{LIVE} Find out where it comes in, and say so.",
        SOURCE,
        SECOND_CIRCUIT,
        about=[source.id],
    )


def _into_breaker(source: Source, breaker: int, scene: Scene) -> Hazard:
    mark = scene.mark(breaker)
    return scene.at_panel(
        "second source",
        mark,
        f"{scene.panel_of([breaker])}: {_called(source)} feeds into circuit {mark}.",
        WHY,
        _do((source,)),
        SOURCE,
        SECOND_CIRCUIT,
        breakers=[breaker],
        about=[source.id],
    )


def _into_feed(source: Source, feed: int, scene: Scene) -> Hazard:
    place = scene.feeds[feed]
    breakers = scene.breakers_of([feed])
    return scene.in_box(
        "second source",
        place.box.id,
        f"{place_of(scene.boxes[place.box.id])}: {_called(source)} feeds into {thing_called(place)}.",
        WHY,
        _do((source,)),
        SOURCE,
        SECOND_CIRCUIT,
        breakers=breakers,
        about=[feed, source.id],
    )


def _called(source: Source) -> str:
    name = source.name.strip()
    return f"the source {name} ({source.kind})" if name else f"a source without a name ({source.kind})"


def _do(sources: tuple[Source, ...]) -> str:
    """Return what to do: other disconnects than the main count only where somebody recorded all of them."""
    besides = [one for one in sources if one.kind != "utility"]
    if not besides or any(one.starts not in STOPS or not one.disconnect.strip() for one in besides):
        return LIVE
    return f"Turn off its own disconnect too ({listed([one.disconnect for one in besides])}), then test every wire."
