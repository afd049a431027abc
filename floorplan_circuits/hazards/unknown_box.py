"""Unknown box: something enters that nobody knows, or whose tests disagree or no longer hold."""

from collections.abc import Iterator, Sequence

from floorplan_circuits.findings import BoxFinding, Conclusion, Hazard
from floorplan_circuits.hazards.phrases import listed, number, numbers, other_supply, place_of
from floorplan_circuits.hazards.ranks import LIVE_WHATEVER_IS_OFF, NOT_KNOWN, OUT_OF_DATE, SECOND_CIRCUIT
from floorplan_circuits.hazards.scene import LIVE, Scene
from floorplan_circuits.survey.conflicts import DID_NOT_OPEN

SOURCE = "Common practice, no source; NFPA 70E 120.5 (2021): what is not proved dead counts as live."
DISAGREE = "Either a reading is wrong, or it has two supplies, or a breaker does not open, or it comes from elsewhere."


def unknown_boxes(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each box that something unknown enters."""
    for found in scene.boxes.values():
        if found.unknown:
            what = "one feed in it hangs" if found.unknown == 1 else f"{number(found.unknown)} feeds in it hang"
            says = f"{place_of(found)}: nobody knows what {what} on."
            why = "No breaker is known to make it dead."
            feeds = [one.feed for one in scene.known_in.get(found.box, ()) if one.standing == "unknown"]
            yield scene.in_box("unknown box", found.box, says, why, LIVE, SOURCE, NOT_KNOWN, about=feeds)


def doubtful_boxes(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazards of feeds whose tests disagree, and of those whose tests no longer hold, once a box each."""
    for box, known in scene.known_in.items():
        if box not in scene.boxes:
            continue
        found = scene.boxes[box]
        at_odds = [one for one in known if one.standing == "contradicted"]
        if at_odds:
            yield _disagreement(found, at_odds, scene)
        lapsed = [one for one in known if one.standing == "expired"]
        if lapsed:
            yield _expired(found, lapsed, scene)


def _disagreement(found: BoxFinding, at_odds: Sequence[Conclusion], scene: Scene) -> Hazard:
    breakers = tuple(dict.fromkeys(breaker for one in at_odds for breaker in one.breakers))
    told = f" about {numbers(breakers, scene.found.marks)}" if breakers else ""
    says = f"{place_of(found)}: tests disagree{told}: {_said(at_odds)}."
    do = f"{LIVE} Test again."
    if any(one.says == DID_NOT_OPEN for one in at_odds):
        do = f"{LIVE} Keep off that breaker and call a licensed electrician."
    return scene.in_box(
        "tests disagree",
        found.box,
        says,
        DISAGREE,
        do,
        SOURCE,
        LIVE_WHATEVER_IS_OFF,
        breakers=breakers,
        about=(one.feed for one in at_odds),
    )


def _expired(found: BoxFinding, lapsed: Sequence[Conclusion], scene: Scene) -> Hazard:
    count = "one test no longer holds" if len(lapsed) == 1 else f"{number(len(lapsed))} tests no longer hold"
    says = f"{place_of(found)}: {count}: {_said(lapsed)}."
    why = "What was true then may not be true now."
    do = "Treat as live. Test again."
    feeds = (one.feed for one in lapsed)
    return scene.in_box("tested before a change", found.box, says, why, do, SOURCE, OUT_OF_DATE, about=feeds)


def _said(some: Sequence[Conclusion]) -> str:
    return "; ".join(dict.fromkeys(one.says for one in some))


def boxes_fed_from_elsewhere(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each box whose one supply is none that a breaker of the panels opens."""
    for found in scene.boxes.values():
        if found.others and not found.shared:
            says = f"{place_of(found)}: {listed([*map(other_supply, found.others)])} enters."
            why = "No breaker of this home's panels is known to open that supply."
            yield scene.in_box("other supply", found.box, says, why, LIVE, SOURCE, SECOND_CIRCUIT)
