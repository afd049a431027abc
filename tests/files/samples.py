"""One small home with a bit of everything, as the text of a file and as a home."""

import json
from typing import Any

from floorplan_circuits.home.home import Home

FORMAT_LINE = '"format": "floorplan-circuits 1.0"'


def raw_home() -> dict[str, Any]:
    """Return what the file of a small sound home holds."""
    return {
        "format": "floorplan-circuits 1.0",
        "name": "Elm Street",
        "next_id": 100,
        "levels": [{"id": 1, "name": "Ground floor"}],
        "rooms": [{"id": 2, "level": 1, "name": "Kitchen", "outline": [[0, 0], [4000, 0], [4000, 3000], [0, 3000]]}],
        "boxes": [
            {"id": 10, "mark": "B1", "level": 1, "at": [0, 500]},
            {"id": 11, "mark": "B2"},
            {
                "id": 12,
                "mark": "B14",
                "gangs": 2,
                "devices": [
                    {"id": 13, "kind": "switch", "feeds": [{"id": 14, "on": _on(5)}]},
                    {"id": 15, "slot": 2, "kind": "switch", "feeds": [{"id": 16}]},
                ],
            },
        ],
        "panels": [{"id": 4, "name": "Main", "spaces": 8, "mains": [{"id": 6, "amps": 100}]}],
        "breakers": [{"id": 5, "panel": 4, "poles": [{"space": 1}], "amps": 15}],
        "log": [{"id": 20, "kind": "round", "off": [5], "readings": [{"feed": 14, "says": "dead"}]}],
    }


def _on(breaker: int) -> dict[str, Any]:
    return {"how": "any", "supplies": [{"kind": "breaker", "breaker": breaker}]}


def raw_text(**fields: Any) -> str:
    """Return the text of the small home with top-level fields replaced."""
    return json.dumps({**raw_home(), **fields})


def small_home() -> Home:
    """Return the small home itself."""
    return Home.model_validate_json(raw_text())
