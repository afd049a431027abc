"""Where a box is, in the one word that all sheets have for it."""

from floorplan_circuits.findings import Findings
from floorplan_circuits.home.boxes import Box

OUTDOORS = "Outdoors"
"""Where a box on an outer face is that lies in no room."""


def is_outdoors(box: Box, room_name: str) -> bool:
    """Tell whether a box is outdoors: on an outer face, and in no room that is called something."""
    return box.mount == "outdoor" and not room_name


def place_of(box: int, findings: Findings) -> str:
    """Return the room that a box is in, else outdoors, else its level; '' where nobody recorded any of it."""
    found = findings.boxes.get(box)
    if found is None:
        return ""
    outdoors = is_outdoors(findings.home.boxes[box], found.room_name)
    return OUTDOORS if outdoors else found.room_name or found.level_name
