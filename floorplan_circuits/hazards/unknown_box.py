"""Unknown box: something enters that nobody knows, or whose tests disagree or no longer hold."""

from collections.abc import Iterator, Mapping, Sequence

from floorplan_circuits.findings import BoxFinding, Conclusion, Hazard
from floorplan_circuits.hazards.phrases import listed, number, numbers, other_supply, place_of
from floorplan_circuits.survey.conflicts import DID_NOT_OPEN

SOURCE = "Common practice, no source; NFPA 70E 120.5 (2021): what is not proved dead counts as live."
DISAGREE = "Either a reading is wrong, or it has two supplies, or a breaker does not open, or it comes from elsewhere."


def unknown_boxes(found: BoxFinding) -> Iterator[Hazard]:
    """Yield the hazard of a box that something unknown enters."""
    if found.unknown:
        what = "one feed in it hangs" if found.unknown == 1 else f"{number(found.unknown)} feeds in it hang"
        says = f"{place_of(found)}: nobody knows what {what} on."
        why = "No breaker is known to make it dead."
        yield Hazard("unknown box", found.box, says, why, "Treat as live whatever is off.", SOURCE, 4)


def doubtful_boxes(found: BoxFinding, known: Sequence[Conclusion], marks: Mapping[int, str]) -> Iterator[Hazard]:
    """Yield the hazards of feeds whose tests disagree, and of those whose tests no longer hold."""
    at_odds = [one for one in known if one.standing == "contradicted"]
    if at_odds:
        yield _disagreement(found, at_odds, marks)
    lapsed = [one for one in known if one.standing == "expired"]
    if lapsed:
        count = "one test no longer holds" if len(lapsed) == 1 else f"{number(len(lapsed))} tests no longer hold"
        says = f"{place_of(found)}: {count}: {_said(lapsed)}."
        why = "What was true then may not be true now."
        yield Hazard("tested before a change", found.box, says, why, "Treat as live. Test again.", SOURCE, 3)


def _disagreement(found: BoxFinding, at_odds: Sequence[Conclusion], marks: Mapping[int, str]) -> Hazard:
    breakers = tuple(dict.fromkeys(breaker for one in at_odds for breaker in one.breakers))
    about = f" about {numbers(breakers, marks)}" if breakers else ""
    says = f"{place_of(found)}: tests disagree{about}: {_said(at_odds)}."
    do = "Treat as live whatever is off. Test again."
    if any(one.says == DID_NOT_OPEN for one in at_odds):
        do = "Treat as live whatever is off. Keep off that breaker and call a licensed electrician."
    return Hazard("tests disagree", found.box, says, DISAGREE, do, SOURCE, 0)


def _said(some: Sequence[Conclusion]) -> str:
    return "; ".join(dict.fromkeys(one.says for one in some))


def boxes_fed_from_elsewhere(found: BoxFinding) -> Iterator[Hazard]:
    """Yield the hazard of a box whose one supply is none that a breaker of the panels opens."""
    if found.others and not found.shared:
        says = f"{place_of(found)}: {listed([*map(other_supply, found.others)])} enters."
        why = "No breaker of this home's panels is known to open that supply."
        yield Hazard("other supply", found.box, says, why, "Treat as live whatever is off.", SOURCE, 1)
