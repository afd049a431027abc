"""All hazards of a home, worst first."""

from collections.abc import Callable, Iterator

from floorplan_circuits.findings import Findings, Hazard
from floorplan_circuits.hazards.borrowed import borrowed_neutrals
from floorplan_circuits.hazards.controls import switches_on_other_circuits
from floorplan_circuits.hazards.handles import breakers_found_off, breakers_in_trouble, handles_joined
from floorplan_circuits.hazards.loops import feeds_that_two_supplies_reach
from floorplan_circuits.hazards.low_voltage import low_voltage_beside_mains
from floorplan_circuits.hazards.neighbours import close_boxes
from floorplan_circuits.hazards.neutrals import shared_neutrals
from floorplan_circuits.hazards.one_leg import loads_on_one_leg
from floorplan_circuits.hazards.passing import conductors_passing
from floorplan_circuits.hazards.ratings import conductors_against_breakers, receptacles_against_breakers
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.hazards.second_sources import second_sources
from floorplan_circuits.hazards.set_aside import with_set_aside
from floorplan_circuits.hazards.shared_box import shared_boxes
from floorplan_circuits.hazards.testers import devices_without_ground, tester_faults
from floorplan_circuits.hazards.two_poles import loads_on_untied_breakers
from floorplan_circuits.hazards.unknown_box import boxes_fed_from_elsewhere, doubtful_boxes, unknown_boxes
from floorplan_circuits.hazards.yokes import yokes_on_two_breakers
from floorplan_circuits.survey.log_book import LogBook

Family = Callable[[Scene], Iterator[Hazard]]
FAMILIES: tuple[Family, ...] = (
    doubtful_boxes,
    feeds_that_two_supplies_reach,
    shared_boxes,
    yokes_on_two_breakers,
    loads_on_untied_breakers,
    switches_on_other_circuits,
    boxes_fed_from_elsewhere,
    second_sources,
    breakers_in_trouble,
    borrowed_neutrals,
    shared_neutrals,
    tester_faults,
    loads_on_one_leg,
    unknown_boxes,
    conductors_passing,
    low_voltage_beside_mains,
    devices_without_ground,
    handles_joined,
    breakers_found_off,
    receptacles_against_breakers,
    conductors_against_breakers,
    close_boxes,
)
"""Of hazards of one rank in one box, those of an earlier family come first."""


def hazards(found: Findings, record: LogBook) -> tuple[Hazard, ...]:
    """Return every hazard, ranked by how likely a hand meets a live conductor; equals in the order of the boxes.

    Those of panels and breakers come after those of boxes of their rank; what was set aside comes last of all.
    """
    scene = Scene(found, record)
    place = {box: at for at, box in enumerate(found.boxes)}

    def order(hazard: Hazard) -> tuple[bool, int, int]:
        return bool(hazard.set_aside), hazard.rank, len(place) if hazard.box is None else place[hazard.box]

    every = (hazard for family in FAMILIES for hazard in family(scene))
    return tuple(sorted(with_set_aside(every, scene), key=order))
