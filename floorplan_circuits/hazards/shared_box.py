"""Shared box: more than one circuit enters, and no one hand movement makes it dead."""

from collections.abc import Iterator, Mapping

from floorplan_circuits.findings import BoxFinding, Hazard
from floorplan_circuits.hazards.phrases import circuits, number, place_of

WHY = "Turning off one breaker does not make this box dead: a hand in it can meet a live conductor."
SOURCE = (
    "Common practice, no source: we know of no general ban on it in NFPA 70 (NEC). "
    "NEC 2023 210.7 and 210.4(B) cover some cases; local code governs."
)


def shared_boxes(found: BoxFinding, marks: Mapping[int, str]) -> Iterator[Hazard]:
    """Yield the hazard of a box that two breakers, or a breaker and another supply, enter."""
    if not found.shared:
        return
    entering = circuits(found, marks)
    unknown = f", and {number(found.unknown)} unknown" if found.unknown else ""
    verb = "enter" if len(found.breakers) + len(found.others) > 1 or found.unknown else "enters"
    tie = " Their handles are tied, yet one can trip alone." if found.tied else ""
    rank = 0 if found.unknown else 2 if found.tied else 1
    do = "Turn all of them off, then test every wire." if found.unknown or found.others else _both(found)
    yield Hazard("shared box", found.box, f"{place_of(found)}: {entering}{unknown} {verb}.{tie}", WHY, do, SOURCE, rank)


def _both(found: BoxFinding) -> str:
    return "Turn off both, then test." if len(found.breakers) == 2 else "Turn off all of them, then test."
