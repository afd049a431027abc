"""Findings of one box, made by hand."""

from typing import Any

from floorplan_circuits.findings import BoxFinding, Conclusion, Standing

MARKS = {5: "5", 7: "7", 9: "15A"}


def box(*breakers: int, **fields: Any) -> BoxFinding:
    return BoxFinding(
        **{"box": 1, "room": 2, "room_name": "Kitchen", "level_name": "Up", "breakers": breakers, **fields}
    )


def shared(*breakers: int, **fields: Any) -> BoxFinding:
    return box(*breakers, **{"shared": True, **fields})


def one(standing: Standing, *breakers: int, says: str = "", feed: int = 3, of: int = 1) -> Conclusion:
    return Conclusion(feed, of, None, standing, breakers, says=says)
