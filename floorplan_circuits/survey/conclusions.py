"""What is known of every feed: its standing, computed from statements and the log, never stored."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from floorplan_circuits.findings import Conclusion, Disagreement, Standing
from floorplan_circuits.home.boxes import Disconnected, NotKnown
from floorplan_circuits.home.home import FeedPlace, Home, existing_feeds
from floorplan_circuits.home.log import STRONG_METHODS
from floorplan_circuits.supply.graph import SupplyGraph
from floorplan_circuits.survey.behind import seen_behind
from floorplan_circuits.survey.cases import Case, Evidence, case_of, panels_above
from floorplan_circuits.survey.conflicts import Conflict, conflict, doubt, is_shut
from floorplan_circuits.survey.disagreements import disagreement
from floorplan_circuits.survey.log_book import LogBook, day
from floorplan_circuits.survey.narrowing import Narrowed, narrowed
from floorplan_circuits.survey.proof import Proof
from floorplan_circuits.survey.shut import Shut
from floorplan_circuits.survey.statements import Stated
from floorplan_circuits.survey.telling import Telling
from floorplan_circuits.survey.troubles import troubles

FEW = 4
"""So many breakers a feed may be narrowed to and all be named; past that the list tells nothing."""
SAID_BY = {"label": "a label says", "person": "a person says", "not said": "stated, nobody says by whom"}


class Known(NamedTuple):
    """What is known of all existing feeds, what readings are at odds, and the feeds that no test ever proved."""

    conclusions: dict[int, Conclusion]
    disagreements: tuple[Disagreement, ...]
    never_proved: tuple[int, ...]


class Concluded(NamedTuple):
    """What is known of one feed, what is at odds about it, and whether a test ever proved it."""

    conclusion: Conclusion
    disagreement: Disagreement | None = None
    ever_proved: bool = False


def conclude(
    home: Home, graph: SupplyGraph, record: LogBook, stated: Mapping[int, Stated], kept: Mapping[int, Concluded]
) -> Known:
    """Return what is known of each existing feed; what is `kept` is not concluded anew.

    Among those that were never proved are the ones of which a test found something else than stated.
    """
    evidence = Evidence.of(home, graph, record)
    shut, tell = Shut.of(evidence), Telling.of(home, record)
    found = {
        place.feed.id: kept.get(place.feed.id) or _concluded(place, stated[place.feed.id], shut, tell)
        for place in existing_feeds(home)
    }
    return Known(
        {feed: one.conclusion for feed, one in found.items()},
        tuple(one.disagreement for one in found.values() if one.disagreement is not None),
        tuple(feed for feed, one in found.items() if not one.ever_proved),
    )


def _concluded(place: FeedPlace, stated: Stated, shut: Shut, tell: Telling) -> Concluded:
    evidence = shut.evidence
    if not (stated.breakers or stated.others or place.feed.id in evidence.record.readings or _busy(place, evidence)):
        return Concluded(replace(_as_stated(place, stated), candidates=shut.order))  # most of what nobody knows
    case = case_of(place, stated, evidence)
    left = narrowed(case, shut)
    clash = conflict(case, left, evidence)
    concluded = _conclude(case, left, clash, evidence)
    standing = concluded.standing
    candidates = concluded.breakers if standing == "proved" else left.left
    trouble = troubles(concluded.breakers, evidence.record) if standing != "contradicted" else ""
    astray = _traced_elsewhere(case, concluded, evidence)
    pointed = f"but a tracer or a followed cable points to {tell.either(astray)}" if astray else ""
    parts = (concluded.says, pointed, _narrowed_to(case, left, standing, tell), trouble)
    return Concluded(
        replace(
            concluded,
            breakers=(*concluded.breakers, *astray),
            candidates=candidates,
            fits=left.fitting,
            behind=seen_behind(case, evidence),
            says="; ".join(part for part in parts if part),
        ),
        disagreement(case, left, clash, tell),
        standing in ("proved", "expired") or (standing == "contradicted" and bool(case.found)),
    )


def _traced_elsewhere(case: Case, concluded: Conclusion, evidence: Evidence) -> tuple[int, ...]:
    """Return the breakers that traces point to beside what it is said to hang on: it may be on any of them.

    A tracer is no proof and denies none; it speaks against a mere claim. On its way it may show at a feeder.
    """
    if concluded.standing not in ("claimed", "suggested", "unknown"):
        return ()
    pointed = dict.fromkeys(trace.handle for trace in case.traces)
    there = (one for one in pointed if one in evidence.above and one not in evidence.feeders)
    return tuple(one for one in there if one not in concluded.breakers)


def _narrowed_to(case: Case, left: Narrowed, standing: Standing, tell: Telling) -> str:
    """Return in words what the readings leave of a feed whose breaker nobody knows, or that speaks against a claim."""
    if standing == "claimed" and left.fitting and left.readings and not {*case.stated.breakers} & {*left.fitting}:
        return (
            f"but tests suggest {tell.either(left.fitting)}"
            if len(left.fitting) <= FEW
            else "but tests speak against it"
        )
    if standing != "unknown" or case.stated.breakers:
        return ""
    if left.at_odds:
        return "no one breaker explains what was read"
    if left.is_narrowed and 0 < len(left.left) <= FEW:
        return f"could be {tell.either(left.left)}, on more than one, or from elsewhere"
    return ""


def _busy(place: FeedPlace, evidence: Evidence) -> bool:
    """Tell whether a feed without a supply or reading has something in the log all the same."""
    record = evidence.record
    return bool(record.named_by_unknown) or place.feed.id in record.traces


def _conclude(case: Case, left: Narrowed, clash: Conflict | None, evidence: Evidence) -> Conclusion:
    unreadable = evidence.record.named_by_unknown
    if unreadable and not unreadable.isdisjoint(_everything_it_leans_on(case, evidence)):
        return _of_case(case, "unknown", "a newer program's entry names it")
    if clash is not None:
        named = tuple(breaker for breaker in case.named if breaker in evidence.home.breakers)
        return replace(_of_case(case, "contradicted", clash.says, clash.date), breakers=named)
    if isinstance(case.place.feed.on, Disconnected) and any(one.reading.says == "live" for one in case.current):
        return _of_case(case, "unknown", "said to be connected to nothing, but a weak tester found it live")
    if case.stated.unsure and (case.stated.breakers or case.stated.others):
        return _of_case(case, "unknown", "part of what it hangs on is not known")
    return _tested(case, evidence) or _found_live(
        _traced(case, evidence) or _suggested(case, left, evidence) or _as_stated(case.place, case.stated),
        case,
        evidence,
    )


def _found_live(said: Conclusion, case: Case, evidence: Evidence) -> Conclusion:
    """Return what is said of a feed, but unknown if a weak tester found it live with all that is said of it off.

    A strong one would be at odds with it; a load on its own battery is no tester at all.
    """
    weak = (one for one in reversed(case.current) if one.off and one.round.method not in STRONG_METHODS)
    lives = (one for one in weak if one.reading.says == "live" and is_shut(said.breakers, one.off, evidence))
    live = next(lives, None)
    if live is None or not said.breakers or said.others or case.stated.joined:
        return said
    return _of_case(case, "unknown", "found live with its breaker off, by a weak tester", day(live.round))


def _everything_it_leans_on(case: Case, evidence: Evidence) -> Iterator[int]:
    """Yield the id of whatever, unknown, leaves the feed unknown."""
    for above in case.stated.chain:
        yield from above.ids()
    yield from (number for kind, number in case.stated.others if kind == "source")
    breakers = {*case.named, *(one for proof in case.found for one in proof.besides)}
    for breaker in breakers:
        yield from (breaker, *evidence.above.get(breaker, ()))
    for number in panels_above(breakers, evidence):
        yield number
        panel = evidence.home.panels.get(number)
        yield from () if panel is None else (main.id for main in panel.mains)


# --- standings ------------------------------------------------------------------------------------------------------


def _tested(case: Case, evidence: Evidence) -> Conclusion | None:
    if case.stated.is_loop:
        return None
    if not case.fresh:
        has_lapsed = any(proof.since <= case.lapsed for proof in case.found)
        return _of_case(case, "expired", "tested before a change") if has_lapsed else None
    proof = case.fresh[-1]
    if not case.stated.breakers and proof.handle & evidence.feeders:
        return _of_case(case, "unknown", "dead with a feeder off: one of the breakers behind that feeds it")
    if because := doubt(case, proof, evidence):
        return _of_case(case, "claimed", because)
    if any(trace.way == "followed by eye" and trace.handle not in proof.handle for trace in case.traces):
        return _of_case(case, "claimed", "tested, but its cable was followed to another")
    if _turned_on_since(proof, evidence):
        return _of_case(case, "expired", "tested while another breaker was off that has been on since")
    return _proved(case, proof)


def _turned_on_since(proof: Proof, evidence: Evidence) -> bool:
    """Tell whether a later round had a handle on that was off all through the test."""
    return any(evidence.record.last_on.get(breaker, -1) > proof.place for breaker in proof.besides)


def _proved(case: Case, proof: Proof) -> Conclusion:
    says = "tested, while what was found off stays off" if proof.besides else "tested"
    breakers = case.stated.breakers or tuple(sorted(proof.handle))
    return _conclusion(case.place, "proved", breakers, (), says, proof.date, tuple(sorted(proof.besides)))


def _traced(case: Case, evidence: Evidence) -> Conclusion | None:
    """Return `traced` where every trace since the last change points to one breaker, and the map to no other."""
    handles = {trace.handle for trace in case.traces}
    if len(handles) != 1 or case.stated.others or not {*case.stated.breakers} <= handles:
        return None
    if not handles <= evidence.above.keys() or handles & evidence.feeders:
        return None  # about something gone, or a signal on its way through a feeder
    last = case.traces[-1]
    says = "its cable was followed to it" if last.way == "followed by eye" else "a tracer points to it"
    return _conclusion(case.place, "traced", tuple(handles), says=says, date=day(last))


def _suggested(case: Case, left: Narrowed, evidence: Evidence) -> Conclusion | None:
    """Return `suggested` where the readings leave one handle alone, and the map names no other.

    Some 'dead' must speak for it, with its own handle off: what was live throughout may come from elsewhere, and what
    is dead with a main or a feeder off may hang on two breakers behind that. A feeder above it is left too while it was
    on throughout: the nearest is meant. One whose circuit has another supply on the map is not the only one.
    """
    if case.stated.others or case.stated.joined:
        return None
    nearest = _nearest(left.fitting, evidence)
    if not nearest or nearest != evidence.bench.together.get(min(nearest)) or not {*case.stated.breakers} <= nearest:
        return None
    if not all(evidence.bench.along[one] <= nearest | evidence.record.found_off for one in nearest):
        return None  # another may have moved with it: nobody can tell which of them it hangs on
    dead = [one for one in left.readings if one.reading.says == "dead" and nearest <= one.off]
    if not dead or nearest & evidence.feeders:
        return None
    if any(evidence.is_live(("circuit", breaker), nearest) for breaker in nearest):
        return None
    breakers = case.stated.breakers or tuple(one for one in left.fitting if one in nearest)
    return _conclusion(case.place, "suggested", breakers, says="rounds suggest it", date=day(dead[-1].round))


def _nearest(fitting: Sequence[int], evidence: Evidence) -> frozenset[int]:
    """Return the breakers that are above no other of these; nothing where one movement can't open them all.

    What feeds no panel is above none: the second such that does not move with the first ends the search.
    """
    ends = (one for one in fitting if one not in evidence.feeders)
    first = next(ends, None)
    if first is not None and any(one not in evidence.bench.together.get(first, {first}) for one in ends):
        return frozenset()
    return frozenset(fitting).difference(*(evidence.above.get(one, ()) for one in fitting))


def _as_stated(place: FeedPlace, stated: Stated) -> Conclusion:
    others, on = tuple(stated.others.values()), place.feed.on
    if isinstance(on, Disconnected) and on.seen_by and not others:
        says = f"{on.seen_by} says it is connected to nothing"
        return _conclusion(place, "claimed", says=says, date=on.date[:10])
    if isinstance(on, NotKnown | Disconnected) or not (stated.breakers or others):
        return _conclusion(place, "unknown", stated.breakers, others, "nobody knows")
    return _conclusion(place, "claimed", stated.breakers, others, SAID_BY[place.feed.said_by])


# --- putting it into words ------------------------------------------------------------------------------------------


def _of_case(case: Case, standing: Standing, says: str, date: str = "") -> Conclusion:
    """Conclude short of a proof, and keep every breaker and supply that was stated or tested: none may be hidden."""
    breakers = (*case.stated.breakers, *sorted(case.handles - {*case.stated.breakers}))
    return _conclusion(case.place, standing, breakers, tuple(case.stated.others.values()), says, date)


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
