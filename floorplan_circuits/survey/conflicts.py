"""Conflicts: readings and entries that deny what is stated or proved of a feed."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from floorplan_circuits.survey.behind import denied_behind
from floorplan_circuits.survey.cases import Case, Evidence
from floorplan_circuits.survey.log_book import Seen, day
from floorplan_circuits.survey.narrowing import Narrowed
from floorplan_circuits.survey.proof import Proof, is_one_handle

DID_NOT_OPEN = "its breaker did not open when it was turned off"


class Conflict(NamedTuple):
    """What two things that cannot both hold are, in words, and the day of the later one."""

    says: str
    date: str = ""
    readings: tuple[Seen, ...] = ()


def conflict(case: Case, left: Narrowed, evidence: Evidence) -> Conflict | None:
    """Return why the feed is `contradicted`: the strongest reason first, or None."""
    return (
        _live_though_off(case, evidence)
        or _did_not_open(case, evidence)
        or _not_behind(case, evidence)
        or _on_two_handles(case)
        or _not_as_stated(case)
        or _solo_tests_disagree(left, evidence)
    )


def _live_though_off(case: Case, evidence: Evidence) -> Conflict | None:
    """Tell of a strong 'live' while everything stated, traced or proved to supply the feed was off."""
    for one in reversed(case.current):
        if one.reading.says == "live" and evidence.bench.witnesses.can_deny(case.place, one.round.method):
            if _is_denied(case, one, evidence):
                return Conflict("found live with its breaker off", day(one.round), (one,))
            if _has_no_supply(case, evidence):
                says = "found live though it is said to be connected to nothing"
                return Conflict(says, day(one.round), (one,))
    return None


def _is_denied(case: Case, one: Seen, evidence: Evidence) -> bool:
    if not one.off:
        return False
    if not evidence.is_live(("feed", case.place.feed.id), one.off) and not _has_no_supply(case, evidence):
        return True
    return any(is_shut(handle, one.off, evidence) for handle in _handles(case))


def _has_no_supply(case: Case, evidence: Evidence) -> bool:
    return not evidence.is_live(("feed", case.place.feed.id), frozenset())


def _handles(case: Case) -> Iterator[frozenset[int]]:
    """Yield each handle that was proved or traced to feed it."""
    yield from (proof.handle for proof in case.fresh)
    yield from (frozenset({trace.handle}) for trace in case.traces)


def is_shut(handle: Iterable[int], off: frozenset[int], evidence: Evidence) -> bool:
    """Tell whether these handles being off leaves nothing on the load side of this one: itself, or all above it."""
    breakers = frozenset(handle)
    if breakers <= off:
        return True
    here = breakers <= evidence.above.keys()
    return here and not any(evidence.is_live(("circuit", breaker), off) for breaker in breakers)


def _did_not_open(case: Case, evidence: Evidence) -> Conflict | None:
    """Tell of a handle that did not open: all on it are live with it off, until a later test or work on its panel."""
    proved_at = {breaker: proof.since for proof in case.fresh for breaker in proof.handle}
    for breaker in case.named:
        for place, trouble in reversed(evidence.record.troubles.get(breaker, ())):
            if trouble.what == "did not open" and place > proved_at.get(breaker, -1):
                return Conflict(DID_NOT_OPEN, day(trouble))
    return None


def _not_behind(case: Case, evidence: Evidence) -> Conflict | None:
    """Tell of a strong 'live' while the device that it is stated to hang behind was tripped by its test button."""
    above = {place.feed.id for place in case.stated.chain[1:]}
    for one in reversed(denied_behind(case, evidence)):
        if above & {*one.round.pressed}:
            return Conflict("found live while the device it is said to hang behind was tripped", day(one.round), (one,))
    return None


def _on_two_handles(case: Case) -> Conflict | None:
    *earlier, last = case.fresh or (None,)
    other = next((proof for proof in earlier if last is not None and proof and proof.handle != last.handle), None)
    if last is None or other is None:
        return None
    return Conflict("tests found it on two different breakers", last.date, _shown(case, other, last))


def _not_as_stated(case: Case) -> Conflict | None:
    if case.fresh and not case.stated.joined and not {*case.stated.breakers} <= case.fresh[-1].handle:
        last = case.fresh[-1]
        return Conflict("a test found it on another breaker than the map says", last.date, _shown(case, last))
    return None


def _shown(case: Case, *some: Proof) -> tuple[Seen, ...]:
    """Return the readings in which these tests found it dead."""
    places = {proof.place for proof in some}
    return tuple(one for one in case.seen if one.place in places)


def _solo_tests_disagree(left: Narrowed, evidence: Evidence) -> Conflict | None:
    """Tell of one handle that made it dead alone in one round and did not in another."""
    lives = {alone(one, evidence): one for one in left.readings if one.reading.says == "live"}
    for dead in left.readings:
        live = lives.get(alone(dead, evidence))
        if dead.reading.says == "dead" and live is not None and is_one_handle(alone(dead, evidence), evidence.bench):
            first, second = sorted((dead, live), key=lambda one: one.place)
            return Conflict("two tests of one breaker disagree", day(second.round), (first, second))
    return None


def alone(one: Seen, evidence: Evidence) -> frozenset[int]:
    """Return what was off in a reading beyond what was found off."""
    return one.off - evidence.record.found_off


# --- doubts: too little for a conflict, enough to prove nothing -----------------------------------------------------


def doubt(case: Case, proof: Proof, evidence: Evidence) -> str:
    """Return why a proof that nothing contradicts still proves nothing, in words; empty if it does prove."""
    if case.stated.others or case.stated.joined:
        return "tested on its breaker, but it has another supply beside it"
    later = [one for one in case.seen if one.place > proof.place]
    if any(one.reading.says == "live" and is_shut(proof.handle, one.off, evidence) for one in later):
        return "tested once, but found live since with its breaker off, by a weak tester"
    if any(_dead_though_on(one, proof, case, evidence) for one in case.seen):
        return "tested once, but found dead another time with its breaker on"
    return ""


def _dead_though_on(one: Seen, proof: Proof, case: Case, evidence: Evidence) -> bool:
    """Tell whether another handle made it dead, and it was live again after: the proved one may not be its only one."""
    if (
        one.place <= proof.since
        or one.reading.says != "dead"
        or one.round.pressed
        or one.off <= evidence.record.found_off
    ):
        return False
    if not evidence.bench.witnesses.can_prove(case.place, one.round.method):
        return False
    if proof.handle & one.off or is_shut(proof.handle, one.off, evidence):
        return False
    later = (other for other in case.seen if other.place > one.place and other.off <= evidence.record.found_off)
    return next((other.reading.says == "live" for other in later), False)
