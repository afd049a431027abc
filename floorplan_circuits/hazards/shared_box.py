"""Shared box: more than one circuit enters, and no one hand movement makes it dead."""

from collections.abc import Iterator, Mapping, Sequence

from floorplan_circuits.findings import BoxFinding, Conclusion, Hazard
from floorplan_circuits.hazards.phrases import circuits, listed, number, place_of

WHY = "Turning off one breaker does not make this box dead: a hand in it can meet a live conductor."
SOURCE = (
    "Common practice, no source: we know of no general ban on it in NFPA 70 (NEC). "
    "NEC 2023 210.7 and 210.4(B) cover some cases; local code governs."
)


def shared_boxes(
    found: BoxFinding, known: Sequence[Conclusion], marks: Mapping[int, str], keep_off: Mapping[int, str]
) -> Iterator[Hazard]:
    """Yield the hazard of a box that two breakers, or a breaker and another supply, enter.

    `known` are the conclusions of its feeds; `keep_off` says which breakers nobody may touch, and why.
    """
    if not found.shared:
        return
    unknown = f", and {_feeds(found.unknown)} that nobody knows" if found.unknown else ""
    tie = " Their handles are tied, yet one can trip alone." if found.tied else ""
    rank = 0 if found.unknown or found.others or found.apart else 2 if found.tied else 1
    enter = "tests leave no one breaker that feeds all in it" if found.apart else f"{circuits(found, marks)} enter"
    says = f"{place_of(found)}: {enter}{unknown}.{tie}"
    yield Hazard("shared box", found.box, says, WHY, _do(found, known, marks, keep_off), SOURCE, rank)


def _feeds(count: int) -> str:
    return "one feed" if count == 1 else f"{number(count)} feeds"


def _do(found: BoxFinding, known: Sequence[Conclusion], marks: Mapping[int, str], keep_off: Mapping[int, str]) -> str:
    """Return what to do: never to turn off what must not be touched, nor that turning off will do where it may not."""
    barred = [f"the breaker of {marks[one]} {keep_off[one]}" for one in found.breakers if one in keep_off]
    if barred:
        return f"Leave it closed and treat it as live: {listed(barred)}."
    doubtful = any(one.standing in ("contradicted", "expired") for one in known)
    if found.unknown or found.others or found.apart or doubtful:
        return "Treat as live whatever is off."
    return f"Turn off {'both' if len(found.breakers) == 2 else 'all of them'}, then test every wire."
