"""Readings that cannot all hold, in words: which ones, what may explain them, and what to repeat."""

from collections.abc import Sequence

from floorplan_circuits.findings import Disagreement
from floorplan_circuits.survey.cases import Case
from floorplan_circuits.survey.conflicts import DID_NOT_OPEN, Conflict
from floorplan_circuits.survey.log_book import Seen
from floorplan_circuits.survey.narrowing import Narrowed
from floorplan_circuits.survey.telling import Telling, thing

DANGERS = ("it has two supplies", "a breaker did not open", "it comes from elsewhere")
FALSE_DEAD = "a 'dead' was not the breaker's doing: a ground-fault device tripped, a lamp burnt out, a switch off"
WRONG = "a reading is wrong"
WRONG_MAP = "the map is wrong about it"
LIVE_WHATEVER = "Treat it as live whatever is off."


def disagreement(case: Case, left: Narrowed, clash: Conflict | None, tell: Telling) -> Disagreement | None:
    """Return what is at odds about a feed: what contradicts the map or a test, else what no one breaker explains."""
    if clash is not None:
        return _of_conflict(case, clash, tell)
    if left.at_odds:
        says = f"{_found(case, left.at_odds, tell)}. No one breaker explains that."
        return _disagreement(case, says, may_be(left.at_odds), left.at_odds, tell)
    return None


def may_be(readings: Sequence[Seen]) -> tuple[str, ...]:
    """Return what may explain readings that no one breaker explains.

    Where all are 'live' the dangerous explanations come first; where one is 'dead', that it was none comes first.
    """
    if all(one.reading.says == "live" for one in readings):
        return (*DANGERS, WRONG)
    return (FALSE_DEAD, *DANGERS, WRONG)


def _of_conflict(case: Case, clash: Conflict, tell: Telling) -> Disagreement:
    mapped = f" The map says {tell.both(case.stated.breakers)}." if case.stated.breakers else ""
    if not clash.readings:
        may = (clash.says,) if clash.says == DID_NOT_OPEN else (*DANGERS, WRONG)
        what = thing(case.place)
        do = f"{LIVE_WHATEVER} Keep off that breaker and call a licensed electrician."
        return Disagreement(case.place.feed.id, f"{what[:1].upper()}{what[1:]}: {clash.says}.{mapped}", may, do, ())
    says = f"{_found(case, clash.readings, tell)}.{mapped}"
    reasons = may_be(clash.readings)
    if case.stated.breakers and not case.fresh:
        reasons = (*reasons[:-1], WRONG_MAP, WRONG)
    return _disagreement(case, says, reasons, clash.readings, tell)


def _disagreement(
    case: Case, says: str, reasons: tuple[str, ...], readings: Sequence[Seen], tell: Telling
) -> Disagreement:
    do = f"{_repeat(readings, tell)} {LIVE_WHATEVER}"
    return Disagreement(case.place.feed.id, says, reasons, do, tuple(one.round.id for one in readings))


def _found(case: Case, readings: Sequence[Seen], tell: Telling) -> str:
    """Return the readings in a sentence: 'Round 3 found the light dead with 7 off, round 5 found it live with …'."""
    what, parts = thing(case.place), []
    for one in sorted(readings, key=lambda one: one.place):
        parts.append(f"{tell.round(one)} found {what} {one.reading.says} {tell.with_off(one)}")
        what = "it"
    told = ", ".join(parts)
    return f"{told[:1].upper()}{told[1:]}"


def _repeat(readings: Sequence[Seen], tell: Telling) -> str:
    """Return what to repeat: with the one handle that was off in all of them alone, else the rounds themselves."""
    common = frozenset.intersection(*(one.off - tell.record.found_off for one in readings))
    if len(common) == 1:
        return f"Repeat with {tell.both(common)} alone."
    rounds = [tell.round(one) for one in sorted(readings, key=lambda one: one.place)]
    *most, last = rounds
    return f"Repeat {', '.join(most)} and {last}." if most else f"Repeat {last}."
