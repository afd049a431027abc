"""All hazards of a home, worst first."""

from collections.abc import Mapping

from floorplan_circuits.findings import BoxFinding, Conclusion, Hazard
from floorplan_circuits.hazards.shared_box import shared_boxes
from floorplan_circuits.hazards.unknown_box import boxes_fed_from_elsewhere, doubtful_boxes, unknown_boxes


def hazards(
    boxes: Mapping[int, BoxFinding],
    known: Mapping[int, Conclusion],
    marks: Mapping[int, str],
    keep_off: Mapping[int, str],
) -> tuple[Hazard, ...]:
    """Return every hazard, ranked by how likely a hand meets a live conductor; equals in the order of the boxes."""
    in_box: dict[int, list[Conclusion]] = {}
    for one in known.values():
        in_box.setdefault(one.box, []).append(one)
    found = [
        hazard
        for box in boxes.values()
        for family in (
            doubtful_boxes(box, in_box.get(box.box, []), marks),
            shared_boxes(box, in_box.get(box.box, []), marks, keep_off),
            boxes_fed_from_elsewhere(box),
            unknown_boxes(box),
        )
        for hazard in family
    ]
    return tuple(sorted(found, key=lambda hazard: hazard.rank))
