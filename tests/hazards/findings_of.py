"""Findings of boxes made by hand, and the scene that they make."""

from collections.abc import Sequence
from typing import Any

from floorplan_circuits.findings import BoxFinding, Conclusion, Findings, Standing
from floorplan_circuits.hazards.scene import Scene
from floorplan_circuits.home.boxes import Box
from floorplan_circuits.home.home import Home
from floorplan_circuits.home.table import Table
from floorplan_circuits.survey.log_book import LogBook
from tests.supply.wiring import breaker, panel
from tests.survey.houses import logged

MARKS = {5: "5", 7: "7", 9: "15A"}
PANEL = 90


def box(*breakers: int, **fields: Any) -> BoxFinding:
    return BoxFinding(
        **{"box": 1, "room": 2, "room_name": "Kitchen", "level_name": "Up", "breakers": breakers, **fields}
    )


def shared(*breakers: int, **fields: Any) -> BoxFinding:
    return box(*breakers, **{"shared": True, **fields})


def one(standing: Standing, *breakers: int, says: str = "", feed: int = 3, of: int = 1) -> Conclusion:
    return Conclusion(feed, of, None, standing, breakers, says=says)


def seen(boxes: Sequence[BoxFinding], known: Sequence[Conclusion] = (), *entries: dict[str, Any]) -> Findings:
    """Findings of these boxes and feeds, in a home of three breakers with these entries in its log."""
    home = Home(
        next_id=1000,
        boxes=Table([Box(id=found.box, mark=f"B{found.box}") for found in boxes]),
        panels=Table([panel(PANEL, name="Main panel")]),
        breakers=Table([breaker(number, of=PANEL) for number in MARKS]),
    )
    return Findings(
        logged(home, *entries),
        marks=MARKS,
        boxes={found.box: found for found in boxes},
        conclusions={1000 + at if found.feed == 3 else found.feed: found for at, found in enumerate(known)},
    )


def scene(*boxes: BoxFinding, known: Sequence[Conclusion] = (), entries: Sequence[dict[str, Any]] = ()) -> Scene:
    """The scene of these boxes and feeds."""
    findings = seen(boxes, known, *entries)
    return Scene(findings, LogBook(findings.home))
