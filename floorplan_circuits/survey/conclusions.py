"""What is known of every feed: its standing, computed from statements and the log, never stored."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from floorplan_circuits.findings import Conclusion, Standing
from floorplan_circuits.home.boxes import Behind, Disconnected, NotKnown, Supplied
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds, feeds
from floorplan_circuits.supply.graph import SupplyGraph
from floorplan_circuits.supply.handles import moves_together
from floorplan_circuits.supply.reach import closed_off, nearest_breakers
from floorplan_circuits.survey.log_book import LogBook, Seen
from floorplan_circuits.survey.proof import Proof, proofs

SAID_BY = {"label": "a label says", "person": "a person says", "not said": "stated, nobody says by whom"}


@dataclass(frozen=True, slots=True)
class Stated:
    """What the map says of one feed, chains of 'behind' followed: breakers, and other supplies in words."""

    breakers: tuple[int, ...]
    others: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Evidence:
    """What all conclusions of one home are drawn from."""

    home: Home
    record: LogBook
    together: Mapping[int, frozenset[int]]
    stated: Mapping[int, Stated]
    place_of: Mapping[int, FeedPlace]
    denied: Mapping[int, Seen]
    """Feed -> a live reading taken while everything stated to supply it was off."""


def conclusions(home: Home, graph: SupplyGraph, record: LogBook) -> dict[int, Conclusion]:
    """Return what is known of each existing feed."""
    evidence = _evidence(home, graph, record)
    return {place.feed.id: _conclude(place, evidence) for place in existing_feeds(home)}


def _evidence(home: Home, graph: SupplyGraph, record: LogBook) -> Evidence:
    stated = {feed: Stated(*found) for feed, found in nearest_breakers(home).items()}
    return Evidence(
        home=home,
        record=record,
        together=moves_together(home),
        stated=stated,
        place_of={place.feed.id: place for place in feeds(home)},
        denied=dict(_live_though_closed_off(graph, record)),
    )


def _live_though_closed_off(graph: SupplyGraph, record: LogBook) -> Iterator[tuple[int, Seen]]:
    by_round: dict[int, list[Seen]] = {}
    for seen in record.readings.values():
        for one in seen:
            if one.reading.says == "live" and one.round.off:
                by_round.setdefault(one.place, []).append(one)
    for live in by_round.values():
        shut = closed_off(graph, frozenset(live[0].round.off))
        yield from ((one.reading.feed, one) for one in live if one.reading.feed in shut)


def _conclude(place: FeedPlace, evidence: Evidence) -> Conclusion:
    named = evidence.record.named_by_unknown
    if named and not named.isdisjoint(_ids_of(place, evidence)):
        return _conclusion(place, "unknown", says="a newer program's entry names it")
    lapsed = _last_change(place, evidence)
    found = proofs(place, evidence.home, evidence.record, evidence.together)
    fresh = [proof for proof in found if proof.since > lapsed]
    if conflict := _conflict(place, evidence, fresh, lapsed):
        return conflict
    if fresh and not _is_loop(place):
        return _proved(place, evidence, fresh[-1])
    if found and not _is_loop(place):
        stated = _stated(place, evidence)
        says = "tested before a change"
        return _conclusion(place, "expired", stated.breakers or tuple(found[-1].handle), stated.others, says)
    return _traced(place, evidence, lapsed) or _as_stated(place, evidence)


def _conclusion(
    place: FeedPlace,
    standing: Standing,
    breakers: tuple[int, ...] = (),
    others: tuple[str, ...] = (),
    says: str = "",
    date: str = "",
    besides: tuple[int, ...] = (),
) -> Conclusion:
    device = None if place.device is None else place.device.id
    return Conclusion(place.feed.id, place.box.id, device, standing, breakers, others, says, date, besides)


def _ids_of(place: FeedPlace, evidence: Evidence) -> set[int]:
    device = () if place.device is None else (place.device.id,)
    breakers = _stated(place, evidence).breakers
    panels = (evidence.home.breakers[breaker].panel for breaker in breakers if breaker in evidence.home.breakers)
    return {place.feed.id, place.box.id, *device, *breakers, *panels}


def _stated(place: FeedPlace, evidence: Evidence) -> Stated:
    return evidence.stated.get(place.feed.id, Stated((), ()))


def _is_loop(place: FeedPlace) -> bool:
    """Tell whether any one of several supplies keeps it live: that is never proved."""
    on = place.feed.on
    return isinstance(on, Supplied) and on.how == "any" and len(on.supplies) > 1


# --- changes --------------------------------------------------------------------------------------------------------


def _last_change(place: FeedPlace, evidence: Evidence) -> int:
    """Return the place in the log of the last change that touches the feed: its box, what it is behind, its panels."""
    record = evidence.record
    if not record.changed_boxes and not record.changed_panels:
        return -1
    boxes = [record.changed_boxes.get(box, -1) for box in _boxes_above(place, evidence)]
    panels = [record.changed_panels.get(panel, -1) for panel in _panels_above(place, evidence)]
    return max(*boxes, *panels, -1, -1)


def _boxes_above(place: FeedPlace, evidence: Evidence) -> set[int]:
    boxes, at = {place.box.id}, place.feed.on
    seen = {place.feed.id}
    while isinstance(at, Behind) and at.feed not in seen and at.feed in evidence.place_of:
        seen.add(at.feed)
        above = evidence.place_of[at.feed]
        boxes.add(above.box.id)
        at = above.feed.on
    return boxes


def _panels_above(place: FeedPlace, evidence: Evidence) -> set[int]:
    """Return the panels of the stated breakers and all panels that feed those."""
    home, todo, seen = evidence.home, list(_stated(place, evidence).breakers), set[int]()
    for proof in proofs(place, home, evidence.record, evidence.together):
        todo.extend(proof.handle)
    while todo:
        breaker = home.breakers.get(todo.pop())
        panel = None if breaker is None else home.panels.get(breaker.panel)
        if panel is not None and panel.id not in seen:
            seen.add(panel.id)
            todo.extend(feeder.breaker for feeder in panel.fed_by if feeder.kind == "breaker")
    return seen


# --- standings ------------------------------------------------------------------------------------------------------


def _conflict(place: FeedPlace, evidence: Evidence, fresh: list[Proof], lapsed: int) -> Conclusion | None:
    """Return `contradicted` where a strong live denies the stated or proved handle, or two tests disagree."""
    stated = _stated(place, evidence)
    denied = evidence.denied.get(place.feed.id)
    if denied is None or denied.place <= lapsed or not denied.strong:
        denied = _live_with_handle_off(place, evidence, fresh, lapsed)
    if denied is not None and denied.strong:
        says = "found live with its breaker off: it may have a second supply, or the breaker does not open"
        return _conclusion(place, "contradicted", stated.breakers, stated.others, says, denied.round.date[:10])
    if fresh and any(proof.handle != fresh[-1].handle for proof in fresh):
        handles = tuple(sorted({breaker for proof in fresh for breaker in proof.handle}))
        return _conclusion(place, "contradicted", handles, (), "tests found it on two different breakers")
    if fresh and stated.breakers and not set(stated.breakers) <= fresh[-1].handle:
        both = tuple(sorted({*stated.breakers, *fresh[-1].handle}))
        says = "stated on one breaker, but a test found it on another: repeat the test with each alone"
        return _conclusion(place, "contradicted", both, stated.others, says, fresh[-1].date)
    return None


def _live_with_handle_off(place: FeedPlace, evidence: Evidence, fresh: list[Proof], lapsed: int) -> Seen | None:
    if not fresh:
        return None
    for one in evidence.record.readings.get(place.feed.id, ()):
        if one.place > lapsed and one.reading.says == "live" and one.strong and fresh[-1].handle <= {*one.round.off}:
            return one
    return None


def _weak_doubt(place: FeedPlace, evidence: Evidence, proof: Proof) -> bool:
    """Tell whether a weak witness read live with the proved handle off, later than the proof."""
    later = (one for one in evidence.record.readings.get(place.feed.id, ()) if one.place > proof.place)
    return any(one.reading.says == "live" and proof.handle <= {*one.round.off} for one in later)


def _proved(place: FeedPlace, evidence: Evidence, proof: Proof) -> Conclusion:
    stated = _stated(place, evidence)
    breakers = stated.breakers or tuple(sorted(proof.handle))
    if _weak_doubt(place, evidence, proof):
        says = "tested once, but a weak tester found it live since: test again"
        return _conclusion(place, "claimed", breakers, stated.others, says)
    if stated.others:
        says = "tested on its breaker, but it has another supply beside it"
        return _conclusion(place, "claimed", breakers, stated.others, says)
    return _conclusion(place, "proved", breakers, (), "tested", proof.date, tuple(sorted(proof.besides)))


def _traced(place: FeedPlace, evidence: Evidence, lapsed: int) -> Conclusion | None:
    at, trace = evidence.record.traces.get(place.feed.id, (-1, None))
    stated = _stated(place, evidence)
    if trace is None or at <= lapsed or stated.others or not {*stated.breakers} <= {trace.handle}:
        return None
    if trace.handle not in evidence.home.breakers:
        return None  # an entry about something gone concludes nothing
    return _conclusion(place, "traced", (trace.handle,), (), "a tracer points to it", trace.date[:10])


def _as_stated(place: FeedPlace, evidence: Evidence) -> Conclusion:
    stated, on = _stated(place, evidence), place.feed.on
    if isinstance(on, Disconnected) and on.seen_by:
        return _conclusion(place, "claimed", says=f"{on.seen_by} says it is connected to nothing", date=on.date[:10])
    if isinstance(on, NotKnown | Disconnected) or not (stated.breakers or stated.others):
        return _conclusion(place, "unknown", says="nobody knows")
    return _conclusion(place, "claimed", stated.breakers, stated.others, SAID_BY[place.feed.said_by])
