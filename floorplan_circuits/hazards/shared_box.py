"""Shared box: more than one circuit enters, and no one hand movement makes it dead."""

from collections.abc import Iterator
from dataclasses import replace

from floorplan_circuits.findings import BoxFinding, Hazard
from floorplan_circuits.hazards.passing import passing_alone
from floorplan_circuits.hazards.phrases import circuits, number, numbers, place_of
from floorplan_circuits.hazards.ranks import AT_TIMES, LIVE_WHATEVER_IS_OFF, SECOND_CIRCUIT
from floorplan_circuits.hazards.scene import Scene

WHY = "Turning off one breaker does not make this box dead: a hand in it can meet a live conductor."
SOURCE = (
    "Common practice, no source: we know of no general ban on it in NFPA 70 (NEC). "
    "NEC 2023 210.7 and 210.4(B) cover some cases; local code governs."
)


def shared_boxes(scene: Scene) -> Iterator[Hazard]:
    """Yield the hazard of each box that two breakers, or a breaker and another supply, enter."""
    for found in scene.boxes.values():
        if found.shared:
            yield _hazard(found, scene)


def _hazard(found: BoxFinding, scene: Scene) -> Hazard:
    unknown = f", and {_feeds(found.unknown)} that nobody knows" if found.unknown else ""
    tie = " Their handles are tied, yet one can trip alone." if found.tied else ""
    marks = scene.found.marks
    enter = "tests leave no one breaker that feeds all in it" if found.apart else f"{circuits(found, marks)} enter"
    through = passing_alone(found.box, scene) if not found.apart else ()
    passes = f" Of these {numbers(through, marks)} only {_passes(through)} through." if through else ""
    if found.unknown or found.others or found.apart:
        rank = LIVE_WHATEVER_IS_OFF
    else:
        rank = AT_TIMES if found.tied else SECOND_CIRCUIT
    says = f"{place_of(found)}: {enter}{unknown}.{passes}{tie}"
    unsure = [one.feed for one in scene.known_in.get(found.box, ()) if one.standing == "unknown"]
    do = scene.to_do([found.box])
    told = scene.in_box("shared box", found.box, says, WHY, do, SOURCE, rank, breakers=found.breakers, about=unsure)
    # Set aside while its handles were tied, it is another danger once they are not: so tied it is about none of them.
    return replace(told, about=(found.box, *unsure)) if found.tied else told


def _feeds(count: int) -> str:
    return "one feed" if count == 1 else f"{number(count)} feeds"


def _passes(breakers: tuple[int, ...]) -> str:
    return "passes" if len(breakers) == 1 else "pass"
