"""What all conclusions are drawn from: the evidence of one home, and of it the case of one feed."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from floorplan_circuits.home.boxes import FromBreaker
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds, mains
from floorplan_circuits.home.log import Traced
from floorplan_circuits.home.power import Source
from floorplan_circuits.supply.edges import adrift
from floorplan_circuits.supply.graph import ALWAYS_LIVE, SupplyGraph
from floorplan_circuits.supply.handles import opened
from floorplan_circuits.supply.walks import Node, walk
from floorplan_circuits.survey.log_book import LogBook, Seen
from floorplan_circuits.survey.proof import Bench, Proof, proofs
from floorplan_circuits.survey.statements import Stated, breakers_above
from floorplan_circuits.survey.switch_groups import SwitchGroups


@dataclass(frozen=True, slots=True)
class Evidence:
    """What all conclusions of one home are drawn from.

    `above`: breaker -> all breakers between it and the sources. `feeders`: those above any other. `handles`: every
    breaker and main that is there. `groups`: what switches work together.
    `adrift`: sources of which nobody said where they come in. `lent`: breaker -> the feeds that return by its neutral.
    """

    home: Home
    graph: SupplyGraph
    record: LogBook
    bench: Bench
    above: Mapping[int, frozenset[int]]
    feeders: frozenset[int]
    handles: frozenset[int]
    groups: SwitchGroups
    adrift: tuple[Source, ...]
    lent: Mapping[int, tuple[int, ...]]
    _live: dict[tuple[tuple[Node, ...], frozenset[int]], bool] = field(default_factory=dict)

    @classmethod
    def of(cls, home: Home, graph: SupplyGraph, record: LogBook) -> "Evidence":
        """Gather it."""
        above = breakers_above(home)
        feeders = frozenset[int]().union(*above.values())
        handles = frozenset((*home.breakers.ids(), *(main.id for _, main in mains(home))))
        bench, groups = Bench.of(home, record), SwitchGroups.of(home)
        return cls(home, graph, record, bench, above, feeders, handles, groups, adrift(home), _lent(home))

    def is_live(self, node: Node, off: frozenset[int]) -> bool:
        """Tell whether a stated supply reaches the load side of a breaker, or a feed, while these handles are off."""
        key = self.graph.supplies.get(node, ()), off
        if key not in self._live:
            ways = walk(self.graph.supplies, key[0], opened(off))
            self._live[key] = any(giver[0] in ALWAYS_LIVE for giver in ways)
        return self._live[key]

    def is_above(self, handle: Iterable[int], breakers: Iterable[int]) -> bool:
        """Tell whether the handle opens what supplies all these breakers, and is none of them."""
        moved, below = frozenset(handle), frozenset(breakers)
        return bool(below) and not moved & below and all(moved & self.above.get(one, frozenset()) for one in below)


def _lent(home: Home) -> dict[int, tuple[int, ...]]:
    found: dict[int, tuple[int, ...]] = {}
    for place in existing_feeds(home):
        if isinstance(place.feed.returns, FromBreaker):
            lender = place.feed.returns.breaker
            found[lender] = (*found.get(lender, ()), place.feed.id)
    return found


@dataclass(frozen=True, slots=True)
class Case:
    """What there is to say of one feed.

    `found` are all its proofs, `fresh` those later than the last change and nearest to it: of a feeder and the breaker
    below it, both tested, the breaker. `traces` are later than the change too. `lapsed` is the change's place, or -1;
    `box_changed` that of the last change of its box and of the boxes it is behind, whatever became of the panels.
    """

    place: FeedPlace
    stated: Stated
    seen: tuple[Seen, ...]
    found: tuple[Proof, ...]
    fresh: tuple[Proof, ...]
    traces: tuple[Traced, ...]
    lapsed: int
    box_changed: int

    @property
    def handles(self) -> frozenset[int]:
        """Every breaker that its proofs name."""
        return frozenset(breaker for proof in self.found for breaker in proof.handle)

    @property
    def named(self) -> tuple[int, ...]:
        """Every breaker that the map, a proof or a trace names, each once; one that is gone may be among the traced."""
        traced = (trace.handle for trace in self.traces)
        return tuple(dict.fromkeys((*self.stated.breakers, *sorted(self.handles), *traced)))

    @property
    def current(self) -> tuple[Seen, ...]:
        """Its readings since the last change."""
        return tuple(one for one in self.seen if one.place > self.lapsed)


def case_of(place: FeedPlace, stated: Stated, evidence: Evidence) -> Case:
    """Return the case of one feed."""
    record = evidence.record
    seen = tuple(record.readings.get(place.feed.id, ()))
    traced = record.traces.get(place.feed.id, [])
    found = tuple(proofs(place, stated, evidence.bench)) if seen else ()
    named = {*stated.breakers, *(one for proof in found for one in proof.handle), *(one.handle for _, one in traced)}
    box_changed = last_box_change(stated, evidence)
    lapsed = max(box_changed, last_panel_change(named, evidence))
    fresh = tuple(proof for proof in found if proof.since > lapsed)
    traces = tuple(entry for at, entry in traced if at > lapsed and points(entry))
    return Case(place, stated, seen, found, tuple(_nearest(fresh, stated, evidence)), traces, lapsed, box_changed)


def points(trace: Traced) -> bool:
    """Tell whether a trace points to its handle: in its first pass a tracer only learns how strong it gets.

    A cable that was followed by eye points, too. What a newer program added may say otherwise.
    """
    return not trace.extras() and (trace.way == "followed by eye" or trace.passes > 1)


def _nearest(fresh: tuple[Proof, ...], stated: Stated, evidence: Evidence) -> Iterator[Proof]:
    """Yield the proofs whose handle stands above neither another proof's nor what is stated.

    That everything behind a feeder is dead with the feeder off says nothing of the breaker in between.
    """
    for proof in fresh:
        below = [other.handle for other in fresh] + [stated.breakers]
        if not any(evidence.is_above(proof.handle, handle) for handle in below):
            yield proof


# --- changes --------------------------------------------------------------------------------------------------------


def last_box_change(stated: Stated, evidence: Evidence) -> int:
    """Return the place in the log of the last change of the feed's box and of the boxes of all it is behind, or -1."""
    record = evidence.record
    boxes = (record.changed_boxes.get(above.box.id, -1) for above in stated.chain)
    return max(record.changed_anything, *boxes)


def last_panel_change(breakers: Iterable[int], evidence: Evidence) -> int:
    """Return the place in the log of the last work on these breakers' panels and those that feed them, or -1."""
    return max((evidence.record.panel_change(panel) for panel in panels_above(breakers, evidence)), default=-1)


def panels_above(breakers: Iterable[int], evidence: Evidence) -> frozenset[int]:
    """Return the panels that these breakers stand in, and all that feed those."""
    known = evidence.home.breakers
    every = {higher for breaker in breakers for higher in (breaker, *evidence.above.get(breaker, ()))}
    return frozenset(known[breaker].panel for breaker in every if breaker in known)
