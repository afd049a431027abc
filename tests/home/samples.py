"""One small sound home that the tests of the value break in one place at a time."""

from typing import Any

from floorplan_circuits.home.home import Home


def on_breaker(*breakers: int, pole: int | None = None) -> dict[str, Any]:
    """Return what a feed says that hangs on any of these breakers."""
    supplies = [{"kind": "breaker", "breaker": breaker, "pole": pole} for breaker in breakers]
    return {"how": "any", "supplies": supplies}


def raw_home() -> dict[str, Any]:
    """Return a home with one of everything: two levels, two panels, a tied pair of breakers, a log."""
    square = [[0, 0], [4000, 0], [4000, 3000], [0, 3000]]
    return {
        "name": "Elm Street",
        "next_id": 100,
        "levels": [{"id": 1, "name": "Ground floor"}, {"id": 2, "name": "Upper floor", "order": 1}],
        "rooms": [{"id": 3, "level": 1, "name": "Kitchen", "outline": square}],
        "openings": [{"id": 4, "level": 1, "kind": "door", "at": [1000, 0], "width": 800, "angle": 90}],
        "stairs": [{"id": 5, "level": 1, "head": 2, "at": [500, 500], "angle": 0}],
        "boxes": [
            {
                "id": 10,
                "mark": "B1",
                "level": 1,
                "at": [0, 500],
                "gangs": 2,
                "devices": [
                    {"id": 11, "kind": "switch", "feeds": [{"id": 12, "part": "hot", "on": on_breaker(30)}]},
                    {"id": 13, "slot": 2, "kind": "dimmer", "feeds": [{"id": 14, "on": on_breaker(31, pole=1)}]},
                ],
                "passing": [{"id": 15, "returns": {"kind": "breaker", "breaker": 30}}],
            },
            {
                "id": 16,
                "mark": "B2",
                "devices": [
                    {
                        "id": 17,
                        "kind": "duplex receptacle",
                        "planned": True,
                        "feeds": [{"id": 18, "part": "upper", "on": {"how": "behind", "feed": 12}}],
                    }
                ],
            },
        ],
        "controls": [{"id": 19, "switches": [11], "feeds": [12], "enters": 10}],
        "panels": [
            {"id": 20, "name": "Main", "spaces": 8, "mains": [{"id": 21, "amps": 100}]},
            {
                "id": 22,
                "name": "Garage",
                "prefix": "G",
                "spaces": 4,
                "mains": [{"id": 23}],
                "fed_by": [{"kind": "breaker", "breaker": 31}],
            },
        ],
        "breakers": [
            {"id": 30, "panel": 20, "poles": [{"space": 1}], "amps": 15},
            {"id": 31, "panel": 20, "poles": [{"space": 2}, {"space": 4}], "amps": 40},
            {"id": 32, "panel": 22, "poles": [{"space": 1}], "behind": 31},
        ],
        "sources": [{"id": 40, "name": "Utility", "kind": "utility", "into": [20, 32, 15], "starts": "always"}],
        "log": [{"id": 50, "kind": "round", "off": [30, 999], "readings": [{"feed": 12, "says": "dead"}]}],
    }


def sample(**tables: Any) -> Home:
    """Return the home with whole tables or other top-level fields replaced."""
    return Home.model_validate({**raw_home(), **tables}, strict=False)


def with_row(table: str, row: int, **fields: Any) -> Home:
    """Return the home with fields of one row of a table replaced, the row counted from 0."""
    rows = raw_home()[table]
    return sample(**{table: [*rows[:row], {**rows[row], **fields}, *rows[row + 1 :]]})


def with_more(table: str, *rows: dict[str, Any]) -> Home:
    """Return the home with rows added at the end of a table."""
    return sample(**{table: [*raw_home()[table], *rows]})
