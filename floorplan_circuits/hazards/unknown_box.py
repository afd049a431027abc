"""Unknown box: something enters that nobody knows, or whose tests disagree or are older than a change."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from floorplan_circuits.findings import BoxFinding, Conclusion, Hazard
from floorplan_circuits.hazards.phrases import listed, number, place_of

SOURCE = "Common practice, no source; NFPA 70E 120.5 (2021): what is not proved dead counts as live."


def unknown_boxes(found: BoxFinding) -> Iterator[Hazard]:
    """Yield the hazard of a box that something unknown enters."""
    if found.unknown:
        what = "one feed in it hangs" if found.unknown == 1 else f"{number(found.unknown)} feeds in it hang"
        says = f"{place_of(found)}: nobody knows what {what} on."
        why = "No breaker is known to make it dead."
        yield Hazard("unknown box", found.box, says, why, "Treat as live.", SOURCE, 4)


def doubtful_boxes(found: BoxFinding, known: Sequence[Conclusion], marks: Mapping[int, str]) -> Iterator[Hazard]:
    """Yield the hazards of feeds whose tests disagree, and of those tested before a change."""
    counts = Counter(one.standing for one in known)
    if counts["contradicted"]:
        one = next(one for one in known if one.standing == "contradicted")
        on = f" ({listed([marks[breaker] for breaker in one.breakers])})" if one.breakers else ""
        why = (
            "Either a reading is wrong, or it has two supplies, or a breaker does not open, or it comes from elsewhere."
        )
        says = f"{place_of(found)}: tests disagree{on}: {one.says}."
        yield Hazard("tests disagree", found.box, says, why, "Treat as live whatever is off. Test again.", SOURCE, 0)
    if counts["expired"]:
        says = f"{place_of(found)}: {number(counts['expired'])} tested before a change of the wiring."
        why = "What was true before the change may not be true now."
        yield Hazard("tested before a change", found.box, says, why, "Treat as live. Test again.", SOURCE, 3)


def boxes_fed_from_elsewhere(found: BoxFinding) -> Iterator[Hazard]:
    """Yield the hazard of a box with a supply that no breaker of the panels opens."""
    if found.others:
        says = f"{place_of(found)}: {listed(found.others)} supplies it too, or alone."
        why = "No breaker of this home's panels is known to open that supply."
        yield Hazard("other supply", found.box, says, why, "Treat as live whatever is off.", SOURCE, 1)
